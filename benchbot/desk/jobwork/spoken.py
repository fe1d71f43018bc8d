"""Hands-free words: what somebody at a vehicle says to the job in hand, and nothing that could be a question."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from benchbot.vocabulary.letters import fold

Word = Literal["done", "next", "back", "where", "skip", "measured", "tightened", "pause", "finish"]

# Each is the whole message: "back brakes torque" and "next car" are none of them.
_SAID: dict[Word, tuple[str, ...]] = {
    "done": ("done", "its done", "it's done", "step done", "this is done", "thats done", "that's done", "ok done",
             "did it", "did that", "hecho", "listo", "ya esta", "ya esta hecho"),
    "next": ("next", "next step", "next one", "go on", "siguiente", "siguiente paso", "el siguiente", "sigue"),
    "back": ("back", "go back", "step back", "back one", "previous", "previous step", "atras", "regresa",
             "paso anterior", "el anterior"),
    "where": ("where am i", "where was i", "where are we", "where were we", "what step am i on", "which step am i on",
              "donde estoy", "en que paso voy", "en que paso estoy", "donde iba"),
    "skip": ("skip", "skip it", "skip this", "skip that", "skip step", "skip this step", "saltar", "salta",
             "saltalo", "saltar paso"),
    "measured": ("measured", "medido"),
    "tightened": ("tightened", "torqued", "apretado"),
    "pause": ("pause", "pause job", "pause the job", "pausa"),
    "finish": ("finish", "finish job", "finish the job", "terminar", "terminar trabajo"),
}  # fmt: skip
_WORDS: dict[str, Word] = {said: word for word, several in _SAID.items() for said in several}
_SKIP = re.compile(
    r"\s*(?:skip|saltar|salta)(?:\s+(?:it|this|that|step|this\s+step|paso))?\s*"
    r"(?:[:,;-]\s*(?:because\b|cause\b|porque\b)?|\b(?:because|cause|cuz|bc|since|as|porque|ya\s+que)\b)\s*(\S.*)",
    re.IGNORECASE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Spoken:
    """reason: why it is skipped, "" where none was said."""

    word: Word
    reason: str = ""


def spoken(text: str) -> Spoken | None:
    """What the whole message says to a job; None for whatever is anything else."""
    bare = " ".join(fold(text).replace("\u2019", "'").strip(" .,!¡").split())
    asks = bare.endswith("?")
    word = _WORDS.get(bare.strip(" ?¿"))
    if word is not None:
        # "done?" asks; "where am i?" says the same with its sign as without
        return Spoken(word) if word == "where" or not asks else None
    reason = None if asks else _SKIP.fullmatch(text.strip())
    return None if reason is None else Spoken("skip", reason[1].strip())
