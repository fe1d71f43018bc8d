"""A membership as it is put on record, changed or taken off it, always with who did so."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from benchbot.people import statements
from benchbot.people.terms import Location, Role
from benchbot.records.entry import moment
from benchbot.records.record import Store

_INVITE = "invite "


def author_of(invite: int) -> str:
    """Who is named as the author where nobody but an invite let a person in."""
    return f"{_INVITE}{invite}"


def location_of(row: Sequence[Any]) -> Location:
    """A location from the first five columns of a row."""
    return Location(*row[:5])


def hold(store: Store, number: int) -> Location | None:
    """The location, kept from other changes until the transaction ends; None when there is no such location."""
    row = store.row(statements.HOLD_LOCATION, {"location": number})
    return None if row is None else location_of(row)


def put_role(store: Store, person: str, number: int, role: Role, author: str, now: datetime) -> None:
    """The person, who is on record already, has that role at the location from now on."""
    values = {"person": person, "location": number, "role": role, "at": moment(now)}
    store.run(statements.PUT_MEMBERSHIP, values)
    store.run(statements.PUT_CHANGE, values | {"author": author})


def take_role(store: Store, person: str, number: int, author: str, now: datetime) -> None:
    """The person is no member of the location any more and does not stand there."""
    values = {"person": person, "location": number}
    store.run(statements.TAKE_MEMBERSHIP, values)
    store.run(statements.STAND_NO_MORE, values)
    store.run(statements.PUT_CHANGE, values | {"role": "", "author": author, "at": moment(now)})


def overruled_since(store: Store, person: str, number: int, since: str) -> bool:
    """Whether somebody settled this person's place at the location by hand, at that moment of the record or later."""
    changes = store.rows(statements.CHANGES, {"person": person, "location": number})
    return any(at >= since for author, at in changes if not author.startswith(_INVITE))
