"""What happens on a phone's screen, in the order in which it happens: the entries of a picture."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Said:
    """What a person wrote. changed: they changed an earlier message into this."""

    who: str
    text: str
    changed: bool = False

    def to_plain(self) -> dict[str, Any]:
        return {"from": self.who, "text": self.text} | ({"changed": True} if self.changed else {})


@dataclass(slots=True)
class Shown:
    """A message of the bot as it was sent to the messenger: its HTML, its rows of buttons, the message it quotes.

    changed: it took the place of what the same message showed before. tapped: the button that is pressed next.
    photo: a PNG that stands above the text. by: the person who sent it through the bot, empty for the bot itself.
    """

    html: str
    buttons: tuple[tuple[str, ...], ...] = ()
    quote: str = ""
    photo: bytes = b""
    changed: bool = False
    tapped: str = ""
    by: str = ""

    def to_plain(self) -> dict[str, Any]:
        plain: dict[str, Any] = {"from": self.by or "the bot", "html": self.html}
        for name in ("quote", "changed", "tapped"):
            if getattr(self, name):
                plain[name] = getattr(self, name)
        if self.photo:
            plain["photo"] = True
        return plain | {"buttons": [list(row) for row in self.buttons]}


@dataclass(frozen=True, slots=True)
class Notice:
    """The short line that answers a press which changes nothing: who pressed what, and sees this line."""

    who: str
    pressed: str
    text: str

    def to_plain(self) -> dict[str, Any]:
        return {"notice to": self.who, "pressed": self.pressed, "text": self.text}


@dataclass(frozen=True, slots=True)
class Typing:
    """A line that is being typed in another chat, and what is offered above it: titles and lines."""

    who: str
    text: str
    offers: tuple[tuple[str, str], ...]

    def to_plain(self) -> dict[str, Any]:
        return {"typed by": self.who, "text": self.text, "offers": [list(offer) for offer in self.offers]}


@dataclass(frozen=True, slots=True)
class Aside:
    """A line of ours between the messages; no phone shows it."""

    text: str

    def to_plain(self) -> dict[str, Any]:
        return {"aside": self.text}


Entry = Said | Shown | Notice | Typing | Aside


@dataclass(frozen=True, slots=True)
class Picture:
    """One screen. name: of its file, without the ending; viewer: whose phone it is, on the right-hand side."""

    name: str
    title: str
    viewer: str
    entries: tuple[Entry, ...]

    def to_plain(self) -> dict[str, Any]:
        return {
            "file": f"{self.name}.png",
            "title": self.title,
            "viewer": self.viewer,
            "screen": [entry.to_plain() for entry in self.entries],
        }
