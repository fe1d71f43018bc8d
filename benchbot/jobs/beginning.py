"""Begins a job: a vehicle, a procedure as it is now, and the rules of the location."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import datetime

from benchbot.jobs.entries import customer_in, read_repair_order, read_vehicle
from benchbot.jobs.rules import job_rules
from benchbot.jobs.sheet import digest_of, fit_sheet
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import WHEELS, Refused, Vehicle, Who
from benchbot.people.terms import Location
from benchbot.procedures.steps import Procedures
from benchbot.records import hours, jobs
from benchbot.records.record import Record
from benchbot.vocabulary.terms import Vocabulary

_NOWHERE_ZONE = "UTC"
_GONE = Refused("There is no such job.", "no such job")


def begin(
    record: Record,
    procedures: Procedures,
    vocabulary: Vocabulary,
    vehicle: Vehicle,
    procedure: str,
    who: Who,
    now: datetime,
    location: Location | None = None,
    repair_order: str = "",
    wheels: Collection[str] = (),
    fitted: Collection[str] = (),
    shop_says: Mapping[str, str] | None = None,
    book_version: int | None = None,
    once: str | None = None,
) -> JobState | Refused:
    """The new job. From then on it keeps the procedure as it was.

    wheels: those worked on, of WHEELS; may be left out where the procedure says the axle. fitted: of the procedure's
    `variants`, must be said where it has any. shop_says: step -> the shop's own word for it at this location.
    once: what must not be done twice; the second time, the job that began the first time comes back.
    """
    held = procedures.procedures.get(procedure)
    if held is None:
        known = tuple(procedures.procedures)
        return Refused(f"There is no procedure {procedure!r}; there are: {', '.join(known)}.", "procedure", known)
    variants = procedures.variants(procedure)
    if any(one not in variants for one in fitted) or (variants and not fitted):
        return Refused(f"Say what is fitted: {', '.join(variants) or 'nothing to be said here'}.", "fitted", variants)
    worked_on = _wheels(held.axle, wheels)
    if isinstance(worked_on, Refused):
        return worked_on
    number = read_repair_order(repair_order)
    said = read_vehicle(vehicle)
    for one in (number, said, customer_in(who.name)):
        if isinstance(one, Refused):
            return one
    sheet = fit_sheet(procedures, procedure, vocabulary.components, worked_on, tuple(fitted), shop_says or {})
    text = sheet.to_text()
    rules = job_rules(record, location.number if location else None)
    body = {
        "second_person": rules.second_person,
        "location_name": location.name if location else "",
        "zone": _zone(record, location),
    }
    place = location.number if location else None
    with record.writing() as store:
        before = jobs.seen(store, once) if once else None
        if before is not None:
            return job_state(record, before) or _GONE
        jobs.put_procedure(store, digest_of(text), text)
        plain = vehicle.to_plain() | {"said": said}
        job = jobs.put(store, plain, str(number), digest_of(text), book_version, place, who.person, now)
        jobs.put_event(store, job, who.person, who.name, "begun", now, body, once=once)
    return job_state(record, job) or _GONE


def _wheels(axle: str, wheels: Collection[str]) -> tuple[str, ...] | Refused:
    of_axle = tuple(wheel for wheel in WHEELS if axle == "any" or wheel.startswith(axle))
    if any(wheel not in of_axle for wheel in wheels):
        return Refused(f"This procedure is for {', '.join(of_axle)}.", "wheel", of_axle)
    if not wheels and axle == "any":
        return Refused(f"Say which wheels: {', '.join(WHEELS)}.", "wheel", WHEELS)
    return tuple(wheel for wheel in of_axle if wheel in wheels) or of_axle


def _zone(record: Record, location: Location | None) -> str:
    set_there = hours.one(record, location.number) if location else None
    return set_there[0] if set_there else _NOWHERE_ZONE
