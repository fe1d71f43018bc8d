"""The job that somebody has in hand, as a question in between needs it."""

from __future__ import annotations

from benchbot.conversation.manner import InHand
from benchbot.jobs.state import job_state
from benchbot.jobs.walking import in_hand
from benchbot.records.record import Record


def job_of(record: Record, person: str) -> InHand | None:
    """None while this person has no job in hand, or the one that they have rests."""
    number = in_hand(record, person)
    state = None if number is None else job_state(record, number)
    if state is None or state.paused is not None:
        return None
    vehicle, sheet = state.vehicle, state.sheet
    return InHand(sheet.id, sheet.fitted, vehicle.make, vehicle.model, vehicle.year, vehicle.only_if)
