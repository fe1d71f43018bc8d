"""People who go on asking while the bot is killed again and again: what each does next, and what must come of it."""

from __future__ import annotations

import random
import threading
from collections import deque
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Literal

from bay_questions import Question
from standin.client import StandIn
from standin.looks import Shown

from benchbot.desk.wording import ENGLISH

NOT_RIGHT, NO_WORDS = ENGLISH.not_right, ENGLISH.note_skip

Doubt = Literal["", "words", "skip"]


@dataclass(frozen=True, slots=True)
class Errand:
    """doubt: the answer is marked as not right, with words to it or without."""

    question: Question
    doubt: Doubt = ""


@dataclass(frozen=True, slots=True)
class Post:
    """A new message that the bot owes a chat. question, message: what a reply answers, and the message that asked."""

    what: Literal["reply", "note asked", "note kept"]
    question: Question | None = None
    message: int = 0


@dataclass(slots=True)
class Phone:
    """One person in one chat. asked: what must be on record of them, in order; owed: what the chat must show."""

    server: StandIn
    person: int
    chat: int
    owed: list[Post]
    errands: deque[Errand] = field(default_factory=deque)
    asked: list[str] = field(default_factory=list)
    notes: int = 0
    words: list[str] = field(default_factory=list)
    _next: Callable[[], bool] | None = None

    @property
    def name(self) -> str:
        """The chat's name in the conversation."""
        return f"telegram {self.chat}" + (f" of {self.person}" if self.chat < 0 else "")

    @property
    def waits(self) -> bool:
        """Something of the bot's must stand in the chat before they go on."""
        return self._next is not None

    @property
    def over(self) -> bool:
        return not self.waits and not self.errands

    def ask(self) -> None:
        """The next question; where no button is to be pressed, nobody waits for its answer."""
        errand = self.errands.popleft()
        question = errand.question
        mention = "" if self.chat > 0 else ("@StandInBot ", "/ask@StandInBot ")[len(self.asked) % 2]
        said = self.server.say(self.chat, mention + question.text, self.person)
        assert said.update is not None, "the bot does not hear of it"
        self.asked.append(question.text)
        self.owed.append(Post("reply", question, said.message))
        if question.kind == "choice":
            self._next = lambda: self._choose(question)
        elif errand.doubt:
            self._next = lambda: self._doubt(errand)

    def go_on(self) -> bool:
        """Whether what they waited for was there."""
        return self._next is not None and self._next()

    def _choose(self, question: Question) -> bool:
        shown = self._find(question.asks, question.choice)
        if shown is None:
            return False
        self.server.press(self.chat, shown.id, label=question.choice, person=self.person)
        self.asked.append(str(1 + shown.labels.index(question.choice)))
        self._next = None
        return True

    def _doubt(self, errand: Errand) -> bool:
        shown = self._find(errand.question.shows, NOT_RIGHT)
        if shown is None:
            return False
        self.server.press(self.chat, shown.id, label=NOT_RIGHT, person=self.person)
        self.owed.append(Post("note asked"))
        self.notes += 1
        self._next = None
        if errand.doubt == "skip":
            self._next = lambda: self._skip(shown.id)
            return True
        # Written without a look at what the bot says: it has to be taken as the words all the same.
        words = f"the sheet says another value, {self.person} {self.notes}"
        self.server.say(self.chat, words, self.person)
        self.owed.append(Post("note kept"))
        self.words.append(words)
        return True

    def _skip(self, marked: int) -> bool:
        shown = self._find((ENGLISH.note_ask,), NO_WORDS, after=marked)
        if shown is None:
            return False
        self.server.press(self.chat, shown.id, label=NO_WORDS, person=self.person)
        self._next = None
        return True

    def _find(self, lines: Iterable[str], label: str, after: int = 0) -> Shown | None:
        """The last message of the bot that has these lines and this button; after: behind that message."""
        for shown in reversed(self.server.answers(self.chat)):
            if shown.id > after and label in shown.labels and {*lines} <= {*shown.text.splitlines()}:
                return shown
        return None


@dataclass(slots=True)
class Crowd:
    """All phones, driven by one thread: the order in which it acts is the order in which the bot hears of it."""

    phones: list[Phone]
    chance: random.Random
    allowed: int = 0
    gap: float = 0.05
    done: int = 0
    fault: BaseException | None = None
    _over: threading.Event = field(default_factory=threading.Event)

    @property
    def over(self) -> bool:
        return all(phone.over for phone in self.phones)

    def run(self) -> None:
        """Until everybody has what they wanted, or `stop`."""
        try:
            while not self._over.wait(self.chance.expovariate(1 / self.gap)) and not self.over:
                self._step()
        except BaseException as fault:  # told to the thread that waits for this one
            self.fault = fault

    def stop(self) -> None:
        self._over.set()

    def _step(self) -> None:
        waiting = [phone for phone in self.phones if phone.waits]
        self.chance.shuffle(waiting)
        for phone in waiting[:3]:
            phone.go_on()
        free = [phone for phone in self.phones if phone.errands and not phone.waits]
        if free and self.done < self.allowed:
            self.chance.choice(free).ask()
            self.done += 1
