"""Where on the vehicle: axle, side, height and depth, stated, joined, contradicting, or not meant as a place at all."""

from __future__ import annotations

import pytest
from desk import NOW, Desk, brief, shown

from benchbot.conversation.past import Past
from benchbot.understanding.reading import Place


def place(desk: Desk, text: str) -> Place:
    reading = desk.conversation.read(f"2012 ondrel {text}", Past(), NOW)[0][0]
    return reading.asks[0].place if reading.asks else reading.place


FRONT, REAR = Place(axles=("front",)), Place(axles=("rear",))
BOTH = Place(axles=("front", "rear"), several=True)


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("front bracket bolt", FRONT),
        ("bracket bolt front", FRONT),
        ("frt bracket bolt", FRONT),
        ("f bracket bolt", FRONT),
        ("bracket bolt on the front axle", FRONT),
        ("rear bracket bolt", REAR),
        ("back bracket bolt", REAR),
        ("trasero bracket bolt", REAR),
        ("bracket bolt in the back", REAR),
        ("rf bracket bolt", Place(("front",), ("right",))),
        ("lr bracket bolt", Place(("rear",), ("left",))),
        ("rl bracket bolt", Place(("rear",), ("left",))),
        ("lf bracket bolt", Place(("front",), ("left",))),
        ("fl bracket bolt", Place(("front",), ("left",))),
        ("rr bracket bolt", REAR),
        ("RR bracket bolt", REAR),
        ("fr bracket bolt", FRONT),
        ("r/r rear bracket bolt", REAR),
        ("r&r front bracket bolt", FRONT),
        ("front left bracket bolt", Place(("front",), ("left",))),
        ("front driver side bracket bolt", Place(("front",), ("side",))),
        ("front upper bracket bolt", Place(("front",), heights=("upper",))),
        ("rear bottom shock bolt", Place(("rear",), heights=("lower",))),
        ("front inner pad min", Place(("front",), depths=("inner",))),
        ("front outboard pad min", Place(("front",), depths=("outer",))),
        ("bracket bolt", Place()),
        ("left bracket bolt", Place(sides=("left",))),
    ],
)
def test_one_place(desk: Desk, text: str, where: Place) -> None:
    assert place(desk, text) == where


@pytest.mark.parametrize("word", ["r", "r/r", "r r", "r&r", "r and r", "r/f", "r f", "l/r", "l r", "r/l"])
def test_letters_that_are_no_axle_to_everyone_ask_for_it(desk: Desk, word: str) -> None:
    """Remove and replace, rear and front, left and right: common practice, no source."""
    assert place(desk, f"{word} bracket bolt").axles == ()
    assert brief(desk.ask(f"2018 ondrel 2.0t {word} rotor min")) == "choose axle"


@pytest.mark.parametrize(("word", "ids"), [("rr", ["D0079"]), ("fr", ["D0061"]), ("rf", ["D0061"]), ("rl", ["D0079"])])
def test_letters_whose_readings_agree_on_the_axle_answer(desk: Desk, word: str, ids: list[str]) -> None:
    assert shown(desk.ask(f"2018 ondrel 2.0t {word} rotor min")) == ids


def test_the_side_is_asked_where_rows_tell_it_and_the_letters_do_not(sibling_desk: Desk) -> None:
    link = "sway bar link nut torque"
    assert shown(sibling_desk.ask(f"2016 hedrun rf {link}")) == ["HED-LNK-R"]
    assert shown(sibling_desk.ask(f"2016 hedrun fl {link}")) == ["HED-LNK-L"]
    for word in ("fr", "r front", "front r/r"):
        assert brief(sibling_desk.ask(f"2016 hedrun {word} {link}")) == "choose side"


def test_a_letter_answers_the_question_that_offers_it(desk: Desk, sibling_desk: Desk) -> None:
    """ "r" means rear where front or rear was asked, and right where left or right was."""
    assert [shown(desk.ask("2018 ondrel 2.0t rotor min", letter)) for letter in "fr"] == [["D0061"], ["D0079"]]
    link = "2016 hedrun front sway bar link nut torque"
    assert [shown(sibling_desk.ask(link, letter)) for letter in "lr"] == [["HED-LNK-L"], ["HED-LNK-R"]]


@pytest.mark.parametrize("word", ["fornt", "frnot", "frontt", "fronnt", "frnt"])
def test_an_axle_is_forgiven_swapped_doubled_and_dropped_letters(desk: Desk, word: str) -> None:
    assert place(desk, f"{word} bracket bolt") == FRONT


@pytest.mark.parametrize("word", ["fromt", "ftont", "frount", "reat", "teat"])
def test_an_axle_is_forgiven_no_other_letter(desk: Desk, word: str) -> None:
    assert place(desk, f"{word} bracket bolt").axles == ()
    assert shown(desk.ask(f"2012 ondrel {word} bracket bolt")) == []


@pytest.mark.parametrize(
    "text",
    [
        "front and rear rotor min",
        "rotor min front and rear",
        "frt & rear rotor min",
        "front/rear rotor min",
        "f/r rotor min",
        "front + rear rotor min",
        "rear and front rotor min",
        "front n rear rotor min",
    ],
)
def test_both_axles_where_they_are_joined(desk: Desk, text: str) -> None:
    found = place(desk, text)
    assert (set(found.axles), found.several) == ({"front", "rear"}, True)
    assert shown(desk.ask(f"2018 ondrel 2.0t {text}")) == ["D0061", "D0079"]


def test_two_axles_that_are_not_joined_contradict_each_other(desk: Desk) -> None:
    found = place(desk, "front rotor min rear")
    assert (set(found.axles), found.several) == ({"front", "rear"}, False)
    assert shown(desk.ask("2018 ondrel 2.0t front rotor min rear")) == []


@pytest.mark.parametrize(
    "text",
    [
        "get back to me, bracket bolt",
        "bracket bolt, back in the shop",
        "bracket bolt right?",
        "bracket bolt right now",
        "in front of the shop, bracket bolt",
    ],
)
def test_words_that_are_no_place(desk: Desk, text: str) -> None:
    found = place(desk, text)
    assert (found.axles, found.sides) == ((), ())


BEHIND = [
    "bracket bolts on the back of the knuckle",
    "caliper bracket bolts back of the caliper torque",
    "slide pin bolts back of the caliper",
]


@pytest.mark.parametrize("text", BEHIND)
def test_the_back_of_a_part_is_no_axle(desk: Desk, text: str) -> None:
    """The bolts that are reached from behind the knuckle sit on the front axle, too; the axle is unsaid."""
    assert shown(desk.ask(f"2018 ondrel 2.0t {text}")) == []


@pytest.mark.parametrize("text", ["f & r rotor min", "f+r rotor min"])
def test_front_and_rear_in_single_letters(desk: Desk, text: str) -> None:
    assert shown(desk.ask(f"2018 ondrel 2.0t {text}")) in (["D0061", "D0079"], [])


@pytest.mark.xfail(strict=True, reason="words that only look like a place pick a row by it")
@pytest.mark.parametrize(
    "text",
    [
        "front link nut only one left to do torque",
        "front sway bar link nut driver left it loose torque",
        "rear shock bolt from the bottom up torque",
        "lower the truck, rear shock bolt torque",
    ],
)
def test_words_that_look_like_a_place_pick_no_row(sibling_desk: Desk, text: str) -> None:
    assert shown(sibling_desk.ask(f"2016 hedrun {text}")) == []


def test_right_before_a_property_is_no_side(sibling_desk: Desk) -> None:
    assert shown(sibling_desk.ask("2016 hedrun front sway bar link nut right torque?")) == []
