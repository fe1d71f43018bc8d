"""A desk to ask at: the demo book published once, a clock that tests set, and chats that share nothing."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.outcomes import Answer, Choose, Gap, Procedure
from benchbot.places import Home

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
TABLES = ("specs.csv", "vehicle_names.csv", "words.csv")
_DATABASE = "BENCHBOT_DATABASE_URL"


def published(folder: Path, *tables: Path) -> Home:
    """A home whose book holds the tables; no database that a setting names is touched."""
    before = os.environ.pop(_DATABASE, None)
    home = Home(folder)
    try:
        for table in tables:
            import_table(home, table, False, "test", NOW)
        publish(home, NOW)
    finally:
        if before is not None:
            os.environ[_DATABASE] = before
    return home


@dataclass(slots=True)
class Clock:
    """Says the moment that it is set to."""

    moment: datetime = NOW

    def __call__(self) -> datetime:
        return self.moment


@dataclass(slots=True)
class Desk:
    """A conversation on one home."""

    home: Home
    clock: Clock = field(default_factory=Clock)
    conversation: Conversation = field(init=False)
    _chats: count[int] = field(default_factory=count)

    def __post_init__(self) -> None:
        before = os.environ.pop(_DATABASE, None)
        self.conversation = Conversation.open(self.home, self.clock)
        if before is not None:
            os.environ[_DATABASE] = before

    def chat(self) -> Chat:
        """A chat that nobody has used."""
        return Chat(self.conversation, f"chat {next(self._chats)}")

    def ask(self, *texts: str) -> Turn:
        """The last turn of a new chat that says these texts."""
        chat = self.chat()
        return [chat.say(text) for text in texts][-1]


@dataclass(frozen=True, slots=True)
class Chat:
    """One chat of one person at the desk."""

    conversation: Conversation
    name: str

    def say(self, text: str, message: str | None = None) -> Turn:
        return self.conversation.say(self.name, "tester", text, message)

    def press(self, number: int) -> Turn:
        return self.conversation.press(self.name, "tester", number)


def shown(turn: Turn) -> list[str]:
    """The ids of the specs whose values the reply shows, in order."""
    return [finding.row.spec for finding in turn.outcome.findings] if isinstance(turn.outcome, Answer) else []


def labels(turn: Turn) -> list[str]:
    """The labels of the choices offered."""
    return [option.label for option in turn.outcome.options] if isinstance(turn.outcome, Choose) else []


def offered(turn: Turn) -> set[str]:
    """Every spec behind the choices offered."""
    options = turn.outcome.options if isinstance(turn.outcome, Choose) else ()
    return {spec for option in options for spec in option.specs}


def reasons(turn: Turn) -> list[str]:
    """Why things asked for are missing, beside an answer or instead of one."""
    return [one.reason for one in turn.outcome.missing] if isinstance(turn.outcome, (Answer, Gap)) else []


def brief(turn: Turn) -> str:
    """The outcome in a line, for tables of expectations: "answer D0001", "choose year", "gap year not covered" ..."""
    outcome = turn.outcome
    if isinstance(outcome, Answer):
        return " ".join(["answer", *shown(turn), *(f"+ {reason}" for reason in reasons(turn))])
    if isinstance(outcome, Choose):
        return f"choose {outcome.about} {outcome.key}".strip()
    if isinstance(outcome, Gap):
        return f"gap {' + '.join(reasons(turn))}"
    if isinstance(outcome, Procedure):
        return f"procedure {outcome.step.key}"
    return f"other {outcome.what}" if hasattr(outcome, "what") else "calculation"
