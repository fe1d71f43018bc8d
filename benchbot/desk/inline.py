"""Queries typed in another chat: a result only where there is a clean answer, and only for members."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.manner import Aside
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Offer, Offers, Sheet
from benchbot.outcomes import Answer
from benchbot.reply.languages import wording_of
from benchbot.reply.subjects import subject_words


@dataclass(frozen=True, slots=True)
class Inline:
    """Every query stands alone: whoever types in another chat has no vehicle on the lift there."""

    conversation: Conversation

    def offer(self, handling: Handling) -> None:
        incoming, manner = handling.incoming, handling.asker.manner
        text = incoming.text.strip()
        found = self.conversation.consider(text, None, manner) if text else None
        if found is None or not isinstance(found.outcome, Answer) or found.outcome.missing:
            with handling.writing():
                handling.at_once.append(Offers(incoming.query))
            return

        def beside(turn: Turn) -> None:
            with handling.writing():
                handling.at_once.append(Offers(incoming.query, (self._offer(turn, manner.language),)))

        # what is offered can be sent without us hearing of it, so it counts as shown
        chat = f"{incoming.person} inline"
        self.conversation.say(chat, incoming.person, text, None, manner, beside, Aside())

    def _offer(self, turn: Turn, language: str) -> Offer:
        assert isinstance(turn.outcome, Answer)
        title, _, _ = turn.reply.short.partition(" - ")
        line = subject_words(turn.outcome.findings[0].subject, wording_of(language))
        return Offer(title, line, Sheet((*turn.reply.blocks, *turn.reply.below)))
