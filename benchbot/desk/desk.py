"""The front desk: who speaks, may they, and which part of the bot it is for; one message is on record all at once."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from benchbot.conversation.conversation import Conversation
from benchbot.desk.asker import Asker
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling, plain
from benchbot.desk.helping import Helping
from benchbot.desk.incoming import Bot, Incoming
from benchbot.desk.inline import Inline
from benchbot.desk.joining import Joining
from benchbot.desk.lifting import Lifting
from benchbot.desk.limits import Limits
from benchbot.desk.notes import WHAT as WORDS_OF_A_NOTE
from benchbot.desk.notes import Notes
from benchbot.desk.owning import Owning
from benchbot.desk.questions import Questions
from benchbot.desk.resending import Resending
from benchbot.desk.sheets import AtOnce
from benchbot.desk.standing import Standing, greeting
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import cards, expected
from benchbot.records.cards import Card
from benchbot.records.entry import Entry

LATE = timedelta(minutes=5)
LATE_LINE_AGAIN = timedelta(minutes=10)
ALBUM_KEPT = timedelta(hours=1)
OWNERS = ("locations", "people", "invite")


def _now() -> datetime:
    return datetime.now(UTC)


class Desk:
    """Takes whatever comes in, one after the other, on one thread; several desks work side by side on one home."""

    def __init__(
        self, home: Home, bot: Bot, clock: Callable[[], datetime] = _now, limits: Limits | None = None
    ) -> None:
        """limits: shared by the desks of one process. BookError or RecordError when the home cannot be served."""
        self._bot, self._clock = bot, clock
        self._limits = limits or Limits()
        self._conversation = Conversation.open(home, clock)
        self._record = self._conversation.record
        self._people = People(self._record)
        self._questions = Questions(self._conversation)
        self._notes = Notes(self._questions, self._people)
        self._lifting = Lifting(self._conversation, self._questions)
        self._standing = Standing(self._people, self._questions)
        self._owning = Owning.of(self._people, self._record)
        self._joining = Joining(self._people, self._record)
        self._helping = Helping(self._conversation)
        self._inline = Inline(self._conversation)
        self._resending = Resending()

    def close(self) -> None:
        self._conversation.close()

    def take(self, incoming: Incoming) -> tuple[AtOnce, ...]:
        """Handles one thing that came in; what it returns needs no record and is best done at once.

        Whatever it raises, nothing of it is on record, nor that it was handled.
        """
        handling = Handling(self._bot, self._record, incoming, self._clock(), self._asker(incoming))
        self._take(handling)
        return tuple(handling.at_once)

    def _asker(self, incoming: Incoming) -> Asker:
        if not incoming.person:
            return Asker("", "")
        asker = Asker.of(incoming.person, incoming.name, self._people)
        if asker.memberships:
            self._people.rename_person(incoming.person, incoming.name)
        return asker

    def _take(self, handling: Handling) -> None:
        incoming, words = handling.incoming, handling.words
        if incoming.what == "nobody":
            handling.say(words.nobody)
            return
        judged = self._limits.judge(incoming.person, incoming.chat or incoming.person, handling.now)
        if judged != "fine":
            self._hold_back(handling, first=judged == "first too many")
        elif self._joining.is_code(handling):
            self._joining.hand_in(handling)
        elif not handling.asker.memberships:
            self._joining.turn_away(handling)
        elif incoming.what == "press":
            self._press(handling)
        elif incoming.what == "inline":
            self._inline.offer(handling)
        elif handling.now - incoming.at > LATE:
            self._late(handling)
        elif incoming.what == "changed":
            self._changed(handling)
        elif incoming.what == "media":
            self._media(handling)
        elif incoming.command:
            self._command(handling)
        else:
            self._text(handling, incoming.text)

    def _hold_back(self, handling: Handling, first: bool) -> None:
        if handling.incoming.what == "press":
            handling.refuse(handling.words.too_many)
        elif first and handling.incoming.chat:
            handling.say(handling.words.too_many)
        else:
            with handling.writing():
                return

    def _late(self, handling: Handling) -> None:
        """One line for all that piled up in a chat while nobody answered; what was asked stays on record."""
        incoming = handling.incoming
        chat = f"telegram {incoming.chat}"
        with handling.writing():
            entry = Entry(
                chat=handling.chat, person=incoming.person, message=None, text=incoming.text, at=handling.now,
                outcome="late", reading="{}", reply="[]", location=handling.asker.manner.location,
            )  # fmt: skip
            self._record.put(entry)
            if not cards.stood_since(self._record, chat, "late", handling.now - LATE_LINE_AGAIN):
                cards.put(
                    self._record, chat, incoming.person, "late", "late", {}, handling.now, handling.now + ALBUM_KEPT
                )
                handling.post(plain(handling.words.late))

    def _media(self, handling: Handling) -> None:
        """One friendly line, and one alone for all the pictures of an album."""
        album = handling.incoming.album
        with handling.writing():
            if not (album and self._album_known(handling, album)):
                handling.post(plain(handling.words.media))

    def _album_known(self, handling: Handling, album: str) -> bool:
        """Whether something of the album came before; from now on it did."""
        asked = f"album {album}"
        if cards.asked(self._record, handling.chat, asked) is not None:
            return True
        handling.card("album", {}, asked, ALBUM_KEPT)
        return False

    def _text(self, handling: Handling, text: str) -> None:
        incoming, asker = handling.incoming, handling.asker
        if incoming.album:
            with handling.record.writing():
                self._album_known(handling, incoming.album)
        awaited = expected.one(self._record, handling.chat, asker.person, handling.now)
        if awaited is not None and text.strip():
            if awaited.what == WORDS_OF_A_NOTE:
                self._notes.written(handling, awaited, text)
            else:
                self._owning.written(handling, awaited, text)
        elif asker.standing is None:
            self._standing.ask_first(handling, text)
        else:
            self._questions.ask(handling, text)

    def _changed(self, handling: Handling) -> None:
        card = cards.asked(self._record, handling.chat, handling.incoming.message)
        command = handling.incoming.command
        if card is None or "first" not in card.body or command not in ("", "ask", "vehicle"):
            # what was no question then is none now
            with handling.writing():
                return
        else:
            self._questions.change(handling, card, handling.incoming.text)

    def _command(self, handling: Handling) -> None:
        """A command puts an end to whatever entry was awaited."""
        command, text, words = handling.incoming.command, handling.incoming.text, handling.words
        with self._record.writing():
            expected.taken(self._record, handling.chat, handling.asker.person)
        if command == "ask":
            if text:
                self._text(handling, text)
            else:
                handling.say(words.ask_what)
        elif command == "vehicle":
            self._lifting.show(handling, text)
        elif command == "location":
            self._standing.show(handling)
        elif command == "help":
            self._helping.show(handling)
        elif command == "start":
            self._start(handling)
        elif command in OWNERS:
            self._owning.command(handling, command)
        else:
            handling.say(words.unknown_command.format(command=command))

    def _start(self, handling: Handling) -> None:
        if handling.asker.standing is None:
            self._standing.show(handling)
            return
        with handling.writing():
            handling.post(greeting(handling.asker))
            if handling.incoming.private:
                handling.after_change(handling.asker.person, self._people)

    def _press(self, handling: Handling) -> None:
        number, _, code = handling.incoming.text.partition(":")
        words = handling.words
        if code.startswith("again."):
            self._resending.press(handling, code)
            return
        held = number_in(number)
        card = None if held is None else cards.one(self._record, held)
        if card is None or not card.alive(handling.now):
            handling.refuse(words.pressed_gone)
        elif card.keeper != handling.asker.person or card.chat != handling.chat:
            handling.refuse(self._foreign(handling, card))
        else:
            self._press_on(handling, card, code)

    def _press_on(self, handling: Handling, card: Card, code: str) -> None:
        if card.kind in ("question", "answer", "said"):
            if code == "wrong" and card.kind == "answer":
                self._notes.mark(handling, card)
            else:
                self._questions.press(handling, card, code)
        elif card.kind == "lift":
            self._lifting.press(handling, card, code)
        elif card.kind == "standing":
            self._standing.press(handling, card, code)
        elif card.kind == "page":
            self._owning.press(handling, card, code)
        elif card.kind == "note" and code == "skip":
            self._notes.skip(handling, card)
        else:
            handling.refuse(handling.words.pressed_old)

    def _foreign(self, handling: Handling, card: Card) -> str:
        for membership in handling.asker.memberships:
            for member in self._people.members(membership.location.number):
                if member.person == card.keeper:
                    return handling.words.pressed_foreign.format(name=member.name)
        return handling.words.pressed_foreign_unnamed
