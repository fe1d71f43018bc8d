"""A message of the desk as a terminal's screen shows it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from benchbot.reply.reply import Block


@dataclass(frozen=True, slots=True)
class Posted:
    """A message as the screen shows it: marks above it, its blocks, its buttons by label, and where its picture is."""

    blocks: tuple[Block, ...]
    labels: tuple[str, ...] = ()
    handle: int = 0
    marks: tuple[str, ...] = ()
    foot: tuple[str, ...] = ()


class Screen(Protocol):
    """Where a person at a terminal types and reads."""

    def line(self) -> str | None:
        """The next line that the person enters; None when they have left."""

    def post(self, posted: Posted) -> None:
        """Shows a message of the desk."""

    def say(self, text: str) -> None:
        """Shows a line of the channel itself."""
