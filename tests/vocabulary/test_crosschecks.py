"""Bad knowledge refuses to load, and says in which file and line, what is wrong and what to do."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchbot.errors import Fault, KnowledgeError
from benchbot.vocabulary.knowledge import load_vocabulary

# file, the text that stands there, what it is changed to, line of the fault, what is wrong, part of the mend
BROKEN = [
    (
        "components/brakes.yaml",
        "fastens: [caliper bracket]",
        "fastens: [anchor]",
        5,
        "'anchor', which is no comp",
        "Name",
    ),
    (
        "components/brakes.yaml",
        "cautions: [dust]",
        "cautions: [dust, ghost]",
        6,
        "'ghost', without wording",
        "cautions.yaml",
    ),
    (
        "components/brakes.yaml",
        '"guide pin bolt"',
        '"brake carrier bolt"',
        12,
        "'caliper bracket bolt'",
        "doubtful.yaml",
    ),
    ("components/brakes.yaml", '"guide pin bolt"', '"Guide pin bolt"', 12, "lower-case", "a/b"),
    ("components/brakes.yaml", '"guide pin bolt"', '"(guide pin bolt"', 12, "do not close", "a/b"),
    ("components/brakes.yaml", '"guide pin bolt"', '"guide/ pin bolt"', 12, "lacks a word", "a/b"),
    ("components/brakes.yaml", '"guide pin bolt"', '"to the"', 12, "nothing but joining words", "Name the part"),
    ("components/brakes.yaml", "name: slide pin bolt", "name: bolt bracket caliper", 11, "has the words of", "Rename"),
    (
        "components/brakes.yaml",
        "properties: [maximum diameter, note]",
        "default: torque",
        13,
        "no properties",
        "Say which",
    ),
    (
        "components/brakes.yaml",
        "properties: [maximum diameter, note]",
        "properties: [note]\n    default: torque",
        16,
        "none of its properties",
        "another default",
    ),
    (
        "components/brakes.yaml",
        "properties: [note]",
        "properties: [noise]",
        10,
        "should be 'torque'",
        "one of the words",
    ),
    ("components/brakes.yaml", "kind: part", "kind: thing", 9, "should be 'fastener'", "one of the words"),
    ("components/brakes.yaml", "    said: [drum]", "    sayd: [drum]", 16, "not permitted", "spelling"),
    ("components/brakes.yaml", "    said: [drum]", "    said: drum", 16, "valid list", "Write a list"),
    ("components/brakes.yaml", "    said: [drum]", "    said: []", 16, "at least 1", "Add at least one"),
    (
        "components/brakes.yaml",
        "    said: [drum]",
        "    kind: part\n    said: [drum]",
        16,
        "stands twice in one entry",
        "Keep one",
    ),
    ("components/brakes.yaml", "axles: both\n", "", 1, "required", "Add it"),
    ("components/brakes.yaml", "axles: both", "axles: [both", 3, "cannot be read as YAML", "quote"),
    ("doubtful.yaml", "slide pin bolt]", "slide bolt]", 3, "'slide bolt' is no component", "add the component"),
    ("doubtful.yaml", "slide pin bolt]", "caliper bracket bolt]", 3, "stands twice", "Keep one"),
    ("doubtful.yaml", "said: [caliper bolt]", "said: [drum]", 2, "a clear name of 'brake drum'", "`could be`"),
    ("doubtful.yaml", 'always: "yes"', "always: maybe", 5, "should be 'yes' or 'no'", "one of the words"),
    (
        "doubtful.yaml",
        'always: "yes"\n',
        'always: "yes"\n  - {said: [bolt caliper], could be: [slide pin bolt], always: "no"}\n',
        6,
        "stands in another entry too (doubtful.yaml line 2)",
        "Keep one",
    ),
    ("shorthand.yaml", "slide pin bolt", "wheel nut", 2, "no phrase holds all of 'wheel nut'", "Correct the words"),
    (
        "shorthand.yaml",
        "{short: spb, stands for: slide pin bolt}",
        "{short: drum, stands for: bracket bolt}",
        2,
        "would mean 'caliper bracket bolt'",
        "another short form",
    ),
    ("words.yaml", "short: [tq]", "short: [tq, bracket]", 4, "is a word of its own", "`heard`"),
    ("words.yaml", "short: [tq]", "short: [q]", 4, "single letter", "Delete it"),
    ("words.yaml", "short: [tq]", "short: [torque]", 4, "is the word itself", "Delete it"),
    ("words.yaml", "short: [tq]", "also: [tq]", 4, "no trade word of its own", "`variant`"),
    ("words.yaml", "word: torque", "word: gasket", 4, "no component or property is called 'gasket'", "Use it"),
    ("words.yaml", "word: torque", "word: bolt", 4, "'bolt' stands twice", "Keep one"),
    ("properties.yaml", "dimension: torque", "dimension: weight", 3, "should be 'torque'", "one of the words"),
    ("properties.yaml", "said: [max diameter]", "said: [how tight]", 7, "claimed by 'torque' and", "make it vague"),
    ("properties.yaml", "said: [limit]", "said: [how tight]", 9, "is claimed by 'torque' already", "one place"),
    ("properties.yaml", "name: maximum diameter", "name: torque", 5, "'torque' stands twice", "Keep one"),
    ("positions.yaml", "said: [rear]", "said: [rear, frt]", 3, "stands on line 2 with other tokens", "Keep one"),
    ("positions.yaml", "tokens: [rear]", "tokens: [back]", 3, "should be 'front'", "one of the words"),
    ("positions.yaml", "said: [rear]", "said: [Rear]", 3, "lower-case", "a/b"),
    (
        "qualifiers.yaml",
        "value: 4WD}",
        "value: 4WD}\n  - {said: [4x4], key: drive, value: AWD}",
        3,
        "means drive 4WD and drive AWD",
        "Keep one",
    ),
    ("qualifiers.yaml", "key: drive", "key: driven", 2, "should be 'engine'", "one of the words"),
    ("qualifiers.yaml", "4x4", "4X4", 2, "lower-case", "plain"),
    ("lists.yaml", "  same: [same]\n", "", 1, "the list 'same' is missing", "Add it"),
    ("lists.yaml", "function: [i, need]", "function: [i, brkt]", 3, "is a trade word (words.yaml)", "Take it out"),
    ("lists.yaml", "function: [i, need]", "function: [i, drum]", 3, "is a trade word (components/", "Take it out"),
    ("lists.yaml", "function: [i, need]", "function: [i, i]", 3, "'i' stands twice", "Keep one"),
    ("cautions.yaml", "groups: [brakes]", "groups: [breaks]", 3, "no group of components", "Use one of brakes"),
    ("cautions.yaml", "groups: [brakes], ", "", 3, "belongs to nothing", "groups"),
    ("cautions.yaml", "name: stands", "name: dust", 3, "'dust' stands twice", "Keep one"),
    ("cautions.yaml", ", text: No dry brushing.", "", 2, "required", "Add it"),
    ("cautions.yaml", ", text_es: No cepille en seco.", "", 2, "required", "Add it"),
    ("cautions.yaml", "text_es: No cepille en seco.", "text_es: No dry brushing.", 2, "no Spanish wording", "Word it"),
    ("cautions.yaml", "text_es: No cepille en seco.", 'text_es: " "', 2, "no Spanish wording", "Word it"),
    ("everyday.txt", "greasy", "drum", 0, "'drum' means nothing in [chatter], but is a trade word", "Take it out"),
    ("everyday.txt", "greasy", "Greasy", 0, "not one plain lower-case word", "Write it plain"),
    ("everyday.txt", "greasy", "oh", 4, "'oh' stands on line 2 too", "Delete one"),
    ("everyday.txt", "[chatter]", "[gossip]", 3, "[gossip] is no section", "[function] or [chatter]"),
    ("everyday.txt", "[function]\n", "", 1, "'oh' stands in no section", "Put it under"),
]


def faults_of(folder: Path) -> list[Fault]:
    with pytest.raises(KnowledgeError) as refused:
        load_vocabulary(folder)
    return refused.value.faults


def change(folder: Path, name: str, old: str, new: str) -> None:
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_the_small_folder_is_sound(folder: Path) -> None:
    assert set(load_vocabulary(folder).components) == {
        "caliper bracket bolt",
        "caliper bracket",
        "slide pin bolt",
        "brake drum",
    }


@pytest.mark.parametrize(("name", "old", "new", "line", "wrong", "mend"), BROKEN)
def test_a_fault_names_file_line_and_mend(
    folder: Path, name: str, old: str, new: str, line: int, wrong: str, mend: str
) -> None:
    change(folder, name, old, new)
    where = f"{name} line {line}" if line else name
    found = [fault for fault in faults_of(folder) if fault.where == where and wrong in fault.wrong]
    assert found, [str(fault) for fault in faults_of(folder)]
    assert mend in found[0].mend


def test_all_faults_are_told_at_once(folder: Path) -> None:
    change(folder, "words.yaml", "short: [tq]", "short: [q]")
    change(folder, "positions.yaml", "said: [rear]", "said: [rear, frt]")
    change(folder, "cautions.yaml", "groups: [brakes]", "groups: [breaks]")
    told = {fault.where for fault in faults_of(folder)}
    assert told == {"words.yaml line 4", "positions.yaml line 3", "cautions.yaml line 3"}


def test_faults_of_shape_in_several_files_are_told_at_once(folder: Path) -> None:
    change(folder, "words.yaml", "words:", "word:")
    change(folder, "doubtful.yaml", 'always: "yes"', "always: maybe")
    assert {fault.where.split()[0] for fault in faults_of(folder)} == {"words.yaml", "doubtful.yaml"}


@pytest.mark.parametrize(
    "name", ["words.yaml", "shorthand.yaml", "doubtful.yaml", "properties.yaml", "lists.yaml", "everyday.txt"]
)
def test_a_missing_file_is_a_fault(folder: Path, name: str) -> None:
    (folder / name).unlink()
    assert [fault.wrong for fault in faults_of(folder) if fault.where.startswith(name)] == ["is missing"]


def test_an_empty_file_is_a_fault(folder: Path) -> None:
    (folder / "words.yaml").write_text("", encoding="utf-8")
    assert [str(fault) for fault in faults_of(folder)] == ["words.yaml line 1: is empty. Fill it or delete it."]


def test_a_file_of_another_encoding_is_a_fault(folder: Path) -> None:
    (folder / "words.yaml").write_bytes("words: [grosor mínimo]".encode("latin-1"))
    assert "is no UTF-8 text" in faults_of(folder)[0].wrong


def test_no_component_file_at_all_is_a_fault(folder: Path) -> None:
    (folder / "components" / "brakes.yaml").unlink()
    assert any(fault.where == "components" for fault in faults_of(folder))


def test_a_pattern_that_runs_wild_is_a_fault(folder: Path) -> None:
    wild = " ".join(["a/b/c/d/e/f/g/h"] * 4)
    change(folder, "components/brakes.yaml", '"guide pin bolt"', f'"{wild}"')
    assert any("4096 phrases" in fault.wrong for fault in faults_of(folder))
