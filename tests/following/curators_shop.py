"""A shop with a small invented book, phones at two locations, and a curator who changes the book between questions."""

from __future__ import annotations

import csv
import sys
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "desk"))

from bay import Bay, Message, Phone
from desk import NOW

from benchbot.curation.importing import import_table
from benchbot.following.follow import Followed, follow
from benchbot.following.publishing import PublishReport, PublishStopped, publish
from benchbot.people.terms import Location
from benchbot.places import Home

HEADER = (
    "id", "make", "model", "year_from", "year_to", "only_if", "component", "position", "property", "value",
    "second_value", "thread", "class", "condition", "reuse", "order", "cautions", "source", "source_ref",
    "checked_by", "checked_on", "review_by", "status",
)  # fmt: skip
FRONT = {
    "id": "A1", "make": "Drabent", "model": "Quilsund 3", "year_from": "2012", "year_to": "2016",
    "component": "caliper bracket bolt", "position": "front", "property": "torque", "value": "105 N·m",
    "source": "Invented workshop sheet", "source_ref": "p. 12", "checked_by": "lead", "checked_on": "2026-02-03",
    "status": "verified",
}  # fmt: skip
REAR = FRONT | {"id": "A2", "position": "rear", "value": "61 N·m", "source_ref": "p. 14"}

ASK_FRONT = "2014 drabent quilsund 3 front caliper bracket bolt torque"
ASK_REAR = "2014 drabent quilsund 3 rear caliper bracket bolt torque"


@dataclass(slots=True)
class Shop:
    """The bay, and the curator's table that lies beside it."""

    bay: Bay
    main: Location
    south: Location
    imports: int = 0
    rows: dict[str, dict[str, str]] = field(default_factory=dict)

    @property
    def home(self) -> Home:
        return self.bay.home

    def enter(self, *rows: dict[str, str]) -> None:
        """Rows as the curator has them now, new ones and changed ones."""
        self.imports += 1
        bring(self.home, self.imports, *rows)

    def publish(self, accept: str = "") -> PublishReport | PublishStopped:
        return publish(self.home, self.bay.clock(), accept, "terminal curator")

    def publish_and_follow(self, *rows: dict[str, str], accept: str = "") -> Followed:
        """Enters the rows, publishes, tells, and delivers what waits to be sent."""
        if rows:
            self.enter(*rows)
        done = self.publish(accept)
        assert isinstance(done, PublishReport), done
        followed = follow(self.home, self.bay.clock())
        self.bay.deliver()
        return followed

    def one(self, statement: str, **values: object) -> tuple[object, ...]:
        row = self.bay.record.row(statement, values)
        assert row is not None
        return row


def bring(home: Home, number: int, *rows: dict[str, str], now: datetime = NOW) -> None:
    """Imports a table of these rows, each checked on the day that has that number."""
    path = home.folder / f"table{number}.csv"
    day = (date.fromisoformat(FRONT["checked_on"]) + timedelta(days=number)).isoformat()
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, HEADER, restval="")
        writer.writeheader()
        writer.writerows(row | {"checked_on": day} for row in rows)
    import_table(home, path, False, "curator", now)


def told(phone: Phone) -> list[Message]:
    """What the bot showed in a private chat that begins with an old question."""
    return [one for one in phone.shown if one.text.startswith(("You asked on", "Usted preguntó el"))]
