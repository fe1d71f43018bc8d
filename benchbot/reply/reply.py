"""What goes back to a person, the same for every channel: blocks of text, choices, and the specs whose values show."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from benchbot.reply.wording import NUMBERED

Kind = Literal[
    "said", "label", "condition", "value", "converted", "subject", "before", "caution", "source", "missing", "question",
    "calculation", "echo", "note", "verdict",
]  # fmt: skip
OutcomeName = Literal["answer", "choose", "gap", "calculation", "procedure", "other"]


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of text of one kind.

    part: blocks of the same part (from 1) belong together; a channel that must cut a long reply never cuts inside one.
    beside: it stands on the line of the block before it.
    """

    kind: Kind
    text: str
    part: int = 0
    beside: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """A way to go on: what it says, and what choosing it states."""

    label: str
    states: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Reply:
    """A whole reply.

    blocks: what is shown at once; below: what is shown at once, under the choices; more: what is shown when asked for.
    specs: ids of the rows whose values show.
    short: the gist on one line, for a phone's lock screen; a value in it has its unit and its condition.
    """

    outcome: OutcomeName
    blocks: tuple[Block, ...]
    more: tuple[Block, ...] = ()
    choices: tuple[Choice, ...] = ()
    specs: tuple[str, ...] = ()
    short: str = ""
    below: tuple[Block, ...] = ()

    def text(self) -> str:
        """Everything shown at once, with the choices numbered from 1."""
        numbered = (NUMBERED.format(number=number, label=choice.label) for number, choice in enumerate(self.choices, 1))
        return "\n".join((*lines_of(self.blocks), *numbered, *lines_of(self.below)))

    def more_text(self) -> str:
        """What stands behind "more"; empty when nothing does."""
        return "\n".join(lines_of(self.more))


def lines_of(blocks: Iterable[Block]) -> list[str]:
    """The blocks as lines of text."""
    lines: list[str] = []
    for block in blocks:
        if block.beside and lines:
            lines[-1] = f"{lines[-1]} {block.text}"
        else:
            lines.append(block.text)
    return lines
