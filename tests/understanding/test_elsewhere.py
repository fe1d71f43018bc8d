"""What is said of another vehicle in the same message is never taken for the one asked about."""

from __future__ import annotations

import pytest
from desk import NOW, Desk, brief, shown

from benchbot.conversation.past import Past

# {} = an axle package, engine or build date that another vehicle has
OF_ANOTHER = [
    "{} next to it",
    "a {} beside it",
    "next to a {}",
    "the {} on the lift beside",
    "the {} in the next bay",
    "the {} on the other lift",
    "the other one is a {}",
    "the other one, the {}",
    "other truck is a {}",
    "his is the {}",
    "last week's was a {}",
    "yesterdays was the {}",
    "the {} is not mine",
    "the {}, not this one",
    "last week we did a {}",
]
CASES = [
    ("16 thresher 2750 lug nuts", "dually", "srw", "choose qualifier axle", "D0661"),
    ("16 thresher 2750 lug nuts", "dualy", "srw", "choose qualifier axle", "D0661"),
    ("18 ondrel front slide pin bolt", "1.6", "2.0t", "choose qualifier engine", "D0059"),
    ("18 ondrel front slide pin bolt", "2.0 turbo", "1.6", "choose qualifier engine", "D0047"),
    ("16 thresher 1750 front bracket bolt", "2wd", "4wd", "choose qualifier drive", "D0450"),
]


@pytest.mark.parametrize("other", OF_ANOTHER)
@pytest.mark.parametrize(("question", "theirs", "own", "asks", "spec"), CASES)
def test_the_qualifier_of_another_vehicle_is_asked_or_ignored(
    desk: Desk, other: str, question: str, theirs: str, own: str, asks: str, spec: str
) -> None:
    """Unstated of the own vehicle it is asked; stated of both, the own one's holds."""
    aside = other.format(theirs)
    assert brief(desk.ask(f"{question}, {aside}")) == asks
    assert brief(desk.ask(f"{aside}, {question}")).startswith(("choose", "other"))
    assert shown(desk.ask(f"{question} {own}, {aside}")) in ([spec], [])
    assert shown(desk.ask(f"{question} {aside}")) == []


@pytest.mark.parametrize(
    "text",
    [
        "18 ondrel front slide pin bolt, mine is the 2.0t, the other one is the 1.6",
        "18 ondrel front slide pin bolt, the other one is the 1.6, mine is the 2.0t",
        "18 ondrel front slide pin bolt, his is the 1.6 mine the 2.0t",
        "18 ondrel 2.0t front slide pin bolt, next to a 1.6",
        "front slide pin bolt on my 2.0t 18 ondrel, 1.6 next to it",
        "front slide pin bolt on his 18 ondrel 2.0t",
        "front slide pin bolt on his 2.0t 18 ondrel",
    ],
)
def test_the_own_vehicle_keeps_its_own(desk: Desk, text: str) -> None:
    assert shown(desk.ask(text)) == ["D0059"]


def test_both_of_two_are_not_one(desk: Desk) -> None:
    text = "18 ondrel front slide pin bolt for both, mine is the 2.0t, other one is the 1.6"
    assert brief(desk.ask(text)) == "choose qualifier engine"


def test_the_year_of_another_vehicle_is_not_the_model_year(desk: Desk) -> None:
    assert shown(desk.ask("12 ondrel front bracket bolt torque, 2018 next to it")) == ["D0001"]
    assert brief(desk.ask("ondrel front bracket bolt torque, the 2012 next to it")) == "choose year"


def test_the_build_date_of_another_vehicle_is_asked(desk: Desk) -> None:
    assert brief(desk.ask("18 larkin front bracket bolt, his was built 2016-05")) == "choose qualifier build"


def test_the_axle_done_on_another_vehicle_is_asked(desk: Desk) -> None:
    text = "18 ondrel 2.0t slide pin bolt torque, did the rear on the other lift"
    assert brief(desk.ask(text)) == "choose axle"
    assert brief(desk.ask("18 ondrel 2.0t front slide pin bolt", text.partition("2.0t ")[2])) == "choose axle"


@pytest.mark.parametrize(
    "text", ["lug nuts on the dually next to it", "lug nuts on the one beside it", "lug nut torque in the next bay"]
)
def test_a_question_about_the_vehicle_beside_asks_which(desk: Desk, text: str) -> None:
    """The vehicle of the chat is not the one pointed at."""
    assert brief(desk.ask("16 thresher 2750 srw lug nuts", text)) == "choose vehicle"


def test_what_the_chat_knows_does_not_stand_in_for_what_was_said_of_another(desk: Desk) -> None:
    texts = ("18 ondrel 2.0t front slide pin bolt", "front bracket bolt socket, the 1.6 next to it waits")
    assert brief(desk.ask(*texts)) == "choose qualifier engine"


def test_a_bolt_beside_another_is_of_the_same_vehicle(desk: Desk) -> None:
    texts = ("18 ondrel 2.0t front slide pin bolt", "front bracket bolt socket and the one next to it")
    assert shown(desk.ask(*texts)) == ["D0058"]


def test_the_words_say_why_they_were_left_out(desk: Desk) -> None:
    readings, _ = desk.conversation.read("16 thresher 2750 lug nuts, dually next to it", Past(), NOW)
    notes = {note.word: (note.role, note.read_as) for note in readings[0].notes}
    assert notes["dually"] == ("noise", "said not to be so: dually")
    assert notes["next"] == ("noise", "a idiom")
