"""When it is quiet at a location, on record."""

from __future__ import annotations

from benchbot.records.record import Record, Store

ONE = "SELECT zone, quiet_from, quiet_to FROM location_hours WHERE location = :location"

PUT = """
INSERT INTO location_hours (location, zone, quiet_from, quiet_to) VALUES (:location, :zone, :quiet_from, :quiet_to)
ON CONFLICT (location) DO UPDATE SET
zone = excluded.zone, quiet_from = excluded.quiet_from, quiet_to = excluded.quiet_to
"""

ALL = (ONE, PUT)


def one(record: Record | Store, location: int) -> tuple[str, str, str] | None:
    """(zone, quiet_from, quiet_to) of a location; None while nobody has set them."""
    row = record.row(ONE, {"location": location})
    return None if row is None else (str(row[0]), str(row[1]), str(row[2]))


def put(store: Store, location: int, zone: str, quiet_from: str, quiet_to: str) -> None:
    """Takes the place of what was set before."""
    values = {"location": location, "zone": zone, "quiet_from": quiet_from, "quiet_to": quiet_to}
    store.run(PUT, values)
