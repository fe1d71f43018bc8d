"""The front desk: who speaks, may they, and which part of the bot it is for; one message is on record all at once."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

from benchbot.conversation.conversation import Conversation
from benchbot.desk import done_already, recalls_card
from benchbot.desk.asker import Asker
from benchbot.desk.awaiting import Awaiting
from benchbot.desk.bookwork.bookwork import COMMANDS as BOOK_COMMANDS
from benchbot.desk.bookwork.bookwork import Bookwork
from benchbot.desk.bookwork.leaves import KIND as WORK
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.helping import Helping
from benchbot.desk.incoming import Bot, Incoming
from benchbot.desk.inline import Inline
from benchbot.desk.jobwork.jobwork import COMMAND as JOB
from benchbot.desk.jobwork.jobwork import Jobwork
from benchbot.desk.jobwork.leaves import KIND as OF_A_JOB
from benchbot.desk.joining import Joining
from benchbot.desk.lifting import Lifting
from benchbot.desk.limits import Limits
from benchbot.desk.menus import OWNER_COMMANDS, is_ours
from benchbot.desk.notes import WHAT as WORDS_OF_A_NOTE
from benchbot.desk.notes import Notes
from benchbot.desk.one_line import LATE, OneLine, is_late
from benchbot.desk.owning import Owning
from benchbot.desk.permits import ANYWHERE, action_of, action_of_press, is_wrong
from benchbot.desk.picture_buttons import is_picture
from benchbot.desk.picturing import Picturing
from benchbot.desk.questions import Questions
from benchbot.desk.resending import Resending
from benchbot.desk.sheets import AtOnce, Offers
from benchbot.desk.standing import Standing, greeting
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.places import Home
from benchbot.records import cards, expected
from benchbot.records.cards import Card

__all__ = ["LATE", "Desk"]


def _now() -> datetime:
    return datetime.now(UTC)


class Desk:
    """Takes whatever comes in, one after the other, on one thread; several desks work side by side on one home."""

    def __init__(
        self, home: Home, bot: Bot, clock: Callable[[], datetime] = _now, limits: Limits | None = None
    ) -> None:
        """limits: shared by the desks of one process. BookError or RecordError when the home cannot be served."""
        self._bot, self._clock = bot, clock
        self._conversation = Conversation.open(home, clock)
        self._record = self._conversation.record
        self._people = People(self._record)
        self._questions = Questions(self._conversation)
        self._notes = Notes(self._questions, self._people)
        self._picturing = Picturing(self._questions, home)
        self._lifting = Lifting(self._conversation)
        self._standing = Standing(self._people, self._questions)
        self._owning = Owning.of(self._people, self._record)
        self._bookwork = Bookwork.of(home, self._conversation, self._people, self._questions)
        self._jobwork = Jobwork.of(home, self._conversation, self._people, self._questions)
        self._awaiting = Awaiting(
            self._conversation, self._notes, self._owning, self._questions, self._standing, self._bookwork,
            self._jobwork,
        )  # fmt: skip
        self._joining = Joining(self._people, self._record)
        self._one_line = OneLine(self._people, self._joining, limits or Limits())
        self._helping = Helping(self._conversation)
        self._inline = Inline(self._conversation)
        self._resending = Resending()

    def close(self) -> None:
        self._conversation.close()

    def take(self, incoming: Incoming) -> tuple[AtOnce, ...]:
        """Handles one thing that came in; what it returns needs no record and is best done at once.

        Whatever it raises, nothing of it is on record, nor that it was handled.
        """
        person, name = incoming.person, incoming.name
        asker = Asker.of(person, name, self._people) if person else Asker("", "")
        handling = Handling(self._bot, self._record, incoming, self._clock(), asker)
        if asker.memberships:
            handling.alongside.append(lambda: self._people.rename_person(person, name))
        self._take(handling)
        return tuple(handling.at_once)

    def _take(self, handling: Handling) -> None:
        incoming, code = handling.incoming, self._joining.is_code(handling)
        if incoming.command and not incoming.addressed and not is_ours(incoming.command):
            # in a group it is most likely for another bot there
            handling.pass_over()
        elif incoming.what == "nobody":
            self._one_line.nobody(handling)
        elif is_late(handling) and not code:
            self._one_line.late(handling)
        elif not self._one_line.has_room(handling):
            self._one_line.hold_back(handling)
        elif code:
            self._joining.hand_in(handling)
        elif not handling.asker.memberships:
            self._joining.turn_away(handling)
        elif incoming.what == "press":
            self._press(handling)
        elif not self._may(handling, action_of(incoming)):
            return
        elif incoming.what == "inline":
            self._inline.offer(handling)
        elif incoming.what == "chosen":
            self._inline.chosen(handling)
        elif incoming.what == "changed":
            self._changed(handling)
        elif incoming.what == "media" and self._bookwork.photos.takes(handling):
            with handling.writing():
                self._bookwork.photos.offer(handling)
        elif incoming.what == "media":
            self._one_line.media(handling)
        elif incoming.command:
            self._command(handling)
        else:
            self._text(handling, incoming.text)

    def _may(self, handling: Handling, action: Action) -> bool:
        """By the table of rights, for the place where they stand; who may not is told why."""
        asker, incoming = handling.asker, handling.incoming
        if asker.standing is None or action in ANYWHERE:
            # an owner need not stand at the place that is seen to; which one it is, its page decides by
            decision = asker.may_anywhere(action, incoming.private)
        else:
            decision = asker.may(action, asker.standing.location.number, incoming.private)
        if decision.allowed:
            return True
        if incoming.what == "press":
            handling.refuse(handling.words.denied(decision))
        elif incoming.what == "inline":
            with handling.writing():
                handling.at_once.append(Offers(incoming.query))
        elif incoming.what == "text":
            handling.say(handling.words.denied(decision))
        else:
            handling.pass_over()
        return False

    def _text(self, handling: Handling, text: str) -> None:
        incoming, asker = handling.incoming, handling.asker
        if incoming.album:
            handling.alongside.append(lambda: self._one_line.is_known_album(handling))
        if incoming.file and self._bookwork.photos.takes(handling):
            handling.alongside.append(lambda: self._bookwork.photos.offer(handling))
        # a command has put an end to what was awaited
        awaited = None if incoming.command else self._awaiting.awaited(handling, text)
        if awaited is not None:
            if awaited.what != WORDS_OF_A_NOTE or self._may(handling, "say what is not right"):
                self._awaiting.written(handling, awaited, text)
        elif not incoming.command and self._jobwork.takes(handling, text):
            if self._may(handling, "job"):
                self._jobwork.say(handling, text)
        elif asker.standing is None:
            self._standing.ask_first(handling, text)
        else:
            self._questions.ask(handling, text)

    def _changed(self, handling: Handling) -> None:
        card = cards.asked(self._record, handling.chat, handling.incoming.message)
        command = handling.incoming.command
        text = handling.incoming.text
        if card is None or command not in ("", "ask", "vehicle"):
            handling.pass_over()
        elif card.kind == "standing" and "said" in card.body and text.strip():
            self._standing.change(handling, card, text)
        elif "first" not in card.body:
            # what was no question then is none now
            handling.pass_over()
        else:
            self._questions.change(handling, card, text)

    def _command(self, handling: Handling) -> None:
        """A command puts an end to whatever entry was awaited; a question in between leaves a curator's entry open."""
        command, text, words = handling.incoming.command, handling.incoming.text, handling.words
        if command == "ask" and text and self._bookwork.awaits(handling):
            self._bookwork.ask_between(handling, text)
            return
        if command == "ask" and text and self._jobwork.awaits(handling):
            self._questions.ask(handling, text)
            return
        handling.alongside.append(lambda: expected.taken(self._record, handling.chat, handling.asker.person))
        if command == "ask":
            if text:
                self._text(handling, text)
            else:
                handling.say(words.ask_what)
        elif command == "vehicle" and text:
            self._text(handling, text)
        elif command == "vehicle":
            self._lifting.show(handling)
        elif command == "location":
            self._standing.show(handling)
        elif command == "help":
            self._helping.show(handling)
        elif command == "start":
            self._start(handling)
        elif command in BOOK_COMMANDS:
            self._bookwork.command(handling, command, text)
        elif command == JOB and handling.asker.standing is None:
            self._standing.show(handling)
        elif command == JOB:
            self._jobwork.command(handling, text)
        elif command in OWNER_COMMANDS:
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
            if self._may(handling, action_of_press("", code)):
                self._resending.press(handling, code)
            return
        held = number_in(number)
        card = None if held is None else cards.one(self._record, held)
        if card is None or not card.alive(handling.now):
            handling.refuse(words.pressed_gone)
        elif card.keeper != handling.asker.person:
            handling.refuse(self._foreign(handling, card))
        elif not handling.goes_on_in(card.chat):
            handling.refuse(words.pressed_gone)
        else:
            self._press_on(handling, card, code)

    def _press_on(self, handling: Handling, card: Card, code: str) -> None:
        if not self._may(handling, action_of_press(card.kind, code)):
            return
        if card.kind in ("question", "answer", "said"):
            if is_wrong(code):
                self._notes.press(handling, card, code)
            elif is_picture(code):
                self._picturing.press(handling, card, code)
            elif code == done_already.DONE:
                done_already.press(handling, card)
            else:
                self._questions.press(handling, card, code)
        elif card.kind == recalls_card.KIND:
            recalls_card.press(handling, card, code)
        elif card.kind == "lift":
            self._lifting.press(handling, card, code)
        elif card.kind == "standing":
            # where they stand decides how the question that waited is answered: both are on record or neither
            with self._record.writing():
                self._standing.press(handling, card, code)
        elif card.kind == WORK:
            self._bookwork.press(handling, card, code)
        elif card.kind == OF_A_JOB:
            self._jobwork.press(handling, card, code)
        elif card.kind == "page":
            self._owning.press(handling, card, code)
        elif card.kind == "name":
            self._awaiting.press(handling, card, code)
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
