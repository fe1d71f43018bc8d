"""Writes the specs on record as the table that an import takes."""

from __future__ import annotations

import csv
from pathlib import Path

from sqlalchemy import Connection

from benchbot.curation.turns import reading
from benchbot.errors import RecordError, SettingError
from benchbot.places import Home
from benchbot.records import curator
from benchbot.records.schema import spec_revision
from benchbot.specs.columns import SPECS

# What the table calls otherwise than the record.
_ON_RECORD = {"id": "spec", "order": "tightening_order"}


def export(home: Home, path: Path) -> int:
    """Writes the newest revision of every spec, whatever its status, cells as entered; how many rows.

    RecordError: there is no record yet. SettingError: the file cannot be written; what stood there stays.
    """
    with reading(home) as record:
        if record is None:
            raise RecordError(f"{home.folder}: there is no record yet; bring a table in with: benchbot specs import")
        beside = path.with_name(f".{path.name}.part")
        try:
            rows = _write(record, beside)
            beside.replace(path)
        except OSError as error:
            raise SettingError(f"{path}: cannot be written ({error.strerror}); name another file") from error
        finally:
            beside.unlink(missing_ok=True)
        return rows


def _write(record: Connection, path: Path) -> int:
    columns = [spec_revision.c[_ON_RECORD.get(name, name)] for name in SPECS.columns]
    count = 0
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(SPECS.columns)
        for row in curator.stream(record, curator.newest(columns).order_by(spec_revision.c.spec)):
            writer.writerow(row)
            count += 1
    return count
