"""Weights learned from questions tell steps apart, come back as they were, and are refused beside other questions."""

from __future__ import annotations

import json
import shutil
from base64 import b64decode, b64encode
from pathlib import Path

import pytest
from scipy.sparse import csr_matrix
from sklearn.svm import LinearSVC

from benchbot.errors import KnowledgeError
from benchbot.places import knowledge_folder
from benchbot.procedures.asked import FOLDER, LEARNED, digest_of, learned_text, load_asked
from benchbot.procedures.features import groups_of, weighed
from benchbot.procedures.learning import learn
from benchbot.procedures.likeness import NO_STEP, Likeness, Weights
from benchbot.procedures.steps import Procedures
from benchbot.procedures.wording import words_of

GREASE, ORDER = "common/grease-slide-pins", "common/bleed-order"
ASKED = [
    (GREASE, "do the slide pins get grease"), (GREASE, "grease on the pins"), (GREASE, "lube for slide pins"),
    (GREASE, "what grease do pins take"), (ORDER, "bleed order"), (ORDER, "which wheel do i bleed first"),
    (ORDER, "order to bleed the wheels"), (ORDER, "what wheel first to bleed"), (NO_STEP, "lunch is here"),
    (NO_STEP, "who has lunch"), (NO_STEP, "the order for lunch is in"), (NO_STEP, "who has the keys"),
]  # fmt: skip


@pytest.fixture(scope="module")
def weights() -> Weights:
    return learn(ASKED, "digest")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the shipped questions, small enough to change."""
    (tmp_path / FOLDER).mkdir()
    (tmp_path / FOLDER / "some.yaml").write_text(f"{GREASE}:\n  - pins greasy\n{NO_STEP}:\n  - lunch\n", "utf-8")
    (tmp_path / FOLDER / LEARNED).write_text(learn(ASKED, digest_of(tmp_path)).to_text(), "ascii")
    return tmp_path


def best(likeness: Likeness, text: str) -> str:
    found = likeness.of(words_of(text))
    return max(found, key=found.__getitem__)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("greese for the slidepins", GREASE),
        ("pins greased?", GREASE),
        ("bleeding, which one first", ORDER),
        ("is lunch in", NO_STEP),
    ],
)
def test_other_words_and_slips_of_the_same_are_told_apart(weights: Weights, text: str, meant: str) -> None:
    assert best(Likeness(weights), text) == meant


def test_the_same_questions_teach_the_same(weights: Weights) -> None:
    assert learn(ASKED, "digest").to_text() == weights.to_text()


def test_weights_come_back_as_they_were(weights: Weights) -> None:
    again = Weights.from_text(weights.to_text() + "\n")
    assert again == weights
    for _, text in ASKED:
        assert Likeness(again).of(words_of(text)) == Likeness(weights).of(words_of(text))


def test_packed_they_say_what_the_library_says(weights: Weights) -> None:
    """Beside scikit-learn's own decision_function on the same features; what packing rounds off stays small."""
    taken = [groups_of(words_of(text)) for _, text in ASKED]
    rarity = dict(zip(weights.features, weights.rarity, strict=True))
    known = [weighed(groups, rarity, weights.strange) for groups in taken]
    table = [[shares.get(feature, 0.0) for feature in weights.features] for shares in known]
    machine = LinearSVC(C=0.7, random_state=0).fit(csr_matrix(table), [key for key, _ in ASKED])
    said = machine.decision_function(csr_matrix(table))
    for n, (_, text) in enumerate(ASKED):
        ours = Likeness(weights).of(words_of(text))
        assert [ours[step] for step in machine.classes_] == pytest.approx(list(said[n]), abs=0.3)
        assert max(ours, key=ours.__getitem__) == machine.classes_[said[n].argmax()]


@pytest.mark.parametrize("words", [(), ("",), ("zzzz",) * 500, ("\u0000",), tuple("abcdefgh" * 200)])
def test_whatever_is_written_has_a_likeness(weights: Weights, words: tuple[str, ...]) -> None:
    found = Likeness(weights).of(words)
    assert set(found) == {GREASE, ORDER, NO_STEP} and all(abs(value) < 10 for value in found.values())


