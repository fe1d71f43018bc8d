"""The terminal channel: one chat of one person, line by line, with numbered choices."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.errors import BenchbotError
from benchbot.reply.reply import Reply
from benchbot.reply.why import why

LEAVE = frozenset({"quit", "exit", "bye", "q", "/quit", "/exit"})
HELP = frozenset({"help", "/help"})
MORE = frozenset({"more", "/more"})
WHY = frozenset({"why", "why?", "/why"})

HELP_TEXT = """\
Ask for one vehicle and one part: year, make and model, engine or drive, front or rear, the part, what you need of it.
A number takes that choice; "more" shows further units and where a row holds; "why" shows how I read you; "quit" leaves.
I never guess: what decides the value is asked for, and what the book does not hold is logged for the curator.
The vehicle maker's current service information, local codes and licensed practice come first."""
NO_MORE = "There is no more to it."
NOTHING_YET = "Nothing was asked yet."
GOODBYE = "Bye."


class Screen(Protocol):
    """Where a chat is read from and shown."""

    def line(self) -> str | None:
        """The next line that the person enters; None when they have left."""

    def show(self, reply: Reply) -> None:
        """Shows a reply."""

    def say(self, text: str) -> None:
        """Shows a line of the channel itself."""


@dataclass(slots=True)
class TerminalChat:
    """A chat on a screen. mark: a line put under every answer and every "more", such as that all of it is invented."""

    conversation: Conversation
    screen: Screen
    chat: str
    person: str
    mark: str = ""
    last: Turn | None = None

    def run(self) -> None:
        """Serves the person until they leave. What goes wrong with one message is shown, and the next is taken."""
        while (line := self.screen.line()) is not None:
            text = line.strip()
            if text.casefold() in LEAVE:
                break
            if text:
                try:
                    self.take(text)
                except BenchbotError as error:
                    self.screen.say(str(error))
        self.screen.say(GOODBYE)

    def take(self, text: str) -> None:
        """Handles one line: a word for the channel, the number of a choice, or a message."""
        word = text.casefold()
        if word in HELP:
            self.screen.say(HELP_TEXT)
        elif word in MORE:
            self._again(_more)
        elif word in WHY:
            self._again(lambda turn: why(turn.reading))
        elif self.last is not None and word.isascii() and word.isdigit() and self._is_choice(word):
            self._show(self.conversation.press(self.chat, self.person, int(word)))
        else:
            self._show(self.conversation.say(self.chat, self.person, text))

    def _is_choice(self, word: str) -> bool:
        return self.last is not None and len(word) < 3 and 1 <= int(word) <= len(self.last.reply.choices)

    def _again(self, of: Callable[[Turn], str]) -> None:
        """Shows something further of the last turn."""
        if self.last is None:
            self.screen.say(NOTHING_YET)
            return
        self.screen.say(of(self.last))
        if self.mark and self.last.reply.specs:
            self.screen.say(self.mark)

    def _show(self, turn: Turn) -> None:
        self.last = turn
        self.screen.show(turn.reply)
        if self.mark and turn.reply.specs:
            self.screen.say(self.mark)


def _more(turn: Turn) -> str:
    return turn.reply.more_text() or NO_MORE
