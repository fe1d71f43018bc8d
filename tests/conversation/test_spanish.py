"""A chat at a place that speaks Spanish: replies, choices shown in Spanish and typed in either language."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator

import pytest
from desk import NOW, Chat, Desk, brief, labels, published, shown

from benchbot.conversation.conversation import Turn
from benchbot.conversation.manner import PLAIN, Manner
from benchbot.conversation.past import Past
from benchbot.conversation.typed_choices import typed_choice
from benchbot.outcomes import Answer

SPANISH = Manner(language="es")
AXLE = "12 ondrel bracket bolt torque"
BOLT = "12 ondrel front caliper bolt torque"
ROTOR = "12 ondrel front rotor"


def say(chat: Chat, text: str, manner: Manner = SPANISH) -> Turn:
    return chat.conversation.say(chat.name, "tester", text, None, manner)


def seen(turn: Turn) -> list[str]:
    return [choice.label for choice in turn.reply.choices]


def remembered(desk: Desk, chat: Chat) -> Past:
    stored = desk.conversation.record.chat_state(chat.name, NOW)
    assert stored is not None
    return Past.from_text(stored)


@pytest.mark.parametrize(
    ("text", "first_line"),
    [
        ("12 ondrel frt cal brkt bolt tq", "50 lb-ft = 68 N·m (convertido)"),
        ("12 ondrel tornillo del soporte del caliper delantero", "50 lb-ft = 68 N·m (convertido)"),
        (AXLE, "¿Adelante o atrás?"),
        ("front bracket bolt torque", "¿Qué vehículo? Diga año, marca y modelo."),
        ("12 ondrel", "2012 Brackwell Ondrel: ¿qué dato necesita?"),
        ("108 nm to lb-ft", "108 N·m = 79.7 lb-ft"),
    ],
)
def test_replies_are_in_the_language_of_the_place(desk: Desk, text: str, first_line: str) -> None:
    assert say(desk.chat(), text).reply.text().splitlines()[0] == first_line
    assert desk.conversation.consider(text, None, SPANISH).reply.text().splitlines()[0] == first_line


def test_a_gap_is_told_in_spanish_and_logged_as_ever(desk: Desk) -> None:
    turn = say(desk.chat(), "12 ondrel head bolt torque")
    assert turn.reply.text().startswith("No está en nuestro libro: 2012 Brackwell Ondrel")
    assert f"Anotado con el núm. {turn.gap}" in turn.reply.text()


def test_the_choices_are_shown_in_spanish_and_stay_what_they_are(desk: Desk) -> None:
    chat = desk.chat()
    turn = say(chat, AXLE)
    assert (seen(turn), labels(turn)) == (["adelante", "atrás"], ["front", "rear"])
    past = remembered(desk, chat)
    assert (past.labels, past.shown) == (("front", "rear"), ("adelante", "atrás"))
    assert shown(desk.conversation.press(chat.name, "tester", 1, SPANISH)) == ["D0001"]


@pytest.mark.parametrize(
    ("asked", "typed", "outcome"),
    [
        (AXLE, "adelante", "answer D0001"),
        (AXLE, "Adelante.", "answer D0001"),
        (AXLE, "el de adelante", "answer D0001"),
        (AXLE, "delantero", "answer D0001"),
        (AXLE, "front", "answer D0001"),
        (AXLE, "frt", "answer D0001"),
        (AXLE, "1", "answer D0001"),
        (AXLE, "atrás", "gap position not held"),
        (AXLE, "atras", "gap position not held"),
        (AXLE, "rear", "gap position not held"),
        (BOLT, "caliper slide pin bolt (tornillo del perno guía del caliper)", "answer D0003"),
        (BOLT, "tornillo del perno guia del caliper", "answer D0003"),
        (BOLT, "caliper slide pin bolt", "answer D0003"),
        (BOLT, "perno guía", "answer D0003"),
        (BOLT, "slide pin", "answer D0003"),
        (BOLT, "el del soporte", "answer D0001"),
        (ROTOR, "espesor mínimo", "answer D0005"),
        (ROTOR, "minimum thickness", "answer D0005"),
        (ROTOR, "mínimo", "answer D0005"),
        ("12 ondrel zugbar front bracket bolt torque", "no tomar en cuenta “zugbar”", "answer D0001"),
        ("12 ondrel zugbar front bracket bolt torque", "leave out “zugbar”", "answer D0001"),
        ("18 ondrel front bracket bolt socket", "2.0T", "answer D0058"),
        ("18 ondrel front bracket bolt socket", "el 2.0T", "answer D0058"),
        ("18 ondrel front bracket bolt socket", "el de 2.0", "choose qualifier engine"),
        ("quillane lug torque 2014", "Quillane 72", "answer D0347"),
        ("quillane lug torque 2014", "la 72", "answer D0347"),
        ("18 ferryman drw front bracket bolt", "arriba", "answer D0695"),
        ("18 ferryman drw front bracket bolt", "upper", "answer D0695"),
    ],
)
def test_a_choice_is_typed_in_either_language(desk: Desk, asked: str, typed: str, outcome: str) -> None:
    chat = desk.chat()
    assert brief(say(chat, asked)).startswith("choose")
    assert brief(say(chat, typed)) == outcome


def test_every_label_that_is_shown_can_be_typed(desk: Desk) -> None:
    for asked in (AXLE, BOLT, ROTOR, "ondrel bracket bolt torque", "quillane lug torque 2014", "80 lbs to nm"):
        chat = desk.chat()
        turn = say(chat, asked)
        past = remembered(desk, chat)
        assert len(seen(turn)) > 1, asked
        for number, (label, english) in enumerate(zip(seen(turn), labels(turn), strict=True), 1):
            assert (typed_choice(label, past), typed_choice(english, past)) == (number, number)


@pytest.mark.parametrize("typed", ["", ".", " ¡! ", ")", "(", "0", "3", "otro"])
def test_what_names_no_choice_takes_none(desk: Desk, typed: str) -> None:
    for asked in (AXLE, BOLT):
        chat = desk.chat()
        say(chat, asked)
        assert typed_choice(typed, remembered(desk, chat)) is None


def test_a_part_without_a_name_of_its_own_is_not_taken_by_silence() -> None:
    states = ({"component": "lifter guide bolt"}, {"component": "brake pad"})
    past = Past(choices=states, labels=("lifter guide bolt", "brake pad"), shown=("lifter guide bolt", "brake pad (x)"))
    assert [typed_choice(text, past) for text in ("", "x", "lifter guide bolt")] == [None, 2, 1]


def test_a_text_that_would_take_two_choices_takes_none() -> None:
    past = Past(choices=({"axle": "front"}, {"axle": "rear"}), labels=("front", "rear"), shown=("rear", "front"))
    assert typed_choice("rear", past) is None
    assert typed_choice("2", past) == 2


def test_the_language_may_change_between_question_and_choice(desk: Desk) -> None:
    chat = desk.chat()
    say(chat, AXLE)
    assert say(chat, "adelante", PLAIN).reply.text().startswith("50 lb-ft = 68 N·m (converted)")
    say(chat, AXLE, PLAIN)
    assert remembered(desk, chat).shown == ()
    assert say(chat, "front").reply.text().startswith("50 lb-ft = 68 N·m (convertido)")


def test_small_talk_leaves_the_spanish_choices_pending(desk: Desk) -> None:
    chat = desk.chat()
    say(chat, AXLE)
    assert brief(say(chat, "gracias")) == "other small talk"
    assert shown(say(chat, "adelante")) == ["D0001"]


def test_the_unit_of_a_sum_is_asked_and_the_question_before_it_is_over(desk: Desk) -> None:
    chat = desk.chat()
    say(chat, AXLE)
    turn = say(chat, "80 lbs to nm")
    assert turn.reply.text().splitlines()[0] == "¿Qué unidad quiere decir con “lbs”?"
    assert seen(turn) == list(remembered(desk, chat).shown)
    assert "Calculado" in say(chat, "lb-ft").reply.text()


def test_a_memory_from_before_replies_had_languages_still_loads(desk: Desk) -> None:
    chat = desk.chat()
    chat.say(AXLE)
    stored = desk.conversation.record.chat_state(chat.name, NOW)
    assert stored is not None
    plain = json.loads(stored)
    del plain["shown"]
    past = Past.from_text(json.dumps(plain))
    assert (past.shown, past) == ((), Past.from_text(stored))
    again = desk.conversation.consider("front", json.dumps(plain), SPANISH)
    assert shown(again) == ["D0001"]


def test_memory_with_shown_labels_is_read_back_as_it_was(desk: Desk) -> None:
    chat = desk.chat()
    say(chat, BOLT)
    past = remembered(desk, chat)
    assert past.shown
    assert Past.from_text(past.to_text()) == past


QUESTIONS = (
    "12 ondrel frt cal brkt bolt tq",
    "12 ondrel front bracket bolt torque and socket",
    "12 ondrel front rotor min",
    "12 ondrel oil capacity",
    "18 ferryman drw front bracket bolt upper in nm",
    "12 ondrel lug torque and head bolt torque",
    "16 wendla front bracket bolt",
)


@pytest.mark.parametrize("text", QUESTIONS)
def test_values_and_units_are_the_same_in_both_languages(desk: Desk, text: str) -> None:
    english, spanish = say(desk.chat(), text, PLAIN), say(desk.chat(), text)
    assert shown(english) == shown(spanish)
    assert brief(english) == brief(spanish)
    if isinstance(english.outcome, Answer):
        assert figures(english) == figures(spanish) != []
    assert english.reply.text() != spanish.reply.text()


def figures(turn: Turn) -> list[str]:
    """The value lines and what stands behind "more", without the words that a language has for "converted"."""
    blocks = [block for block in (*turn.reply.blocks, *turn.reply.more) if block.kind in ("value", "converted")]
    other = re.compile(r"\((?:converted|convertido|.*source prints.*|.*imprime la fuente.*)\)|[Aa]lso|[Tt]ambién|.*: ")
    return [" ".join(other.sub("", block.text).split()) for block in blocks]


COLUMNS = (
    "id", "make", "model", "year_from", "year_to", "component", "property", "value", "source", "source_ref",
    "checked_by", "checked_on", "status",
)  # fmt: skip
DOUBTED = {
    "flywheel bolt": "81 N·m",
    "steering wheel nut": "41 N·m",
    "coolant drain plug": "21 N·m",
}


@pytest.fixture(scope="module")
def doubted_desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """An invented book of just the parts that the doubtful Spanish words can mean."""
    folder = tmp_path_factory.mktemp("doubted")
    table = folder / "specs.csv"
    with table.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(COLUMNS)
        for number, (component, value) in enumerate(DOUBTED.items(), 1):
            rows.writerow(
                (f"X{number}", "Dromwick", "Saltrin", 2010, 2014, component, "torque", value, "Invented sheet", "p. 1",
                 "test lead", "2026-02-03", "verified")
            )  # fmt: skip
    desk = Desk(published(folder, table))
    yield desk
    desk.conversation.close()


@pytest.mark.parametrize(
    ("text", "outcome", "offered"),
    [
        # "volante" is the steering wheel and the flywheel: common practice, no source
        ("12 saltrin volante", "choose component", ["flywheel bolt", "steering wheel nut"]),
        ("12 saltrin torque del tornillo del volante", "choose component", ["flywheel bolt", "steering wheel nut"]),
        ("12 saltrin volante del motor", "answer X1", []),
        ("12 saltrin flywheel bolt torque", "answer X1", []),
        ("12 saltrin volante de dirección", "answer X2", []),
        ("12 saltrin tuerca del volante de dirección", "answer X2", []),
        ("12 saltrin tornillo del volante de dirección", "gap component not held", []),
        # "tapón" is a plug and a cap: common practice, no source
        ("12 saltrin tapón del radiador", "choose component", ["coolant drain plug"]),
        ("12 saltrin tapón de drenado del radiador", "answer X3", []),
        ("12 saltrin radiator plug", "answer X3", []),
    ],
)
def test_a_doubtful_spanish_word_is_asked_about(
    doubted_desk: Desk, text: str, outcome: str, offered: list[str]
) -> None:
    turn = say(doubted_desk.chat(), text)
    assert (brief(turn), labels(turn)) == (outcome, offered)


def test_the_doubtful_words_are_asked_in_spanish(doubted_desk: Desk) -> None:
    wheel = say(doubted_desk.chat(), "12 saltrin volante").reply.text().splitlines()[0]
    cap = say(doubted_desk.chat(), "12 saltrin tapón del radiador")
    assert wheel == "¿Cuál: el volante de dirección o el volante del motor?"
    assert cap.reply.text().splitlines()[0] == "¿Qué pieza?"
    assert seen(cap) == ["coolant drain plug (tapón de drenado del anticongelante)"]
