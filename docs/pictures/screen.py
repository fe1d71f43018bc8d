"""Draws a picture: what happened on one phone, from top to bottom, in a plain look of its own."""

from __future__ import annotations

from io import BytesIO

from boxes import (
    BODY,
    BOX,
    BUTTON_GAP,
    HEAD,
    MARGIN,
    SMALL,
    WIDTH,
    Piece,
    box,
    buttons,
    inside,
    name,
    needed,
    photo,
    quote,
    rule,
    space,
    text,
)
from letters import PAPER, plain, runs_of
from messenger import NAME
from PIL import Image
from story import Entry, Notice, Picture, Said, Shown, Typing

FOOT = "Invented demo data: use none of it on a vehicle."
GAP = 22
# Of the greys below, so that a box has one even colour.
SAID = 219
# Enough greys for letters; more of them only make the file larger.
GREYS = 8


def png(picture: Picture) -> bytes:
    """The picture as a PNG in greys, WIDTH pixels wide and as high as it needs to be."""
    pieces = [text(HEAD, plain(picture.title, bold=True)), space(6), rule()]
    for entry in picture.entries:
        pieces += [space(GAP), *_entry(entry, picture.viewer)]
    pieces += [space(GAP), rule(), space(GAP // 2), text(SMALL, plain(FOOT, bold=True))]
    page = Image.new("L", (WIDTH, sum(piece.height for piece in pieces) + 2 * MARGIN), PAPER)
    top = MARGIN
    for piece in pieces:
        piece.draw(page, top)
        top += piece.height
    return _saved(page)


def _entry(entry: Entry, viewer: str) -> list[Piece]:
    if isinstance(entry, Said):
        return _said(entry, entry.who == viewer)
    if isinstance(entry, Shown):
        return _shown(entry, entry.by == viewer)
    if isinstance(entry, Notice):
        lines = plain(entry.text)
        told = f"{entry.who} taps “{entry.pressed}” and sees for a moment:"
        return [name(told, False), box([inside(BODY, lines)], False, PAPER, needed(lines))]
    if isinstance(entry, Typing):
        return _typing(entry)
    return [text(SMALL, plain(entry.text, italic=True))]


def _said(said: Said, right: bool) -> list[Piece]:
    told = f"{said.who}, the same message changed" if said.changed else said.who
    lines = plain(said.text)
    return [name(told, right), box([inside(BODY, lines)], right, SAID, needed(lines))]


def _shown(shown: Shown, right: bool) -> list[Piece]:
    told = f"{shown.by}, through the bot" if shown.by else "the bot"
    if shown.changed:
        told = f"{told}, the same message now"
    lines = runs_of(shown.html)
    held = [photo(shown.photo)] if shown.photo else []
    held += [quote(shown.quote)] if shown.quote else []
    width = BOX if held or shown.buttons else needed(lines)
    pieces = [name(told, right), box([*held, inside(BODY, lines)], right, SAID if right else PAPER, width)]
    for row in shown.buttons:
        pieces += [space(BUTTON_GAP), buttons(row, shown.tapped, right)]
    return pieces


def _typing(typing: Typing) -> list[Piece]:
    typed = inside(BODY, plain(f"@{NAME} {typing.text}"))
    pieces = [name(f"{typing.who} types in any chat:", True), box([typed], True, PAPER, BOX)]
    for title, line in typing.offers:
        offer = [inside(BODY, plain(title, bold=True)), inside(SMALL, plain(line))]
        pieces += [space(GAP), name("and is offered, to tap:", True), box(offer, True, PAPER, BOX)]
    return pieces


def _saved(page: Image.Image) -> bytes:
    step = 255 / (GREYS - 1)
    greys = [round(number * step) for number in range(GREYS)]
    coarse = Image.frombytes("P", page.size, page.point([round(value / step) for value in range(256)]).tobytes())
    coarse.putpalette([grey for grey in greys for _ in range(3)])
    kept = BytesIO()
    coarse.save(kept, "PNG", optimize=True, bits=4)
    return kept.getvalue()
