"""Lays the blocks of a sheet out in lines, and cuts a sheet that is too long for one message into several."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import groupby

from benchbot.desk.sheets import SHOWN_AT_MOST, Sheet
from benchbot.reply.reply import Block

Blocks = tuple[Block, ...]

_VALUES = frozenset({"condition", "value"})
_BELONG_TO_VALUES = frozenset({"subject", "before"})


def laid_out(blocks: Iterable[Block]) -> list[Blocks]:
    """The lines. An empty one, (), stands below a subject and between parts, so that the value stands apart."""
    lines: list[Blocks] = []
    for line in _lines(blocks):
        above = lines[-1] if lines else ()
        if above and (any(block.kind == "subject" for block in above) or above[-1].part != line[0].part):
            lines.append(())
        lines.append(line)
    return lines


def length(blocks: Iterable[Block]) -> int:
    """How long the text is as messengers count it, in UTF-16 units, its blanks and line breaks included."""
    text = "\n".join(" ".join(block.text for block in line) for line in laid_out(blocks))
    return _units(text)


def pages(sheet: Sheet, at_most: int = SHOWN_AT_MOST) -> list[Sheet]:
    """The sheet, or the sheets that show it in order, with the buttons on the last; at least one.

    It is cut between parts. In a part too long for a page it is cut between lines, but never between a value, the
    vehicle and bolt that it is for, and what must be known before; only where these alone are too long, between them.
    """
    if length(sheet.blocks) <= at_most:
        return [sheet]
    filled: list[Blocks] = [()]
    for run in _runs(sheet.blocks, at_most, _CUTS):
        if filled[-1] and length((*filled[-1], *run)) > at_most:
            filled.append(())
        filled[-1] += run
    return [*(Sheet(page) for page in filled[:-1]), Sheet(filled[-1], sheet.buttons)]


def _runs(blocks: Blocks, at_most: int, cuts: Sequence[Callable[[Blocks], list[Blocks]]]) -> list[Blocks]:
    """Pieces that stay whole, none longer than a page: cut by the first way, those too long by the next one."""
    if not cuts:
        return [(piece,) for block in blocks for piece in _torn(block, at_most)]
    return [
        run
        for piece in cuts[0](blocks)
        for run in ([piece] if length(piece) <= at_most else _runs(piece, at_most, cuts[1:]))
    ]


def _parts(blocks: Blocks) -> list[Blocks]:
    """What has no part belongs to nothing."""
    found: list[Blocks] = []
    for part, run in groupby(blocks, key=lambda block: block.part):
        whole = tuple(run)
        found += [whole] if part else _knots(whole)
    return found


def _knots(blocks: Blocks) -> list[Blocks]:
    """Values with all that belongs to them, from the first value down; every other line by itself."""
    knots: list[Blocks] = []
    for lines in _by_values(_lines(blocks)):
        belonging = [at for at, line in enumerate(lines) if _has(line, _BELONG_TO_VALUES)]
        tied = 1 + max(belonging, default=0) if _has(lines[0], _VALUES) else 1
        knots += [tuple(block for line in lines[:tied] for block in line), *lines[tied:]]
    return knots


def _by_values(lines: list[Blocks]) -> list[list[Blocks]]:
    """The same lines; a new list begins at a value that stands below what belongs to others, or below no value."""
    found: list[list[Blocks]] = []
    subject_to_come = False
    for line in lines:
        if not found or (_has(line, _VALUES) and not subject_to_come):
            found.append([])
        if _has(line, _VALUES):
            subject_to_come = True
        elif _has(line, _BELONG_TO_VALUES):
            subject_to_come = False
        found[-1].append(line)
    return found


def _has(line: Blocks, kinds: frozenset[str]) -> bool:
    return any(block.kind in kinds for block in line)


def _lines(blocks: Iterable[Block]) -> list[Blocks]:
    lines: list[Blocks] = []
    for block in blocks:
        if block.beside and lines:
            lines[-1] += (block,)
        else:
            lines.append((block,))
    return lines


def _single(blocks: Blocks) -> list[Blocks]:
    return [(block,) for block in blocks]


_CUTS = (_parts, _knots, _lines, _single)


def _torn(block: Block, at_most: int) -> list[Block]:
    """A block too long for a page, in pieces of the same kind; torn at a blank where one is near the end."""
    pieces: list[Block] = []
    rest = block.text
    while _units(rest) > at_most:
        end = _reach(rest, at_most)
        blank = max(rest.rfind(" ", 0, end), rest.rfind("\n", 0, end)) + 1
        end = blank if blank > end // 2 else end
        pieces.append(replace(block, text=rest[:end], beside=block.beside and not pieces))
        rest = rest[end:]
    return [*pieces, replace(block, text=rest, beside=block.beside and not pieces)]


def _reach(text: str, units: int) -> int:
    """How many letters fit in so many units."""
    taken = 0
    for at, letter in enumerate(text):
        taken += _units(letter)
        if taken > units:
            return at
    return len(text)


def _units(text: str) -> int:
    return len(text) + sum(letter > "\uffff" for letter in text)
