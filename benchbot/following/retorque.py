"""Reminds the shop, on the day, that the wheels of a job are to be tightened again."""

from __future__ import annotations

from datetime import datetime

from benchbot.following.addressing import Addressee, Addresses
from benchbot.following.telling import tell_lines
from benchbot.following.wording import Wording
from benchbot.jobs.retorque import Slip, slip
from benchbot.jobs.state import job_state
from benchbot.jobs.terms import Refused
from benchbot.people import known_bot
from benchbot.people.quiet import quiet_until
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import errands
from benchbot.records.errands import Errand
from benchbot.records.record import open_record


def send_reminder(home: Home, errand: Errand, now: datetime) -> str:
    """body: `job`. To the owners and curators of its location, and to those who worked on it."""
    with open_record(home) as record:
        state = job_state(record, int(errand.body["job"]))
        found = None if state is None else slip(state)
        if state is None or found is None or isinstance(found, Refused):
            return "nothing to be tightened again"
        people, place = People(record), state.row.location
        until = None if place is None else quiet_until(people.hours(place), now)
        if until is not None:
            with record.writing() as store:
                if errands.done(store, errand.number, "it was quiet there", now):
                    errands.put(store, errand.what, errand.body, until, f"{errand.once} after the quiet", until)
            return "later, as it is quiet there"
        addresses = Addresses.of(people, known_bot.load(home))
        keepers = [] if place is None else [one.person for one in people.people_with(("curator", "owner"), place)]
        to: dict[str, Addressee] = {}
        for person in (*state.names, *keepers):
            addressee = addresses.of_person(person, place)
            if addressee is not None:
                to[person] = addressee
        with record.writing() as store:
            # somebody else may have been faster, on another machine with the same record
            if not errands.done(store, errand.number, f"sent to {len(to)}", now):
                return "done by somebody else"
            for one in to.values():
                tell_lines(record, one, reminder_lines(found, one.words), now)
        return f"sent to {len(to)}"


def reminder_lines(found: Slip, words: Wording) -> tuple[str, ...]:
    """What they are told, without anything about whose vehicle it is."""
    order = words.retorque_order.format(order=found.repair_order) if found.repair_order else ""
    lines = [
        words.retorque.format(job=found.job),
        ", ".join(one for one in (found.vehicle, order) if one),
        words.retorque_fitted.format(date=found.finished),
    ]
    if found.distance:
        lines.append(words.retorque_distance.format(distance=found.distance))
    return (*lines, *(f"{wheel}, {fastener}: {value}" for wheel, fastener, value, _ in found.lines if value))
