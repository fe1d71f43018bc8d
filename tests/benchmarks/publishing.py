"""How long it takes from a publishing until whoever waits has the answer on their phone, over HTTP.

    python publishing.py [--rows 10000] [--times 3]

Makes an invented shop of that many rows and runs the bot against a server that stands in for the messenger's. Each time
somebody asks for a row that is not there, the row is imported, and the publishing that an owner asks for in the chat is
put on record: the clock runs from then until the answer has arrived. Prints one JSON object; nothing passes or fails.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
import time
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parent.parent / "telegram"))

from fleet import models_of, rows_of
from following import FRONT, MAKE, MODEL, bring
from shop import Shop
from spec_table import write_table
from standin.client import StandIn

from benchbot.curation.language import shop_vocabulary
from benchbot.following.follow import follow
from benchbot.following.publishing import publish
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import errands
from benchbot.records.record import open_record
from benchbot.understanding.lexicon import Lexicon

SECONDS = 60.0
PARTS = ("caliper guide pin bolt", "wheel nut", "axle nut", "brake hose banjo bolt", "bleeder screw")


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("--rows", type=int, default=10_000)
    options.add_argument("--times", type=int, default=3, choices=range(1, len(PARTS) + 1))
    given = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        print(json.dumps(measured(Path(folder), given.rows, given.times)))


def measured(folder: Path, rows: int, times: int) -> dict[str, float | int]:
    """Seconds from publishing to told, the middle and the longest of so many times."""
    (folder / "home").mkdir()
    home = Home(folder / "home")
    lexicon = Lexicon(shop_vocabulary([]))
    write_table(home.folder / "specs.csv", rows_of(models_of(rows, lexicon.is_known), rows))
    bring(home, home.folder / "specs.csv")
    bring(home, home.folder / "front.csv", FRONT)
    publish(home, datetime.now(UTC))
    follow(home, datetime.now(UTC))
    with StandIn.start() as server, open_record(f"sqlite:///{home.record}") as record:
        server.person(1, "Nobody")
        shop = Shop(folder, home, server, record, People(record))
        with closing(shop):
            shop.start()
            seconds = [_told(shop, part) for part in PARTS[:times]]
    return {"rows": rows, "times": times, "publish_to_told_s": median(seconds), "longest_s": max(seconds)}


def _told(shop: Shop, part: str) -> float:
    asker = shop.phone("Ana", technician="North bay")
    logged = asker.say(f"2014 {MAKE} {MODEL} {part} torque")
    assert "Logged as no." in logged.text, logged.text
    row = FRONT | {"id": part.replace(" ", "-"), "component": part, "position": "", "value": "35 N·m"}
    bring(shop.home, shop.home.folder / "row.csv", row)
    begun = time.perf_counter()
    with shop.record.writing() as store:
        errands.put(store, "publish", {"by": "telegram 1"}, datetime.now(UTC))
    told = shop.server.wait_for_answer(asker.chat, 3, SECONDS)
    ended = time.perf_counter()
    assert "35 N·m" in told.text, told.text
    shop.settle()
    return ended - begun


if __name__ == "__main__":
    main()
