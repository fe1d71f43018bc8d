"""Whole jobs over HTTP, by two people, each with a kill in the middle: the record says what they entered."""

from __future__ import annotations

import signal
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime

import pytest
from shop import Phone, Shop, later, opened
from whole_job import FRONT, REAR, Job, play, with_rules

from benchbot.places import Home

BEGAN = datetime(2026, 11, 24, 9, tzinfo=UTC)


@pytest.fixture(scope="module")
def shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("jobs")) as opening:
        opening.start(at=BEGAN)
        with opening.looked_after():
            yield opening


@dataclass(slots=True)
class OnPhone:
    """One person; what they write while nobody is there is taken once somebody is again."""

    phone: Phone
    name: str

    @property
    def labels(self) -> Collection[str]:
        return self.phone.last.labels

    def say(self, text: str) -> str:
        later(self.phone.shop, seconds=20)
        return self.phone.say(text).text

    def press(self, label: str) -> str:
        later(self.phone.shop, seconds=20)
        return self.phone.press(label).text

    def say_over_a_kill(self, text: str) -> str:
        shop, sent = self.phone.shop, self.phone.count
        assert shop.stop(signal.SIGKILL) != 0
        self.phone.write(text)
        shop.start(at=shop.now())
        shown = self.phone.answer(sent + 1).text
        # the page may have been changed just when the process died, which is then done once more
        assert all("message is not modified" in one for one in shop.refusals())
        return shown

    def papers(self, label: str) -> dict[str, bytes]:
        sent = self.phone.count
        assert "is finished" in self.press(label)
        self.phone.answer(sent + 3)
        return {one.filename: one.file or b"" for one in self.phone.shown if one.kind == "document"}


@pytest.mark.parametrize(("job", "place"), [(FRONT, "North bay"), (REAR, "South bay")], ids=["front brakes", "drums"])
def test_a_whole_job_by_two_people_and_a_kill(shop: Shop, job: Job, place: str) -> None:
    ana = OnPhone(shop.phone("Ana", technician=place), "Ana")
    ben = OnPhone(shop.phone("Ben", technician=place), "Ben")
    with_rules(shop.record, shop.location(place).number, shop.now())
    assert len(play(job, ana, ben)) == 3
