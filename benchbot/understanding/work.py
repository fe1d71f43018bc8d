"""The message while it is being read: its tokens, and what each has been found to be so far."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from benchbot.understanding.lexicon import Lexicon, VehicleNames
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
        return self.match(at, self.lexicon.lists.get(name, {}))

    def match(
        self, at: int, phrases: Mapping[tuple[str, ...], object], plurals: bool = True, free_only: bool = False
    ) -> int:
        """How many tokens from `at` on make one of the phrases (marks inside are passed over)."""
        first = self.text(at)
        best = 0
        longest = self.lexicon.longest(phrases)
        words: list[str] = []
        here = at
        while here < len(self.tokens) and len(words) < longest:
            if self.tokens[here].kind == "mark" and self.text(here) not in "&+#@":
                if not words:
                    return 0
                here += 1
                continue
            if free_only and not self.free(here):
                break
            words.append(self.text(here))
            here += 1
            if tuple(words) in phrases or (
                plurals and len(words) == 1 and first.endswith("s") and (first[:-1],) in phrases and len(first) > 3
            ):
                best = here - at
        return best

    def matched(self, at: int, length: int) -> tuple[str, ...]:
        """The phrase that `match` found."""
        return tuple(
            self.text(i) for i in range(at, at + length) if self.tokens[i].kind != "mark" or self.text(i) in "&+#@"
        )


def _singular_stands(word: str, phrases: Mapping[tuple[str, ...], object]) -> bool:
    return len(word) > 3 and word.endswith("s") and (word[:-1],) in phrases
