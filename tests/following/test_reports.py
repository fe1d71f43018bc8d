"""What the bench asked in a week, counted by hand beside what is sent; and that it is sent once, on Monday at eight."""

from __future__ import annotations

import multiprocessing
import os
import sys
from datetime import UTC, date, datetime, timedelta
from io import BytesIO
from itertools import count
from typing import Any

import pytest
from bay import Phone
from curators_shop import ASK_FRONT, ASK_REAR, FRONT, REAR, Shop
from PIL import Image

from benchbot.book.reader import Book
from benchbot.curation.coverage import Cell, Vehicle, coverage
from benchbot.curation.digest import Digest, digest
from benchbot.curation.digest_text import digest_text
from benchbot.curation.weeks import Week
from benchbot.desk.picture_files import picture_file
from benchbot.following.errands import run_due
from benchbot.following.reports import plan_digests
from benchbot.people.terms import Hours

WEEK = Week(2026, 49)  # from Monday, 2026-11-30
BOTH = "2014 drabent quilsund 3 front and rear caliper bracket bolt torque"
WHICH = "2014 drabent quilsund 3 bolt torque"
FONKEL = "what is the front caliper bracket bolt torque on a 2014 fonkel"
QUILSUND = Vehicle("Drabent", "Quilsund 3")
BOLT = "caliper bracket bolt"


def at(day: int, hour: int = 12, minute: int = 0, month: int = 12) -> datetime:
    return datetime(2026, month, day, hour, minute, tzinfo=UTC)


@pytest.fixture
def week(shop: Shop) -> tuple[Shop, Phone, Phone]:
    """A week at two places whose weeks begin seven hours apart."""
    for place, zone, language in ((shop.main, "America/Chicago", "en"), (shop.south, "Europe/Madrid", "es")):
        assert isinstance(shop.bay.people.set_hours(place.number, zone, "", ""), Hours)
        shop.bay.people.set_defaults(place.number, language=language)
    main, south = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.south)
    # Sunday half past eleven at night in Chicago, Monday half past six in Madrid
    ask(shop, main, at(30, 5, 30, month=11), ASK_FRONT)
    ask(shop, south, at(30, 5, 30, month=11), ASK_FRONT)
    ask(shop, main, at(2), ASK_REAR, ASK_FRONT, "thanks", "108 nm to ft lbs")
    ask(shop, shop.bay.phone("Cleo", technician=shop.main), at(2, 13), WHICH)
    ask(shop, south, at(3), BOTH, ASK_REAR, "2019 drabent quilsund 3 rear caliper bracket bolt torque")
    ask(shop, shop.bay.phone("Dan", technician=shop.south), at(3, 15), FONKEL)
    shop.bay.clock.moment = at(4)
    shop.publish_and_follow(REAR)
    # the Monday after, in both places
    ask(shop, main, at(7, 12), ASK_FRONT)
    return shop, main, south


def ask(shop: Shop, phone: Phone, moment: datetime, *questions: str) -> None:
    for question in questions:
        shop.bay.clock.moment = moment
        phone.say(question)


def counts(found: Digest) -> dict[str, tuple[int, int, int, int]]:
    return {one.name: (one.answered, one.in_part, one.asked_back, one.not_answered) for one in found.tallies}


def test_the_week_counted_by_hand(week: tuple[Shop, Phone, Phone]) -> None:
    shop, _, _ = week
    found = digest(shop.bay.record, WEEK, at(7, 14))
    # Main: ASK_FRONT of Wednesday | WHICH | ASK_REAR
    # South: ASK_FRONT of Monday and half of BOTH | nothing | ASK_REAR, 2019, FONKEL
    assert counts(found) == {"Main shop": (1, 0, 1, 1), "South shop": (2, 1, 0, 3)}
    assert (found.sum.answered, found.sum.asked_back, found.sum.not_answered) == (3, 1, 4)
    # the rear bolt: asked first on the 2nd at noon, filled on the 4th at noon
    assert (found.filled, found.to_fill) == (1, timedelta(days=2))
    # the 2019 and the fonkel, both of this week
    assert (found.open_gaps, found.fresh, found.so_far, found.due) == (2, 2, False, 0)
    assert [(one.group.people, one.group.asks, one.asks) for one in found.top] == [(1, 1, 1), (1, 1, 1)]
    assert counts(digest(shop.bay.record, WEEK.before(), at(7, 14))) == {
        "Main shop": (1, 0, 0, 0), "South shop": (0, 0, 0, 0),
    }  # fmt: skip
    after = digest(shop.bay.record, WEEK.after(), at(7, 14))
    assert counts(after) == {"Main shop": (1, 0, 0, 0), "South shop": (0, 0, 0, 0)}
    assert (after.filled, after.to_fill, after.fresh, after.so_far) == (0, None, 0, True)


