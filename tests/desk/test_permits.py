"""Whatever a member does at the desk is allowed by the table of rights, or not done."""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

import pytest
from bay import Bay, Message, Phone

from benchbot.desk.permits import action_of_press
from benchbot.desk.wording import ENGLISH
from benchbot.people import rights
from benchbot.people.rights import NOT_DONE_HERE, RIGHTS, Action

QUESTION = "12 ondrel frt cal brkt bolt tq"
CHOICE = "12 ondrel bracket bolt torque"
Act = Callable[[Phone], object]


def _doubted(phone: Phone) -> None:
    phone.say(QUESTION)
    phone.press("Not right?")


def _first_that(phone: Phone, label: str) -> Message:
    return next(one for one in phone.shown if label in one.labels)


# The action, what has to be there before, and what is done.
DONE: dict[str, tuple[Action, Act | None, Act]] = {
    "a question": ("ask", None, lambda phone: phone.say(QUESTION)),
    "a question behind a command": ("ask", None, lambda phone: phone.say(f"/ask {QUESTION}")),
    "a change": ("ask", lambda phone: phone.say(QUESTION, message="m1"), lambda phone: phone.change("m1", CHOICE)),
    "a choice": ("ask", lambda phone: phone.say(CHOICE), lambda phone: phone.press("front")),
    "another view": ("ask", lambda phone: phone.say(QUESTION), lambda phone: phone.press("More")),
    "a picture": ("ask", None, lambda phone: phone.send("media", kind="photo")),
    "a mark": ("say what is not right", lambda phone: phone.say(QUESTION), lambda phone: phone.press("Not right?")),
    "words to a mark": ("say what is not right", _doubted, lambda phone: phone.say("the value looks high")),
    "no words": ("say what is not right", _doubted, lambda phone: phone.press("No words")),
    "the lift": ("set vehicle", None, lambda phone: phone.say("/vehicle")),
    "a vehicle": ("set vehicle", None, lambda phone: phone.say("/vehicle 12 ondrel")),
    "an empty lift": (
        "set vehicle",
        lambda phone: (phone.say("12 ondrel"), phone.say("/vehicle")),
        lambda phone: phone.press("Clear"),
    ),
    "where one stands": ("choose location", None, lambda phone: phone.say("/location")),
    "another place": (
        "choose location",
        lambda phone: phone.say("/location"),
        lambda phone: phone.press("South", on=_first_that(phone, "South")),
    ),
    "help": ("see help", None, lambda phone: phone.say("/help")),
    "a greeting": ("see help", None, lambda phone: phone.say("/start")),
    "an unknown command": ("see help", None, lambda phone: phone.say("/nonsense")),
    "locations": ("see members", None, lambda phone: phone.say("/locations")),
    "members": ("see members", None, lambda phone: phone.say("/people")),
    "jobs": ("job", None, lambda phone: phone.say("/job")),
    "a new job": (
        "job",
        lambda phone: phone.say("/job 12 ondrel"),
        lambda phone: phone.press("Front disc brake service"),
    ),
    "the shop's words": (
        "override step",
        lambda phone: phone.say("/job"),
        lambda phone: phone.press("The shop's words", on=_first_that(phone, "Begin a job")),
    ),
    "back": (
        "see members",
        lambda phone: (phone.say("/locations"), phone.press("North")),
        lambda phone: phone.press("Back"),
    ),
}


@pytest.fixture
def olga(bay: Bay) -> Phone:
    north, south = bay.location("North"), bay.location("South")
    phone = bay.phone("Olga", owner=north)
    bay.let_in(phone, south, "owner")
    bay.people.stand(phone.person, north.number)
    return phone


def shown(phone: Phone) -> list[tuple[str, int]]:
    return [(one.text, one.changes) for one in phone.shown]


@pytest.mark.parametrize(("action", "before", "act"), DONE.values(), ids=list(DONE))
def test_what_the_table_does_not_hold_is_not_done(
    bay: Bay, olga: Phone, monkeypatch: pytest.MonkeyPatch, action: Action, before: Act | None, act: Act
) -> None:
    if before is not None:
        before(olga)
    found, notices = shown(olga), len(bay.notices)
    answers = bay.record.rows("SELECT count(*) FROM answer", {})
    with monkeypatch.context() as patch:
        patch.setattr(rights, "RIGHTS", {one: right for one, right in RIGHTS.items() if one != action})
        act(olga)
    told = [text for text, _ in shown(olga)[len(found) :]] + [one.text for one in bay.notices[notices:]]
    assert set(told) <= {NOT_DONE_HERE}, told
    assert shown(olga)[: len(found)] == found, "nothing that was there has changed"
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == answers
    act(olga)
    assert (shown(olga)[: len(found)], len(shown(olga))) != (found, len(found) + len(told))


def test_an_owner_sees_to_their_place_while_they_stand_at_another(bay: Bay) -> None:
    north, south = bay.location("North"), bay.location("South")
    olga = bay.phone("Olga", technician=north)
    bay.let_in(olga, south, "owner")
    bay.people.stand(olga.person, north.number)
    page = olga.say("/locations")
    assert page.labels == ["South", "Add a location"]
    assert olga.press("South", on=page).text.startswith("South")


def test_inline_offers_and_notes_nothing_without_the_right_to_ask(
    bay: Bay, olga: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(rights, "RIGHTS", {})
    for what in ("inline", "chosen"):
        olga.send(what, QUESTION, chat="", private=False, query="q")
    assert [one.offers for one in bay.offers] == [()]
    assert bay.record.rows("SELECT count(*) FROM answer", {}) == [(0,)]


def test_an_unsure_message_is_not_shown_without_the_right_to_ask(
    bay: Bay, olga: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = olga.say("thanks")
    monkeypatch.setattr(rights, "RIGHTS", {})
    olga.send("press", "0:again.1", message=line.id, query="q")
    assert olga.notice == NOT_DONE_HERE != ENGLISH.again_gone


def test_a_press_on_whatever_card_is_an_action_of_the_table() -> None:
    for kind in ("question", "answer", "said", "lift", "standing", "page", "job", "note", "album", "late", ""):
        assert action_of_press(kind, "x") in get_args(Action)
