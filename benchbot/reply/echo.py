"""Says which misspelt or misheard words were read as something else, so that a wrong rescue is seen at once."""

from __future__ import annotations

from collections.abc import Sequence

from benchbot.outcomes import Subject
from benchbot.reply.read_words import read_words
from benchbot.reply.reply import Block
from benchbot.reply.wording import Wording
from benchbot.understanding.reading import Reading, Role

_RESCUED = ("spelling", "heard")


def echo_blocks(reading: Reading, subjects: Sequence[Subject], wording: Wording) -> list[Block]:
    """One block for each thing that misspelt or misheard words were read as; the vehicle by its own name."""
    groups: dict[tuple[Role, str], list[str]] = {}
    for note in reading.notes:
        if note.how in _RESCUED and note.role != "noise":
            groups.setdefault((note.role, note.read_as), []).append(note.word)
    blocks = []
    for (role, read_as), words in groups.items():
        meant = _vehicle(subjects, wording) if role == "vehicle" else read_words(role, read_as, wording)
        if meant:
            blocks.append(Block("echo", wording.read_as.format(said=" ".join(words), meant=meant)))
    return blocks


def _vehicle(subjects: Sequence[Subject], wording: Wording) -> str:
    """The vehicle's own name; empty where it is not found out yet, as the choices name it then."""
    names = dict.fromkeys(f"{one.make} {one.model}" for one in subjects if one.make and one.model)
    return wording.both.join(names)
