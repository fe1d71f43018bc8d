"""The vehicle on the lift: offered again when its time is over, and asked about once when another was named since."""

from __future__ import annotations

import sqlite3
from datetime import timedelta

import pytest
from desk import NOW, Chat, Desk, brief, labels, offered, shown

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.manner import VEHICLE_KEPT, Aside, Manner
from benchbot.places import Home

ASKS_AGAIN = Manner(asks_again=True)


def say(chat: Chat, text: str, manner: Manner = ASKS_AGAIN) -> Turn:
    return chat.conversation.say(chat.name, "tester", text, None, manner)


def press(chat: Chat, number: int) -> Turn:
    return chat.conversation.press(chat.name, "tester", number, ASKS_AGAIN)


def test_after_its_time_the_vehicle_is_offered_again(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel front bracket bolt")
    desk.clock.moment = NOW + VEHICLE_KEPT
    turn = chat.say("front bracket bolt socket")
    assert (brief(turn), labels(turn), offered(turn)) == ("choose vehicle", ["2012 Brackwell Ondrel"], {"D0002"})
    assert shown(chat.press(1)) == ["D0002"]
    assert shown(chat.say("torque?")) == ["D0001"]


def test_at_most_the_last_four_are_offered_the_latest_first(desk: Desk) -> None:
    chat = desk.chat()
    for vehicle in ("12 ondrel", "16 wendla", "12 ondrel", "15 ondrel", "18 ondrel", "14 wendle"):
        chat.say(f"{vehicle} lug nut torque")
        desk.clock.moment += timedelta(minutes=1)
    desk.clock.moment += VEHICLE_KEPT
    turn = chat.say("lug nut torque")
    assert labels(turn) == [
        "2014 Pelbrook Wendle", "2018 Brackwell Ondrel", "2015 Brackwell Ondrel", "2012 Brackwell Ondrel",
    ]  # fmt: skip


def test_a_chat_that_had_no_vehicle_is_asked_for_one(desk: Desk) -> None:
    turn = desk.ask("front bracket bolt torque")
    assert (brief(turn), labels(turn)) == ("choose vehicle", [])


def test_the_time_that_a_vehicle_is_kept_can_be_set(desk: Desk) -> None:
    chat = desk.chat()
    short = Manner(kept=timedelta(hours=1))
    say(chat, "12 ondrel front bracket bolt", short)
    desk.clock.moment = NOW + timedelta(hours=1)
    assert brief(say(chat, "front bracket bolt socket", short)) == "choose vehicle"


def test_another_vehicle_named_since_is_asked_about_once(desk: Desk) -> None:
    chat = desk.chat()
    say(chat, "12 ondrel front bracket bolt")
    desk.clock.moment += timedelta(minutes=1)
    assert shown(say(chat, "16 wendla front bracket bolt torque")) == ["D0898"]
    assert shown(say(chat, "in nm?")) == ["D0898"], "a word that goes on is about the vehicle just answered for"
    turn = say(chat, "lug nut torque")
    assert labels(turn) == ["2016 Pelbrook Wendla", "2012 Brackwell Ondrel"]
    answered = press(chat, 2)
    assert answered.reading.years == (2012,)
    assert len(shown(answered)) == 1
    assert brief(say(chat, "front bracket bolt torque")) == "answer D0001", "settled: not asked a second time"


def test_a_choice_of_the_lift_can_be_typed(desk: Desk) -> None:
    chat = desk.chat()
    say(chat, "12 ondrel front bracket bolt")
    say(chat, "16 wendla front bracket bolt torque")
    say(chat, "front bracket bolt socket")
    assert shown(say(chat, "2012 brackwell ondrel")) == ["D0002"]


@pytest.mark.parametrize("settling", ["16 wendla", "16 wendla lug nut torque and socket"])
def test_a_vehicle_named_by_itself_is_settled(desk: Desk, settling: str) -> None:
    chat = desk.chat()
    say(chat, "12 ondrel front bracket bolt")
    say(chat, settling)
    asked = brief(say(chat, "front bracket bolt torque"))
    assert asked == ("answer D0898" if settling == "16 wendla" else "choose vehicle")


def test_without_the_manner_a_chat_goes_on_with_the_vehicle_named_last(desk: Desk) -> None:
    turn = desk.ask("12 ondrel front bracket bolt", "16 wendla front bracket bolt torque", "front bracket bolt torque")
    assert shown(turn) == ["D0898"]


def test_units_of_the_place_come_first_among_the_conversions(desk: Desk) -> None:
    chat = desk.chat()
    turn = say(chat, "12 ondrel front bracket bolt torque", Manner(units=("kgf·m", "mm")))
    assert turn.reply.text().startswith("50 lb-ft = 6.9 kgf·m, 68 N·m (converted)")
    asked = say(chat, "in lb-in", Manner(units=("kgf·m", "mm")))
    assert asked.reply.text().startswith("50 lb-ft = 600 lb-in, 6.9 kgf·m, 68 N·m (converted)")


def edited(chat: Chat, text: str, turn: Turn, last: bool) -> Turn:
    change = Aside(turn.before, turn.answer, last)
    return chat.conversation.say(chat.name, "tester", text, None, aside=change)


def test_an_edited_question_is_read_as_if_it_had_come_so(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel front bracket bolt")
    wrong = chat.say("16 wendla front bracket bolt")
    assert shown(edited(chat, "socket?", wrong, True)) == ["D0002"], "it goes on from what was there before it"
    assert shown(chat.say("torque?")) == ["D0001"], "and the chat goes on from it"


def test_an_older_question_edited_leaves_the_chat_as_it_is(desk: Desk) -> None:
    chat = desk.chat()
    old = chat.say("12 ondrel front bracket bolt")
    chat.say("16 wendla front bracket bolt")
    assert shown(edited(chat, "12 ondrel front bracket bolt socket", old, False)) == ["D0002"]
    assert shown(chat.say("torque?")) == ["D0898"]


def test_the_gap_of_an_edited_question_is_nobodys_any_more(desk: Desk, demo_shop: Home) -> None:
    chat = desk.chat()
    gap = chat.say("12 ondrel head bolt torque")
    assert gap.gap is not None
    edited(chat, "12 ondrel front bracket bolt", gap, True)
    with sqlite3.connect(demo_shop.record) as record:
        states = record.execute("SELECT state FROM gap WHERE gap = ?", (gap.gap,)).fetchall()
    record.close()
    assert states == [("edited",)]


def test_what_goes_with_a_turn_goes_on_record_with_it_or_not_at_all(demo_shop: Home) -> None:
    class Refused(Exception):
        pass

    def refuse(turn: Turn) -> None:
        raise Refused

    with Conversation.open(demo_shop) as conversation:
        with pytest.raises(Refused):
            conversation.say("all or nothing", "tester", "12 ondrel head bolt torque", "m1", beside=refuse)
        assert conversation.record.seen("all or nothing", "m1") is None
        seen: list[Turn] = []
        first = conversation.say("all or nothing", "tester", "12 ondrel head bolt torque", "m1", beside=seen.append)
        again = conversation.say("all or nothing", "tester", "12 ondrel head bolt torque", "m1", beside=seen.append)
    assert [turn.fresh for turn in seen] == [True, False]
    assert (again.answer, again.gap) == (first.answer, first.gap)


def test_where_a_person_stands_goes_on_record(desk: Desk, demo_shop: Home) -> None:
    turn = say(desk.chat(), "12 ondrel head bolt torque", Manner(location=7))
    with sqlite3.connect(demo_shop.record) as record:
        answer = record.execute("SELECT location FROM answer WHERE answer = ?", (turn.answer,)).fetchall()
        gap = record.execute("SELECT location FROM gap WHERE gap = ?", (turn.gap,)).fetchall()
    record.close()
    assert (answer, gap) == ([(7,)], [(7,)])


def test_a_message_considered_again_has_its_outcome_and_leaves_no_trace(desk: Desk, demo_shop: Home) -> None:
    chat = desk.chat()
    chat.say("12 ondrel front bracket bolt")
    turn = chat.say("socket?")
    asked = chat.say("16 wendla lug nut torque and 12 ondrel")
    with sqlite3.connect(demo_shop.record) as record:
        before = record.execute("SELECT count(*) FROM answer").fetchone()
        again = desk.conversation.consider("socket?", turn.before)
        assert (again.outcome, again.reply) == (turn.outcome, turn.reply)
        assert desk.conversation.consider("12 ondrel head bolt torque", None).gap is None
        pressed = desk.conversation.consider(1, desk.conversation.record.chat_state(chat.name, NOW))
        assert record.execute("SELECT count(*) FROM answer").fetchone() == before
    record.close()
    assert pressed.outcome == chat.press(1).outcome != asked.outcome