def test_one_location_has_its_own_and_its_last_eight_weeks(week: tuple[Shop, Phone, Phone]) -> None:
    shop, _, _ = week
    found = digest(shop.bay.record, WEEK, at(7, 14), shop.main)
    assert counts(found) == {"Main shop": (1, 0, 1, 1)}
    assert [one.whole for one in found.trend] == [0, 0, 0, 0, 0, 0, 1, 3]
    assert (found.open_gaps, found.filled) == (0, 1)
    south = digest(shop.bay.record, WEEK, at(7, 14), shop.south)
    # there the rear bolt was asked first on the 3rd
    assert (south.open_gaps, south.to_fill) == (2, timedelta(days=1))


def test_what_was_filled_and_is_missing_again_counts_from_then_on(week: tuple[Shop, Phone, Phone]) -> None:
    shop, main, _ = week
    shop.bay.clock.moment = at(8)
    shop.publish_and_follow(REAR | {"status": "withdrawn"}, accept="the sheet was recalled")
    ask(shop, main, at(9, 10), ASK_REAR)
    shop.bay.clock.moment = at(9, 16)
    shop.publish_and_follow(REAR | {"value": "63 N·m"}, accept="it is back")
    found = digest(shop.bay.record, WEEK.after(), at(10))
    assert (found.filled, found.to_fill) == (1, timedelta(hours=6))


def test_a_question_that_was_changed_is_not_left_unanswered(shop: Shop) -> None:
    phone = shop.bay.phone("Ana", technician=shop.main)
    shop.bay.clock.moment = at(2)
    incoming = phone.send("text", ASK_REAR)
    assert counts(digest(shop.bay.record, WEEK, at(7))) == {"Main shop": (0, 0, 0, 1), "South shop": (0, 0, 0, 0)}
    phone.change(incoming.message, ASK_FRONT)
    assert counts(digest(shop.bay.record, WEEK, at(7))) == {"Main shop": (1, 0, 0, 0), "South shop": (0, 0, 0, 0)}


def test_the_words_of_it_in_both_languages(week: tuple[Shop, Phone, Phone]) -> None:
    shop, _, _ = week
    found = digest(shop.bay.record, WEEK, at(7, 14), shop.south)
    assert digest_text(found, "en") == (
        "South shop. Week 2026-W49, 2026-11-30 to 2026-12-06",
        "South shop: 2 answered, 0 asked back, 3 not answered (of those answered, 1 only in part)",
        "Gaps open: 2, new in this week: 2.",
        "Gaps filled: 1. Half of them within 24 h of the first question.",
        "No row has to be looked at again within 30 days.",
        "Most wanted:",
        "1. which vehicle is “fonkel”?: 1 waits, asked 1×, 1 in this week",
        "2. 2019 Drabent Quilsund 3, REAR caliper bracket bolt, torque: 1 waits, asked 1×, 1 in this week",
    )
    spanish = digest_text(found, "es")
    assert spanish[1].startswith("South shop: 2 respondidas, 0 con otra pregunta, 3 sin respuesta")
    assert len(spanish) == 8 and not set(spanish) & set(digest_text(found, "en"))


def test_coverage_counted_by_hand(week: tuple[Shop, Phone, Phone]) -> None:
    shop, _, _ = week
    unknown = Vehicle("", "fonkel", known=False)
    with Book.open(shop.home.book) as book:
        found = coverage(shop.bay.record, book, at(1, month=11), at(7, 14))
        # ASK_FRONT four times, ASK_REAR twice, BOTH and 2019 once; both rows held, 2019 still missing
        assert found.cells == {(QUILSUND, BOLT): Cell(8, 2, 1, 0), (unknown, BOLT): Cell(1, 0, 1, 0)}
        assert (found.vehicles, found.components, found.unplaced) == ((QUILSUND, unknown), (BOLT,), 0)
        assert (found.asks, found.whole) == (9, 0)
        main = coverage(shop.bay.record, book, at(1), at(7, 14), shop.main.number)
        assert main.cells == {(QUILSUND, BOLT): Cell(3, 2, 0, 0)} and main.whole == 1
        assert coverage(shop.bay.record, book, at(8), at(9)).cells == {}


