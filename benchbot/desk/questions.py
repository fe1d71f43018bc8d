"""Questions: asked, chosen from, changed afterwards, looked at again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.manner import Aside, InHand, Manner
from benchbot.conversation.past import Past
from benchbot.desk.at_work import job_of, offer_for_job
from benchbot.desk.codes import number_in
from benchbot.desk.done_already import with_done
from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.picture_buttons import with_picture
from benchbot.desk.sheets import Sheet
from benchbot.desk.showing import View, answer_sheet, choices_sheet, further_units, step_sheet
from benchbot.outcomes import Answer, Choose, Other, Procedure, findings_of
from benchbot.records import cards
from benchbot.records.cards import Card
from benchbot.reply.reply import Block

# The state of a card whose answer was marked as not right.
DOUBTED = "doubted"


@dataclass(frozen=True, slots=True)
class Questions:
    """Cards of kind "question" carry choices, "answer" views of an answer, "said" nothing to press.

    A card's body: `before` the chat's memory when the message came, `said` the message or the number of the choice, and
    `job in hand` that of whoever asked, from which its turn can be considered again; `answer` its number on record;
    `specs` what it showed; `labels` of its choices; `step` how many questions it has asked; `work` whether it shows a
    step of a procedure, which can be viewed like an answer; `gap` the number of what the book does not hold; `first` of
    the message itself `before`, `said` and `answer`, for when it is changed; `left` a digest of the chat's memory after
    its turn, empty when its turn left none; `doubted` the specs that were marked as not right.
    """

    conversation: Conversation

    def ask(self, handling: Handling, text: str) -> None:
        """A message of its own."""
        self._ask(handling, text, handling.incoming.message, None)

    def answer_on(self, handling: Handling, card: Card, text: str, message: str) -> None:
        """A message that had to wait for something else: its answer takes the place of what stands on the card."""
        self._ask(handling, text, message, card)

    def _ask(self, handling: Handling, text: str, message: str, waiting: Card | None) -> None:
        def beside(turn: Turn) -> None:
            with handling.writing():
                if waiting is not None:
                    self._show(handling, waiting, turn, text, 1, _first(turn, turn.before, text))
                elif turn.fresh:
                    body = self._body(handling, turn, text, 1) | {"first": _first(turn, turn.before, text)}
                    card = handling.card(_kind(turn), body, message)
                    handling.post(_sheet(turn, handling, body), card)
                    offer_for_job(handling, turn, text, self._is_name)

        self.conversation.say(handling.chat, handling.asker.person, text, message, _manner(handling), beside)

    def _is_name(self, word: str) -> bool:
        return bool(self.conversation.book.words(word))

    def change(self, handling: Handling, card: Card, text: str) -> None:
        """The message was changed: it is read again as if it had come so, and its answer changes."""
        incoming, asker = handling.incoming, handling.asker
        first = card.body["first"]
        if text == first["said"]:
            # such as a preview that the messenger added to a link
            with handling.writing():
                return
        goes_on = self._goes_on(handling, card)
        aside = Aside(first["before"], card.body["answer"], goes_on)

        def beside(turn: Turn) -> None:
            with handling.writing():
                if turn.fresh:
                    marks = [handling.words.changed_mark]
                    if turn.reply.choices and not goes_on:
                        marks.append(handling.words.changed_ask_anew)
                    notes = tuple(Block("note", mark) for mark in marks)
                    again = _first(turn, first["before"], text)
                    self._show(handling, card, turn, text, card.body["step"] + 1, again, notes, goes_on)

        # two changes can have one second
        message = f"{incoming.message} changed {incoming.at.isoformat()} {incoming.number}"
        self.conversation.say(handling.chat, asker.person, text, message, _manner(handling), beside, aside)

    def _goes_on(self, handling: Handling, card: Card) -> bool:
        """Whether the chat still remembers what this card's own turn left: nothing asked, no other vehicle put on."""
        if cards.last(handling.record, handling.chat) != card.number:
            return False
        stored = handling.record.chat_state(handling.chat, handling.now)
        return stored is not None and _digest(stored) == card.body.get("left")

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """A choice, or a view of an answer."""
        if code.startswith("c"):
            self._choose(handling, card, code)
        elif card.kind != "answer" and not card.body.get("work"):
            handling.refuse(handling.words.pressed_old)
        else:
            self._view(handling, card, code)

    def _choose(self, handling: Handling, card: Card, code: str) -> None:
        words = handling.words
        before, _, behind = code.partition(".")
        step, number = number_in(before, "c"), number_in(behind)
        if number is None or step != card.body["step"] or card.kind != "question":
            # what this button asked was answered since, by a press or by typing
            handling.refuse(words.pressed_done if card.kind == "answer" else words.pressed_old)
            return
        stored = handling.record.chat_state(handling.chat, handling.now)
        past = Past.from_text(stored) if stored else Past()
        newest = card.number == cards.last_question(handling.record, card.chat)
        pending = newest and list(past.labels) == card.body["labels"]
        if not pending or not 1 <= number <= len(past.labels):
            handling.refuse(words.pressed_old)
            return

        def beside(turn: Turn) -> None:
            with handling.writing():
                self._show(handling, card, turn, number, card.body["step"] + 1, card.body["first"])
                offer_for_job(handling, turn, card.body["first"]["said"], self._is_name)
                handling.notice()

        self.conversation.press(handling.chat, handling.asker.person, number, _manner(handling), beside)

    def _view(self, handling: Handling, card: Card, code: str) -> None:
        """Another view of an answer, as long as the book still gives that answer."""
        turn = self.considered(handling, card)
        if turn is None:
            handling.refuse(handling.words.book_changed)
            return
        view: View = "more" if code == "more" else "why" if code == "why" else "main"
        unit = 0
        pressed = number_in(code, "u")
        if pressed is not None:
            further = further_units(turn)
            unit = pressed % (len(further) + 1)
            if unit:
                liked = replace(handling.asker.manner, units=(further[unit - 1],))
                turn = self.considered(handling, card, liked.units) or turn
        shown = [view, unit]
        with handling.writing():
            handling.notice()
            if card.body.get("view", ["main", 0]) != shown:
                body = card.body | {"view": shown}
                cards.change(handling.record, card.number, card.kind, body, handling.now + CARD_KEPT, card.state)
                sheet = self.sheet_on(handling, replace(card, body=body), turn)
                handling.change(sheet, card.number, handling.incoming.message)

    def sheet_on(self, handling: Handling, card: Card, turn: Turn) -> Sheet:
        """What stands on a card in its present view. turn: as it is considered now."""
        return _sheet(turn, handling, card.body, doubted=card.state == DOUBTED)

    def doubted(self, handling: Handling, card: Card) -> Sheet | None:
        """The answer of a card as it stands once somebody marked it; None when the book gives another one now."""
        turn = self.considered(handling, card)
        body = card.body | {"view": ["main", 0]}
        return None if turn is None else _sheet(turn, handling, body, doubted=True)

    def considered(self, handling: Handling, card: Card, units: tuple[str, ...] = ()) -> Turn | None:
        """The turn of a card as the book has it now; None when it gives another answer."""
        manner = replace(handling.asker.manner, units=units) if units else handling.asker.manner
        job = card.body.get("job in hand")
        manner = replace(manner, in_hand=InHand.from_plain(job) if job else None)
        said: str | int = card.body["said"]
        turn = self.conversation.consider(said, card.body["before"], manner)
        return turn if specs_of(turn) == card.body["specs"] else None

    def _show(
        self,
        handling: Handling,
        card: Card,
        turn: Turn,
        said: str | int,
        step: int,
        first: dict[str, Any],
        extra: tuple[Block, ...] = (),
        goes_on: bool = True,
    ) -> None:
        """The card shows that turn from now on; a figure that was marked as not right keeps its mark."""
        incoming = handling.incoming
        body = self._body(handling, turn, said, step, goes_on) | {"first": first}
        body["doubted"] = doubted_specs(card)
        doubted = any(spec in body["doubted"] for spec in body["specs"])
        sheet = _sheet(turn, handling, body, extra, doubted)
        if turn.reply.choices and not goes_on:
            # the chat has gone on: a choice would be one of another question
            sheet = Sheet(sheet.blocks)
        state = DOUBTED if doubted else "open"
        cards.change(handling.record, card.number, _kind(turn), body, handling.now + CARD_KEPT, state)
        # the pressed message is ours, even when nobody has told us that it arrived
        handling.change(sheet, card.number, incoming.message if incoming.what == "press" else "")

    def _body(self, handling: Handling, turn: Turn, said: str | int, step: int, goes_on: bool = True) -> dict[str, Any]:
        # those that the chat remembers, whatever language they are shown in
        options = turn.outcome.options if isinstance(turn.outcome, (Choose, Procedure, Other)) else ()
        stored = handling.record.chat_state(handling.chat, handling.now) if goes_on else None
        return {
            "before": turn.before,
            "said": said,
            "answer": turn.answer,
            "specs": specs_of(turn),
            "gap": turn.gap,
            "labels": [option.label for option in options],
            "step": step,
            "work": isinstance(turn.outcome, Procedure),
            "job in hand": None if turn.in_hand is None else turn.in_hand.to_plain(),
            "left": "" if stored is None else _digest(stored),
        }


