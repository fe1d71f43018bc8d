"""Makes what is shown fit in one message: whole parts are left out from the end, and a line says so."""

from __future__ import annotations

from collections.abc import Sequence

from benchbot.desk.pages import Blocks, length, pages
from benchbot.desk.sheets import SHOWN_AT_MOST, Sheet
from benchbot.desk.wording import Wording, counted
from benchbot.reply.reply import Block

NAMED_AT_MOST = 8


def answer_in_one(
    blocks: Blocks,
    further: Sequence[tuple[int, Block]],
    foot: Blocks,
    names: Sequence[str],
    words: Wording,
    at_most: int = SHOWN_AT_MOST,
) -> Blocks:
    """An answer and what its view adds, with as many whole parts as one message holds.

    further: what the view adds, each with the part that it is about, 0 for the whole answer. foot: stands below
    whatever is left out. names: what each part is, from part 1.
    A part that is shown is shown with all its cautions, so what is too long even by itself is not shown at all.
    """
    for kept in range(len(names), 0, -1):
        left_out = _left_out(names[kept:], words)
        added = [block for part, block in further if part <= kept]
        shown = (*_parts(blocks, kept), *left_out, *added, *foot)
        if length(shown) <= at_most:
            return shown
    # one part, and of what the view adds to it whole lines
    left_out = _left_out(names[1:], words)
    added = [block for part, block in further if part <= 1]
    for count in range(len(added) - 1, -1, -1):
        shown = (*_parts(blocks, 1), *left_out, *added[:count], Block("missing", words.left_out_rest), *foot)
        if length(shown) <= at_most:
            return shown
    return (Block("missing", words.left_out_whole), *foot)


def in_one(sheet: Sheet, words: Wording, at_most: int = SHOWN_AT_MOST) -> Sheet:
    """The sheet, or what one message holds of it, cut where `pages` would cut it."""
    if length(sheet.blocks) <= at_most:
        return sheet
    line = Block("missing", words.left_out_rest)
    # two more for the line breaks, as an empty line may stand above this one
    first, *_ = pages(sheet, at_most - length((line,)) - 2)
    return Sheet((*first.blocks, line), sheet.buttons)


def _parts(blocks: Blocks, kept: int) -> Blocks:
    return tuple(block for block in blocks if block.part <= kept)


def _left_out(names: Sequence[str], words: Wording) -> Blocks:
    if not names:
        return ()
    named = "; ".join(names[:NAMED_AT_MOST]) + ("; …" if len(names) > NAMED_AT_MOST else "")
    return (
        Block("missing", counted(len(names), words.left_out_one, words.left_out_many)),
        Block("echo", named),
    )
