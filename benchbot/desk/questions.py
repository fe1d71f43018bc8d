"""Questions: asked, chosen from, changed afterwards, looked at again."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.manner import Aside
from benchbot.conversation.past import Past
from benchbot.desk.codes import number_in
from benchbot.desk.handling import CARD_KEPT, Handling
from benchbot.desk.sheets import Sheet
from benchbot.desk.showing import View, answer_sheet, choices_sheet, further_units
from benchbot.outcomes import Answer, Choose, Other
from benchbot.records import cards
from benchbot.records.cards import Card
from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class Questions:
    """Cards of kind "question" carry choices, "answer" views of an answer, "said" nothing to press.

    A card's body: `before` the chat's memory when the message came and `said` the message or the number of the choice,
    from which its turn can be considered again; `answer` its number on record; `specs` what it showed; `labels` of its
    choices; `step` how many questions it has asked; `first` the same three of the message itself, for when it is
    changed.
    """

    conversation: Conversation

    def ask(self, handling: Handling, text: str) -> None:
        """A message of its own."""
        incoming, asker = handling.incoming, handling.asker

        def beside(turn: Turn) -> None:
            with handling.writing():
                if turn.fresh:
                    body = _body(turn, text, 1)
                    body["first"] = {"before": turn.before, "said": text, "answer": turn.answer}
                    card = handling.card(_kind(turn), body, incoming.message)
                    handling.post(_sheet(turn, handling, 1), card)

        self.conversation.say(handling.chat, asker.person, text, incoming.message, asker.manner, beside)

    def answer_on(self, handling: Handling, card: Card, text: str, message: str) -> None:
        """A message that had to wait for something else: its answer takes the place of what stands on the card."""

        def beside(turn: Turn) -> None:
            with handling.writing():
                body = _body(turn, text, 1)
                body["first"] = {"before": turn.before, "said": text, "answer": turn.answer}
                self._show(handling, card, _kind(turn), body, _sheet(turn, handling, 1))

        self.conversation.say(handling.chat, handling.asker.person, text, message, handling.asker.manner, beside)

    def change(self, handling: Handling, card: Card, text: str) -> None:
        """The message was changed: it is read again as if it had come so, and its answer changes."""
        incoming, asker = handling.incoming, handling.asker
        first = card.body["first"]
        if text == first["said"]:
            # such as a preview that the messenger added to a link
            with handling.writing():
                return
        last = cards.last(handling.record, handling.chat) == card.number
        aside = Aside(first["before"], card.body["answer"], last)

        def beside(turn: Turn) -> None:
            with handling.writing():
                if turn.fresh:
                    step = card.body["step"] + 1
                    body = _body(turn, text, step)
                    body["first"] = {"before": first["before"], "said": text, "answer": turn.answer}
                    marks = [handling.words.changed_mark]
                    if turn.reply.choices and not last:
                        marks.append(handling.words.changed_ask_anew)
                    sheet = _sheet(turn, handling, step, tuple(Block("note", mark) for mark in marks))
                    if not last and turn.reply.choices:
                        # the chat has gone on: a choice would be one of another question
                        sheet = Sheet(sheet.blocks)
                    self._show(handling, card, _kind(turn), body, sheet)

        message = f"{incoming.message} changed {incoming.at.isoformat()}"
        self.conversation.say(handling.chat, asker.person, text, message, asker.manner, beside, aside)

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """A choice, or a view of an answer."""
        if code.startswith("c"):
            self._choose(handling, card, code)
        elif card.kind != "answer":
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
                body = _body(turn, number, card.body["step"] + 1) | {"first": card.body["first"]}
                self._show(handling, card, _kind(turn), body, _sheet(turn, handling, body["step"]))
                handling.notice()

        manner = handling.asker.manner
        self.conversation.press(handling.chat, handling.asker.person, number, manner, beside)

    def _view(self, handling: Handling, card: Card, code: str) -> None:
        """Another view of an answer, as long as the book still gives that answer."""
        turn = self._considered(handling, card)
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
                turn = self._considered(handling, card, liked.units) or turn
        extra = (Block("before", handling.words.note_line),) if card.state == "doubted" else ()
        shown = [view, unit]
        with handling.writing():
            handling.notice()
            if card.body.get("view", ["main", 0]) != shown:
                cards.change(
                    handling.record, card.number, card.kind, card.body | {"view": shown},
                    handling.now + CARD_KEPT, card.state,
                )  # fmt: skip
                sheet = answer_sheet(turn, handling.words, handling.asker.language, view, unit, extra)
                handling.change(sheet, card.number, handling.incoming.message)

    def doubted(self, handling: Handling, card: Card) -> Sheet | None:
        """The answer of a card as it stands once somebody marked it; None when the book gives another one now."""
        turn = self._considered(handling, card)
        if turn is None:
            return None
        mark = (Block("before", handling.words.note_line),)
        return answer_sheet(turn, handling.words, handling.asker.language, extra=mark)

    def _considered(self, handling: Handling, card: Card, units: tuple[str, ...] = ()) -> Turn | None:
        manner = replace(handling.asker.manner, units=units) if units else handling.asker.manner
        said: str | int = card.body["said"]
        turn = self.conversation.consider(said, card.body["before"], manner)
        return turn if _specs(turn) == card.body["specs"] else None

    def _show(self, handling: Handling, card: Card, kind: str, body: dict[str, Any], sheet: Sheet) -> None:
        cards.change(handling.record, card.number, kind, body, handling.now + CARD_KEPT)
        handling.change(sheet, card.number)


def _kind(turn: Turn) -> str:
    if turn.reply.choices:
        return "question"
    return "answer" if isinstance(turn.outcome, Answer) else "said"


def _sheet(turn: Turn, handling: Handling, step: int, extra: tuple[Block, ...] = ()) -> Sheet:
    if isinstance(turn.outcome, Answer):
        return answer_sheet(turn, handling.words, handling.asker.language, extra=extra)
    return choices_sheet(turn, step, extra)


def _body(turn: Turn, said: str | int, step: int) -> dict[str, Any]:
    # those that the chat remembers, whatever language they are shown in
    options = turn.outcome.options if isinstance(turn.outcome, (Choose, Other)) else ()
    labels = [option.label for option in options]
    return {
        "before": turn.before,
        "said": said,
        "answer": turn.answer,
        "specs": _specs(turn),
        "labels": labels,
        "step": step,
    }


def _specs(turn: Turn) -> list[list[str | int]]:
    if not isinstance(turn.outcome, Answer):
        return []
    return [[finding.row.spec, finding.row.revision] for finding in turn.outcome.findings]
