"""Publishes the shop's book once its kept questions come to what they came to before."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from benchbot.curation import publishing
from benchbot.curation.publishing import PublishReport
from benchbot.following.kept import Difference, differences
from benchbot.places import Home
from benchbot.records import kept_questions
from benchbot.records.kept_questions import Expected
from benchbot.records.record import Store, open_record

__all__ = ["PublishReport", "PublishStopped", "publish"]


@dataclass(frozen=True, slots=True)
class PublishStopped:
    """Nothing was published: these kept questions would come to something else."""

    differences: tuple[Difference, ...]


class _StoppedError(Exception):
    """Leaves the publishing between making the book and putting it in place."""

    def __init__(self, found: list[Difference]) -> None:
        super().__init__(f"{len(found)} kept questions would come to something else")
        self.found = found


def publish(home: Home, now: datetime, accept: str = "", by: str = "") -> PublishReport | PublishStopped:
    """Makes the next book and puts it in place, unless a kept question comes to something else by it.

    accept: the reason why whatever they come to now is right; it is expected of them from then on. by: the person.
    Nobody is told anything yet: see `follow`. Errors as of curation.publishing.
    """

    def judge(file: Path) -> Callable[[Store], None]:
        with open_record(home) as record:
            found = differences(record, file, now)
        if found and not accept.strip():
            raise _StoppedError(found)
        changed = [(one.question, Expected(one.now.outcome, one.now.specs, accept.strip())) for one in found]
        return lambda store: kept_questions.replace(store, changed, by, now)

    try:
        return publishing.publish(home, now, judge)
    except _StoppedError as stopped:
        return PublishStopped(tuple(stopped.found))
