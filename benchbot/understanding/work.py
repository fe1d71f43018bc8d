"""The message while it is being read: its tokens, and what each has been found to be so far."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from benchbot.understanding.lexicon import Lexicon, Phrases, VehicleNames
from benchbot.understanding.reading import Role, WordNote
from benchbot.understanding.tokens import Token


@dataclass(slots=True)
class Work:
    """Tokens with their notes; a token without a note is still free to be read."""

    tokens: list[Token]
    lexicon: Lexicon
    names: VehicleNames
    notes: list[WordNote | None] = field(default_factory=list)
    chat_make: int | None = None

    def __post_init__(self) -> None:
        if not self.notes:
            self.notes = [None] * len(self.tokens)

    def free(self, at: int) -> bool:
        return 0 <= at < len(self.tokens) and self.notes[at] is None and self.tokens[at].kind != "mark"

    def is_word(self, at: int) -> bool:
        return 0 <= at < len(self.tokens) and self.tokens[at].kind == "word"

    def is_number(self, at: int) -> bool:
        return 0 <= at < len(self.tokens) and self.tokens[at].kind == "number"

    def text(self, at: int) -> str:
        return self.tokens[at].text if 0 <= at < len(self.tokens) else ""

    def take(self, places: Iterable[int], role: Role, read_as: str = "", how: str = "") -> None:
        for at in places:
            self.notes[at] = WordNote(self.tokens[at].raw, role, read_as, how)

    def role(self, at: int) -> Role | None:
        note = self.notes[at] if 0 <= at < len(self.tokens) else None
        return note.role if note else None

    def next_at(self, at: int, step: int = 1, marks: bool = False) -> int:
        """The place of the next token in a direction, past marks unless they are wanted; -1 or len() at an end."""
        at += step
        while 0 <= at < len(self.tokens) and not marks and self.tokens[at].kind == "mark":
            at += step
        return at

    def in_list(self, at: int, name: str) -> int:
        """How many tokens from `at` make a phrase of a named word list: the longest, 0 when none does."""
        phrases = self.lexicon.lists.get(name)
        return self.match(at, phrases) if phrases else 0

    def match(self, at: int, phrases: Phrases[Any], plurals: bool = True, free_only: bool = False) -> int:
        """How many tokens from `at` on make one of the phrases (marks inside are passed over)."""
        if not 0 <= at < len(self.tokens):
            return 0
        text = self.tokens[at].text
        singular = text[:-1] if plurals and len(text) > 3 and text[-1] == "s" else ""
        alone = bool(singular) and (singular,) in phrases
        longest = phrases.first.get(text, 0)
        if not longest and not alone:
            return 0
        if free_only and not self.free(at):
            return 0
        best = 1 if alone or (text,) in phrases else 0
        words = [text]
        here = at + 1
        while here < len(self.tokens) and len(words) < longest:
            token = self.tokens[here]
            if token.kind != "mark" or token.text in "&+#@":
                if free_only and token.kind != "mark" and not self.free(here):
                    break
                words.append(token.text)
                if tuple(words) in phrases:
                    best = here + 1 - at
            elif token.text in ",;.?!:":
                break
            here += 1
        return best

    def matched(self, at: int, length: int) -> tuple[str, ...]:
        """The phrase that `match` found."""
        return tuple(
            self.text(i) for i in range(at, at + length) if self.tokens[i].kind != "mark" or self.text(i) in "&+#@"
        )
