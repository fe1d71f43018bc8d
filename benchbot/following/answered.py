"""Asks the open gaps again, of the book in place."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.past import Past
from benchbot.following.addressing import Addresses
from benchbot.outcomes import Answer, Choose, findings_of
from benchbot.records.record import Store
from benchbot.records.waiting import OpenGap, meanings_of


@dataclass(frozen=True, slots=True)
class Answered:
    """A gap that the book can answer now, or ask back about."""

    gap: OpenGap
    turn: Turn

    @property
    def asked(self) -> str:
        """The question, or what the choice said that was pressed."""
        memory = Past.from_text(self.gap.memory) if self.gap.memory else Past()
        said = self.gap.question
        if said.isdecimal() and 1 <= int(said) <= len(memory.labels):
            labels = memory.shown or memory.labels
            return labels[int(said) - 1]
        return said


def answered(conversation: Conversation, gaps: Iterable[OpenGap], addresses: Addresses) -> list[Answered]:
    """Those of the gaps that are none any more, each in the units and the language of its asker."""
    found = []
    for gap in gaps:
        turn = considered(conversation, gap, addresses)
        if is_answered(turn):
            found.append(Answered(gap, turn))
    return found


def considered(conversation: Conversation, gap: OpenGap, addresses: Addresses) -> Turn:
    """What comes of the question now, with what its chat remembered then."""
    return conversation.consider(gap.question, gap.memory, addresses.manner_of(gap.person, gap.location))


def said_again(store: Store, found: Iterable[Answered]) -> set[int]:
    """The gaps whose asker asked the same once more and waits for that: they are told once, of the newest."""
    newer: dict[str, list[tuple[frozenset[int], Answered]]] = {}
    again = set()
    for one in sorted(found, key=lambda one: one.gap.number, reverse=True):
        if not one.gap.waits:
            continue
        meant = frozenset(meanings_of(store, one.gap.number))
        others = newer.setdefault(one.gap.person, [])
        if any((meant and meant <= there) or _tells_the_same(one, other) for there, other in others):
            again.add(one.gap.number)
        else:
            others.append((meant, one))
    return again


def _tells_the_same(one: Answered, other: Answered) -> bool:
    """The same rows for the same vehicle: two spellings of a word that nobody knew."""
    if not isinstance(one.turn.outcome, Answer) or not isinstance(other.turn.outcome, Answer):
        return False
    rows = [{finding.row.spec for finding in findings_of(each.turn.outcome)} for each in (one, other)]
    asked = [(each.turn.reading.vehicle.ids, each.turn.reading.years) for each in (one, other)]
    return bool(one.turn.reading.vehicle.ids) and rows[0] == rows[1] and asked[0] == asked[1]


def is_answered(turn: Turn) -> bool:
    """Whether all that was asked for is there, or may be once something more is said."""
    if isinstance(turn.outcome, Answer):
        return not turn.outcome.missing
    return isinstance(turn.outcome, Choose) and bool(turn.outcome.options) and _all_held(turn.outcome)


def _all_held(choose: Choose) -> bool:
    return all(option.specs for option in choose.options)
