"""Questions about the work find their step, and the step shows the book's value under all the rules of an answer."""

from __future__ import annotations

import json
import sqlite3

import pytest
from desk import NOW, Chat, Desk, brief, labels

from benchbot.conversation.manner import Manner
from benchbot.outcomes import Answer, Choose, Gap, Procedure
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.records import step_overrides

BRACKET = "how do the front bracket bolts go back"


def step_of(chat: Chat, *texts: str) -> Procedure:
    """What the last of these texts comes to, which must be a step."""
    outcome = [chat.say(text) for text in texts][-1].outcome
    assert isinstance(outcome, Procedure), outcome
    return outcome


def specs(step: Procedure) -> list[str]:
    return [finding.row.spec for finding in step.findings]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("front pistons wont go back", "disc-brake-front/push-pistons-back"),
        ("do the slide pins get grease", "common/grease-slide-pins"),
        ("boot on the slide pin torn, ok?", "common/check-slide-pin-boots"),
        ("what goes on the hub face", "common/clean-hub-face"),
        ("which way does the wear tab go", "common/wear-tab-and-place"),
        ("bleed order", "common/bleed-order"),
        ("pads tight in the bracket", "common/pads-move-freely"),
        ("16 ondrel 4wd pads tight in the bracket", "common/pads-move-freely"),
        ("which shoe goes to the front", "drum-brake/fit-shoes"),
        ("how do i release the parkbrake on the drums", "drum-brake/release-parking-brake"),
    ],
)
def test_the_step_is_found(desk: Desk, text: str, key: str) -> None:
    assert step_of(desk.chat(), text).step.key == key


@pytest.mark.parametrize(
    ("text", "comes_to"),
    [
        ("12 ondrel front bracket bolt torque", "answer D0001"),
        ("12 ondrel front bracket bolt", "answer D0001"),
        ("18 ondrel 1.6 front bracket bolt torque when new", "answer D0045"),
        ("12 ondrel bracket bolt torque", "choose axle"),
        ("12 ondrel head bolts", "gap component not held"),
        ("108 nm to ft lbs", "calculation"),
        ("thanks", "other small talk"),
    ],
)
def test_no_other_question_is_swallowed(desk: Desk, text: str, comes_to: str) -> None:
    assert brief(desk.ask(text)) == comes_to


def test_where_it_differs_it_is_asked_and_the_choice_gives_the_step(desk: Desk) -> None:
    chat = desk.chat()
    asked = chat.say("how do i push the pistons back on a 12 ondrel")
    assert isinstance(asked.outcome, Choose) and asked.outcome.about == "step"
    assert labels(asked)[0] == "Front disc brake service" and len(labels(asked)) == 4
    assert not any(option.specs for option in asked.outcome.options)
    step = chat.press(1).outcome
    assert isinstance(step, Procedure) and step.step.key == "disc-brake-front/push-pistons-back"
    # the vehicle that was said with it is on the lift
    assert brief(chat.say("front bracket bolt torque")) == "answer D0001"


