"""Who speaks: a person, what they belong to, where they stand, and how that place wants to be served."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta

from benchbot.conversation.manner import Manner
from benchbot.desk.wording import Wording, wording_of
from benchbot.people.register import People
from benchbot.people.rights import Action, decide
from benchbot.people.terms import Decision, Location, Membership, Role

UNITS: dict[str, tuple[str, ...]] = {
    "source": (),
    "metric": ("N·m", "mm", "L", "kPa", "°C"),
    "US": ("lb-ft", "in", "qt", "psi", "°F"),
}


@dataclass(frozen=True, slots=True)
class Asker:
    """A person as the desk knows them; standing is None for strangers, and until one of several locations is chosen."""

    person: str
    name: str
    memberships: tuple[Membership, ...] = ()
    standing: Membership | None = None

    @classmethod
    def of(cls, person: str, name: str, people: People) -> Asker:
        """As the register knows them at this moment."""
        memberships = people.memberships(person)
        if len(memberships) < 2:
            return cls(person, name, memberships, memberships[0] if memberships else None)
        return cls(person, name, memberships, people.standing(person))

    @property
    def words(self) -> Wording:
        return wording_of(self.language)

    @property
    def language(self) -> str:
        """That of the place where they stand; while nobody knows, of the first they belong to."""
        place = self.standing or (self.memberships[0] if self.memberships else None)
        return place.location.language if place else "en"

    @property
    def manner(self) -> Manner:
        if self.standing is None:
            return Manner(language=self.language, asks_again=True)
        place = self.standing.location
        kept = timedelta(hours=place.vehicle_hours)
        return Manner(place.number, UNITS[place.units], place.language, kept, asks_again=True)

    def knowing(self, location: Location) -> Asker:
        """The same person once something else is set for one of their locations."""
        memberships = tuple(_at(one, location) for one in self.memberships)
        return replace(self, memberships=memberships, standing=self.standing and _at(self.standing, location))

    def role_at(self, location: int) -> Role | None:
        return next((one.role for one in self.memberships if one.location.number == location), None)

    def owned(self) -> list[Location]:
        return [one.location for one in self.memberships if one.role == "owner"]

    def may(self, action: Action, location: int, private: bool) -> Decision:
        """By the role at that location."""
        return decide(action, self.role_at(location), private)

    def may_anywhere(self, action: Action, private: bool) -> Decision:
        """Allowed when the role at any of their locations allows it."""
        decisions = [decide(action, one.role, private) for one in self.memberships]
        allowed = next((one for one in decisions if one.allowed), None)
        return allowed or (decisions[0] if decisions else decide(action, None, private))


def _at(membership: Membership, location: Location) -> Membership:
    return replace(membership, location=location) if membership.location.number == location.number else membership


def role_name(role: str, words: Wording) -> str:
    """The role as a person reads it."""
    return {"technician": words.roles_technician, "curator": words.roles_curator, "owner": words.roles_owner}[role]
