"""Model years: written out, in two digits, in doubt, or the year of something else."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

from benchbot.understanding.figures import Numbers, read_other
from benchbot.understanding.work import Work

# From here on a two-digit year is one of the century before.
_OLD = 60
_ARTICLES = {"a", "an", "the", "its", "my", "this", "year", "yr", "model"}


_NUMBERED = {"grade", "size", "figure", "version", "m", "class", "step", "qty", "times", "x", "fig", "page", "type"}


_CORRECTING = {"no", "nope", "wait", "actually", "sorry", "mean", "meant", "correction"}


_BETWEEN_YEARS = {"or", "-", "and", "&", ",", "/", "maybe", "i", "mean", "meant", "sorry", "no", "wait", "to", "n"}


def _add_year(found: Numbers, year: int) -> None:
    if year not in found.years:
        found.years.append(year)


def take_year(work: Work, found: Numbers, at: int, year: int) -> None:
    """A model year; or only a bound or a guess ("older than 2019"), or the year of something else ("done in 2018")."""
    if _of_something_else(work, at):
        work.take([at], "noise", "the year of something else")
        return
    if _is_unsure(work, at):
        found.unsure.add("year")
        work.take([at], "noise", "a bound or a guess, not the model year")
        return
    _add_year(found, year)
    work.take([at], "year", str(year))


def _phrase_before(work: Work, at: int, name: str) -> bool:
    return any(start + length == at for start in range(max(0, at - 5), at) if (length := work.in_list(start, name)))


def _is_unsure(work: Work, at: int) -> bool:
    if _phrase_before(work, at, "year_unsure_before"):
        return True
    after = at + 1
    if work.text(after) in ("+", "-") and not work.is_number(after + 1):
        return work.text(after) == "+" and not (work.is_word(after + 1) and work.tokens[after + 1].glued)
    return after < len(work.tokens) and work.in_list(after, "year_unsure_after") > 0


def _of_something_else(work: Work, at: int) -> bool:
    """Example: "in 2018 we did the fronts"; "in 2018 ondrel" is the vehicle's year all the same."""
    return work.role(work.next_at(at)) != "vehicle" and _phrase_before(work, at, "year_of_else")


def is_year(text: str, today: date) -> bool:
    return len(text) == 4 and text.isdigit() and 1950 <= int(text) <= min(today.year + 2, 2100)


def could_be_year(text: str, today: date) -> bool:
    if not text.isdigit() or len(text) != 2:
        return False
    return int(text) <= today.year % 100 + 1 or int(text) >= _OLD


def full_year(short: int, today: date) -> int:
    return 2000 + short if short <= today.year % 100 + 2 else 1900 + short


def read_short_years(work: Work, found: Numbers, short: list[int], today: date) -> None:
    """Two-digit numbers that can be years, once everything else has had its turn."""
    taken: list[int] = []
    for at in list(short):
        full = full_year(int(work.text(at)), today)
        if found.years and full in found.years:
            work.take([at], "year", str(full))
        elif found.years and (
            _beside_vehicle(work, at)
            or _corrects(work, at)
            or any(_joined_years(work, year, at) for year in _years_at(work))
        ):
            take_year(work, found, at, full)
        elif (
            found.years
            or _said_value(work, at)
            or _of_no_year(work, at)
            or (int(work.text(at)) >= _OLD and not _beside_vehicle_or_start(work, at))
        ):
            read_other(work, found, at)
        else:
            taken.append(at)
    if len({work.text(at) for at in taken}) > 1:
        beside = [at for at in taken if _beside_vehicle_or_start(work, at)]
        counted = [at for at in taken if work.in_list(work.next_at(at), "counted") and int(work.text(at)) <= 10]
        keep = [at for at in taken if at not in counted] or taken
        apart = not any(_joined_years(work, a, b) for a, b in pairwise(taken))
        if apart and len({work.text(at) for at in beside}) == 1 and all(at in beside or at in counted for at in taken):
            keep = beside
        for at in taken:
            if at not in keep:
                read_other(work, found, at)
        taken = keep
    for at in taken:
        take_year(work, found, at, full_year(int(work.text(at)), today))


def _of_no_year(work: Work, at: int) -> bool:
    """Example: "grade 10", "10 of them", "M 10": the number of a thing, unless the vehicle stands beside it."""
    if _beside_vehicle(work, at):
        return False
    before, after = work.text(work.next_at(at, -1)), work.text(work.next_at(at))
    return (
        before in _NUMBERED or after in ("of", "bolt", "bolts", "x", "times", "each") or work.text(at - 1) in ("~", "#")
    )


def _years_at(work: Work) -> list[int]:
    return [at for at in range(len(work.tokens)) if work.role(at) == "year"]


def _joined_years(work: Work, one: int, other: int) -> bool:
    """Example: "18 or 19", "18-19", "18 i mean 19": two years of which neither may be picked."""
    low, high = min(one, other), max(one, other)
    between = [work.text(i) for i in range(low + 1, high)]
    return bool(between) and len(between) <= 4 and all(text in _BETWEEN_YEARS for text in between)


def _corrects(work: Work, at: int) -> bool:
    """Example: "2012 ... wait its a 16": a later year may be meant, wherever the first one stands."""
    if int(work.text(at)) >= _OLD or work.lexicon.names_property(work.text(work.next_at(at))):
        return False
    before = work.next_at(at, -1)
    while before >= 0 and work.text(before) in _ARTICLES | {"it", "is", "s"}:
        before = work.next_at(before, -1)
    return before >= 0 and work.text(before) in _CORRECTING


def _said_value(work: Work, at: int) -> bool:
    """A figure put up for confirmation: "lugs 80 right?", "19 is the socket"."""
    after = work.next_at(at)
    following = range(after + 1, min(after + 4, len(work.tokens)))
    if work.text(after) in ("is", "was") and any(work.lexicon.names_property(work.text(i)) for i in following):
        return True
    confirmed = after < len(work.tokens) and work.in_list(after, "confirm") > 0
    return confirmed and not _beside_vehicle_or_start(work, at)


def _beside_vehicle(work: Work, at: int) -> bool:
    before, after = work.next_at(at, -1), work.next_at(at)
    counted = after < len(work.tokens) and work.in_list(after, "counted") > 0 and int(work.text(at)) <= 10
    return not counted and bool({work.role(before), work.role(after)} & {"vehicle", "qualifier"})


def _beside_vehicle_or_start(work: Work, at: int) -> bool:
    before, after = work.next_at(at, -1), work.next_at(at)
    if before < 0 or work.text(before) in _ARTICLES:
        return True
    return work.role(before) == "vehicle" or work.role(after) == "vehicle"
