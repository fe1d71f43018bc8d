"""`/help`: how to ask, on one screen, with questions that the shop's own book answers."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from datetime import date

from benchbot.book.rows import SpecRow
from benchbot.conversation.conversation import Conversation
from benchbot.conversation.manner import PLAIN
from benchbot.desk.handling import Handling
from benchbot.desk.menus import GROUP_COMMANDS, commands_of, meaning
from benchbot.desk.sheets import Sheet
from benchbot.desk.wording import Wording
from benchbot.outcomes import Answer
from benchbot.reply.reply import Block

EXAMPLES = 3
_TRIED_AT_MOST = 60


@dataclass(slots=True)
class Helping:
    """Keeps the examples of the book that it last looked at."""

    conversation: Conversation
    _of_book: int = -1
    _examples: tuple[str, ...] = field(default=())

    def show(self, handling: Handling) -> None:
        with handling.writing():
            handling.post(self.sheet(handling.words, self._commands(handling), handling.now.date()))

    def sheet(self, words: Wording, commands: tuple[str, ...], today: date) -> Sheet:
        listed = [f"/{command} {meaning(command, words)}" for command in commands]
        blocks = [Block("question", words.help_head), *(Block("echo", one) for one in self.examples(today))]
        blocks += [Block("note", line) for line in (words.help_rules, words.help_words, *listed, words.maker_first)]
        return Sheet(tuple(blocks))

    def examples(self, today: date) -> tuple[str, ...]:
        """Three short questions, each of another part, that the book answers as they stand."""
        book = self.conversation.book
        if book.version != self._of_book:
            self._of_book, self._examples = book.version, self._found(today)
        return self._examples

    def _found(self, today: date) -> tuple[str, ...]:
        book = self.conversation.book
        found: dict[str, str] = {}
        # the same examples for the same book, and others with every new one
        chance = random.Random(book.version)
        for _ in range(_TRIED_AT_MOST):
            row = book.some_spec(chance.random(), today)
            if row is None or row.component in found:
                continue
            text = self._question(row)
            outcome = self.conversation.consider(text, None, PLAIN).outcome
            if isinstance(outcome, Answer) and not outcome.missing:
                found[row.component] = text
            if len(found) == EXAMPLES:
                break
        return tuple(found.values())

    def _question(self, row: SpecRow) -> str:
        """As a technician would write it: two digits of the year, and no make where the model says enough."""
        name = self.conversation.book.vehicle(row.vehicle)
        narrowing = [part.partition("=")[2] for part in row.only_if.split("; ") if part]
        words = (f"{row.year_to % 100:02}", name.model, *narrowing, row.position, row.component, row.property)
        return " ".join(word for word in words if word).lower()

    def _commands(self, handling: Handling) -> tuple[str, ...]:
        return commands_of(handling.asker.memberships) if handling.incoming.private else GROUP_COMMANDS
