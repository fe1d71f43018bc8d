"""The pages on which an owner keeps locations, members and invites: one message that turns from page to page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import get_args

from benchbot.desk.codes import number_in
from benchbot.desk.handling import CARD_KEPT, Handling, plain
from benchbot.desk.invite_pages import InvitePages
from benchbot.desk.listing import turned_to
from benchbot.desk.location_pages import LocationPages
from benchbot.desk.member_pages import MemberPages
from benchbot.desk.sheets import Button, Sheet
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.people.terms import Location
from benchbot.records import cards, expected
from benchbot.records.cards import Card
from benchbot.records.expected import Expected
from benchbot.records.record import Record
from benchbot.reply.reply import Block

Turned = Sheet | None
Page = Callable[[Handling, list[str]], Turned]
# the list of locations and its pages, the way out of an entry, and the entry for a new location's name
WITHOUT_LOCATION: dict[str, Action] = {
    "L": "see members", "w": "see members", "x": "see members", "la": "add location",
}  # fmt: skip


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
            "lq": ("set defaults", locations.quiet),
            "lz": ("set defaults", locations.clock),
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
        """Turns the page, when they may still do that; what was pressed already is not done a second time.

        A card remembers in `done` what was pressed last, so that whatever is made is made from the page that offers it.
        """
        name, *about = code.split(".")
        words, private = handling.words, handling.incoming.private
        location = number_in(about[0]) if about else None
        action, page = self.pages.get(name, (None, None))
        if name in WITHOUT_LOCATION:
            decision = handling.asker.may_anywhere(WITHOUT_LOCATION[name], private)
        elif action is None or page is None or location is None:
            handling.refuse(words.pressed_old)
            return
        else:
            decision = handling.asker.may(action, location, private)
        done = card.body.get("done", "")
        if not decision.allowed:
            handling.refuse(words.denied(decision))
        elif code == done or (name.startswith("ig") and done != ".".join(("ik", *about[:2]))):
            handling.refuse(words.pressed_done)
        else:
            with handling.writing():
                sheet = page(handling, about) if page is not None else self._without_location(handling, name, about)
                offered = () if sheet is None else sheet.buttons
                # a page can offer what led to it, as after a refusal
                again = any(button.code == code for button in offered)
                body = card.body | {"done": "" if again else code}
                cards.change(handling.record, card.number, "page", body, handling.now + CARD_KEPT)
                if sheet is not None:
                    picture = bool(card.body.get("picture"))
                    handling.change(sheet, card.number, handling.incoming.message, picture)
                handling.notice()

    def ask_whether(self, handling: Handling, entry: Expected, text: str) -> None:
        """A name that reads as a question is one only when they say so; until then nothing further is awaited."""
        words, asker = handling.words, handling.asker
        with handling.writing():
            expected.taken(handling.record, handling.chat, asker.person)
            body = {"what": entry.what, "about": entry.body, "said": text, "message": handling.incoming.message}
            card = handling.card("name", body, handling.incoming.message, LocationPages.AWAITED)
            buttons = (Button(words.name_yes, "yes", wide=True), Button(words.name_no, "no", wide=True))
            handling.post(Sheet((Block("question", words.name_sure.format(name=text)),), buttons), card)

    def written(self, handling: Handling, entry: Expected, text: str, pressed: Card | None = None) -> None:
        """The name of a new location, or a location's new name. pressed: the card on which they said that it is."""
        asker, words = handling.asker, handling.words
        adds = entry.what == "location name"
        with handling.writing():
            expected.taken(handling.record, handling.chat, asker.person)
            decision = (
                asker.may_anywhere("add location", handling.incoming.private)
                if adds
                else asker.may("rename location", entry.body["location"], handling.incoming.private)
            )
            if not decision.allowed:
                self._say(handling, plain(words.denied(decision)), pressed)
                return
            if adds:
                made = self.people.add_location(text, asker.person, handling.now)
            else:
                made = self.people.rename(entry.body["location"], text)
            if not isinstance(made, Location):
                # asked once more: a name that is taken or unfit is no reason to start over
                expected.put(handling.record, handling.chat, asker.person, entry, handling.now + LocationPages.AWAITED)
                self._say(handling, plain(words.refused(made)), pressed)
                return
            page = LocationPages(self.people, self.record).sheet(handling, made)
            form = words.location_added if adds else words.location_renamed
            line = Block("note", form.format(location=made.name))
            self._say(handling, Sheet((line, *page.blocks), page.buttons), pressed)
            if adds:
                handling.after_change(asker.person, self.people)

    def _say(self, handling: Handling, page: Sheet, pressed: Card | None) -> None:
        """As a page of its own, or in place of the question that was pressed."""
        if pressed is None:
            handling.post(page, handling.card("page", {}, handling.incoming.message))
            return
        handling.notice()
        cards.change(handling.record, pressed.number, "page", {}, handling.now + CARD_KEPT)
        handling.change(page, pressed.number, handling.incoming.message)

    def _which(self, handling: Handling, owned: list[Location], head: str, code: str, page: int = 0) -> Sheet:
        words = handling.words
        shown, turns = turned_to(owned, page, f"w.{code}.", words)
        buttons = [*(Button(one.name, f"{code}.{one.number}", wide=True) for one in shown), *turns]
        if code == "l":
            buttons.append(Button(words.location_add, "la", wide=True))
        return Sheet((Block("question", head if owned else words.locations_none),), tuple(buttons))

    def _without_location(self, handling: Handling, name: str, about: list[str]) -> Sheet:
        """The list of locations, a further page of such a list, or the question for the name of a new one."""
        words, owned = handling.words, handling.asker.owned()
        if name == "la":
            entry, until = Expected("location name", {}), handling.now + LocationPages.AWAITED
            expected.put(handling.record, handling.chat, handling.asker.person, entry, until)
            return Sheet((Block("question", words.location_ask_name),), (Button(words.cancel, "x"),))
        expected.taken(handling.record, handling.chat, handling.asker.person)
        code, number = (about[0], number_in(about[1])) if len(about) > 1 else ("l", 0)
        head = {"l": words.locations_head, "m": words.members_which, "i": words.invite_where}.get(code)
        if head is None or number is None:
            return plain(words.pressed_old)
        return self._which(handling, owned, head, code, number)
