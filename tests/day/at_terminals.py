"""The day at the terminals of a shop: a real process for everybody who types, read through pipes."""

from __future__ import annotations

import re
import subprocess
import sys
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from script import Person
from stage import KILLED, MOVED, Stage

FOUNDER = "terminal founder"
# A press of a button that no message has, which is answered by one line whatever stands on the screen.
_ANY = "#1 of 999999999"
_END = re.compile(r"^\[no button to press: message 999999999\b")
_BUTTON = re.compile(r"^#(\d+) (.+)$")
# What is no message of the desk, or stands above one. Messages have blank lines in them; most end with their handle.
_ALONE = re.compile(r"^(?:\[.*\]|Meanwhile:|While you were away:|You are .* at this terminal\..*)$")
_HANDLE = re.compile(r"^\(message (\d+)\)$")
_AGAIN = re.compile(r"^(?:\(changed\)|\(perhaps shown before\)| )+message (\d+)$")


@dataclass(slots=True)
class Screen:
    """What stands on a person's screen, message by message, whichever process has shown it."""

    person: str
    process: subprocess.Popen[str] | None = None
    shown: dict[str, str] = field(default_factory=dict)
    buttons: dict[str, dict[str, str]] = field(default_factory=dict)

    @property
    def alive(self) -> bool:
        return self.process is not None and self.process.poll() is None

    def type(self, line: str) -> None:
        """And reads what is shown for it, up to the end of a process that dies."""
        assert self.process is not None and self.process.stdin is not None
        try:
            self.process.stdin.write(f"{line}\n{_ANY}\n")
            self.process.stdin.flush()
        except BrokenPipeError as error:
            raise AssertionError(f"{self.person}'s terminal has ended with {self.process.wait()}") from error
        self.read()

    def read(self) -> None:
        assert self.process is not None and self.process.stdout is not None
        lines: list[str] = []
        for line in self.process.stdout:
            if _END.match(line):
                break
            lines.append(line.rstrip("\n"))
        else:
            self.process.wait()
        message: list[str] = []
        for line in lines:
            if _ALONE.match(line):
                self._keep(message)
                message = []
            message.append(line)
            if _HANDLE.match(line) or _ALONE.match(line):
                self._keep(message)
                message = []
        self._keep(message)

    def _keep(self, message: list[str]) -> None:
        lines = "\n".join(message).strip().splitlines()
        if not lines:
            return
        again = _AGAIN.match(lines[0])
        foot = _HANDLE.match(lines[-1])
        handle = foot[1] if foot else again[1] if again else f"line {len(self.shown)}"
        text = [line for line in lines[bool(again) :] if not _BUTTON.match(line) and not _HANDLE.match(line)]
        self.shown[handle] = "\n".join(text)
        self.buttons[handle] = {found[2]: found[1] for line in lines if (found := _BUTTON.match(line))}

    def end(self) -> None:
        if self.process is not None:
            self.process.kill()
            self.process.wait()
            for stream in (self.process.stdin, self.process.stdout):
                assert stream is not None
                with suppress(BrokenPipeError):
                    stream.close()
            self.process = None


@dataclass
class Terminals(Stage):
    """Nobody's process runs before they type something, nor after it was killed."""

    screens: dict[str, Screen] = field(default_factory=dict)

    def join(self, one: Person) -> None:
        screen = self._at(one.name)
        screen.type(f"/start {self.code(one)}")
        assert any(text.startswith("You are in") for text in screen.shown.values()), screen.shown
        if one.role == "owner":
            self.own_all(f"terminal {one.name.casefold()}", one, FOUNDER)

    def say(self, who: str, text: str) -> None:
        self._at(who).type(text)

    def press(self, who: str, label: str, on: str) -> None:
        screen = self._at(who)
        for handle, buttons in reversed(screen.buttons.items()):
            if label in buttons and on in screen.shown[handle]:
                screen.type(f"#{buttons[label]} of {handle}")
                return
        raise AssertionError(f"{who} has no button {label!r}: {screen.shown}, {screen.buttons}")

    def send_page(self, who: str, file: Path) -> None:
        self._at(who).type(f"/file {file}")

    def messages(self, who: str) -> list[str]:
        self._at(who).type("")
        return [text for text in self.screens[who].shown.values() if not _ALONE.match(text)]

    def kill(self, who: str) -> None:
        for name, screen in self.screens.items():
            if who in ("", name):
                screen.end()

    def revived(self) -> bool:
        dead = [screen for screen in self.screens.values() if screen.process is not None and not screen.alive]
        for screen in dead:
            assert screen.process is not None and screen.process.returncode == KILLED
            screen.end()
        for screen in dead:
            self._at(screen.person)
        return bool(dead)

    def comes(self, moment: datetime) -> None:
        self.move_clock(moment)

    def settle(self) -> None:
        """Everybody looks at their screen."""
        for name in self.screens:
            self._at(name).type("")

    def mortals(self) -> list[str]:
        return [*self.screens, "desk"]

    def close(self) -> None:
        self.kill("")

    def _at(self, who: str) -> Screen:
        """Their screen, with a process; one that dies while it shows what has come is followed by another."""
        screen = self.screens.setdefault(who, Screen(who))
        while not screen.alive:
            screen.end()
            screen.process = subprocess.Popen(
                [sys.executable, str(MOVED), "chat", "--as", who], env=self.settings(who),
                stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8",
            )  # fmt: skip
            screen.type("")
            if not screen.alive:
                assert screen.process.returncode == KILLED
                self.deaths.append(self.point)
        return screen
