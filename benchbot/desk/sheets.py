"""What the desk wants shown, the same for every messenger, and how it lies in the record until it is sent."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, fields
from typing import Any, Literal

from benchbot.reply.reply import Block

# Bot API, sendMessage and sendPhoto: text and caption "after entities parsing".
SHOWN_AT_MOST = 4096
CAPTION_AT_MOST = 1024


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
    what they do, in order), "document" (a file as in `paper_files`, named `title` where it is sent; the text of the
    sheet is its caption), "fetch" (nothing is shown: the file that the messenger calls `title` is fetched and kept as
    the evidence of number `code`).
    message: the id of the message to change; empty when it is the one that its card stands on.
    quote: the id of the message that a new one answers, or empty. card: its buttons belong to that card.
    code: what a picture is drawn from: the text of its QR code, or the file of it as in `picture_files`; a page that
    was kept may be a PDF.
    twice: it does no harm when it stands twice. language: the one that the person is spoken to in.
    """

    do: Literal["post", "change", "caption", "picture", "document", "menu", "fetch"]
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
    twice: bool = False
    language: str = "en"

    def to_text(self) -> str:
        return json.dumps(asdict(self), ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> Parcel:
        # what only an earlier release wrote is left out: it may still wait when a newer one starts
        known = {one.name for one in fields(cls)}
        plain = {name: value for name, value in json.loads(text).items() if name in known}
        sheet = Sheet.from_plain(plain.pop("sheet"))
        return cls(**plain | {"sheet": sheet, "codes": tuple(plain["codes"]), "labels": tuple(plain["labels"])})


@dataclass(frozen=True, slots=True)
class Notice:
    """The short line that answers a press; empty text only ends the messenger's waiting sign."""

    query: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Offer:
    """One result of an inline query: its title, a line below it, and the message that choosing it sends.

    code: by which the messenger tells that it was chosen; it stands for this very answer.
    """

    title: str
    line: str
    sheet: Sheet
    code: str


@dataclass(frozen=True, slots=True)
class Offers:
    """The answer to an inline query. refusal: shown in place of results to whoever is no member."""

    query: str
    offers: tuple[Offer, ...] = ()
    refusal: str = ""


AtOnce = Notice | Offers
