"""Procedure files load whole or not at all, and every fault says in which file and line it is."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from benchbot.errors import KnowledgeError
from benchbot.procedures.crosschecks import has_fastener_figure
from benchbot.procedures.loading import load_procedures
from benchbot.procedures.steps import Procedures
from benchbot.vocabulary.digest import digest_of
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Vocabulary

# file, the text that stands there, what it is changed to, line of the fault, what is wrong
BROKEN = [
    ("front.yaml", "about: [caliper bracket bolt]", "about: [bracket thing]", 15, "'bracket thing' is no component"),
    ("front.yaml", "component: caliper bracket bolt", "component: ghost bolt", 31, "'ghost bolt' is no component"),
    ("front.yaml", "component: caliper bracket bolt", "component: brake rotor", 31, "a brake rotor has no torque"),
    ("front.yaml", "        position: [axle]\n", "", 31, "does not say which"),
    ("front.yaml", "property: minimum thickness", "property: maximum diameter", 35, "no property 'maximum diameter'"),
    ("front.yaml", "cautions: [one-time fastener]", "cautions: [ghosts]", 18, "'ghosts' is no caution"),
    ("front.yaml", "cautions: [brake dust]", "cautions: [ghosts]", 8, "'ghosts' is no caution"),
    ("front.yaml", "act: [tighten]", "act: [whistle]", 16, "'whistle' is no act"),
    ("front.yaml", "    because: A crooked thread tears.\n", "", 11, "field required"),
    ("front.yaml", "        good: It turns by hand.\n", "", 20, "field required"),
    ("front.yaml", "        bad: It binds.\n", "", 20, "field required"),
    ("front.yaml", "        then: Out again.\n", "", 20, "field required"),
    ("front.yaml", "      do: New bolt.\n", "", 24, "field required"),
    ("front.yaml", "{shared: clean-hub}", "{shared: clean-hat}", 10, "'clean-hat' is no step of common.yaml"),
    ("front.yaml", "  - {shared: clean-hub}\n", "  - {shared: clean-hub}\n  - {shared: clean-hub}\n", 11, "done twice"),
    ("front.yaml", "id: front", "id: rear", 1, "in a file named 'front'"),
    ("front.yaml", "axle: front", "axle: middle", 3, "'front', 'rear' or 'any'"),
    ("front.yaml", "do: By hand first.", "do: To 100 Nm.", 13, "names a torque or an angle"),
    ("front.yaml", "rule: A bolt that yielded is scrap.", "rule: Then 90 degrees.", 28, "names a torque or an angle"),
    ("front.yaml", "tools: [wrench]", "tools: [wrench set to 80 ft-lb]", 5, "names a torque or an angle"),
    (
        "front.yaml",
        "act: [tighten]",
        "act: [tighten]\n    picture: tightening",
        17,
        "'tightening order' or 'rotor points'",
    ),
    ("front.yaml", "decides: lead tech", "decides: nobody", 29, "'lead tech' or 'rule'"),
    (
        "common.yaml",
        "asked_as: [clean the hub, hub is rusty]",
        "asked_as: [clean the hub]\n  - {id: clean-hub, title: T, do: D, because: B, asked_as: [scrub it]}",
        7,
        "stands twice",
    ),
    (
        "common.yaml",
        "asked_as: [clean the hub, hub is rusty]",
        "asked_as: [clean the hub]\n  - {id: scrub, title: T, do: D, because: B, asked_as: [clean the hub]}",
        7,
        "is asked of the step 'clean-hub' already",
    ),
    ("acts.yaml", "hub: [hub]", "hub: [hub, clean]", 5, "stands for 'clean' already"),
    ("acts.yaml", "passing: [ok]\n", "", 1, "field required"),
    ("common.yaml", "steps:", "steps: [", 2, "cannot be read as YAML"),
]


def test_the_small_folder_is_sound(small: Path, vocabulary: Vocabulary) -> None:
    loaded = load_procedures(small, vocabulary)
    assert loaded.procedures["front"].steps == ("common/clean-hub", "front/bolt-it")
    assert loaded.holding("common/clean-hub") == ("front",)


@pytest.mark.parametrize(("name", "stands", "changed", "line", "wrong"), BROKEN)
def test_a_fault_is_refused_with_its_line(
    small: Path, vocabulary: Vocabulary, name: str, stands: str, changed: str, line: int, wrong: str
) -> None:
    path = small / "procedures" / name
    text = path.read_text(encoding="utf-8")
    assert stands in text
    path.write_text(text.replace(stands, changed, 1), encoding="utf-8")
    with pytest.raises(KnowledgeError) as refused:
        load_procedures(small, vocabulary)
    found = {(fault.where, wrong in fault.wrong) for fault in refused.value.faults}
    assert (f"procedures/{name} line {line}", True) in found, refused.value


def test_all_faults_are_told_at_once(small: Path, vocabulary: Vocabulary) -> None:
    path = small / "procedures" / "front.yaml"
    text = path.read_text(encoding="utf-8").replace("[brake dust]", "[ghosts]").replace("act: [tighten]", "act: [sing]")
    path.write_text(text, encoding="utf-8")
    with pytest.raises(KnowledgeError) as refused:
        load_procedures(small, vocabulary)
    assert len(refused.value.faults) == 2


def test_a_folder_without_procedures_is_refused(tmp_path: Path, vocabulary: Vocabulary) -> None:
    with pytest.raises(KnowledgeError, match="holds no procedure"):
        load_procedures(tmp_path, vocabulary)


@pytest.mark.parametrize(
    "text",
    [
        "100 Nm", "100 N·m", "12 N m", "80 ft-lb", "80 ft lbs", "53 in-lb", "53 inch pounds", "80 lb-ft",
        "80 foot pounds", "10 kgf·m", "10 kg-m", "then 90 degrees", "then 90°", "7.5nm",
    ],
)  # fmt: skip
def test_a_figure_for_a_fastener_is_seen(text: str) -> None:
    assert has_fastener_figure(text)


@pytest.mark.parametrize("text", ["50-100 miles (80-160 km)", "1-3-2-4", "DOT 5.1", "29 CFR 1910.1001", "ten stops"])
def test_other_figures_may_stand(text: str) -> None:
    assert not has_fastener_figure(text)


def test_procedures_come_back_from_json_as_they_were(procedures: Procedures) -> None:
    again = Procedures.from_plain(json.loads(json.dumps(procedures.to_plain())))
    assert again == procedures
    assert again.holding("common/clean-hub-face") == procedures.holding("common/clean-hub-face")


def test_the_pictures_that_steps_name(procedures: Procedures) -> None:
    assert {key: step.picture for key, step in procedures.steps.items() if step.picture} == {
        "common/measure-rotor": "rotor points",
        "common/measure-thickness-variation": "rotor points",
        "common/tighten-wheel-in-order": "tightening order",
        "common/final-torque-on-ground": "tightening order",
    }


def test_procedures_of_a_book_from_before_pictures_still_load(procedures: Procedures) -> None:
    plain = json.loads(json.dumps(procedures.to_plain()))
    for step in plain["steps"].values():
        del step["picture"]
    old = Procedures.from_plain(plain)
    assert set(old.steps) == set(procedures.steps)
    assert not any(step.picture for step in old.steps.values())


def test_the_vocabulary_does_not_mind_the_procedures_and_its_digest_knows_them(whole: Path) -> None:
    before = digest_of(whole)
    assert load_vocabulary(whole).digest == before
    path = whole / "procedures" / "strut.yaml"
    path.write_text(path.read_text(encoding="utf-8") + "# a word more\n", encoding="utf-8")
    assert digest_of(whole) != before


@pytest.mark.parametrize("module", ["steps", "showing", "finding", "wording", "spelling"])
def test_what_answers_reads_no_files(module: str) -> None:
    code = f"import sys, benchbot.procedures.{module}; print(sorted(set(sys.modules) & {{'yaml', 'pydantic', 'pint'}}))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