def test_a_row_past_its_review_is_stale_and_not_missing_as_well(shop: Shop) -> None:
    phone = shop.bay.phone("Ana", technician=shop.main)
    shop.publish_and_follow(FRONT | {"review_by": "2026-12-01"}, REAR)
    ask(shop, phone, at(1), ASK_FRONT)
    ask(shop, phone, at(2), ASK_FRONT, ASK_REAR)
    with Book.open(shop.home.book) as book:
        before = coverage(shop.bay.record, book, at(1, 0), at(1, 20))
        after = coverage(shop.bay.record, book, at(1, 0), at(2, 20))
    assert before.cells == {(QUILSUND, BOLT): Cell(3, 2, 1, 0)}
    assert after.cells == {(QUILSUND, BOLT): Cell(3, 1, 0, 1)}


def test_a_part_that_nobody_knows_has_no_field(shop: Shop) -> None:
    phone = shop.bay.phone("Ana", technician=shop.main)
    ask(shop, phone, at(2), "2014 drabent quilsund 3 sprocket torque")
    with Book.open(shop.home.book) as book:
        found = coverage(shop.bay.record, book, at(1), at(3))
    assert (found.cells, found.unplaced) == ({}, 1)


def digests(phone: Phone) -> list[str]:
    return [
        one.text for one in phone.shown if ("Week 2026" in one.text or "Semana 2026" in one.text) and not one.picture
    ]


def tick(shop: Shop, moment: datetime) -> None:
    """As the bot looks every second, at one of them."""
    shop.bay.clock.moment = moment
    run_due(shop.home, shop.bay.clock, shop.bay.record)
    shop.bay.deliver()


def test_on_monday_at_eight_by_the_clock_of_each_place_and_once(week: tuple[Shop, Phone, Phone]) -> None:
    shop, technician, _ = week
    curator, owner = shop.bay.phone("Cy", curator=shop.main), shop.bay.phone("Olga", owner=shop.south)
    for moment in (at(4, 12), at(7, 6, 59), at(7, 6, 59)):
        tick(shop, moment)
        assert not digests(curator) and not digests(owner)
    tick(shop, at(7, 7))
    assert [one.splitlines()[0] for one in digests(owner)] == [
        "South shop. Semana 2026-W49, del 2026-11-30 al 2026-12-06"
    ]
    assert not digests(curator)
    for moment in (at(7, 14), at(7, 14, 1), at(9), at(12)):
        tick(shop, moment)
        assert [one.splitlines()[0] for one in digests(curator)] == [
            "Main shop. Week 2026-W49, 2026-11-30 to 2026-12-06"
        ]
        assert len(digests(owner)) == 1
    tick(shop, at(14, 14))
    assert [len(digests(one)) for one in (curator, owner, technician)] == [2, 2, 0]


def test_the_chart_lies_in_the_home_and_can_be_opened(week: tuple[Shop, Phone, Phone]) -> None:
    shop, _, _ = week
    curator = shop.bay.phone("Cy", curator=shop.main)
    tick(shop, at(4, 13))
    tick(shop, at(7, 14))
    text, picture = curator.shown[-2:]
    assert text.picture == "" and picture.text == "Main shop. Week 2026-W49, 2026-11-30 to 2026-12-06"
    file = picture_file(shop.home, picture.picture)
    assert file is not None and file.parent.parent == shop.home.folder
    with Image.open(BytesIO(file.read_bytes())) as opened:
        assert (opened.format, opened.width) == ("PNG", 1080)
    if sys.platform != "win32":
        assert file.stat().st_mode & 0o077 == 0


def test_a_bot_that_was_down_tells_the_last_whole_week_once(week: tuple[Shop, Phone, Phone]) -> None:
    shop, _, _ = week
    curator = shop.bay.phone("Cy", curator=shop.main)
    tick(shop, at(4, 13))
    for moment in (at(16), at(16, 13), at(18)):
        tick(shop, moment)
    assert [one.splitlines()[0] for one in digests(curator)] == ["Main shop. Week 2026-W50, 2026-12-07 to 2026-12-13"]
    tick(shop, at(21, 14))
    assert len(digests(curator)) == 2


