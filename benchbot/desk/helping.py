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
from benchbot.reply.languages import wording_of as reply_wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import position_words, property_words

EXAMPLES = 3
_TRIED_AT_MOST = 60


@dataclass(slots=True)
class Helping:
    """Keeps the examples of the book that it last looked at."""

    conversation: Conversation
    _of_book: int = -1
    _examples: dict[str, tuple[str, ...]] = field(default_factory=dict)

    def show(self, handling: Handling) -> None:
        with handling.writing():
            handling.post(self.sheet(handling.words, self._commands(handling), handling.now.date()))

    def sheet(self, words: Wording, commands: tuple[str, ...], today: date) -> Sheet:
        listed = [f"/{command} {meaning(command, words)}" for command in commands]
        blocks = [
            Block("question", words.help_head),
            *(Block("echo", one) for one in self.examples(today, words.language)),
        ]
        blocks += [Block("note", line) for line in (words.help_rules, words.help_words, *listed, words.maker_first)]
        return Sheet(tuple(blocks))

    def examples(self, today: date, language: str) -> tuple[str, ...]:
        """Three short questions, each of another part, that the book answers as they stand."""
        book = self.conversation.book
        if book.version != self._of_book:
            self._of_book, self._examples = book.version, {}
        if language not in self._examples:
            self._examples[language] = self._found(today, language)
        return self._examples[language]

    def _found(self, today: date, language: str) -> tuple[str, ...]:
        book = self.conversation.book
        found: dict[str, str] = {}
        # the same examples for the same book, and others with every new one
        chance = random.Random(book.version)
        for _ in range(_TRIED_AT_MOST):
            row = book.some_spec(chance.random(), today)
            if row is None or row.component in found:
                continue
            text = self._question(row, language)
            outcome = self.conversation.consider(text, None, PLAIN).outcome
            if isinstance(outcome, Answer) and [finding.row.spec for finding in outcome.findings] == [row.spec]:
                found[row.component] = text
            if len(found) == EXAMPLES:
                break
        return tuple(found.values())

    def _question(self, row: SpecRow, language: str) -> str:
        """As a technician would write it: two digits of the year, and no make where the model says enough."""
        name = self.conversation.book.vehicle(row.vehicle)
        wording = reply_wording_of(language)
        narrowing = [part.partition("=")[2] for part in row.only_if.split("; ") if part]
        # where a part has several names, the first is enough
        component, _, _ = wording.names.parts.get(row.component, row.component).partition(", ")
        place, figure = position_words(row.position, wording), property_words(row.property, wording)
        thing = (place, component, figure) if wording.is_the_books else (component, place, figure)
        words = (f"{row.year_to % 100:02}", name.model, *narrowing, *thing)
        return " ".join(word for word in words if word).lower()

    def _commands(self, handling: Handling) -> tuple[str, ...]:
        return commands_of(handling.asker.memberships) if handling.incoming.private else GROUP_COMMANDS