@pytest.mark.parametrize("text", ["", "%%%", b64encode(b"no zip").decode(), b64encode(b"x" * 5000).decode()])
def test_damaged_weights_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match="damaged"):
        Weights.from_text(text)


def test_cut_off_weights_are_refused(weights: Weights) -> None:
    whole = weights.to_text()
    with pytest.raises(ValueError, match="damaged"):
        Weights.from_text(b64encode(b64decode(whole)[:-40]).decode())


def test_shipped_weights_are_of_the_shipped_questions(procedures: Procedures) -> None:
    weights = Weights.from_text(learned_text(knowledge_folder()))
    asked = load_asked(knowledge_folder(), procedures)
    assert {key for key, _ in asked} == set(weights.steps)
    assert set(procedures.steps) | {NO_STEP} == set(weights.steps)
    assert len(asked) > 100 * len(procedures.steps) / 2


def test_weights_of_other_questions_are_refused(folder: Path) -> None:
    assert learned_text(folder)
    file = folder / FOLDER / "some.yaml"
    file.write_text(file.read_text("utf-8").replace("\n", "\r\n"), "utf-8", newline="")
    assert learned_text(folder)
    file.write_text(file.read_text("utf-8") + "  - more of it\n", "utf-8")
    with pytest.raises(KnowledgeError, match="benchbot procedures learn"):
        learned_text(folder)


@pytest.mark.parametrize("text", [None, "%%%", "é"])
def test_missing_and_damaged_weights_are_refused(folder: Path, text: str | None) -> None:
    file = folder / FOLDER / LEARNED
    file.unlink() if text is None else file.write_text(text, "utf-8")
    with pytest.raises(KnowledgeError, match=r"learned.txt.*benchbot procedures learn"):
        learned_text(folder)


@pytest.mark.parametrize(
    ("text", "line", "wrong"),
    [
        ("common/no-such-step:\n  - a b c\n", 1, "there is no step"),
        (f"{GREASE}: a b c\n", 1, "holds no list of questions"),
        (f"{GREASE}:\n  - [a, b]\n", 1, "holds no list of questions"),
        ("- a\n- b\n", 1, "is no list of steps"),
        (f"{GREASE}:\n  - pins dry\n{ORDER}:\n  - one more\n  - Pins dry?\n", 5, "stands for"),
        ("", 1, "is empty"),
        ("a: [\n", 2, "cannot be read as YAML"),
    ],
)
def test_a_fault_in_the_questions_is_refused_with_its_line(
    folder: Path, procedures: Procedures, text: str, line: int, wrong: str
) -> None:
    (folder / FOLDER / "some.yaml").write_text(text, "utf-8")
    with pytest.raises(KnowledgeError) as refused:
        load_asked(folder, procedures)
    found = [(fault.where, fault.wrong) for fault in refused.value.faults]
    assert [where for where, said in found if wrong in said] == [f"asked/some.yaml line {line}"], found


def test_what_the_steps_are_asked_as_is_learned_too(folder: Path, procedures: Procedures) -> None:
    asked = load_asked(folder, procedures)
    assert (GREASE, "pins greasy") in asked and (GREASE, "do the slide pins get grease") in asked
    # what is said of several steps teaches nothing of either
    assert not any(text == "how do i push the pistons back" for _, text in asked)


def test_no_question_that_is_put_to_it_was_learned(procedures: Procedures) -> None:
    learned = {words_of(text) for _, text in load_asked(knowledge_folder(), procedures)}
    lines = (Path(__file__).parent / "held_out.jsonl").read_text(encoding="utf-8").splitlines()
    put = {words_of(json.loads(line)["q"]) for line in lines}
    assert not put & learned


def test_a_copy_of_the_knowledge_folder_is_whole(tmp_path: Path) -> None:
    copy = Path(shutil.copytree(knowledge_folder(), tmp_path / "knowledge"))
    assert learned_text(copy) == learned_text(knowledge_folder())