def test_nobody_is_woken_for_it(shop: Shop) -> None:
    shop.bay.people.set_hours(shop.main.number, "UTC", "17:00", "09:30")
    curator = shop.bay.phone("Cy", curator=shop.main)
    tick(shop, at(1))
    tick(shop, at(7, 9, 29))
    assert not digests(curator)
    tick(shop, at(7, 9, 30))
    tick(shop, at(7, 9, 31))
    assert len(digests(curator)) == 1
    # down until the next Monday's night: it waits for the morning
    tick(shop, at(14, 18))
    assert len(digests(curator)) == 1
    tick(shop, at(15, 9, 30))
    assert len(digests(curator)) == 2
    tick(shop, at(16, 12))
    assert len(digests(curator)) == 2


def test_asked_for_it_comes_to_whoever_asked_and_still_keeps_the_book(week: tuple[Shop, Phone, Phone]) -> None:
    shop, technician, _ = week
    curator, other = shop.bay.phone("Cy", curator=shop.main), shop.bay.phone("Di", curator=shop.main)
    tick(shop, at(4, 13))
    for label in ("Week", "Coverage"):
        page = curator.say("/book")
        curator.press(label, page)
    technician.say("/book")
    tick(shop, at(4, 13, 1))
    assert [one.splitlines()[0] for one in digests(curator)] == ["Main shop. Week 2026-W49, from 2026-11-30, so far"]
    assert curator.last.text == "Asked since 2026-09-05" and curator.last.picture.startswith("png:coverage-")
    assert not digests(other) and not digests(technician)
    curator.press("Back", page)
    curator.press("Week", page)
    shop.bay.people.remove(curator.person, shop.main.number, "telegram 1", at(4, 13, 2))
    tick(shop, at(4, 13, 3))
    assert len(digests(curator)) == 1


KILLED = 77


def killed(shop: Shop, place: Any, name: str, number: int, after: bool) -> int:
    """The errands in a process of their own, which ends at that call; its exit code."""

    def work() -> None:
        whole, calls = getattr(place, name), count(1)

        def counted(*given: Any, **named: Any) -> Any:
            mine = next(calls) == number
            if mine and not after:
                os._exit(KILLED)
            came = whole(*given, **named)
            if mine:
                os._exit(KILLED)
            return came

        setattr(place, name, counted)
        run_due(shop.home, shop.bay.clock)

    child = multiprocessing.get_context("fork").Process(target=work)
    child.start()
    child.join()
    assert child.exitcode is not None
    return child.exitcode


@pytest.mark.skipif(sys.platform == "win32", reason="a forked process has the vocabulary loaded already")
def test_killed_at_any_step_it_is_sent_once(week: tuple[Shop, Phone, Phone]) -> None:
    from benchbot.following import errands as runner
    from benchbot.following import reports
    from benchbot.records import errands, outbox

    shop, _, _ = week
    people = [shop.bay.phone(name, curator=shop.main) for name in ("Cy", "Di")]
    steps: list[tuple[Any, str, int, bool]] = [
        (errands, "put", 1, True), (reports, "digest", 1, True), (reports, "keep_picture", 1, False),
        (reports, "keep_picture", 1, True), (errands, "done", 1, True), (outbox, "add", 1, True),
        (outbox, "add", 3, True), (outbox, "add", 4, True), (runner, "_ended", 1, False),
    ]  # fmt: skip
    shop.bay.clock.moment = at(4, 13)
    assert killed(shop, *steps[0]) == KILLED
    plan_digests(shop.bay.record, at(4, 13))
    shop.bay.clock.moment = at(7, 14)
    assert [killed(shop, *step) for step in steps[1:]] == [KILLED] * len(steps[1:])
    for moment in (at(7, 14, 1), at(8)):
        tick(shop, moment)
    assert [len(digests(one)) for one in people] == [1, 1]
    assert [sum(bool(message.picture) for message in one.shown) for one in people] == [1, 1]


def test_it_is_planned_once_for_each_place(shop: Shop) -> None:
    assert plan_digests(shop.bay.record, at(1)) == 2
    assert plan_digests(shop.bay.record, at(2)) == 0
    rows = shop.bay.record.rows("SELECT once, not_before FROM errand WHERE what = 'digest' ORDER BY once", {})
    assert [row[0] for row in rows] == ["digest 1 2026-W49", "digest 2 2026-W49"]
    assert {datetime.fromisoformat(row[1]).date() for row in rows} == {date(2026, 12, 7)}
