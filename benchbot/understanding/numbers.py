"""Decides what each number of a message is: a year, an engine, a brake size, or something that is no slot at all."""

from __future__ import annotations

from datetime import date

from benchbot.understanding.build_dates import BUILT_WORDS, read_built
from benchbot.understanding.figures import Numbers, read_amount, read_other
from benchbot.understanding.limits import is_a_figure
from benchbot.understanding.name_numbers import counts_something, names_a_thing
from benchbot.understanding.sizes import read_axle, read_engine, read_size
from benchbot.understanding.work import Work
from benchbot.understanding.years import could_be_year, full_year, is_year, read_short_years, take_year

_MONEY = {"$", "\u00a3", "\u20ac"}


def read_numbers(work: Work, today: date) -> Numbers:
    """Reads the numbers that the vehicle's name has not taken, and takes them with their units."""
    found = Numbers()
    short: list[int] = []
    read_built(work, found)
    for at, token in enumerate(work.tokens):
        if token.kind == "code" and work.free(at):
            work.take([at], "noise", "a phone number or date")
        if token.kind != "number" or not work.free(at):
            continue
        if read_axle(work, found, at):
            continue
        if names_a_thing(work, at) or _goes_on(work, at):
            work.take([at], "noise", "the number of an order, bay, phone ...")
        elif counts_something(work, at):
            after = work.next_at(at)
            length = work.in_list(after, "unit_after")
            work.take([at, *range(after, after + length)], "noise", "a mileage, time or price")
        elif work.text(at - 1) in _MONEY and at:
            work.take([at], "noise", "a price")
        elif token.short_year:
            take_year(work, found, at, full_year(int(token.text), today))
        elif read_size(work, found, at) or read_engine(work, found, at) or read_amount(work, found, at):
            continue
        elif is_year(token.text, today) and not _follows(work, at, BUILT_WORDS):
            take_year(work, found, at, int(token.text))
        elif could_be_year(token.text, today) and not is_a_figure(work, at):
            short.append(at)
        else:
            read_other(work, found, at)
    read_short_years(work, found, short, today)
    built = [int(one.value[:4]) for one in found.stated if one.key == "build"]
    if any(abs(one - year) > 2 for one in built for year in found.years):
        found.unsure.add("build")
    if "year" in found.unsure:
        found.years.clear()
    return found


def _goes_on(work: Work, at: int) -> bool:
    """Whether the number is one more group of a phone or order number ("0412 555 019")."""
    before = work.notes[at - 1] if at else None
    if before is None or before.role != "noise" or work.tokens[at - 1].kind != "number":
        return False
    return len(work.text(at)) in (3, 4) and not is_year(work.text(at), date.max)


def _follows(work: Work, at: int, words: set[str]) -> bool:
    before = work.next_at(at, -1)
    if work.text(before) in ("in", "on", "is", "date", "around"):
        before = work.next_at(before, -1)
    return work.text(before) in words
