"""What one person's terminal has shown, kept in the home: after a restart its buttons can still be pressed."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from benchbot.desk.sheets import Button

# Older messages can be pressed no more; what they show is asked for anew.
KEPT = 60


@dataclass(frozen=True, slots=True)
class Offered:
    """The buttons of one message. card: what they belong to, 0 for none."""

    handle: int
    card: int
    buttons: tuple[Button, ...]


@dataclass(slots=True)
class Shown:
    """Each message has a handle, counted up; the messenger's own id of it for the desk is that number as text.

    offers: the messages with buttons, by handle. last: the one whose buttons stand lowest on the screen, 0 for none.
    sending, handle: what is being put on the screen, and its handle.
    """

    file: Path
    offers: dict[int, Offered] = field(default_factory=dict)
    last: int = 0
    sending: int = 0
    handle: int = 0

    @classmethod
    def load(cls, file: Path) -> Shown:
        """What the last process left; nothing where there is no such file, or none that can be read."""
        try:
            plain = json.loads(file.read_text(encoding="utf-8"))
            offers = [Offered(one[0], one[1], tuple(Button(*pair) for pair in one[2])) for one in plain["offers"]]
            found = cls(file, {one.handle: one for one in offers}, plain["last"])
            found.sending, found.handle = plain["sending"], plain["handle"]
        except (OSError, ValueError, KeyError, TypeError, IndexError):
            # Only buttons of old messages are lost with it.
            return cls(file)
        return found

    def begin(self, sending: int, handle: int = 0) -> int:
        """Something comes on the screen next; its handle, the same when it comes a second time.

        handle: that of the message that it changes.
        """
        if not handle:
            handle = self.handle if sending == self.sending else self.handle + 1
            self.sending, self.handle = sending, handle
        return handle

    def put(self, offered: Offered) -> None:
        """Its buttons from now on; on record before anybody can see them."""
        self.offers.pop(offered.handle, None)
        if offered.buttons:
            self.offers[offered.handle] = offered
            self.last = offered.handle
            for old in list(self.offers)[:-KEPT]:
                del self.offers[old]
        elif self.last == offered.handle:
            self.last = 0
        self._save()

    def _save(self) -> None:
        offers = [(one.handle, one.card, [(b.label, b.code) for b in one.buttons]) for one in self.offers.values()]
        plain: dict[str, Any] = {
            "offers": offers, "last": self.last, "sending": self.sending, "handle": self.handle,
        }  # fmt: skip
        fresh = self.file.with_suffix(".new")
        fresh.touch(mode=0o600)
        fresh.write_text(json.dumps(plain, ensure_ascii=False), encoding="utf-8")
        fresh.replace(self.file)