def test_the_value_of_the_vehicle_on_the_lift_stands_with_its_whole_answer_and_on_record(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel")
    turn = chat.say(BRACKET)
    assert isinstance(turn.outcome, Procedure) and specs(turn.outcome) == ["D0001"]
    text = turn.reply.text()
    for part in ("50 lb-ft = 68 N·m (converted)", "2012 Brackwell Ondrel, FRONT", "checked by demo second lead"):
        assert part in text
    assert turn.reply.outcome == "procedure" and turn.reply.specs == ("D0001",) and turn.gap is None
    record = sqlite3.connect(desk.home.record)
    shown = record.execute("SELECT spec, revision FROM answer_spec WHERE answer = ?", (turn.answer,)).fetchall()
    kind, reading = record.execute("SELECT outcome, reading FROM answer WHERE answer = ?", (turn.answer,)).fetchone()
    record.close()
    assert shown == [("D0001", 1)] and kind == "procedure"
    # from which a recall tells which model year it was shown for
    assert json.loads(reading)["years"] == [2012]


def test_without_a_vehicle_it_says_how_to_ask(desk: Desk) -> None:
    turn = desk.ask(BRACKET)
    assert isinstance(turn.outcome, Procedure) and [one.found for one in turn.outcome.pulled] == [None]
    assert "say year, make and model, then ask “front caliper bracket bolt torque”" in turn.reply.text()
    assert turn.gap is None and not turn.reply.specs


@pytest.mark.parametrize("vehicle", ["18 ondrel", "ondrel 1.6"])
def test_something_open_is_not_guessed(desk: Desk, vehicle: str) -> None:
    step = step_of(desk.chat(), vehicle, BRACKET)
    assert isinstance(step.pulled[0].found, Choose) and not specs(step)
    said = desk.ask(vehicle, BRACKET).reply.text()
    assert "more decides it than you said. Ask “front caliper bracket bolt torque”" in said


def test_the_axle_is_no_part_of_a_step_that_both_have(desk: Desk) -> None:
    step = step_of(desk.chat(), "12 ondrel", "how do i put the bracket back on")
    assert isinstance(step.pulled[0].found, Choose) and step.pulled[0].found.about == "axle"


def test_what_is_not_held_is_said_and_logged_like_the_plain_question(desk: Desk) -> None:
    turn = desk.ask("18 ondrel 2.0t", BRACKET)
    assert isinstance(turn.outcome, Procedure) and isinstance(turn.outcome.pulled[0].found, Gap)
    assert "do not guess one" in turn.reply.text() and f"Logged as no. {turn.gap}" in turn.reply.text()
    plain = desk.ask("18 ondrel 2.0t front bracket bolt torque")
    record = sqlite3.connect(desk.home.record)
    of = "SELECT identity FROM meaning JOIN gap_part USING (meaning) WHERE gap = ?"
    same = [record.execute(of, (gap,)).fetchall() for gap in (turn.gap, plain.gap)]
    record.close()
    assert same[0] == same[1] != []


@pytest.mark.parametrize("text", ["next car, " + BRACKET, BRACKET + " on the zorbit"])
def test_another_vehicle_that_nobody_knows_never_gets_the_value_of_the_one_on_the_lift(desk: Desk, text: str) -> None:
    turn = desk.ask("12 ondrel", text)
    assert not turn.reply.specs, turn.reply.text()


def test_a_choice_after_a_name_that_nobody_knows_shows_no_value_either(desk: Desk) -> None:
    chat = desk.chat()
    chat.say("12 ondrel")
    chat.say("zorbit pistons wont go back")
    chat.press(1)
    seen = []
    for _ in range(30):
        turn = chat.say("next step")
        assert isinstance(turn.outcome, Procedure) and not turn.reply.specs
        seen.append(turn.outcome.step.key)
    assert "common/fit-bracket" in seen


def test_a_doubted_vehicle_is_not_taken_for_granted(desk: Desk) -> None:
    again = Manner(asks_again=True)
    chat = desk.chat()
    for text in ("12 ondrel lug nut torque", "16 wendla lug nut torque"):
        desk.conversation.say(chat.name, "tester", text, None, again)
    turn = desk.conversation.say(chat.name, "tester", BRACKET, None, again)
    assert isinstance(turn.outcome, Procedure) and not turn.reply.specs


def test_the_next_step_and_the_whole_list(desk: Desk) -> None:
    chat = desk.chat()
    first = step_of(chat, "12 ondrel", "front pistons wont go back")
    assert [option.label for option in first.options] == ["Next step", "Whole list"] and first.number > 0
    following = step_of(chat, "next step")
    assert (following.number, following.of) == (first.number + 1, first.of)
    listed = step_of(chat, "whole list")
    assert len(listed.listed) == first.of and listed.listed[first.number - 1] == first.step.title
    assert not listed.pulled
    step = following
    while step.number < step.of:
        step = step_of(chat, "next step")
    assert [option.label for option in step.options] == ["Whole list"]


def test_the_shops_own_word_is_labelled_and_of_its_place_only(desk: Desk) -> None:
    record = desk.conversation.record
    place = People(record).add_location("Steps bay", "olga", NOW)
    assert isinstance(place, Location)
    here = Manner(location=place.number)
    step_overrides.put(
        record, place.number, "disc-brake-front", "common/fit-bracket", "Blue pen, both bolts.", "olga", NOW
    )
    said = desk.conversation.say(desk.chat().name, "tester", BRACKET, None, here).reply.text()
    assert "Your shop says: Blue pen, both bolts." in said and "Threads clean and dry" in said
    open_ = desk.conversation.say(desk.chat().name, "tester", "put the bracket back on", None, here).reply.text()
    assert "Your shop says: Front disc brake service: Blue pen, both bolts." in open_
    elsewhere = desk.conversation.say(
        desk.chat().name, "tester", BRACKET, None, Manner(location=place.number + 1)
    ).reply.text()
    assert "Your shop says" not in elsewhere + desk.ask(BRACKET).reply.text()


def test_what_stops_the_work_is_read_first(desk: Desk) -> None:
    lines = desk.ask("front pistons wont go back").reply.text().splitlines()
    assert lines[0].startswith("STOP if: ") and lines.index("Push the pistons back") > 0
    assert any(line.startswith("Because: ") for line in lines) and any(line.startswith("  Then: ") for line in lines)


def test_where_nothing_is_asked_so_likely_steps_are_offered_and_none_is_taken(desk: Desk) -> None:
    turn = desk.ask("rotr stuck hub")
    assert isinstance(turn.outcome, Choose) and turn.outcome.about == "likely step"
    assert {"Take the hub off", "Take the rotor off"} <= set(labels(turn))
    assert turn.reply.text().startswith("I am not sure which step you mean.")
    assert desk.ask("squirts pudding out of the oven when i sing").reply.outcome != "choose"


def test_steps_that_are_nearly_as_likely_stand_below(desk: Desk) -> None:
    chat = desk.chat()
    turn = chat.say("clean the drum before it goes on")
    assert isinstance(turn.outcome, Procedure)
    labels = [choice.label for choice in turn.reply.choices]
    others = [step for step in desk.conversation.book.procedures().steps.values() if f"Or: {step.title}" in labels]
    assert others and labels[0].startswith("Or: ")
    chosen = chat.say("1").outcome
    assert isinstance(chosen, Procedure) and f"Or: {chosen.step.title}" == labels[0]


def test_seen_again_it_is_the_same(desk: Desk) -> None:
    turn = desk.ask("12 ondrel", BRACKET)
    again = desk.conversation.consider(BRACKET, turn.before)
    assert again.outcome == turn.outcome and isinstance(turn.outcome.pulled[0].found, Answer)  # type: ignore[union-attr]
