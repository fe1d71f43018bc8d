"""The shipped knowledge loads, holds what a shop needs, and survives being written as JSON and read again."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from benchbot.places import knowledge_folder
from benchbot.vocabulary.digest import digest_of, knowledge_files
from benchbot.vocabulary.terms import Vocabulary

LIGHT = ("terms", "letters", "digest")
HEAVY = ("yaml", "pydantic")


def test_there_are_two_hundred_components_and_more(vocabulary: Vocabulary) -> None:
    assert len(vocabulary.components) >= 200
    assert {c.kind for c in vocabulary.components.values()} == {"fastener", "part", "fluid"}


def test_every_property_has_a_clear_name(vocabulary: Vocabulary) -> None:
    named = {phrase.means[0] for phrase in vocabulary.property_phrases if len(phrase.means) == 1 and not phrase.always}
    assert named == {p for component in vocabulary.components.values() for p in component.properties}


def test_the_vocabulary_comes_back_from_json_as_it_was(vocabulary: Vocabulary) -> None:
    assert Vocabulary.from_plain(json.loads(json.dumps(vocabulary.to_plain()))) == vocabulary


def test_a_component_says_what_it_is_for(vocabulary: Vocabulary) -> None:
    for component in vocabulary.components.values():
        assert component.properties, component.name
        assert component.default is None or component.default in component.properties, component.name
        for part in component.fastens:
            assert part in vocabulary.components, component.name


@pytest.mark.parametrize(
    ("axles", "names"),
    [
        # steering and the ball joints of a front suspension sit on one axle by nature
        ("front", ["tie rod end nut", "lower ball joint nut", "upper ball joint nut", "steering rack bolt"]),
        ("none", ["wheel nut", "wheel bolt", "engine oil", "engine oil drain plug", "spark plug", "brake fluid"]),
        (
            "both",
            ["caliper bracket bolt", "caliper slide pin bolt", "brake rotor", "brake pad", "bleeder screw", "axle nut"],
        ),
        ("both", ["brake drum", "brake shoe", "hub bearing bolt", "wheel speed sensor bolt", "stabilizer link nut"]),
        ("both", ["strut to knuckle bolt", "shock bolt", "backing plate bolt", "wheel cylinder bolt", "tire"]),
        ("both", ["brake hose banjo bolt", "lower control arm bolt", "differential fluid", "parking brake shoe"]),
    ],
)
def test_the_vocabulary_says_which_axle_must_be_stated(vocabulary: Vocabulary, axles: str, names: list[str]) -> None:
    assert {name: vocabulary.components[name].axles for name in names} == dict.fromkeys(names, axles)


@pytest.mark.parametrize(
    ("name", "default"),
    [
        ("caliper bracket bolt", "torque"),
        ("bleeder screw", "torque"),
        ("engine oil drain plug", "torque"),
        ("brake fluid", "fluid"),
        ("brake rotor", None),
        ("brake pad", None),
        ("spark plug", None),
        ("engine oil", None),
    ],
)
def test_torque_is_meant_of_a_fastener_and_nothing_of_a_part(
    vocabulary: Vocabulary, name: str, default: str | None
) -> None:
    assert vocabulary.components[name].default == default


def test_every_caution_has_wording_and_reaches_a_component(vocabulary: Vocabulary) -> None:
    reached = {name for component in vocabulary.components.values() for name in component.cautions}
    assert reached | {"maker first"} == set(vocabulary.cautions)
    assert all(caution.text.endswith(".") for caution in vocabulary.cautions.values())


def test_every_caution_is_worded_in_both_languages(vocabulary: Vocabulary) -> None:
    for caution in vocabulary.cautions.values():
        english, spanish = caution.text_in("en"), caution.text_in("es")
        assert english == caution.text
        assert spanish and spanish.endswith(".") and spanish != english, caution.name
        assert re.findall(r"\d+", spanish) == re.findall(r"\d+", english), caution.name
        assert caution.text_in("fr") is None


def test_a_vocabulary_written_before_cautions_had_other_languages_is_read(vocabulary: Vocabulary) -> None:
    plain = json.loads(json.dumps(vocabulary.to_plain()))
    for caution in plain["cautions"].values():
        del caution["others"]
    older = Vocabulary.from_plain(plain).cautions
    assert {name: one.text for name, one in older.items()} == {n: o.text for n, o in vocabulary.cautions.items()}
    assert {one.text_in("es") for one in older.values()} == {None}


def test_cautions_that_change_the_doing_come_first(vocabulary: Vocabulary) -> None:
    for component in vocabulary.components.values():
        ranks = [not vocabulary.cautions[name].first for name in component.cautions]
        assert ranks == sorted(ranks), component.name


def test_no_phrase_is_longer_than_the_reader_looks(vocabulary: Vocabulary) -> None:
    assert [p.words for p in vocabulary.component_phrases if len(p.words) > 6] == []


def test_no_phrase_takes_an_axle_word(vocabulary: Vocabulary) -> None:
    words = {word for phrase in vocabulary.component_phrases for word in phrase.words}
    assert not words & {"front", "rear", "left", "right", "frt", "rr"}


def test_no_one_letter_stands_in_a_phrase_or_for_a_word(vocabulary: Vocabulary) -> None:
    words = {word for phrase in vocabulary.component_phrases for word in phrase.words} | set(vocabulary.words)
    assert {word for word in words if len(word) < 2} == set()


def test_the_digest_changes_with_any_file(vocabulary: Vocabulary, tmp_path: Path) -> None:
    copy = tmp_path / "knowledge"
    shutil.copytree(knowledge_folder(), copy)
    assert digest_of(copy) == digest_of(knowledge_folder()) == vocabulary.digest
    for path in knowledge_files(copy):
        before = digest_of(copy)
        path.write_bytes(path.read_bytes() + b"\n")
        assert digest_of(copy) != before, path.name
    before = digest_of(copy)
    (copy / "words.yaml").rename(copy / "more_words.yaml")
    assert digest_of(copy) != before


@pytest.mark.parametrize("module", LIGHT)
def test_what_an_answer_needs_imports_nothing_heavy(module: str) -> None:
    code = f"import sys, benchbot.vocabulary.{module}; print([m for m in {HEAVY!r} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
