"""The job that somebody has in hand, as a question in between needs it, and what such a question measured for it."""

from __future__ import annotations

from collections.abc import Callable

from benchbot.conversation.conversation import Turn
from benchbot.conversation.manner import InHand
from benchbot.desk.handling import Handling
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.walking import in_hand, where
from benchbot.records.record import Record


def job_of(record: Record, person: str) -> InHand | None:
    """None while this person has no job in hand, or the one that they have rests."""
    state = _state(record, person)
    if state is None:
        return None
    vehicle, sheet = state.vehicle, state.sheet
    return InHand(sheet.id, sheet.fitted, vehicle.make, vehicle.model, vehicle.year, vehicle.only_if)


def offer_for_job(handling: Handling, turn: Turn, text: str, is_name: Callable[[str], bool]) -> None:
    """Says that what was measured in between is in no job yet, below its answer, and offers to put it there.

    text: the message that said it. is_name: whether a word is one of the book. Inside the transaction of the answer.
    """
    state = _state(handling.record, handling.asker.person) if turn.in_hand is not None else None
    if state is None:
        return
    # read at a job alone: most questions are asked without one
    from benchbot.desk.jobwork.leaves import post_beside
    from benchbot.desk.jobwork.offering import lines_for, offered
    from benchbot.desk.jobwork.wording import jobwords_of

    puts = lines_for(state, turn, text, is_name)
    if puts:
        place = where(state, handling.asker.person)
        step = "" if place is None else place.step.key
        post_beside(handling, offered(state, step, puts, jobwords_of(handling.asker.language)))


def _state(record: Record, person: str) -> JobState | None:
    number = in_hand(record, person)
    state = None if number is None else job_state(record, number)
    return None if state is None or state.paused is not None else state
