"""A shop at work with its record on a real server: phones, gaps, rows filled and approved, recalls, and jobs."""

from __future__ import annotations

import pytest
from bay import BOT, Bay, Phone, later
from curators_shop import ASK_FRONT, ASK_REAR, FRONT, REAR, Shop, told
from job_bay import MIRO
from job_bay import Bay as JobBay

from benchbot.channels.telegram.health import Finding, _record
from benchbot.following.errands import run_due
from benchbot.jobs.record_json import record_bytes
from benchbot.people import invites
from benchbot.places import Home
from benchbot.records import outbox, revisions
from benchbot.records.record import Record, open_record

# the row that is missing, field by field as a curator types or presses it
STEPS = (
    ("press", "2014"),
    ("press", "No, for all"),
    ("say", "61"),
    ("press", "N·m"),
    ("press", "Not printed"),
    ("say", "M12x1.5"),
    ("press", "10.9"),
    ("say", "Invented workshop sheet"),
    ("say", "p. 14"),
)
SEEN = "Seen, checked the vehicle"


def test_a_stranger_joins_by_a_code_and_only_once(shop: Shop) -> None:
    zoe, max_ = shop.bay.phone("Zoe"), shop.bay.phone("Max")
    assert zoe.say(ASK_FRONT).text.startswith("Ask your shop for an invite")
    _, code = invites.make(shop.bay.record, shop.main.number, "technician", 1, 1, "test", shop.bay.clock())
    zoe.say(f"/start {code}")
    assert "105 N·m" in zoe.say(ASK_FRONT).text
    assert "does not work" in max_.say(f"/start {code}").text


def test_from_a_gap_to_a_book_that_tells_its_asker(shop: Shop) -> None:
    bay = shop.bay
    ana, cleo = bay.phone("Ana", technician=shop.main), bay.phone("Cleo", curator=shop.main)
    dan = bay.phone("Dan", curator=shop.main)
    assert "Not in our book" in ana.say(ASK_REAR).text
    assert cleo.say("/gaps").labels
    cleo.press("1")
    cleo.press("Fill")
    for how, what in STEPS:
        assert how == "say" or what in cleo.last.labels, (cleo.last.text, cleo.last.labels)
        cleo.press(what) if how == "press" else cleo.say(what)
    assert "61 N·m" in cleo.last.text, cleo.last
    bay.restart()
    cleo.press("Submit")
    spec = cleo.last.text.split()[0]
    dan.say("/book")
    for label in ("To approve 1", "1", "Approve", "Publish", "Yes, publish"):
        dan.press(label)
    newest = revisions.newest(bay.record, spec)
    assert newest is not None and (newest.status, newest.cells["checked_by"]) == ("verified", "Dan")
    assert all(one.state == "done" for one in run_due(shop.home, bay.clock))
    bay.deliver()
    (answer,) = told(ana)
    assert "61 N·m" in answer.text
    assert run_due(shop.home, bay.clock) == []
    assert len(told(ana)) == 1
    bay.restart()
    assert "61 N·m" in ana.say(ASK_REAR).text


def test_a_changed_value_is_recalled_and_confirmed(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    assert "105 N·m" in ana.say(ASK_FRONT).text
    later(shop.bay, hours=24)
    assert shop.publish_and_follow(FRONT | {"value": "110 N·m"}, REAR).recalled == 1
    (recall,) = [one for one in ana.shown if one.text.startswith("RECALL")]
    assert "OLD: 105 N·m" in recall.text and "NEW: 110 N·m" in recall.text
    ana.press(SEEN, on=recall)
    assert (ana.notice, recall.labels) == ("Thank you.", [])
    ((confirmed,),) = shop.bay.record.rows("SELECT seen_at FROM recall_notice", {})
    assert confirmed


@pytest.fixture
def job_bay(record: Record) -> JobBay:
    return JobBay(record)


def test_a_job_from_begin_to_finish(job_bay: JobBay, url: str) -> None:
    job_bay.begin(repair_order="RO-10482")
    job_bay.all_lines()
    job_bay.all_steps(MIRO)
    assert job_bay.do("finish").finished is not None
    assert job_bay.refuse("pause", MIRO).about == "finished"
    with open_record(url) as again:
        assert record_bytes(JobBay(again, job=job_bay.job).state) == record_bytes(job_bay.state)


def test_a_killed_desk_answers_what_came_in_and_sends_what_waited(demo_home: Home) -> None:
    bay = Bay(demo_home)
    phone: Phone = bay.phone("Ana", technician=bay.location("North"))
    phone.say("12 ondrel front bracket bolt torque")
    with bay.record.writing() as store:
        outbox.add(store, BOT.number, phone.chat, "{}", bay.clock())
    assert len(outbox.claim(bay.record, BOT.number, (), bay.clock(), 9)) == 1
    assert len(outbox.unfinished(bay.record, BOT.number)) == 1
    bay.close()
    found: list[Finding] = _record(demo_home, BOT.number, bay.clock())
    assert [(one.name, one.ok) for one in found] == [("database", True), ("to send", True), ("unsure", True)]
