"""The register of locations and their members: who may be where, in what role, and where they stand now."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from datetime import datetime
from typing import Any

from benchbot.people import statements
from benchbot.people.membership import hold, location_of, put_role, take_role
from benchbot.people.names import LONGEST, fit_name, same_name, shown_name
from benchbot.people.quiet import read_time, zones
from benchbot.people.terms import (
    LANGUAGES,
    ROLES,
    UNITS,
    Changed,
    Hours,
    Language,
    Location,
    Member,
    Membership,
    Refused,
    Role,
    Units,
)
from benchbot.records import hours
from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

HOURS_AT_MOST = 24

_NO_LOCATION = Refused("There is no such location.", "unknown location")
_NO_MEMBER = Refused("They are not a member of this location.", "not a member")
_NOT_YOURS = Refused("You are not a member of that location.", "not a member")
_NAME_UNFIT = Refused(f"Give a name of 1 to {LONGEST} characters that can all be seen.", "name unfit")
_NAME_TAKEN = Refused("There is a location of that name already.", "name taken")
_NO_FIRST = Refused("There is a location already; an owner of one can add another.", "no first location")
_HOURS_UNFIT = Refused(f"Give a whole number of hours, 1 to {HOURS_AT_MOST}.", "setting unfit")
_UNITS_UNFIT = Refused(f"Units are one of: {', '.join(UNITS)}.", "setting unfit")
_LANGUAGE_UNFIT = Refused(f"The language is one of: {', '.join(LANGUAGES)}.", "setting unfit")
_ZONE_UNFIT = Refused("The zone is an IANA name, such as America/Chicago or Europe/Madrid.", "setting unfit")
_QUIET_UNFIT = Refused("Quiet hours are two different times, such as 19:00 and 07:00, or none.", "setting unfit")
_LAST_OWNER = Refused("A location keeps one owner at least. Make someone else an owner first.", "last owner")


class People:
    """The register on one open record. It does not ask who may do a thing: that is decided by `rights` beforehand.

    A person is the channel and its own number, such as "telegram 123"; `author` is who does a change. Every change is
    one transaction. RecordError when the database fails; whatever a person can meet is a Refused.
    """

    def __init__(self, record: Record) -> None:
        self._record = record

    def locations(self) -> tuple[Location, ...]:
        """Every location, by name."""
        return _by_name(map(location_of, self._record.rows(statements.LOCATIONS, {})))

    def location(self, number: int) -> Location | None:
        row = self._record.row(statements.LOCATION, {"location": number})
        return None if row is None else location_of(row)

    def open_first(self, name: str, now: datetime) -> Location | Refused:
        """Makes the very first location, which has no owner until somebody is invited; refused when there is one."""
        with self._record.writing() as store:
            if store.rows(statements.LOCATIONS, {}):
                return _NO_FIRST
            return _add(store, name, now)

    def add_location(self, name: str, author: str, now: datetime) -> Location | Refused:
        """Adds a location of 1 to 60 printable characters; whoever adds it becomes its owner."""
        with self._record.writing() as store:
            added = _add(store, name, now)
            if isinstance(added, Location):
                store.run(statements.PUT_AUTHOR, {"person": author, "at": moment(now)})
                put_role(store, author, added.number, "owner", author, now)
            return added

    def rename(self, number: int, name: str) -> Location | Refused:
        """Gives a location another name, unlike that of any other in more than case."""
        with self._record.writing() as store:
            store.run(statements.HOLD_LOCATIONS, {})
            fit = _free_name(store, name, number)
            if isinstance(fit, Refused):
                return fit
            location = hold(store, number)
            if location is None:
                return _NO_LOCATION
            store.run(statements.RENAME_LOCATION, {"location": number, "name": fit})
            return replace(location, name=fit)

    def set_defaults(
        self,
        number: int,
        units: Units | None = None,
        language: Language | None = None,
        vehicle_hours: int | None = None,
    ) -> Location | Refused:
        """Sets what is given and leaves the rest as it is. vehicle_hours: 1 to 24."""
        if units is not None and units not in UNITS:
            return _UNITS_UNFIT
        if language is not None and language not in LANGUAGES:
            return _LANGUAGE_UNFIT
        if vehicle_hours is not None and not 1 <= vehicle_hours <= HOURS_AT_MOST:
            return _HOURS_UNFIT
        with self._record.writing() as store:
            before = hold(store, number)
            if before is None:
                return _NO_LOCATION
            location = replace(
                before,
                units=units or before.units,
                language=language or before.language,
                vehicle_hours=vehicle_hours or before.vehicle_hours,
            )
            values = {"units": location.units, "language": location.language, "vehicle_hours": location.vehicle_hours}
            store.run(statements.SET_DEFAULTS, values | {"location": number})
            return location

    def hours(self, number: int) -> Hours:
        """When it is quiet at a location; never, while nobody has set it."""
        row = hours.one(self._record, number)
        return Hours(number) if row is None else Hours(number, *row)

    def set_hours(self, number: int, zone: str, quiet_from: str, quiet_to: str) -> Hours | Refused:
        """Sets the zone of a location and when it is quiet there; two empty texts where it never is."""
        if zone not in zones():
            return _ZONE_UNFIT
        if (quiet_from or quiet_to) and not _are_times(quiet_from, quiet_to):
            return _QUIET_UNFIT
        with self._record.writing() as store:
            if hold(store, number) is None:
                return _NO_LOCATION
            hours.put(store, number, zone, quiet_from, quiet_to)
            return Hours(number, zone, quiet_from, quiet_to)

    def memberships(self, person: str) -> tuple[Membership, ...]:
        """The locations that a person belongs to, by name; none for an outsider."""
        return tuple(membership for membership, _ in self._places(person))

    def standing(self, person: str) -> Membership | None:
        """Where a person stands: at the only location they belong to, or at the one of theirs that they chose.

        None: they belong to none, or to several and have to be asked which.
        """
        places = self._places(person)
        if len(places) == 1:
            return places[0][0]
        return next((membership for membership, chosen in places if chosen), None)

    def role_at(self, person: str, number: int) -> Role | None:
        row = self._record.row(statements.ROLE, {"person": person, "location": number})
        return None if row is None else row[0]

    def stand(self, person: str, number: int) -> Membership | Refused:
        """The person says which of their locations they stand in."""
        with self._record.writing() as store:
            location = hold(store, number)
            row = store.row(statements.ROLE, {"person": person, "location": number})
            if location is None or row is None:
                # Whether there is such a location is nothing that an outsider is told.
                return _NOT_YOURS
            store.run(statements.STAND, {"person": person, "location": number})
            return Membership(location, row[0])

    def members(self, number: int) -> tuple[Member, ...]:
        """The members of a location: owners, curators, technicians, each by name."""
        found = map(_member_of, self._record.rows(statements.MEMBERS, {"location": number}))
        return tuple(
            sorted(found, key=lambda one: (-ROLES.index(one.role), one.name.casefold(), one.since, one.person))
        )

    def people_with(self, roles: Collection[Role], number: int) -> tuple[Member, ...]:
        """The members of a location who have one of these roles."""
        return tuple(member for member in self.members(number) if member.role in roles)

    def counts(self) -> dict[int, dict[Role, int]]:
        """How many members have each role at each location that has members."""
        found: dict[int, dict[Role, int]] = {}
        for number, role, count in self._record.rows(statements.COUNTS, {}):
            found.setdefault(number, dict.fromkeys(ROLES, 0))[role] = count
        return found

    def change_role(self, person: str, number: int, role: Role, author: str, now: datetime) -> Changed | Refused:
        """Gives a member another role; the last owner keeps theirs. Who is owner no longer loses their open invites."""
        return self._change(person, number, role, author, now)

    def remove(self, person: str, number: int, author: str, now: datetime) -> Changed | Refused:
        """Ends a membership and the open invites that this member made; the last owner of a location stays."""
        return self._change(person, number, None, author, now)

    def rename_person(self, person: str, name: str) -> bool:
        """Notes what a person is called now; whether that was news. An outsider is not put on record by it."""
        shown = shown_name(name)
        # It is asked for every message, so only news may take the writer's turn.
        row = self._record.row(statements.NAME, {"person": person})
        if row is None or row[0] == shown:
            return False
        with self._record.writing() as store:
            store.run(statements.RENAME_PERSON, {"person": person, "name": shown})
        return True

    def _change(self, person: str, number: int, role: Role | None, author: str, now: datetime) -> Changed | Refused:
        with self._record.writing() as store:
            location = hold(store, number)
            if location is None:
                return _NO_LOCATION
            row = store.row(statements.MEMBER, {"person": person, "location": number})
            if row is None:
                return _NO_MEMBER
            member = _member_of(row)
            changed = Changed(person, member.name, location, member.role, role)
            if role == member.role:
                return changed
            if member.role == "owner" and not _other_owners(store, person, number):
                return _LAST_OWNER
            if role is None:
                take_role(store, person, number, author, now)
            else:
                put_role(store, person, number, role, author, now)
            if role == "owner":
                return changed
            # A code handed out before would let them, or a friend of theirs, in again.
            values = {"location": number, "author": person, "now": moment(now)}
            return replace(changed, invites_ended=len(store.rows(statements.REVOKE_INVITES_BY, values)))

    def _places(self, person: str) -> list[tuple[Membership, bool]]:
        """The memberships of a person, by name, each with whether they said that they stand there."""
        found = [
            (Membership(location_of(row), row[5]), row[0] == row[6])
            for row in self._record.rows(statements.MEMBERSHIPS, {"person": person})
        ]
        return sorted(found, key=lambda place: place[0].location.name.casefold())


def _add(store: Store, name: str, now: datetime) -> Location | Refused:
    store.run(statements.HOLD_LOCATIONS, {})
    fit = _free_name(store, name, None)
    if isinstance(fit, Refused):
        return fit
    new = Location(0, fit)
    values: dict[str, Any] = {"units": new.units, "language": new.language, "vehicle_hours": new.vehicle_hours}
    number = number_of(store.row(statements.PUT_LOCATION, values | {"name": fit, "at": moment(now)}))
    return replace(new, number=number)


def _free_name(store: Store, name: str, mine: int | None) -> str | Refused:
    """The name as it is to be kept, when it is fit and no location but `mine` has it."""
    fit = fit_name(name)
    if fit is None:
        return _NAME_UNFIT
    others = (location_of(row) for row in store.rows(statements.LOCATIONS, {}))
    taken = any(same_name(fit, other.name) for other in others if other.number != mine)
    return _NAME_TAKEN if taken else fit


def _are_times(first: str, second: str) -> bool:
    try:
        return read_time(first) != read_time(second)
    except ValueError:
        return False


def _other_owners(store: Store, person: str, number: int) -> bool:
    row = store.row(statements.OTHER_OWNERS, {"person": person, "location": number})
    return row is not None and row[0] > 0


def _member_of(row: tuple[Any, ...]) -> Member:
    return Member(row[0], row[1], row[2], datetime.fromisoformat(row[3]))


def _by_name(found: Any) -> tuple[Location, ...]:
    return tuple(sorted(found, key=lambda location: location.name.casefold()))
