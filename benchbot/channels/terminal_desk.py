"""One person at a terminal, served by the same desk as the phones."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from hashlib import sha256
from pathlib import Path

from benchbot.channels.posted import Screen
from benchbot.channels.terminal_post import TerminalPost
from benchbot.channels.terminal_shown import Shown
from benchbot.channels.typed_lines import LEAVE, LONGEST, Change, File, Message, Press, Typed, typed
from benchbot.desk.asker import Asker
from benchbot.desk.desk import LATE, Desk
from benchbot.desk.incoming import Bot, Incoming, What
from benchbot.desk.limits import Limits
from benchbot.desk.sheets import Notice
from benchbot.errors import BenchbotError, RecordBusyError, RecordError, SettingError
from benchbot.people import known_bot
from benchbot.people.channels import TERMINAL, at_terminal, name_there
from benchbot.people.register import People
from benchbot.places import Home
from benchbot.records import arrivals, cards, errands
from benchbot.records.lock import held
from benchbot.records.record import Record, open_record

WELCOME = "You are {name} at this terminal. #1 presses a button, /help says more, quit leaves."
HELP = """\
At a terminal:
#1 presses the first button of the last message that has some; #2 of 14 the second one of message 14.
e/ and a text changes your last question; /file PATH sends a picture or PDF of a page while you fill in a row.
Enter alone shows what has come since; /start CODE lets you in or gives you another role; quit leaves."""
AWAY, MEANWHILE, GOODBYE = "While you were away:", "Meanwhile:", "Bye."
FOLDER = "terminals"
# Whoever types at the shop's own machine, or plays a script to it, keeps nobody waiting.
_NO_LIMIT = 1_000_000
_PAUSES = (0.2, 1.0, 3.0)
_ERRANDS_SECONDS, _LOOK_AGAIN = 30.0, 0.2

_log = logging.getLogger(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


@contextmanager
def terminal_desk(
    home: Home, name: str, screen: Screen, clock: Callable[[], datetime] = _now
) -> Iterator[TerminalDesk]:
    """SettingError: somebody of that name sits at a terminal already. BookError, RecordError: nobody can be served."""
    person = at_terminal(name)
    folder, mark = home.folder / FOLDER, sha256(person.encode()).hexdigest()[:16]
    with ExitStack() as stack:
        folder.mkdir(mode=0o700, exist_ok=True)
        _only_one(stack, folder / f"{mark}.lock", name)
        record = stack.enter_context(open_record(home))
        phones = known_bot.load(home)
        username = phones.username if phones else ""
        link = known_bot.link_base(username) if phones else ""
        bot = Bot(TERMINAL, username, link, TERMINAL, phones.number if phones else "")
        desk = Desk(home, bot, clock, Limits(_NO_LIMIT, _NO_LIMIT, _NO_LIMIT))
        stack.callback(desk.close)
        shown = Shown.load(folder / f"{mark}.json")
        post = TerminalPost(record, home, name_there(person), screen, shown, clock)
        yield TerminalDesk(home, desk, record, screen, shown, post, person, name, clock)


@dataclass(slots=True)
class TerminalDesk:
    """Each line is on record before it is handled, and each message is on record until it was shown.

    What a kill can do twice is one thing: a message may stand on the screen and not be noted as shown; it comes once
    more, with a mark that says so.
    """

    home: Home
    desk: Desk
    record: Record
    screen: Screen
    shown: Shown
    post: TerminalPost
    person: str
    name: str
    clock: Callable[[], datetime]

    def run(self) -> None:
        """Serves the person until they leave. What goes wrong with one line is shown, and the next is taken."""
        self.screen.say(WELCOME.format(name=self.name))
        self._guarded(self.begin)
        while (line := self.screen.line()) is not None:
            if line.strip().casefold() in LEAVE:
                break
            self._guarded(partial(self.take, line))
        self.screen.say(GOODBYE)

    def begin(self) -> None:
        """What an earlier process had in hand, and what has come since it ended."""
        before = self.shown.last
        heading = "" if self.post.deliver(AWAY) else AWAY
        self._take_left(heading)
        if self.shown.last == before:
            self._remind()

    def take(self, line: str) -> None:
        """One line, with all that comes of it."""
        self._take_left("" if self.post.deliver(MEANWHILE) else MEANWHILE)
        if len(line) > LONGEST:
            self.screen.say(f"[too long: {len(line):,} characters where a message has {LONGEST:,} at most]")
            return
        found = typed(line)
        incoming = None if found is None else self._incoming(found)
        if incoming is None:
            return
        self._keep(incoming)
        shown = self._handle(incoming)
        shown += self._after(shown)
        if incoming.command == "help":
            self.screen.say(HELP)
        elif incoming.what == "changed" and not shown:
            self.screen.say("[nothing changes: it was no question, it says the same, or it was asked too long ago]")

    def _guarded(self, step: Callable[[], None]) -> None:
        try:
            step()
        except BenchbotError as error:
            self.screen.say(f"[{error}]")

    def _incoming(self, found: Typed) -> Incoming | None:
        """None, and said why, where it would come to nothing."""
        if isinstance(found, Press):
            return self._press(found)
        if isinstance(found, File):
            return self._file(found)
        if isinstance(found, Change):
            return self._change(found.message)
        return self._of("text", text=found.text, command=found.command)

    def _press(self, found: Press) -> Incoming | None:
        handle = found.message or self.shown.last
        offered = self.shown.offers.get(handle)
        if offered is None:
            named = f"message {handle} has none" if found.message else "the last message has none"
            self.screen.say(f"[no button to press: {named}; #1 of 14 presses the first one of message 14]")
            return None
        if not 1 <= found.button <= len(offered.buttons):
            self.screen.say(f"[no such button: message {handle} has #1 to #{len(offered.buttons)}]")
            return None
        code = offered.buttons[found.button - 1].code
        return self._of("press", str(handle), text=f"{offered.card}:{code}")

    def _file(self, found: File) -> Incoming | None:
        path = Path(found.path.strip("'\"")).expanduser().absolute()
        if not path.is_file():
            self.screen.say(f"[{path}: there is no such file]")
            return None
        return self._of("media", file=str(path))

    def _change(self, message: Message) -> Incoming | None:
        asked = cards.last_asked(self.record, self.person)
        if not asked or not (message.text or message.command):
            why = "write what it should say, behind e/ and a blank" if asked else "there is no question yet"
            self.screen.say(f"[nothing changes: {why}]")
            return None
        return self._of("changed", asked, text=message.text, command=message.command)

    def _of(self, what: What, message: str = "", text: str = "", command: str = "", file: str = "") -> Incoming:
        """Numbered by microseconds, which keep lines in order and apart."""
        now = self.clock()
        number = int(now.timestamp() * 1_000_000)
        return Incoming(
            TERMINAL, number, what, name_there(self.person), True, self.person, self.name, now,
            message=message or f"typed {number}", text=text, command=command, query=str(number),
            kind="photo" if file else "", file=file, channel=TERMINAL,
        )  # fmt: skip

    def _keep(self, incoming: Incoming) -> None:
        rows = [(incoming.number, incoming.chat, incoming.to_text())]
        if not arrivals.keep(self.record, TERMINAL, rows, self.clock()):
            raise RecordError("another terminal was given a line at the very same moment; type it once more")

    def _take_left(self, heading: str) -> None:
        """Lines that were kept and not handled, when the process died or the record took nothing."""
        for body in arrivals.left(self.record, TERMINAL):
            incoming = Incoming.from_text(body)
            if incoming.person != self.person:
                continue
            if incoming.what == "press" and self.clock() - incoming.at > LATE:
                self._done(incoming)
                self.screen.say(f"[what you pressed at {incoming.at.astimezone():%H:%M} was not done; press it again]")
                continue
            if incoming.what in ("text", "changed"):
                command = f"/{incoming.command} " if incoming.command else ""
                self.screen.say(f"[you had typed: {command}{incoming.text}]")
            self._handle(incoming)
        self._after(0, heading)

    def _handle(self, incoming: Incoming) -> int:
        """How many lines or messages came of it on the screen."""
        notices = 0
        for thing in self._taken(incoming):
            if isinstance(thing, Notice) and thing.text:
                self.screen.say(f"[{thing.text}]")
                notices += 1
        return notices

    def _taken(self, incoming: Incoming) -> tuple[object, ...]:
        for pause in _PAUSES:
            try:
                return self.desk.take(incoming)
            except RecordBusyError:
                time.sleep(pause)
            except RecordError:
                # it stays on record, and is taken before the next line
                raise
            except Exception as error:  # Whatever a desk trips over: it would trip again at every start.
                self._done(incoming)
                _log.exception("a line could not be handled")
                said = str(error) if isinstance(error, BenchbotError) else f"{type(error).__name__}: {error}"
                self.screen.say(f"[{Asker.of(self.person, self.name, People(self.record)).words.fault} ({said})]")
                return ()
        return self.desk.take(incoming)

    def _done(self, incoming: Incoming) -> None:
        with self.record.writing() as store:
            arrivals.handled(store, incoming.bot, incoming.number, self.clock())

    def _after(self, shown: int, heading: str = "") -> int:
        """Shows what came of a line, then does what it asked for and shows what comes of that."""
        count = self.post.deliver("" if shown else heading)
        begun = time.monotonic()
        # another process may be doing it
        while errands.claim(self.record, self.clock()) is not None and time.monotonic() - begun < _ERRANDS_SECONDS:
            # loads what makes a book, which most lines do without
            from benchbot.following.errands import run_due

            done = run_due(self.home, self.clock, self.record)
            for one in done:
                if one.state != "done":
                    self.screen.say(f"[{one.what}: {one.state}: {one.why}]")
            count += self.post.deliver("" if count else heading)
            if not done:
                time.sleep(_LOOK_AGAIN)
        return count

    def _remind(self) -> None:
        """The buttons that stood lowest when they left can still be pressed."""
        offered = self.shown.offers.get(self.shown.last)
        if offered is not None:
            labels = "; ".join(f"#{number} {one.label}" for number, one in enumerate(offered.buttons, 1))
            self.screen.say(f"[message {offered.handle} offers: {labels}]")


def _only_one(stack: ExitStack, lock: Path, name: str) -> None:
    try:
        stack.enter_context(held(lock, 0, "another terminal has it"))
    except RecordBusyError as error:
        raise SettingError(
            f"“{name}” sits at another terminal of this shop already; leave that one, or take another name"
        ) from error
