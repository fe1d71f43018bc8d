"""A corpus of messages and the slots each must be read into, and messages known to be missed, which must still miss."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from desk import NOW, Desk, brief, shown

from benchbot.conversation.past import Past
from benchbot.outcomes import Answer
from benchbot.understanding.reading import Place, Reading

HERE = Path(__file__).resolve().parent
Plain = dict[str, Any]


def lines(name: str) -> list[Plain]:
    return [json.loads(line) for line in (HERE / name).read_text(encoding="utf-8").splitlines()]


GOLDEN = lines("readings.jsonl")
MISSES = lines("known_misses.jsonl")


def place_text(place: Place) -> str:
    words = " ".join((*place.axles, *place.heights, *place.depths, *place.sides))
    return f"{words} each" if place.several else words


def slots(desk: Desk, text: str) -> Plain:
    """Whatever the best reading of the message fills; empty slots are left out."""
    readings, _ = desk.conversation.read(text, Past(), NOW)
    reading: Reading = readings[0]
    models = [desk.conversation.book.vehicle(one).model for one in reading.vehicle.ids]
    asks = [
        {
            "components": list(ask.components),
            "figures": list(ask.properties),
            "vague": ask.vague,
            "place": place_text(ask.place),
        }
        for ask in reading.asks
    ]
    state = reading.vehicle.state
    found: Plain = {
        "say": text,
        "kind": reading.kind if reading.kind != "question" else "",
        "vehicle": models[0] if len(models) == 1 else models,
        "vehicle state": state if state not in ("named", "none") else "",
        "years": list(reading.years),
        "stated": {one.key: one.value for one in reading.stated},
        "excluded": {one.key: one.value for one in reading.excluded},
        "asks": [{name: value for name, value in ask.items() if value} for ask in asks],
        "figures": [] if asks else list(reading.properties),
        "place": "" if asks else place_text(reading.place),
        "unit": reading.unit,
        "left over": list(reading.left_over),
        "unknown part": reading.unknown_part,
        "said": list(reading.said_values),
    }
    return {name: value for name, value in found.items() if value}


@pytest.mark.parametrize("golden", GOLDEN, ids=[golden["say"] for golden in GOLDEN])
def test_a_message_is_read_into_its_slots(desk: Desk, golden: Plain) -> None:
    assert slots(desk, golden["say"]) == golden


@pytest.mark.parametrize("golden", GOLDEN, ids=[golden["say"] for golden in GOLDEN])
def test_every_word_of_it_has_a_role(desk: Desk, golden: Plain) -> None:
    readings, _ = desk.conversation.read(golden["say"], Past(), NOW)
    noted = "".join(note.word for note in readings[0].notes).casefold().replace(" ", "")
    said = "".join(golden["say"].casefold().split())
    letters = [letter for letter in said if letter.isalnum()]
    assert sorted(letter for letter in noted if letter.isalnum()) == sorted(letters)
    left = [note.word for note in readings[0].notes if note.role == "left over"]
    assert " ".join(left) == " ".join([*readings[0].left_over, *filter(None, [readings[0].unknown_part])])


def test_an_answer_shows_only_what_was_read(desk: Desk) -> None:
    """Over the corpus: the vehicle, year, part, figure and axle of every value shown are those of the slots."""
    answered = 0
    for golden in GOLDEN:
        turn = desk.ask(golden["say"])
        for finding in turn.outcome.findings if isinstance(turn.outcome, Answer) else ():
            row, (year,) = finding.row, golden["years"]
            answered += 1
            assert finding.subject.model == golden["vehicle"], golden
            assert row.year_from <= year <= row.year_to, golden
            asks = [ask for ask in golden["asks"] if row.component in ask["components"]]
            assert any(row.property in ask.get("figures", ()) for ask in asks), golden
            axle = row.position.split(" ")[0]
            assert not axle or any(axle in ask.get("place", "") for ask in asks), golden
            assert "left over" not in golden
    assert answered > 60


def test_the_corpus_is_large_and_says_nothing_twice() -> None:
    said = [golden["say"] for golden in GOLDEN]
    assert len(set(said)) == len(said) >= 150


@pytest.mark.parametrize("miss", MISSES, ids=[miss["say"] for miss in MISSES])
def test_a_known_miss_still_misses(desk: Desk, miss: Plain) -> None:
    """When one of these is understood at last, it moves to the corpus: what a person would want is told beside it."""
    turn = desk.ask(*miss.get("after", ()), miss["say"])
    assert brief(turn) == miss["comes"]
    assert not set(miss["wanted"]) <= set(shown(turn))


@pytest.mark.parametrize("miss", MISSES, ids=[miss["say"] for miss in MISSES])
def test_what_a_known_miss_wants_is_in_the_book(desk: Desk, miss: Plain) -> None:
    assert miss["wanted"]
    book = desk.conversation.book
    vehicle = book.find_vehicle(*miss["vehicle"])
    assert vehicle is not None
    assert set(miss["wanted"]) <= {row.spec for row in book.specs_of((vehicle,), NOW.date())}
