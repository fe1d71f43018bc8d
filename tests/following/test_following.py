"""Whoever asked and still waits gets the answer, once, in their units and language, and not while it is quiet there."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from bay import BOT, later
from curators_shop import ASK_FRONT, ASK_REAR, FRONT, REAR, Shop, told
from desk import NOW

from benchbot.following.errands import run_due
from benchbot.following.follow import follow
from benchbot.people.terms import Hours
from benchbot.records import errands, kept_questions, outbox

STATES = "SELECT gap.state, gap.waits FROM gap WHERE gap = 1"
MEANING = "SELECT state FROM meaning WHERE meaning = 1"


def test_an_asker_is_told_once_with_the_buttons_of_any_answer(shop: Shop) -> None:
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.south)
    shop.bay.people.set_defaults(shop.main.number, units="US")
    shop.bay.people.set_defaults(shop.south.number, language="es")
    for phone in (ana, bo):
        assert "Done already" in phone.say(ASK_REAR).labels or "Ya está hecho" in phone.last.labels
    done = shop.publish_and_follow(REAR)
    assert (done.version, done.told, done.later, done.recalled) == (2, 2, 0, 0)
    (answer,), (respuesta,) = told(ana), told(bo)
    # 61 N·m = 44.99 lb-ft by 1 lb-ft = 1.3558179 N·m (NIST SP 811, appendix B.8)
    assert "61 N·m = 45.0 lb-ft" in answer.text
    assert answer.text.startswith("You asked on 2026-11-25: “2014 drabent quilsund 3 rear")
    assert "El libro ya lo tiene" in respuesta.text and "61 N·m" in respuesta.text
    assert {"Other unit", "More", "How I read that", "Not right?", "Done already"} <= set(answer.labels)
    assert shop.one(STATES) == ("filled", 1)
    assert shop.one(MEANING) == ("filled",)
    for _ in range(2):
        again = follow(shop.home, shop.bay.clock())
        assert (again.told, again.later, again.recalled) == (0, 0, 0)
    shop.bay.deliver()
    assert len(told(ana)) == len(told(bo)) == 1
    rows = shop.bay.record.rows("SELECT person, outcome, location FROM answer WHERE outcome = 'told'", {})
    assert sorted(rows) == sorted([(ana.person, "told", shop.main.number), (bo.person, "told", shop.south.number)])


def test_the_buttons_work_on_what_was_told(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_REAR)
    shop.publish_and_follow(REAR)
    (answer,) = told(ana)
    ana.press("More", on=answer)
    assert "A2" in answer.text and "Done already" in answer.labels
    ana.press("How I read that", on=answer)
    assert "quilsund" in answer.text.lower()
    ana.press("Done already", on=answer)
    assert ana.notice.startswith("Noted")
    ana.press("Done already", on=answer)
    assert ana.notice == "You said so already."
    ana.press("Not right?", on=answer)
    assert shop.one("SELECT answer.outcome FROM note JOIN answer ON answer.answer = note.answer") == ("told",)


def test_one_meaning_in_two_wordings_is_told_once_of_the_newest(shop: Shop) -> None:
    ana, bo = shop.bay.phone("Ana", technician=shop.main), shop.bay.phone("Bo", technician=shop.main)
    ana.say(ASK_REAR)
    ana.say("drabent quilsund 3 2014 torque rear caliper brkt bolt")
    bo.say(ASK_REAR)
    ana.say("2015 drabent quilsund 3 rear caliper bracket bolt torque")
    assert shop.publish_and_follow(REAR).told == 3
    # another model year is another vehicle
    assert [("brkt" in one.text, "2015" in one.text) for one in told(ana)] == [(True, False), (False, True)]
    assert len(told(bo)) == 1
    states = shop.bay.record.rows("SELECT DISTINCT state FROM gap", {})
    assert states == [("filled",)]


def test_one_meaning_in_two_wordings_is_told_once_after_the_quiet(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    shop.bay.people.set_hours(shop.main.number, "UTC", "08:00", "12:00")
    ana.say(ASK_REAR)
    ana.say("drabent quilsund 3 2014 torque rear caliper brkt bolt")
    assert shop.publish_and_follow(REAR).later == 1
    later(shop.bay, hours=4)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert ["brkt" in one.text for one in told(ana)] == [True]


def test_a_newer_wording_that_is_done_already_leaves_the_older_waiting(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_REAR)
    newer = ana.say("drabent quilsund 3 2014 torque rear caliper brkt bolt")
    ana.press("Done already", on=newer)
    assert shop.publish_and_follow(REAR).told == 1
    assert len(told(ana)) == 1


def test_done_already_is_not_told_and_fills_all_the_same(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.press("Done already", on=ana.say(ASK_REAR))
    assert ana.notice.startswith("Noted")
    assert shop.publish_and_follow(REAR).told == 0
    assert told(ana) == []
    assert shop.one(STATES) == ("filled", 0)


def test_a_removed_member_is_told_nothing(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_REAR)
    shop.bay.people.remove(ana.person, shop.main.number, "telegram 1", NOW)
    assert shop.publish_and_follow(REAR).told == 0
    assert told(ana) == []
    assert shop.one(STATES)[0] == "filled"


def test_what_was_asked_in_the_course_of_a_chat_is_asked_again_with_what_it_remembered(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_FRONT)
    assert "61" not in ana.say("and the rear?").text
    ana.say("2014 drabent quilsund 3 front caliper bracket bolt socket")
    assert shop.publish_and_follow(REAR).told == 1
    (answer,) = told(ana)
    assert "61 N·m" in answer.text and "“and the rear?”" in answer.text


def test_a_gap_stays_while_a_part_of_it_is_missing(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say("2014 drabent quilsund 3 rear caliper bracket bolt torque and front axle nut torque")
    assert shop.publish_and_follow(REAR).told == 0
    assert shop.one(STATES) == ("open", 1)
    nut = FRONT | {"id": "A3", "component": "axle nut", "value": "210 N·m"}
    assert shop.publish_and_follow(nut).told == 1
    assert "210 N·m" in told(ana)[0].text and "61 N·m" in told(ana)[0].text


def test_a_row_that_needs_one_thing_more_is_told_as_a_question(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    ana.say(ASK_REAR)
    split = [REAR | {"id": f"A{n}", "only_if": f"engine={engine}"} for n, engine in ((4, "1.6"), (5, "2.2T"))]
    assert shop.publish_and_follow(*split).told == 1
    (asked_back,) = told(ana)
    assert "Ask it again" in asked_back.text and "61" not in asked_back.text
    assert shop.one(STATES)[0] == "filled"


def test_it_waits_until_the_quiet_is_over(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    zone, begins, ends = "America/Chicago", "18:00", "07:30"
    hours = shop.bay.people.set_hours(shop.main.number, zone, begins, ends)
    assert hours == Hours(shop.main.number, zone, begins, ends)
    ana.say(ASK_REAR)
    # 09:00 UTC is 03:00 in Chicago in November (UTC-6; value from memory)
    done = shop.publish_and_follow(REAR)
    assert (done.told, done.later) == (0, 1)
    later(shop.bay, hours=4, minutes=29)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert told(ana) == []
    # what is shown in between is not held up
    assert "105 N·m" in ana.say(ASK_FRONT).text
    later(shop.bay, minutes=1)
    run_due(shop.home, shop.bay.clock)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert "61 N·m" in told(ana)[0].text and len(told(ana)) == 1


def test_what_was_withdrawn_during_the_quiet_is_not_told(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    shop.bay.people.set_hours(shop.main.number, "UTC", "08:00", "12:00")
    ana.say(ASK_REAR)
    assert shop.publish_and_follow(REAR).later == 1
    shop.publish_and_follow(REAR | {"status": "withdrawn"})
    later(shop.bay, hours=4)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert told(ana) == []
    assert shop.one(STATES) == ("open", 1)
    assert shop.one(MEANING) == ("open",)
    assert shop.publish_and_follow(REAR | {"value": "63 N·m"}).told == 1
    assert "63 N·m" in told(ana)[0].text


def test_done_already_during_the_quiet(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    shop.bay.people.set_hours(shop.main.number, "UTC", "08:00", "12:00")
    gap = ana.say(ASK_REAR)
    shop.publish_and_follow(REAR)
    ana.press("Done already", on=gap)
    later(shop.bay, hours=4)
    run_due(shop.home, shop.bay.clock)
    shop.bay.deliver()
    assert told(ana) == []


def test_a_message_that_was_on_its_way_is_told_by_the_second_look(shop: Shop) -> None:
    ana = shop.bay.phone("Ana", technician=shop.main)
    shop.publish_and_follow(REAR)
    # as if it had been looked up in the book before, and put on record after that was followed
    ana.say("2014 drabent quilsund 3 rear caliper bracket bolt thread")
    with shop.bay.record.writing() as store:
        store.run("UPDATE gap SET question = :said", {"said": ASK_REAR})
        store.run("UPDATE answer SET book_version = 1 WHERE outcome = 'gap'", {})
    later(shop.bay, minutes=1)
    assert {one.what for one in run_due(shop.home, shop.bay.clock)} == {"follow"}
    shop.bay.deliver()
    assert "61 N·m" in told(ana)[0].text


def test_somebody_at_the_terminal_is_told_there(shop: Shop) -> None:
    shop.bay.let_in(shop.bay.phone("Ana", technician=shop.main), shop.main, "technician")
    with shop.bay.record.writing() as store:
        store.run("INSERT INTO person VALUES ('terminal cleo', 'Cleo', NULL, '2026')", {})
        store.run(
            "INSERT INTO membership VALUES ('terminal cleo', :one, 'technician', '2026')", {"one": shop.main.number}
        )
    ana = shop.bay.phone("Dee", technician=shop.main)
    ana.say(ASK_REAR)
    with shop.bay.record.writing() as store:
        store.run("UPDATE gap SET person = 'terminal cleo'", {})
    assert shop.publish_and_follow(REAR).told == 1
    (claimed,) = outbox.claim(shop.bay.record, "terminal", (), shop.bay.clock(), 5)
    assert claimed.chat == "cleo" and "61 N·m" in claimed.body


def test_each_filled_gap_is_kept_as_a_question_once(shop: Shop) -> None:
    for name in ("Ana", "Bo"):
        shop.bay.phone(name, technician=shop.main).say(ASK_REAR)
    shop.publish_and_follow(REAR)
    (kept,) = kept_questions.kept(shop.bay.record)
    assert (kept.said, kept.expected.outcome, kept.expected.specs, kept.gap) == (ASK_REAR, "answer", ("A2",), 1)


def test_an_errand_of_chat_publishes_and_says_so(shop: Shop) -> None:
    cora = shop.bay.phone("Cora", curator=shop.main)
    shop.enter(REAR)
    with shop.bay.record.writing() as store:
        assert errands.put(store, "publish", {"by": cora.person}, shop.bay.clock(), "one") is not None
        assert errands.put(store, "publish", {"by": cora.person}, shop.bay.clock(), "one") is None
    done = run_due(shop.home, shop.bay.clock)
    assert [(one.what, one.state) for one in done] == [("publish", "done")]
    shop.bay.deliver()
    assert cora.last.text == "Book 2 is published: 2 checked rows."


def test_an_errand_of_no_known_kind_fails_and_holds_nothing_up(shop: Shop) -> None:
    with shop.bay.record.writing() as store:
        errands.put(store, "dance", {}, shop.bay.clock())
        errands.put(store, "publish", {"by": "telegram 1"}, shop.bay.clock())
    done = run_due(shop.home, shop.bay.clock)
    assert [(one.what, one.state) for one in done] == [("dance", "failed"), ("publish", "done")]
    assert errands.failed(shop.bay.record)[0][1].startswith("ValueError: there is no errand 'dance'")


def test_the_errands_of_the_old_are_swept(shop: Shop) -> None:
    run_due(shop.home, lambda: NOW + timedelta(hours=1))
    errands.forget(shop.bay.record, datetime(2030, 1, 1, tzinfo=UTC))
    # those that may be done but once stay
    assert shop.one("SELECT count(*) FROM errand WHERE once IS NOT NULL AND what <> 'digest'") == (2,)
    assert BOT.number == "900"
