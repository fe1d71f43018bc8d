"""The pages on which an owner keeps locations, members and invites: one message that turns from page to page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import get_args

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling, plain
from benchbot.desk.invite_pages import InvitePages
from benchbot.desk.location_pages import LocationPages
from benchbot.desk.member_pages import MemberPages
from benchbot.desk.sheets import Button, Sheet
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.people.terms import Location
from benchbot.records import expected
from benchbot.records.cards import Card
from benchbot.records.expected import Expected
from benchbot.records.record import Record
from benchbot.reply.reply import Block

Turned = Sheet | None
Page = Callable[[Handling, list[str]], Turned]


@dataclass(frozen=True, slots=True)
class Owning:
    """`/locations`, `/people`, `/invite`, their buttons, and the entries that they ask for.

    A button's code is the name of a page and what it is about, with dots between. The first of these is the number of
    the location, by the role at which the right is decided anew at every press.
    """

    people: People
    record: Record
    pages: dict[str, tuple[Action, Page]]

    @classmethod
    def of(cls, people: People, record: Record) -> Owning:
        locations, members, invites = LocationPages(people, record), MemberPages(people), InvitePages(people, record)
        pages: dict[str, tuple[Action, Page]] = {
            "l": ("see members", locations.one),
            "ln": ("rename location", locations.rename),
            "lu": ("set defaults", locations.units),
            "lg": ("set defaults", locations.language),
            "lh": ("set defaults", locations.hours),
            "m": ("see members", members.all),
            "mm": ("see members", members.one),
            "mr": ("change role", members.change_role),
            "mx": ("remove member", members.sure),
            "my": ("remove member", members.remove),
            "i": ("see invites", invites.roles),
            "ik": ("see invites", invites.kinds),
            "io": ("see invites", invites.open),
            "iv": ("revoke invite", invites.revoke),
        }
        # who may invite whom stands in the table of rights for each role by itself
        for role in ("technician", "curator", "owner"):
            action: Action = next(one for one in get_args(Action) if one == f"invite {role}")
            pages[f"ig{role}"] = (action, invites.make)
        return cls(people, record, pages)

    def command(self, handling: Handling, command: str) -> None:
        """The first page, or the only location's own page where there is one alone."""
        words = handling.words
        decision = handling.asker.may_anywhere("see members", handling.incoming.private)
        if not decision.allowed:
            handling.say(words.denied(decision))
            return
        owned = handling.asker.owned()
        head, code = {
            "locations": (words.locations_head, "l"),
            "people": (words.members_which, "m"),
            "invite": (words.invite_where, "i"),
        }[command]
        with handling.writing():
            card = handling.card("page", {}, handling.incoming.message)
            if command != "locations" and len(owned) == 1:
                sheet = self.pages[code][1](handling, [str(owned[0].number)])
                handling.post(sheet or plain(words.pressed_old), card)
            else:
                handling.post(self._which(handling, owned, head, code), card)

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """Turns the page, when they may still do that."""
        name, *about = code.split(".")
        words, private = handling.words, handling.incoming.private
        if name in ("L", "x"):
            self._back(handling, card)
            return
        if name == "la":
            self._ask_name(handling, card)
            return
        action, page = self.pages.get(name, (None, None))
        location = number_in(about[0]) if about else None
        if action is None or page is None or location is None:
            handling.refuse(words.pressed_old)
            return
        decision = handling.asker.may(action, location, private)
        if not decision.allowed:
            handling.refuse(words.denied(decision))
            return
        with handling.writing():
            sheet = page(handling, about)
            if sheet is not None:
                picture = bool(card.body.get("picture"))
                handling.change(sheet, card.number, handling.incoming.message, picture)
            handling.notice()

    def written(self, handling: Handling, entry: Expected, text: str) -> None:
        """The name of a new location, or a location's new name."""
        asker, words = handling.asker, handling.words
        with handling.writing():
            expected.taken(handling.record, handling.chat, asker.person)
            decision = (
                asker.may_anywhere("add location", True)
                if entry.what == "location name"
                else asker.may("rename location", entry.body["location"], True)
            )
            if not decision.allowed:
                handling.post(plain(words.denied(decision)))
                return
            if entry.what == "location name":
                made = self.people.add_location(text, asker.person, handling.now)
                form = words.location_added
            else:
                made = self.people.rename(entry.body["location"], text)
                form = words.location_renamed
            if not isinstance(made, Location):
                # asked once more: a name that is taken or unfit is no reason to start over
                expected.put(handling.record, handling.chat, asker.person, entry, handling.now + LocationPages.AWAITED)
                handling.post(plain(words.refused(made)))
                return
            card = handling.card("page", {}, handling.incoming.message)
            page = LocationPages(self.people, self.record).sheet(handling, made)
            handling.post(Sheet((Block("note", form.format(location=made.name)), *page.blocks), page.buttons), card)
            if entry.what == "location name":
                handling.after_change(asker.person, self.people)

    def _which(self, handling: Handling, owned: list[Location], head: str, code: str) -> Sheet:
        words = handling.words
        buttons = [Button(one.name, f"{code}.{one.number}", wide=True) for one in owned[:20]]
        if code == "l":
            buttons.append(Button(words.location_add, "la", wide=True))
        return Sheet((Block("question", head if owned else words.locations_none),), tuple(buttons))

    def _back(self, handling: Handling, card: Card) -> None:
        with handling.writing():
            handling.notice()
            expected.taken(handling.record, handling.chat, handling.asker.person)
            sheet = self._which(handling, handling.asker.owned(), handling.words.locations_head, "l")
            handling.change(sheet, card.number, handling.incoming.message)

    def _ask_name(self, handling: Handling, card: Card) -> None:
        words = handling.words
        decision = handling.asker.may_anywhere("add location", handling.incoming.private)
        if not decision.allowed:
            handling.refuse(words.denied(decision))
            return
        with handling.writing():
            handling.notice()
            entry, until = Expected("location name", {}), handling.now + LocationPages.AWAITED
            expected.put(handling.record, handling.chat, handling.asker.person, entry, until)
            sheet = Sheet((Block("question", words.location_ask_name),), (Button(words.cancel, "x"),))
            handling.change(sheet, card.number, handling.incoming.message)
