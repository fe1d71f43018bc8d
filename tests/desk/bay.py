"""A bay with phones in it: people who write to the desk and see what it would send, without any messenger between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from itertools import count

from desk import NOW, Clock

from benchbot.desk.desk import Desk
from benchbot.desk.incoming import Bot, Incoming, What
from benchbot.desk.sheets import AtOnce, Button, Notice, Offers, Parcel, Sheet
from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Joined, Language, Location, Role
from benchbot.places import Home
from benchbot.records import arrivals, outbox
from benchbot.records.record import Record, open_record
from benchbot.reply.reply import lines_of

BOT = Bot("900", "baybot", "https://t.me/baybot")
_numbers = count(1)
_people = count(5000)


@dataclass(slots=True)
class Message:
    """A message of ours as a phone shows it now."""

    id: str
    chat: str
    sheet: Sheet
    quote: str = ""
    topic: str = ""
    card: int | None = None
    changes: int = 0
    picture: str = ""

    @property
    def text(self) -> str:
        return "\n".join(lines_of(self.sheet.blocks))

    @property
    def labels(self) -> list[str]:
        return [button.label for button in self.sheet.buttons]

    def button(self, label: str) -> Button:
        return next(one for one in self.sheet.buttons if one.label == label)


@dataclass(slots=True)
class Bay:
    """One desk on one home; delivers what the desk puts into the outbox at once."""

    home: Home
    clock: Clock = field(default_factory=Clock)
    messages: dict[str, list[Message]] = field(default_factory=dict)
    menus: dict[str, tuple[str, ...]] = field(default_factory=dict)
    menu_labels: dict[str, tuple[str, ...]] = field(default_factory=dict)
    notices: list[Notice] = field(default_factory=list)
    offers: list[Offers] = field(default_factory=list)
    fetches: list[Parcel] = field(default_factory=list)
    desk: Desk = field(init=False)
    record: Record = field(init=False)
    people: People = field(init=False)
    _ids: count[int] = field(default_factory=lambda: count(100))

    def __post_init__(self) -> None:
        self.clock.moment = NOW
        self.desk = Desk(self.home, BOT, self.clock)
        self.record = open_record(self.home)
        self.people = People(self.record)

    def close(self) -> None:
        self.desk.close()
        self.record.close()

    def restart(self) -> None:
        """The process ended and another one started."""
        self.desk.close()
        self.desk = Desk(self.home, BOT, self.clock)

    def location(self, name: str, language: Language = "en") -> Location:
        """A location with an owner whom nobody has met."""
        made = self.people.add_location(name, "telegram 1", self.clock())
        assert isinstance(made, Location)
        made = self.people.set_defaults(made.number, language=language)
        assert isinstance(made, Location)
        return made

    def phone(self, name: str, **roles: Location) -> Phone:
        """The phone of somebody with these roles; without any, of a stranger."""
        phone = Phone(self, f"telegram {next(_people)}", name)
        for role, location in roles.items():
            self.let_in(phone, location, role)
        return phone

    def let_in(self, phone: Phone, location: Location, role: Role) -> None:
        _, code = invites.make(self.record, location.number, role, 1, 1, "test", self.clock())
        came = invites.redeem(self.record, code, phone.person, phone.name, self.clock())
        assert isinstance(came, Joined)

    def take(self, incoming: Incoming) -> tuple[AtOnce, ...]:
        """Hands it in as the messenger does, and delivers what is to be sent for it."""
        arrivals.keep(self.record, BOT.number, [(incoming.number, incoming.chat, incoming.to_text())], self.clock())
        at_once = self.desk.take(incoming)
        self.notices += [one for one in at_once if isinstance(one, Notice)]
        self.offers += [one for one in at_once if isinstance(one, Offers)]
        self.deliver()
        assert arrivals.left(self.record, BOT.number) == []
        return at_once

    def deliver(self) -> None:
        for claimed in self._waiting():
            parcel = Parcel.from_text(claimed.body)
            message = self._show(parcel, claimed)
            outbox.sent(self.record, claimed.number, message, self.clock())

    def _waiting(self) -> Iterator[outbox.Claimed]:
        while claimed := outbox.claim(self.record, BOT.number, (), self.clock(), 50):
            yield from claimed

    def _show(self, parcel: Parcel, claimed: outbox.Claimed) -> str:
        if parcel.do == "menu":
            self.menus[parcel.chat] = parcel.codes
            self.menu_labels[parcel.chat] = parcel.labels
            return ""
        if parcel.do == "fetch":
            self.fetches.append(parcel)
            return ""
        if parcel.do in ("post", "picture", "document"):
            number = str(next(self._ids))
            shown = Message(number, parcel.chat, parcel.sheet, parcel.quote, parcel.topic, claimed.card)
            shown.picture = parcel.code
            self.messages.setdefault(parcel.chat, []).append(shown)
            return number
        message = parcel.message or claimed.card_message
        shown = next(one for one in self.messages[parcel.chat] if one.id == message)
        assert shown.sheet != parcel.sheet, "the messenger refuses a change that changes nothing"
        shown.sheet, shown.card, shown.changes = parcel.sheet, claimed.card, shown.changes + 1
        return message


@dataclass(slots=True)
class Phone:
    """One person's phone. chat: where it writes; a group's chat when `group` was called."""

    bay: Bay
    person: str
    name: str
    chat: str = ""
    private: bool = True
    topic: str = ""
    _ids: count[int] = field(default_factory=lambda: count(1))

    def __post_init__(self) -> None:
        self.chat = self.chat or self.person.removeprefix("telegram ")

    def in_group(self, chat: str, topic: str = "") -> Phone:
        """The same person in a group."""
        return Phone(self.bay, self.person, self.name, chat, False, topic)

    def send(self, what: What = "text", text: str = "", at: datetime | None = None, **more: object) -> Incoming:
        """What was handed in."""
        incoming = Incoming(
            BOT.number, next(_numbers), what, self.chat, self.private, self.person, self.name,
            at or self.bay.clock(), text=text, topic=self.topic,
            message=str(more.pop("message", "") or f"{self.name}{next(self._ids)}"),
        )  # fmt: skip
        incoming = replace(incoming, **more)
        self.bay.take(incoming)
        return incoming

    def say(self, text: str, **more: object) -> Message:
        """Writes, and gives the last message that the bot shows in this chat."""
        if text.startswith("/"):
            command, _, rest = text[1:].partition(" ")
            self.send("text", rest, command=command, **more)
        else:
            self.send("text", text, **more)
        return self.last

    def change(self, message: str, text: str) -> Message:
        self.send("changed", text, message=message)
        return self.last

    def press(self, label: str, on: Message | None = None) -> Message:
        """Presses a button by what it says, on the last message or another; gives that message as it is then."""
        message = on or self.last
        return self.press_code(message, message.button(label).code)

    def press_code(self, message: Message, code: str) -> Message:
        self.send("press", f"{message.card}:{code}", message=message.id, query=f"q{next(_numbers)}")
        return message

    @property
    def shown(self) -> list[Message]:
        return self.bay.messages.get(self.chat, [])

    @property
    def last(self) -> Message:
        return self.shown[-1]

    @property
    def notice(self) -> str:
        """What the last press was answered with."""
        return self.bay.notices[-1].text


def later(bay: Bay, **time: int) -> None:
    bay.clock.moment += timedelta(**time)
