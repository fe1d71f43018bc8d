"""Locations, members, invites and what becomes of a change to them, as plain values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

Role = Literal["technician", "curator", "owner"]
Units = Literal["source", "metric", "US"]
Language = Literal["en", "es"]

# From the least to the most that a member may do.
ROLES: tuple[Role, ...] = ("technician", "curator", "owner")
UNITS: tuple[Units, ...] = ("source", "metric", "US")
LANGUAGES: tuple[Language, ...] = ("en", "es")

# How far an invite can go.
USES_AT_MOST, DAYS_AT_MOST = 100, 365

# What a refusal is about, for logs and for whoever words it anew; people are shown its reason.
About = Literal[
    "unknown location",
    "name unfit",
    "name taken",
    "setting unfit",
    "not a member",
    "last owner",
    "no first location",
    "unknown invite",
    "already revoked",
    "code unknown",
    "code expired",
    "code revoked",
    "code used up",
    "code overruled",
]


@dataclass(frozen=True, slots=True)
class Location:
    """A shop. units: shown first among the conversions, "source" for those of the source alone.

    vehicle_hours: how long the vehicle on the lift is taken for granted there.
    """

    number: int
    name: str
    units: Units = "source"
    language: Language = "en"
    vehicle_hours: int = 4


@dataclass(frozen=True, slots=True)
class Hours:
    """When it is quiet at a location. zone: an IANA name, such as America/Chicago.

    quiet_from, quiet_to: such as "19:00" and "07:00" by the clock there, the end not included; both empty where it is
    never quiet.
    """

    location: int
    zone: str = "UTC"
    quiet_from: str = ""
    quiet_to: str = ""


@dataclass(frozen=True, slots=True)
class Member:
    """A person at one location; since: when they came in, UTC."""

    person: str
    name: str
    role: Role
    since: datetime


@dataclass(frozen=True, slots=True)
class Membership:
    """A location as one person sees it: their role there."""

    location: Location
    role: Role


@dataclass(frozen=True, slots=True)
class Invite:
    """A way in, without its code. shown: the code's first letters. location: the number of the location.

    It works until just before `expires_at` (UTC), for `uses_left` more people, unless it is revoked.
    """

    number: int
    shown: str
    location: int
    role: Role
    uses_left: int
    expires_at: datetime
    revoked: bool = False


@dataclass(frozen=True, slots=True)
class Decision:
    """Whether somebody may do something; reason: for a denial, in words for that person."""

    allowed: bool
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing was changed; reason: in words for the person who tried."""

    reason: str
    about: About


@dataclass(frozen=True, slots=True)
class Joined:
    """What a code did for whoever sent it.

    role: the one that they have at the location now. how: they came in, their role was raised, or they had that role
    or a higher one already, which uses nothing up.
    """

    location: Location
    role: Role
    how: Literal["joined", "raised", "already"]


@dataclass(frozen=True, slots=True)
class Changed:
    """A member's role before and now; None: they are no member any more.

    invites_ended: how many open invites of theirs to the location ended with it.
    """

    person: str
    name: str
    location: Location
    before: Role
    role: Role | None
    invites_ended: int = 0


def reaches(role: Role | None, other: Role) -> bool:
    """Whether a role is as high as another, or higher; None is the lowest."""
    return role is not None and ROLES.index(role) >= ROLES.index(other)
