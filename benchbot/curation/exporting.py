"""Writes the specs on record as the table that an import takes, or the whole book for another shop."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import Connection, case, select

from benchbot.curation.book_folder import write_csv, write_folder
from benchbot.curation.book_label import Label
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.speaking import speaking
from benchbot.curation.turns import reading
from benchbot.errors import RecordError, SettingError
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.schema import sole_check, spec_revision
from benchbot.specs.check import ALONE
from benchbot.specs.columns import SPECS
from benchbot.specs.terms import Terms

Told = TypeVar("Told")

# What the table calls otherwise than the record.
_ON_RECORD = {"id": "spec", "order": "tightening_order"}
_COMPONENT = SPECS.columns.index("component")
_IS_ALONE = (
    select(sole_check.c.spec)
    .where(sole_check.c.spec == spec_revision.c.spec, sole_check.c.revision == spec_revision.c.revision)
    .exists()
)
_ALONE = case((_IS_ALONE, ALONE), else_="")


def export(home: Home, path: Path) -> int:
    """Writes the newest revision of every spec, whatever its status, cells as entered; how many rows.

    RecordError: there is no record yet. SettingError: the file cannot be written; what stood there stays.
    """

    def write(record: Connection, beside: Path) -> int:
        columns, cells = SPECS.columns, _columns()
        if record.execute(curator.newest([_ALONE]).where(_IS_ALONE).limit(1)).first() is not None:
            # Only a table that needs the mark has the column.
            columns, cells = SPECS.whole, [*cells, _ALONE]
        return write_csv(beside, columns, curator.stream(record, curator.newest(cells).order_by(spec_revision.c.spec)))

    return _beside(home, path, write)


def export_file(home: Home, path: Path, shop: str, now: datetime) -> Label:
    """Writes the whole book as one SQLite file for another shop. Errors as in `export`."""
    from benchbot.curation.book_file import write_file

    def write(record: Connection, beside: Path) -> Label:
        beside.unlink(missing_ok=True)
        return write_file(beside, now.isoformat(timespec="seconds"), shop, _tables(record))

    return _beside(home, path, write)


def export_folder(home: Home, folder: Path, shop: str, now: datetime) -> Label:
    """Writes the whole book as a folder of CSV tables with their digests. Errors as in `export`."""
    with reading(home) as record:
        try:
            return write_folder(folder, now.isoformat(timespec="seconds"), shop, _tables(_begun(home, record)))
        except OSError as error:
            raise _unwritten(folder, error.strerror or str(error)) from error


def _beside(home: Home, path: Path, write: Callable[[Connection, Path], Told]) -> Told:
    """Writes a file beside `path` and renames it once it is whole."""
    with reading(home) as record:
        begun = _begun(home, record)
        beside = path.with_name(f".{path.name}.part")
        try:
            told = write(begun, beside)
            beside.replace(path)
        except (OSError, sqlite3.Error) as error:
            raise _unwritten(path, getattr(error, "strerror", None) or str(error)) from error
        finally:
            beside.unlink(missing_ok=True)
        return told


def _begun(home: Home, record: Connection | None) -> Connection:
    if record is None:
        raise RecordError(f"{home.folder}: there is no record yet; bring a table in with: benchbot specs import")
    return record


def _unwritten(path: Path, why: str) -> SettingError:
    return SettingError(f"{path}: cannot be written ({why}); name another file")


def _columns() -> list[Any]:
    return [spec_revision.c[_ON_RECORD.get(name, name)] for name in SPECS.columns]


def _tables(record: Connection) -> dict[str, Iterable[Sequence[str]]]:
    return {
        "specs": _specs(record),
        "vehicle names": curator.vehicle_names(record),
        "words": curator.shop_words(record),
    }


def _specs(record: Connection) -> Iterator[tuple[str, ...]]:
    """The speaking rows, a component that only this shop's words name by its own name: elsewhere they mean others."""
    pairs = select(spec_revision.c.component, spec_revision.c.component_read).distinct()
    plain = Terms(shop_vocabulary([]))
    own = {(said, read): read for said, read in record.execute(pairs).all() if _read(plain, said) != read}
    columns = [*_columns(), _ALONE, spec_revision.c.component_read]
    for *cells, read in curator.stream(record, speaking(columns).order_by(spec_revision.c.spec)):
        if own:
            cells[_COMPONENT] = own.get((cells[_COMPONENT], read), cells[_COMPONENT])
        yield tuple(map(str, cells))


def _read(terms: Terms, said: str) -> str:
    try:
        return terms.component(said)
    except ValueError:
        # Not a word that every shop knows.
        return ""
