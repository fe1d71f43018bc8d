"""People who sit at terminals of a shop: what they type goes into the real process, what it shows is read back."""

from __future__ import annotations

import re
import subprocess
import sys
from contextlib import ExitStack, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from benchbot.people import invites
from benchbot.people.channels import at_terminal
from benchbot.people.register import People
from benchbot.people.terms import Joined, Location, Role
from benchbot.places import Home
from benchbot.records.record import open_record

FLEET = Path(__file__).parent.parent / "commands" / "fleet.csv"
# A press of a button that no message has, which is answered by one line whatever stands on the screen.
_ANY = "#1 of 999999999"
_END = re.compile(r"^\[no button to press: message 999999999\b")
_BUTTON = re.compile(r"^#(\d+) (.+)$")


@dataclass
class Sitting:
    """One terminal. text: all that it has shown."""

    process: subprocess.Popen[str]
    text: str = ""
    buttons: dict[str, str] = field(default_factory=dict)

    def say(self, line: str) -> str:
        """What is shown for a line."""
        assert self.process.stdin is not None
        self.process.stdin.write(f"{line}\n{_ANY}\n")
        self.process.stdin.flush()
        return self.read()

    def read(self) -> str:
        """What is shown up to the answer to `_ANY`, or to the end of a process that was killed."""
        assert self.process.stdout is not None
        lines = []
        for line in self.process.stdout:
            if _END.match(line):
                break
            lines.append(line.rstrip("\n"))
        shown = "\n".join(lines).strip()
        self.text += f"{shown}\n\n"
        found = {button[2]: button[1] for line in lines if (button := _BUTTON.match(line))}
        self.buttons = found or self.buttons
        return shown

    def press(self, label: str) -> str:
        """By what the button says, on what was shown last."""
        return self.say(f"#{self.buttons[label]}")

    def leave(self) -> str:
        assert self.process.stdin is not None
        self.process.stdin.close()
        self.read()
        assert self.process.wait(30) == 0
        return self.text


@dataclass
class Shop:
    """One home; `stack` ends what a failing test leaves running."""

    home: Home
    stack: ExitStack

    def sit(self, name: str, code: str = "") -> Sitting:
        """A terminal of that name, once it is ready. code: Python to run in its process beforehand."""
        words = ["-m", "benchbot"] if not code else ["-c", f"{code}\nfrom benchbot.__main__ import main; main()"]
        process = subprocess.Popen(
            [sys.executable, *words, "chat", "--as", name],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8",
        )  # fmt: skip
        self.stack.callback(_end, process)
        sitting = Sitting(process)
        sitting.say("")
        return sitting

    def refused(self, *words: str) -> tuple[int, str]:
        """The exit code, and what was said, of a chat that is not to begin."""
        command = [sys.executable, "-m", "benchbot", "chat", *words]
        done = subprocess.run(command, input="", capture_output=True, text=True, encoding="utf-8", check=False)
        return done.returncode, done.stderr

    def code(self, role: Role, location: str = "Main shop") -> str:
        """A code that lets one more person in."""
        with open_record(self.home) as record:
            return invites.make(record, self._location(record, location).number, role, 1, 1, "test", _now())[1]

    def let_in(self, person: str, name: str, role: Role, location: str = "Main shop") -> None:
        with open_record(self.home) as record:
            number = self._location(record, location).number
            _, code = invites.make(record, number, role, 1, 1, "test", _now())
            assert isinstance(invites.redeem(record, code, person, name, _now()), Joined)

    def at_terminal(self, name: str, role: Role) -> None:
        self.let_in(at_terminal(name), name, role)

    def rows(self, statement: str) -> list[tuple[object, ...]]:
        with open_record(self.home) as record:
            return record.rows(statement, {})

    def _location(self, record: object, name: str) -> Location:
        people = People(record)  # type: ignore[arg-type]
        found = next((one for one in people.locations() if one.name == name), None)
        if found is None:
            made = people.add_location(name, "terminal nobody", _now())
            assert isinstance(made, Location)
            found = made
        return found


def _end(process: subprocess.Popen[str]) -> None:
    process.kill()
    process.wait()
    for stream in (process.stdin, process.stdout):
        assert stream is not None
        with suppress(BrokenPipeError):
            stream.close()


def _now() -> datetime:
    return datetime.now(UTC)
