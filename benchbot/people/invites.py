"""Invites: a code that lets a limited number of people into a location, until a time, unless it is revoked."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

from benchbot.errors import RecordError
from benchbot.people import statements
from benchbot.people.codes import SHOWN, digest, new_code, plain_code
from benchbot.people.membership import author_of, hold, overruled_since, put_role
from benchbot.people.names import shown_name
from benchbot.people.terms import DAYS_AT_MOST, USES_AT_MOST, About, Invite, Joined, Location, Refused, Role, reaches
from benchbot.records.entry import moment
from benchbot.records.record import Record, Store, number_of

# One wording for every reason: whoever tries codes learns nothing from it.
NO_WAY_IN = "This code does not work. Ask your shop for a new invite."

_UNKNOWN = Refused("There is no such invite.", "unknown invite")
_ENDED = Refused("That invite was revoked already.", "already revoked")


def make(
    record: Record, location: int, role: Role, uses: int, days: int, author: str, now: datetime
) -> tuple[Invite, str]:
    """A new invite to the location of that number, and its code, which is kept nowhere: only its digest is.

    uses: 1 to 100 people. days: 1 to 365, of 24 hours each. ValueError outside of these.
    """
    if not 1 <= uses <= USES_AT_MOST or not 1 <= days <= DAYS_AT_MOST:
        raise ValueError(f"{uses} uses, {days} days: give 1 to {USES_AT_MOST} uses and 1 to {DAYS_AT_MOST} days")
    code = new_code()
    expires_at = now.astimezone(UTC) + timedelta(days=days)
    values = {
        "digest": digest(plain_code(code) or ""),
        "shown": code[:SHOWN],
        "location": location,
        "role": role,
        "uses": uses,
        "expires_at": moment(expires_at),
        "author": author,
        "at": moment(now),
    }
    with record.writing() as store:
        number = number_of(store.row(statements.PUT_INVITE, values))
    return Invite(number, code[:SHOWN], location, role, uses, expires_at), code


def redeem(record: Record, code: str, person: str, name: str, now: datetime) -> Joined | Refused:
    """Lets a person in by a code, or raises their role by it; a code that gives them nothing new is not used up.

    name: what the messenger calls them. A refusal has one reason, and is about: code unknown, code expired, code
    revoked, code used up, or code overruled: an owner removed this person or set their role after the invite was made,
    so that only a newer invite lets them in again.
    """
    plain = plain_code(code)
    if plain is None:
        return _refused("code unknown")
    values = {"digest": digest(plain)}
    # Whoever tries codes must not take the writer's turn with each.
    place = record.row(statements.INVITE_PLACE, values)
    if place is None:
        return _refused("code unknown")
    with record.writing() as store:
        location = hold(store, place[0])
        found = store.row(statements.INVITE_OF_CODE, values)
        if location is None or found is None:
            raise RecordError(f"the invite to location {place[0]} went from the record; restore it from a backup")
        return _redeemed(store, location, found, person, name, now)


def _redeemed(
    store: Store, location: Location, found: Sequence[Any], person: str, name: str, now: datetime
) -> Joined | Refused:
    invite = _invite_of(found)
    held = store.row(statements.ROLE, {"person": person, "location": location.number})
    before: Role | None = None if held is None else held[0]
    if before is not None and reaches(before, invite.role):
        return Joined(location, before, "already")
    if invite.revoked:
        return _refused("code revoked")
    if moment(now) >= moment(invite.expires_at):
        return _refused("code expired")
    if invite.uses_left < 1:
        return _refused("code used up")
    if overruled_since(store, person, location.number, found[7]):
        return _refused("code overruled")
    store.run(statements.USE_INVITE, {"invite": invite.number})
    store.run(statements.PUT_PERSON, {"person": person, "name": shown_name(name), "at": moment(now)})
    put_role(store, person, location.number, invite.role, author_of(invite.number), now)
    return Joined(location, invite.role, "joined" if before is None else "raised")


def revoke(record: Record, number: int, now: datetime) -> Invite | Refused:
    """Ends an invite at once; whoever came in by it stays."""
    with record.writing() as store:
        invite = find(record, number)
        if invite is None:
            return _UNKNOWN
        hold(store, invite.location)
        row = store.row(statements.REVOKE_INVITE, {"invite": number, "now": moment(now)})
        return _ENDED if row is None else _invite_of(row)


def find(record: Record, number: int) -> Invite | None:
    """The invite of that number, whether it still works or not."""
    row = record.row(statements.INVITE, {"invite": number})
    return None if row is None else _invite_of(row)


def open_invites(record: Record, location: int, now: datetime) -> tuple[Invite, ...]:
    """The invites to a location that still let somebody in, oldest first."""
    rows = record.rows(statements.OPEN_INVITES, {"location": location, "now": moment(now)})
    return tuple(map(_invite_of, rows))


def _refused(about: About) -> Refused:
    return Refused(NO_WAY_IN, about)


def _invite_of(row: Sequence[Any]) -> Invite:
    number, shown, location, role, uses_left, expires_at, revoked_at = row[:7]
    return Invite(number, shown, location, role, uses_left, datetime.fromisoformat(expires_at), revoked_at != "")
