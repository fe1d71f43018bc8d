"""Asks which of the vehicles that were on the lift a question is about, and goes on with the one chosen."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from benchbot.book.reader import Book
from benchbot.conversation.lift import Lift
from benchbot.lookup.lookup import RANGE_CHOSEN, look_up
from benchbot.outcomes import Answer, Choose, Option, Subject
from benchbot.understanding.reading import Reading, VehicleRead
from benchbot.vocabulary.terms import Vocabulary


def names_only_a_part(reading: Reading) -> bool:
    """Whether a message asks of a part and says no vehicle, nor that it is another one."""
    return reading.vehicle.state == "none" and bool(reading.asks) and "next_vehicle" not in reading.signs


def which_lift(
    lifts: Sequence[Lift], reading: Reading, book: Book, vocabulary: Vocabulary, today: date
) -> Choose | None:
    """The question back; None when no vehicle was on the lift before."""
    if not lifts:
        return None
    ask = reading.asks[0]
    about = Subject(component=" or ".join(ask.components), position=" and ".join(ask.place.axles))
    options = tuple(_option(one, reading, book, vocabulary, today) for one in lifts)
    return Choose("vehicle", "", "", options, about)


def on_lift(reading: Reading, lift: Lift, book: Book) -> Reading:
    """The reading with a vehicle that was on the lift; what the message itself states goes before."""
    vehicle = book.find_vehicle(lift.make, lift.model)
    ids = () if vehicle is None else (vehicle,)
    said = {one.key for one in (*reading.stated, *reading.excluded)}
    return replace(
        reading,
        vehicle=VehicleRead("named" if ids else "unknown", ids, None, f"{lift.make} {lift.model}"),
        years=reading.years or lift.years,
        stated=(*(one for one in lift.stated if one.key not in said), *reading.stated),
        excluded=(*lift.excluded, *reading.excluded),
        signs=(reading.signs - {RANGE_CHOSEN}) | ({RANGE_CHOSEN} if lift.year_range and not reading.years else set()),
    )


def _option(lift: Lift, reading: Reading, book: Book, vocabulary: Vocabulary, today: date) -> Option:
    found = look_up((on_lift(reading, lift, book),), book, vocabulary, today)
    specs: tuple[str, ...] = ()
    if isinstance(found, Answer):
        specs = tuple(finding.row.spec for finding in found.findings)
    elif isinstance(found, Choose):
        specs = tuple(dict.fromkeys(spec for option in found.options for spec in option.specs))
    return Option(lift.label, {"lift": lift.to_plain()}, specs)
