"""Writes the rows that are missing as a spec table to be filled in, with all that is known of them entered."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from benchbot.curation.book_folder import write_csv
from benchbot.curation.fill_flow import handed_in
from benchbot.curation.gaps import Group
from benchbot.errors import SettingError
from benchbot.records import meanings
from benchbot.records.record import Record
from benchbot.specs.columns import SPECS
from benchbot.specs.properties import PROPERTIES

_OR = " or "
_MONTH = re.compile(r"\d{4}-\d{2}\b")


@dataclass(frozen=True, slots=True)
class TableWritten:
    """rows: of the table. groups: their numbers. left_out: groups that no row of a table can fill, each with why."""

    rows: int
    groups: tuple[int, ...]
    left_out: tuple[tuple[int, str], ...]


def write_gap_table(record: Record, groups: Sequence[Group], path: Path) -> TableWritten:
    """Writes the table beside `path` and renames it once it is whole.

    Each row has an id that no spec on record has, status draft, and no value or source yet; what was not asked, or can
    be one of several, is left empty too. SettingError: the file cannot be written.
    """
    left_out = tuple((one.number, why) for one in groups if (why := _why_not(record, one)))
    apart = {number for number, _ in left_out}
    wanted = [one for one in groups if one.number not in apart]
    rows = [[cells.get(column, "") for column in SPECS.columns] for one in wanted for cells in _rows(record, one)]
    beside = path.with_name(f".{path.name}.part")
    try:
        write_csv(beside, SPECS.columns, rows)
        beside.replace(path)
    except OSError as error:
        raise SettingError(f"{path}: cannot be written ({error.strerror or error}); name another file") from error
    finally:
        beside.unlink(missing_ok=True)
    return TableWritten(len(rows), tuple(one.number for one in wanted), left_out)


def _why_not(record: Record, group: Group) -> str:
    if group.kind == "word":
        return f"nobody knows what “{group.words}” is; say which part it means first"
    if group.kind == "vehicle":
        return f"nobody knows the vehicle “{group.words}”; say which one it is first"
    names = group.subject.property.split(_OR)
    if group.subject.property and not any(name in PROPERTIES for name in names):
        return f"{group.subject.property}: the book holds that row and says nothing of it; change the row instead"
    spec = handed_in(record, group)
    return f"{spec} was handed in for it and waits for approval or for the next book" if spec else ""


def _rows(record: Record, group: Group) -> Iterator[dict[str, str]]:
    subject = group.subject
    known = {
        "make": subject.make,
        "model": subject.model,
        "only_if": "; ".join(f"{key}={_value(key, value)}" for key, value in subject.only_if if _value(key, value)),
        "component": _only(subject.component),
        "position": subject.position,
        "property": _only(subject.property),
        "status": "draft",
    }
    for number, (first, last) in enumerate(_spans(subject.years), 1):
        yield known | {"id": _free_id(record, group.number, number), "year_from": first, "year_to": last}


def _only(text: str) -> str:
    return "" if _OR in text else text


def _value(key: str, value: str) -> str:
    """A value as a cell has it: the month that a vehicle was built in is a range of one."""
    if key != "build" or ".." in value:
        return value
    month = _MONTH.match(value)
    return f"{month[0]}..{month[0]}" if month else ""


def _spans(years: Sequence[int]) -> list[tuple[str, str]]:
    """The runs of years, each a row of its own, so that no row says more than was asked."""
    runs: list[list[int]] = []
    for year in sorted(set(years)):
        if runs and runs[-1][-1] == year - 1:
            runs[-1].append(year)
        else:
            runs.append([year])
    return [(str(run[0]), str(run[-1])) for run in runs] or [("", "")]


def _free_id(record: Record, group: int, number: int) -> str:
    """An id of its own: that of the group, unless a table was filled before and the gap has come back."""
    name = f"G{group:04d}" if number == 1 else f"G{group:04d}-{number}"
    tries, spec = 1, name
    while meanings.spec_is_held(record, spec):
        tries += 1
        spec = f"{name}.{tries}"
    return spec
