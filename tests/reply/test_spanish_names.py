"""Every Spanish name stands for what it stands behind, as far as the vocabulary and the reader can tell."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from desk import NOW, Desk

import benchbot.understanding
from benchbot.calculators import asking_back
from benchbot.conversation.past import Past
from benchbot.conversation.steps import OF_THE_WORK
from benchbot.reply.spanish_names import NAMES
from benchbot.specs.position import ORDER
from benchbot.specs.properties import PROPERTIES
from benchbot.understanding.reading import Place, Reading
from benchbot.understanding.strange import UNTAUGHT
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.qualifiers import KEYS
from benchbot.vocabulary.terms import Vocabulary

# Spanish words that mean more than the one English word that the vocabulary has for them.
WIDER = {
    ("grease cap", "tapa"),  # cover and cap
    ("radiator cap", "tapa"),
    ("parking brake cable adjuster nut", "ajuste"),  # adjustment and adjuster
    ("tie rod end", "direccion"),  # the steering it belongs to
    ("steering gear bolt", "caja"),  # case and box
}
# Of threads "wet" means lubricated, which no one Spanish word says.
AS_ENTERED = {"wet"}


@pytest.fixture
def shop(desk: Desk) -> Vocabulary:
    """The shipped vocabulary, as the demo book holds it."""
    return desk.conversation.lexicon.vocabulary


def read(desk: Desk, text: str) -> tuple[Reading, ...]:
    return desk.conversation.read(text, Past(), NOW)[0]


def test_every_part_named_is_one_of_the_vocabulary_and_no_two_are_named_alike(shop: Vocabulary) -> None:
    assert set(NAMES.parts) <= set(shop.components)
    assert len(set(NAMES.parts.values())) == len(NAMES.parts)


def test_the_parts_of_a_brake_job_are_named(shop: Vocabulary) -> None:
    """Brakes, hydraulics and wheels, where a name is beyond doubt; the rest shows the English name alone."""
    of_brakes = {c.name for c in shop.components.values() if c.group in ("brakes", "drum brakes", "hydraulics")}
    assert len(of_brakes & set(NAMES.parts)) > 0.8 * len(of_brakes)


def test_no_word_of_a_name_means_another_part(shop: Vocabulary) -> None:
    """The Spanish words that the vocabulary knows must stand for words that the component is called by."""
    known = {
        name: {*name_words(name), *(word for p in shop.component_phrases if name in p.means for word in p.words)}
        for name in NAMES.parts
    }
    strange = set()
    for name, spanish in NAMES.parts.items():
        for word in name_words(spanish):
            forms = shop.words.get(word, ()) or shop.words.get(word.removesuffix("s"), ())
            english = {form.word for form in forms if form.how != "heard"}
            if english and word not in known[name] and not english & known[name]:
                strange.add((name, word))
    assert strange == WIDER


def test_no_name_is_read_as_another_part(desk: Desk, shop: Vocabulary) -> None:
    """Typed back, a name means its part or a fastener of it, or it is asked; or a word of it holds the answer back."""
    fastened = {name: {c.name for c in shop.components.values() if name in c.fastens} for name in NAMES.parts}
    wrong, whole = set(), 0
    for name, spanish in NAMES.parts.items():
        for one in spanish.split(", "):
            readings = read(desk, f"2012 brackwell ondrel {one}")
            meant = {c for reading in readings for ask in reading.asks for c in ask.components}
            held_back = any(reading.left_over or reading.unknown_part for reading in readings)
            if meant and not held_back and not meant & {name, *fastened[name]}:
                wrong.add((name, one))
            whole += meant == {name} and not held_back
    assert wrong == set()
    assert whole >= 100


@pytest.mark.parametrize("name", PROPERTIES)
def test_every_property_is_read_back(desk: Desk, name: str) -> None:
    assert {reading.properties for reading in read(desk, NAMES.properties[name])} == {(name,)}


@pytest.mark.parametrize("word", ORDER)
def test_every_position_is_read_back(desk: Desk, word: str) -> None:
    place = {
        "front": Place(axles=("front",)), "rear": Place(axles=("rear",)),
        "upper": Place(heights=("upper",)), "lower": Place(heights=("lower",)),
        "left": Place(sides=("left",)), "right": Place(sides=("right",)),
        "inner": Place(depths=("inner",)), "outer": Place(depths=("outer",)),
    }[word]  # fmt: skip
    assert [reading.place for reading in read(desk, NAMES.positions[word])] == [place]


def test_every_key_and_condition_is_named(shop: Vocabulary) -> None:
    assert set(NAMES.keys) == set(KEYS) - {"build"}
    assert set(shop.lists["conditions"]) - set(NAMES.conditions) == AS_ENTERED


def test_every_question_of_the_knowledge_is_put(shop: Vocabulary) -> None:
    of_knowledge = {phrase.ask for phrase in shop.component_phrases if phrase.ask}
    assert set(NAMES.questions) == of_knowledge | set(asking_back.QUESTIONS)
    for question in NAMES.questions.values():
        assert re.fullmatch(r"¿[^?]+\?", question)


def given_reasons() -> set[str]:
    """What the reader writes down, of its own, as the meaning of noise, numbers and words it could not place."""
    found = {"next vehicle", "same", "a tool", "a idiom", "a conditions", "said not to be so", UNTAUGHT}
    for path in Path(benchbot.understanding.__path__[0]).glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "take":
                said = [arg.value if isinstance(arg, ast.Constant) else None for arg in node.args]
                if len(said) > 2 and said[1] in ("noise", "number", "left over") and said[2]:
                    found.add(str(said[2]))
    return found


def test_every_reason_of_the_reader_is_named() -> None:
    assert set(NAMES.reasons) == given_reasons() | {OF_THE_WORK}
