"""Questions on the demo book, no two alike, each with what its answer must show; a conversation beside says what."""

from __future__ import annotations

import csv
import random
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Literal

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.outcomes import Answer, Choose, Gap
from benchbot.places import Home, demo_folder
from benchbot.reply.reply import lines_of

Kind = Literal["answer", "choice", "gap"]
# Years of which the demo has no row at all.
_NOT_HELD = range(1978, 2000)
_TRIAL = "a chat to try in"


@dataclass(frozen=True, slots=True)
class Question:
    """kind: what comes of it. shows: the lines of its answer, as no other has them together. asks: those asked back.

    choice: the label of the button that leads to the answer.
    """

    kind: Kind
    text: str
    shows: tuple[str, ...]
    asks: tuple[str, ...] = ()
    choice: str = ""


class Questions:
    """Draws questions by a seed, and finds out on a home of its own what has to come of them."""

    def __init__(self, home: Home, chance: random.Random) -> None:
        self._conversation = Conversation.open(home)
        self._chance = chance
        with (demo_folder() / "specs.csv").open(encoding="utf-8", newline="") as file:
            self._rows = [row for row in csv.DictReader(file) if row["status"] == "verified"]
        self._used: set[str] = set()

    def close(self) -> None:
        self._conversation.close()

    def draw(self, kind: Kind, chat: str) -> Question:
        """One that was not drawn before, as the next question of a chat: what was said there before counts."""
        while True:
            row = self._chance.choice(self._rows)
            if kind == "choice" and row["position"] not in ("front", "rear"):
                continue
            self._begin_trial(chat)
            found = self._ask(kind, _TRIAL, self._text(kind, row), row["position"])
            if found is None:
                continue
            mine = {found.text, "\n".join(found.shows)}
            if not mine & self._used:
                self._used |= mine
                self._ask(kind, chat, found.text, found.choice)
                return found

    def _begin_trial(self, chat: str) -> None:
        now = datetime.now(UTC)
        record = self._conversation.record
        state, until = record.chat_state(chat, now), now + timedelta(hours=1)
        # Without a memory the trial's own is over at once.
        record.put_chat_state(_TRIAL, state or "", now, until if state else now)

    def _ask(self, kind: Kind, chat: str, text: str, axle: str) -> Question | None:
        """The question, when it comes to what it is to come to."""
        turn = self._conversation.say(chat, "test", text)
        if kind == "answer":
            return Question(kind, text, _lines(turn)) if isinstance(turn.outcome, Answer) else None
        if kind == "gap":
            # Below that line the reply tells the number that it has on record.
            return Question(kind, text, _lines(turn)[:1]) if isinstance(turn.outcome, Gap) else None
        labels = [choice.label for choice in turn.reply.choices]
        if not isinstance(turn.outcome, Choose) or sorted(labels) != ["front", "rear"]:
            return None
        answered = self._conversation.press(chat, "test", 1 + labels.index(axle))
        if not isinstance(answered.outcome, Answer):
            return None
        return Question(kind, text, _lines(answered), _lines(turn), axle)

    def _text(self, kind: Kind, row: dict[str, str]) -> str:
        """For a choice the axle is left out, and asked for."""
        held = range(int(row["year_from"]), int(row["year_to"]) + 1)
        year = self._chance.choice(_NOT_HELD if kind == "gap" else held)
        stated = " ".join(part.partition("=")[2].strip() for part in row["only_if"].split(";"))
        position = "" if kind == "choice" else row["position"]
        words = (str(year), row["make"], row["model"], stated, position, row["component"], row["property"])
        return " ".join(filter(None, words))


def _lines(turn: Turn) -> tuple[str, ...]:
    return tuple(lines_of(turn.reply.blocks))