def _manner(handling: Handling) -> Manner:
    """As their place wants it; a question about the work is about the job that they have in hand."""
    return replace(handling.asker.manner, in_hand=job_of(handling.record, handling.asker.person))


def _kind(turn: Turn) -> str:
    if turn.reply.choices:
        return "question"
    return "answer" if isinstance(turn.outcome, Answer) else "said"


def _sheet(
    turn: Turn, handling: Handling, body: dict[str, Any], extra: tuple[Block, ...] = (), doubted: bool = False
) -> Sheet:
    """body: of the card that it stands on."""
    words, language, step = handling.words, handling.asker.language, body["step"]
    view, unit = body.get("view", ("main", 0))
    if isinstance(turn.outcome, Answer):
        sheet = answer_sheet(turn, words, language, view, unit, extra, doubted)
    elif isinstance(turn.outcome, Procedure):
        sheet = step_sheet(turn, step, words, language, view, extra, doubted)
    else:
        sheet = choices_sheet(turn, step, extra)
    sheet = with_picture(sheet, turn.outcome, step, bool(body.get("counts")), words)
    return with_done(sheet, body.get("gap"), words)


def _first(turn: Turn, before: str | None, text: str) -> dict[str, Any]:
    return {"before": before, "said": text, "answer": turn.answer}


def doubted_specs(card: Card) -> list[Any]:
    """The specs on a card that were marked as not right, with their revisions, whatever it shows by now."""
    return list(card.body.get("doubted", card.body.get("specs", []) if card.state == DOUBTED else []))


def _digest(state: str) -> str:
    return sha256(state.encode()).hexdigest()[:16]


def specs_of(turn: Turn) -> list[list[str | int]]:
    return [[finding.row.spec, finding.row.revision] for finding in findings_of(turn.outcome)]
