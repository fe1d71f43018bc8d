"""A terminal killed with SIGKILL between any two steps of a line: nothing is lost, nothing is answered twice."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sitting import FLEET, Shop

from benchbot.curation.importing import import_table
from benchbot.records import errands
from benchbot.records.record import open_record

pytestmark = pytest.mark.skipif(os.name == "nt", reason="there is no SIGKILL")

BRACKET = "16 ondrel frt caliper bracket bolt torque"
TORQUE = "88 lb-ft = 119 N·m"
ANSWERS = "SELECT asked, outcome FROM answer"
LEFT = "SELECT number FROM arrival WHERE handled_at = ''"
UNSHOWN = "SELECT state FROM sending WHERE state <> 'sent'"

# Dies the moment that a function of ours is called, or has returned something; from the first line on.
DYING = """
import os, signal
from {module} import {owner}
as_made = {owner}.{name}
def dying(*given, **named):
    done = None if {before} else as_made(*given, **named)
    if {before} or done:
        os.kill(os.getpid(), signal.SIGKILL)
    return done
{owner}.{name} = dying
"""


def dying(where: str, name: str, before: bool = False) -> str:
    module, _, owner = where.rpartition(".")
    return DYING.format(module=module, owner=owner, name=name, before=before)


POSTED = """
import os, signal
from benchbot.channels.screens import PlainScreen
as_made = PlainScreen.post
def dying(*given):
    as_made(*given)
    os.kill(os.getpid(), signal.SIGKILL)
PlainScreen.post = dying
"""
NOTED = POSTED.replace("from benchbot.channels.screens import PlainScreen", "from benchbot.records import outbox")
NOTED = NOTED.replace("PlainScreen.post", "outbox.sent")
DESK_TOOK = POSTED.replace("from benchbot.channels.screens import PlainScreen", "from benchbot.desk.desk import Desk")
DESK_TOOK = DESK_TOOK.replace("PlainScreen.post", "Desk.take")

POINTS = {
    "the line is on record": dying("benchbot.records.arrivals", "keep"),
    "it is being handled": dying("benchbot.records.arrivals", "handled", before=True),
    "it is handled": DESK_TOOK,
    "its answer is claimed": dying("benchbot.records.outbox", "claim"),
    "its handle is kept": dying("benchbot.channels.screens.PlainScreen", "post", before=True),
    "it is shown": POSTED,
    "it is noted as shown": NOTED,
}


@pytest.mark.parametrize("when", POINTS)
def test_killed_while_a_question_is_answered(shop: Shop, when: str) -> None:
    shop.at_terminal("Ana", "technician")
    first = shop.sit("Ana", POINTS[when])
    first.say(BRACKET)
    assert first.process.wait(30) == -9
    seen = TORQUE in first.text
    assert seen == (when in ("it is shown", "it is noted as shown"))
    again = shop.sit("ana")
    assert shop.rows(ANSWERS) == [(BRACKET, "answer")]
    assert (shop.rows(LEFT), shop.rows(UNSHOWN)) == ([], [])
    if when == "it is noted as shown":
        assert TORQUE not in again.text
        assert "[message 1 offers: #1 Other unit; #2 More" in again.text
    else:
        assert again.text.count(TORQUE) == 1
        marked = "(perhaps shown before) message 1\n" in again.text
        assert marked == (when in ("its answer is claimed", "its handle is kept", "it is shown"))
    typed = f"[you had typed: {BRACKET}]" in again.text
    assert typed == (when in ("the line is on record", "it is being handled"))
    # its buttons work, whichever process has shown them
    more = again.say("#2 of 1")
    assert more.startswith("(changed) message 1\n")
    assert "Row F0001, revision 1" in more


@pytest.mark.parametrize("when", ["it is being handled", "it is handled", "it is shown"])
def test_killed_while_a_press_is_done(shop: Shop, when: str) -> None:
    shop.at_terminal("Ana", "technician")
    ana = shop.sit("Ana")
    ana.say("16 ondrel axle nut front torque")
    ana.leave()
    first = shop.sit("Ana", POINTS[when])
    first.say("#2")
    assert first.process.wait(30) == -9
    again = shop.sit("Ana")
    assert again.text.count("90 N·m + 60 deg") == 1
    assert len(shop.rows(ANSWERS)) == 2
    assert (shop.rows(LEFT), shop.rows(UNSHOWN)) == ([], [])


@pytest.mark.parametrize(
    ("name", "before"), [("publish", True), ("publish", False), ("follow", False), ("_told", False)]
)
def test_killed_while_an_errand_is_done(shop: Shop, tmp_path: Path, name: str, before: bool) -> None:
    shop.at_terminal("Olga", "owner")
    changed = tmp_path / "changed.csv"
    text = FLEET.read_text(encoding="utf-8").replace("105 N·m", "110 N·m")
    changed.write_text(text.replace("2026-01-05", "2026-04-01"), encoding="utf-8")
    import_table(shop.home, changed, False, "test", datetime.now(UTC))
    with open_record(shop.home) as record, record.writing() as store:
        errands.put(store, "publish", {"by": "terminal olga"}, datetime.now(UTC))
    code = dying("benchbot.following.errands", name, before).replace("or done", "or True")
    first = shop.sit("Olga", code)
    assert first.process.wait(30) == -9
    again = shop.sit("Olga")
    assert shop.rows("SELECT what, state FROM errand WHERE what = 'publish'") == [("publish", "done")]
    assert shop.rows("SELECT max(version) FROM book_version") == [(2,)]
    assert "ook 2" in again.text
    assert shop.rows(UNSHOWN) == []
