"""The questions of knowledge/asked, how people ask for each step, and what was learned from them."""

from __future__ import annotations

import hashlib
from pathlib import Path

from benchbot.errors import Fault, KnowledgeError
from benchbot.procedures.likeness import NO_STEP, Weights
from benchbot.procedures.steps import Procedures
from benchbot.procedures.wording import words_of
from benchbot.vocabulary.sheets import Sheet, read_sheet

FOLDER, LEARNED = "asked", "learned.txt"
_LEARN = "Run `benchbot procedures learn`, or put the shipped files back."


def digest_of(folder: Path) -> str:
    """SHA-256 of the question files of a knowledge folder, however their lines end."""
    digest = hashlib.sha256()
    for path in _files(folder):
        digest.update(path.name.encode() + b"\0" + path.read_bytes().replace(b"\r\n", b"\n") + b"\0")
    return digest.hexdigest()


def load_asked(folder: Path, procedures: Procedures) -> list[tuple[str, str]]:
    """(key of a step or `NO_STEP`, question) of every file, and of what the steps themselves are asked as.

    Raises KnowledgeError with file and line of a step that there is not, of what is no list of questions, and of a
    question that stands for two.
    """
    sheets = [read_sheet(path, f"{FOLDER}/{path.name}") for path in _files(folder)]
    first: dict[tuple[str, ...], str] = {}
    asked: list[tuple[str, str]] = []
    for sheet in sheets:
        if not isinstance(sheet.plain, dict):
            if not sheet.faults:
                sheet.blame(
                    (), "is no list of steps with their questions", "Write `procedure/step:` and its questions."
                )
            continue
        for key, questions in sheet.plain.items():
            if key != NO_STEP and key not in procedures.steps:
                sheet.blame((key,), f"there is no step {key!r}", "Write procedure/step as the step files have it.")
            elif not isinstance(questions, list) or not all(isinstance(one, str) and one for one in questions):
                sheet.blame((key,), "holds no list of questions", "Write one question a line, after a dash.")
            else:
                asked += _once(sheet, key, questions, first)
    faults = [fault for sheet in sheets for fault in sheet.faults]
    if faults:
        raise KnowledgeError(str(folder), faults)
    return asked + _of_the_steps(procedures, first)


def learned_text(folder: Path) -> str:
    """What was learned, as a book carries it. KnowledgeError: it is missing, damaged, or of other questions."""
    path = folder / FOLDER / LEARNED
    name = f"{FOLDER}/{LEARNED}"
    try:
        text = path.read_text(encoding="ascii")
        digest = Weights.from_text(text).digest
    except FileNotFoundError:
        raise KnowledgeError(str(folder), [Fault(name, "", "is missing", _LEARN)]) from None
    except ValueError as error:
        raise KnowledgeError(str(folder), [Fault(name, "", f"cannot be read: {error}", _LEARN)]) from error
    if digest != digest_of(folder):
        raise KnowledgeError(
            str(folder), [Fault(name, "", "was learned from other questions than stand beside it", _LEARN)]
        )
    return text


def _files(folder: Path) -> list[Path]:
    return sorted((folder / FOLDER).glob("*.yaml"))


def _of_the_steps(procedures: Procedures, first: dict[tuple[str, ...], str]) -> list[tuple[str, str]]:
    """Titles and `asked_as` of the steps, without what several of them are asked as."""
    said: dict[tuple[str, ...], set[str]] = {}
    texts = [(key, text) for key, step in procedures.steps.items() for text in (step.title, *step.asked_as)]
    for key, text in texts:
        words = words_of(text)
        said.setdefault(words, {key, first.get(words, key)}).add(key)
    return [(key, text) for key, text in texts if len(said[words_of(text)]) == 1]


def _once(sheet: Sheet, key: str, questions: list[str], first: dict[tuple[str, ...], str]) -> list[tuple[str, str]]:
    taken = []
    for n, question in enumerate(questions):
        other = first.setdefault(words_of(question), key)
        if other != key:
            sheet.blame((key, n), f"{question!r} stands for {other} as well", "Leave it with the step that it means.")
        taken.append((key, question))
    return taken
