"""What the desk wants shown, the same for every messenger, and how it lies in the record until it is sent."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any, Literal

from benchbot.reply.reply import Block

SHOWN_AT_MOST = 4096


@dataclass(frozen=True, slots=True)
class Button:
    """A button: its label, and the short code (at most 40 ASCII characters) that comes back when it is pressed.

    wide: it wants a row of its own.
    """

    label: str
    code: str
    wide: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """The text and buttons of one message. Blocks are laid out as in a reply: `beside` continues the line before."""

    blocks: tuple[Block, ...]
    buttons: tuple[Button, ...] = ()

    def to_plain(self) -> dict[str, Any]:
        return asdict(self)

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Sheet:
        blocks = tuple(Block(**one) for one in plain["blocks"])
        return cls(blocks, tuple(Button(**one) for one in plain["buttons"]))


@dataclass(frozen=True, slots=True)
class Parcel:
    """One thing to send to one chat.

    do: "post" a new message, "change" one of ours, "caption" the text below a picture of ours, "picture" (the text of
    the sheet is its caption), "menu" (the commands of one person's private chat: `codes` are their names and `labels`
    what they do, in order).
    message: the id of the message to change; empty when it is the one that its card stands on.
    quote: the id of the message that a new one answers, or empty. card: its buttons belong to that card.
    code: what a picture is drawn from: the text of its QR code.
    asks: the person is to write an entry next. twice: it does no harm when it stands twice.
    """

    do: Literal["post", "change", "caption", "picture", "menu"]
    chat: str
    sheet: Sheet = Sheet(())
    topic: str = ""
    message: str = ""
    quote: str = ""
    card: int | None = None
    code: str = ""
    title: str = ""
    codes: tuple[str, ...] = ()
    labels: tuple[str, ...] = ()
    asks: bool = False
    twice: bool = False

    def to_text(self) -> str:
        return json.dumps(asdict(self), ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> Parcel:
        plain = json.loads(text)
        sheet = Sheet.from_plain(plain.pop("sheet"))
        return cls(**plain | {"sheet": sheet, "codes": tuple(plain["codes"]), "labels": tuple(plain["labels"])})


@dataclass(frozen=True, slots=True)
class Notice:
    """The short line that answers a press; empty text only ends the messenger's waiting sign. loud: a box to close."""

    query: str
    text: str = ""
    loud: bool = False


@dataclass(frozen=True, slots=True)
class Offer:
    """One result of an inline query: its title, a line below it, and the message that choosing it sends."""

    title: str
    line: str
    sheet: Sheet


@dataclass(frozen=True, slots=True)
class Offers:
    """The answer to an inline query. refusal: shown in place of results to whoever is no member."""

    query: str
    offers: tuple[Offer, ...] = ()
    refusal: str = ""


AtOnce = Notice | Offers
