"""How long it takes from a publishing until whoever waits has the answer in the outbox, and the sender would see it.

    python following.py [--rows 10000] [--waiting 100] [--shown 1000]

Makes an invented shop of that many rows, lets people ask for a row that is not there and see one that is, then enters
the missing row, corrects the other, publishes and follows. Prints one JSON object; nothing passes or fails.
"""

from __future__ import annotations

import argparse
import csv
import json
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

from fleet import models_of, rows_of
from spec_table import write_table

from benchbot.conversation.conversation import Conversation
from benchbot.conversation.manner import Manner
from benchbot.curation.importing import import_table
from benchbot.curation.language import shop_vocabulary
from benchbot.following.follow import follow
from benchbot.following.publishing import PublishReport, publish
from benchbot.people import known_bot
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records import outbox
from benchbot.understanding.lexicon import Lexicon

MAKE, MODEL = "Zwalbert", "Ossendrop"
FRONT = {
    "id": "ZF", "make": MAKE, "model": MODEL, "year_from": "2012", "year_to": "2016",
    "component": "caliper bracket bolt", "position": "front", "property": "torque", "value": "105 N·m",
    "source": "Invented workshop sheet", "source_ref": "p. 12", "checked_by": "lead", "checked_on": "2026-02-03",
    "status": "verified",
}  # fmt: skip
REAR = FRONT | {"id": "ZR", "position": "rear", "value": "61 N·m"}


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("--rows", type=int, default=10_000)
    options.add_argument("--waiting", type=int, default=100)
    options.add_argument("--shown", type=int, default=1000)
    given = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        print(json.dumps(measured(Home(Path(folder)), given.rows, given.waiting, given.shown)))


def measured(home: Home, rows: int, waiting: int, shown: int) -> dict[str, float | int]:
    """Seconds of each step, and what was told."""
    lexicon = Lexicon(shop_vocabulary([]))
    write_table(home.folder / "specs.csv", rows_of(models_of(rows, lexicon.is_known), rows))
    for name, row in (("", None), ("front", FRONT)):
        path = home.folder / f"{name or 'specs'}.csv"
        bring(home, path, row)
    publish(home, datetime.now(UTC))
    follow(home, datetime.now(UTC))
    known_bot.save(home, "900", "benchmark_bot")
    ask(home, waiting, shown)
    bring(home, home.folder / "rear.csv", FRONT | {"value": "110 N·m", "checked_on": "2026-04-01"}, REAR)
    now, begun = datetime.now(UTC), time.perf_counter()
    done = publish(home, now)
    published = time.perf_counter()
    assert isinstance(done, PublishReport)
    followed = follow(home, now)
    told = time.perf_counter()
    with Conversation.open(home) as conversation:
        claimed = outbox.claim(conversation.record, "900", (), datetime.now(UTC), 100_000)
        ended = time.perf_counter()
    return {
        "rows": done.rows, "publish_s": published - begun, "follow_s": told - published,
        "publish_to_outbox_s": told - begun, "publish_to_claimed_s": ended - begun, "told": followed.told,
        "recalled": followed.recalled, "claimed": len(claimed),
    }  # fmt: skip


def bring(home: Home, path: Path, *rows: dict[str, str] | None) -> None:
    """Imports a table, written from rows where any are given."""
    given = [row for row in rows if row is not None]
    if given:
        with path.open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, list(FRONT))
            writer.writeheader()
            writer.writerows(given)
    import_table(home, path, False, "benchmark", datetime.now(UTC))


def ask(home: Home, waiting: int, shown: int) -> None:
    """So many people who wait for the missing row, so many who were shown the other."""
    with Conversation.open(home) as conversation:
        record, people = conversation.record, People(conversation.record)
        place = people.add_location("Main shop", "telegram 1", datetime.now(UTC))
        assert isinstance(place, Location)
        with record.writing() as store:
            for number in range(waiting + shown):
                person = f"telegram {1000 + number}"
                joined = {"person": person, "place": place.number, "at": "2026-01-01T00:00:00+00:00"}
                store.run(
                    "INSERT INTO person VALUES (:person, :person, NULL, :at)",
                    {"person": person, "at": joined["at"]},
                )
                store.run("INSERT INTO membership VALUES (:person, :place, 'technician', :at)", joined)
            for number in range(waiting + shown):
                person, axle = f"telegram {1000 + number}", "rear" if number < waiting else "front"
                said = f"2014 {MAKE} {MODEL} {axle} caliper bracket bolt torque"
                conversation.say(person, person, said, str(number), Manner(location=place.number))


if __name__ == "__main__":
    main()
