"""Where and how a person is told something that they did not ask for just now."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from benchbot.conversation.manner import PLAIN, Manner
from benchbot.desk.asker import Asker
from benchbot.desk.wording import Wording as DeskWording
from benchbot.following.wording import Wording, wording_of
from benchbot.people.channels import TELEGRAM, TERMINAL, channel_of, name_there
from benchbot.people.known_bot import KnownBot
from benchbot.people.quiet import quiet_until
from benchbot.people.register import People
from benchbot.people.terms import Membership


@dataclass(frozen=True, slots=True)
class Address:
    """bot, chat: where the outbox sends it; conversation: the name of that private chat in the conversation."""

    bot: str
    chat: str
    conversation: str


@dataclass(frozen=True, slots=True)
class Addressee:
    """A member, with the place whose units and language they are told in."""

    asker: Asker
    address: Address
    place: Membership

    @property
    def words(self) -> Wording:
        return wording_of(self.asker.language)

    @property
    def desk_words(self) -> DeskWording:
        return self.asker.words

    @property
    def manner(self) -> Manner:
        return self.asker.manner


@dataclass(slots=True)
class Addresses:
    """Looks each person up but once. known: the bot that answers for this shop, None where none has run yet."""

    people: People
    known: KnownBot | None
    _found: dict[tuple[str, int | None], Addressee | None]

    @classmethod
    def of(cls, people: People, known: KnownBot | None) -> Addresses:
        return cls(people, known, {})

    def of_person(self, person: str, location: int | None) -> Addressee | None:
        """By the location where they asked, else by where they stand now; None for whoever cannot be told.

        Those are people who are no member any more, and whoever asked where nothing can be sent to.
        """
        if (person, location) not in self._found:
            self._found[person, location] = self._look_up(person, location)
        return self._found[person, location]

    def manner_of(self, person: str, location: int | None) -> Manner:
        found = self.of_person(person, location)
        return PLAIN if found is None else found.manner

    def quiet_until(self, addressee: Addressee, now: datetime) -> datetime | None:
        """When the quiet ends at their place; None when it is not quiet there."""
        return quiet_until(self.people.hours(addressee.place.location.number), now)

    def _look_up(self, person: str, location: int | None) -> Addressee | None:
        memberships = self.people.memberships(person)
        address = address_of(person, self.known)
        if not memberships or address is None:
            return None
        there = next((one for one in memberships if one.location.number == location), None)
        place = there or self.people.standing(person) or memberships[0]
        return Addressee(Asker(person, "", memberships, place), address, place)


def address_of(person: str, known: KnownBot | None) -> Address | None:
    """A person's private chat; None where there is none."""
    channel = channel_of(person)
    if channel == TERMINAL:
        return Address(TERMINAL, name_there(person), person)
    if channel == TELEGRAM and known is not None:
        return Address(known.number, name_there(person), person)
    return None
