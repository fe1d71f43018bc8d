"""Puts on a terminal's screen what waits in the outbox for it, one after the other, and notes that it was shown."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from benchbot.channels.posted import Posted, Screen
from benchbot.channels.terminal_shown import Offered, Shown
from benchbot.curation.evidence_files import LARGEST
from benchbot.desk.bookwork.fetching import keep_fetched
from benchbot.desk.paper_files import paper_file
from benchbot.desk.picture_files import FOLDER, picture_file
from benchbot.desk.sheets import Parcel
from benchbot.errors import BenchbotError
from benchbot.people.channels import TERMINAL
from benchbot.places import Home
from benchbot.records import outbox
from benchbot.records.outbox import Claimed
from benchbot.records.record import Record
from benchbot.reply.reply import lines_of

CHANGED, PERHAPS_BEFORE = "(changed)", "(perhaps shown before)"


@dataclass(slots=True)
class TerminalPost:
    """What was claimed and not noted as shown when its process died comes once more, and says so."""

    record: Record
    home: Home
    chat: str
    screen: Screen
    shown: Shown
    clock: Callable[[], datetime]
    doubtful: Collection[int] = ()
    in_hand: bool = True

    def deliver(self, heading: str = "") -> int:
        """Everything that is due; how many were put on the screen. heading: stands above the first of them."""
        count = 0
        if self.in_hand:
            # of a process that was killed, or by a record that took no note of it
            self.doubtful = frozenset(outbox.unfinished(self.record, TERMINAL, self.chat))
        self.in_hand = True
        while claimed := outbox.claim(self.record, TERMINAL, (), self.clock(), 1, self.chat):
            one = claimed[0]
            try:
                parcel = Parcel.from_text(one.body)
            except (ValueError, TypeError, KeyError, AttributeError) as error:
                outbox.ended(self.record, one.number, "refused", f"{type(error).__name__}: {error}", self.clock())
                self.screen.say(f"[a message for you cannot be read and is left out: {error}]")
                continue
            if parcel.do == "fetch":
                self._fetch(one, parcel)
                continue
            if not count and heading:
                self.screen.say(heading)
            count += 1
            outbox.sent(self.record, one.number, self._show(one, parcel), self.clock())
        self.in_hand = False
        return count

    def _show(self, one: Claimed, parcel: Parcel) -> str:
        """The message's own id."""
        marks = (PERHAPS_BEFORE,) if one.number in self.doubtful else ()
        if parcel.do == "menu":
            commands = " ".join(f"/{code}" for code in parcel.codes)
            self.screen.post(Posted((), marks=marks, foot=(f"[commands: {commands}]",)))
            return ""
        told = parcel.message or one.card_message
        changes = parcel.do in ("change", "caption") and told.isdecimal()
        handle = self.shown.begin(one.number, int(told) if changes else 0)
        foot: tuple[str, ...] = ()
        if parcel.do == "picture":
            foot = self._picture(one, parcel)
        elif parcel.do == "document":
            foot = (f"[file: {paper_file(self.home, parcel.code)}]",)
        self.shown.put(Offered(handle, parcel.card or 0, parcel.sheet.buttons))
        labels = tuple(button.label for button in parcel.sheet.buttons)
        posted = Posted(parcel.sheet.blocks, labels, handle, marks, foot)
        self.screen.post(replace(posted, marks=(CHANGED, *marks)) if changes else posted)
        return str(handle)

    def _picture(self, one: Claimed, parcel: Parcel) -> tuple[str, ...]:
        """Where its file lies, or why there is none."""
        drawn_before = picture_file(self.home, parcel.code)
        if drawn_before is not None:
            return (f"[picture: {drawn_before}]",)
        folder = self.home.folder / FOLDER
        # loads what draws, which few need
        from benchbot.people.wall_picture import wall_picture

        file = folder / f"picture-{one.number}.png"
        try:
            drawn = wall_picture(parcel.code, parcel.title, lines_of(parcel.sheet.blocks))
            folder.mkdir(exist_ok=True)
            # for the owner of the home alone: whoever reads an invite gets in
            file.touch(mode=0o600)
            file.write_bytes(drawn)
        except (BenchbotError, OSError) as error:
            return (f"[no picture: {error}]",)
        return (f"[picture: {file}]",)

    def _fetch(self, one: Claimed, parcel: Parcel) -> None:
        """A file that this person has sent is kept with the row; whatever is wrong with it comes as a message."""
        content: bytes | None = None
        try:
            file = Path(parcel.title)
            if file.stat().st_size <= LARGEST:
                content = file.read_bytes()
        except (OSError, ValueError) as error:
            self.screen.say(f"[{parcel.title}: {error}]")
        try:
            keep_fetched(self.record, self.home, TERMINAL, parcel, content, self.clock())
        except (ImportError, OSError) as error:
            outbox.ended(self.record, one.number, "refused", str(error), self.clock())
            self.screen.say(f"[{parcel.title} is not kept: {error}]")
        else:
            outbox.sent(self.record, one.number, "", self.clock())
