"""Whole jobs at two terminals, each with a kill in the middle: the record on the disk says what was entered."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sitting import Shop, Sitting
from whole_job import FRONT, REAR, Job, play, with_rules

from benchbot.records.record import open_record


@dataclass(slots=True)
class AtTerminal:
    """One person; a terminal that died is sat down at anew."""

    shop: Shop
    name: str
    sitting: Sitting = field(init=False)

    def __post_init__(self) -> None:
        self.shop.at_terminal(self.name, "technician")
        self.sitting = self.shop.sit(self.name)

    @property
    def labels(self) -> Collection[str]:
        return self.sitting.buttons

    def say(self, text: str) -> str:
        return self.sitting.say(text)

    def press(self, label: str) -> str:
        return self.sitting.press(label)

    def say_over_a_kill(self, text: str) -> str:
        self.sitting.process.kill()
        self.sitting.read()
        self.sitting = self.shop.sit(self.name)
        return self.sitting.say(text)

    def papers(self, label: str) -> dict[str, bytes]:
        shown = self.sitting.press(label)
        files = [Path(one) for one in re.findall(r"^\[file: (.+)\]$", shown, re.MULTILINE)]
        assert {file.parent for file in files} == {self.shop.home.folder / "papers"}
        return {file.name: file.read_bytes() for file in files}


@pytest.mark.parametrize("job", [FRONT, REAR], ids=["front brakes", "rear drums"])
def test_a_whole_job_at_two_terminals_and_a_kill(demo_terminals: Shop, job: Job) -> None:
    ana, ben = AtTerminal(demo_terminals, "Ana"), AtTerminal(demo_terminals, "Ben")
    with open_record(demo_terminals.home) as record:
        with_rules(record, 1, datetime.now(UTC))
    assert set(play(job, ana, ben)) == {"job-1.json", "job-1.pdf", "job-1-slip.pdf"}
