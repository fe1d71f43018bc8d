"""The parts of a drawn screen: lines of text, boxes, rows of buttons, each a piece that knows how high it is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO

from letters import INK, PAPER, Lettering, Line, Run, plain
from PIL import Image, ImageDraw

# Twice the pixels that a phone's page is wide, so that letters are sharp where a picture is shown at half its size.
WIDTH, MARGIN, BOX = 780, 24, 676
PAD, RADIUS, EDGE, BUTTON_GAP, BUTTON_PAD = 22, 16, 3, 8, 14
DARK, SOFT = 40, 90
HEAD, BODY, BUTTON, SMALL = Lettering(36), Lettering(32), Lettering(29), Lettering(25)
_NARROWEST = 160

Lines = Sequence[Sequence[Run]]


@dataclass(frozen=True, slots=True)
class Piece:
    """Something that takes `height` pixels; draw puts it on the page below a line."""

    height: int
    draw: Callable[[Image.Image, int], None]


# A piece inside of a box, made once it is known where the box begins.
Inside = Callable[[int], Piece]


def space(height: int) -> Piece:
    return Piece(height, lambda page, top: None)


def rule() -> Piece:
    """A line from edge to edge."""

    def draw(page: Image.Image, top: int) -> None:
        ImageDraw.Draw(page).line((MARGIN, top, WIDTH - MARGIN, top), fill=SOFT, width=2)

    return Piece(2, draw)


def text(lettering: Lettering, lines: Lines) -> Piece:
    """Lines that stand on the page itself."""
    return _lines(lettering, lettering.set(lines, WIDTH - 2 * MARGIN), MARGIN)


def name(told: str, right: bool) -> Piece:
    """The small line above a box."""
    [line] = SMALL.set(plain(told), WIDTH - 2 * MARGIN)
    return _lines(SMALL, [line], round(WIDTH - MARGIN - line.width) if right else MARGIN, SOFT)


def needed(lines: Lines) -> int:
    """How wide a box is that holds these lines, as far as there is room."""
    widest = max(line.width for line in BODY.set(lines, BOX - 2 * PAD))
    return min(BOX, max(_NARROWEST, round(widest) + 2 * PAD))


def inside(lettering: Lettering, lines: Lines) -> Inside:
    return lambda left: _lines(lettering, lettering.set(lines, BOX - 2 * PAD), left)


def quote(told: str) -> Inside:
    """The beginning of the message that is answered, on one line behind a bar."""
    room = BOX - 2 * PAD - 18
    first = told.split("\n")[0]
    while SMALL.width(Run(first)) > room:
        first = f"{first.removesuffix('…')[:-1]}…"

    def made(left: int) -> Piece:
        line = _lines(SMALL, SMALL.set(plain(first, italic=True), BOX), left + 18)

        def draw(page: Image.Image, top: int) -> None:
            ImageDraw.Draw(page).rectangle((left, top + 2, left + 5, top + line.height - 2), fill=SOFT)
            line.draw(page, top)

        return Piece(line.height + 10, draw)

    return made


def photo(content: bytes) -> Inside:
    """A picture as wide as there is room in a box."""
    whole = Image.open(BytesIO(content)).convert("L")
    width = BOX - 2 * PAD
    small = whole.resize((width, round(whole.height * width / whole.width)), Image.Resampling.LANCZOS)

    def made(left: int) -> Piece:
        def draw(page: Image.Image, top: int) -> None:
            top += PAD // 2
            page.paste(small, (left, top))
            ImageDraw.Draw(page).rectangle((left, top, left + width, top + small.height), outline=SOFT, width=2)

        return Piece(small.height + PAD, draw)

    return made


def box(held: Sequence[Inside], right: bool, fill: int, width: int) -> Piece:
    """A rounded box around what it holds, at one of the edges of the page."""
    left = WIDTH - MARGIN - width if right else MARGIN
    pieces = [one(left + PAD) for one in held]
    height = sum(piece.height for piece in pieces) + 2 * PAD - 8

    def draw(page: Image.Image, top: int) -> None:
        edges = (left, top, left + width - 1, top + height - 1)
        ImageDraw.Draw(page).rounded_rectangle(edges, RADIUS, fill=fill, outline=DARK, width=EDGE)
        down = top + PAD - 8
        for piece in pieces:
            piece.draw(page, down)
            down += piece.height

    return Piece(height, draw)


def buttons(row: Sequence[str], tapped: str, right: bool) -> Piece:
    """One row of buttons of the same width; the one that is tapped is dark."""
    width = (BOX - BUTTON_GAP * (len(row) - 1)) // len(row)
    start = WIDTH - MARGIN - BOX if right else MARGIN
    labels = [BUTTON.set(plain(label), width - 2 * BUTTON_PAD) for label in row]
    height = max(len(lines) for lines in labels) * BUTTON.line_height + 2 * BUTTON_PAD

    def draw(page: Image.Image, top: int) -> None:
        pen = ImageDraw.Draw(page)
        for number, (label, lines) in enumerate(zip(row, labels, strict=True)):
            left = start + number * (width + BUTTON_GAP)
            fill, ink = (DARK, PAPER) if label == tapped else (PAPER, INK)
            edges = (left, top, left + width - 1, top + height - 1)
            pen.rounded_rectangle(edges, RADIUS, fill=fill, outline=DARK, width=2)
            above = top + (height - len(lines) * BUTTON.line_height) // 2
            for at, line in enumerate(lines):
                BUTTON.draw(page, left + (width - line.width) / 2, above + at * BUTTON.line_height, line, ink)

    return Piece(height, draw)


def _lines(lettering: Lettering, lines: Sequence[Line], left: int, ink: int = INK) -> Piece:
    def draw(page: Image.Image, top: int) -> None:
        for number, line in enumerate(lines):
            lettering.draw(page, left, top + number * lettering.line_height, line, ink)

    return Piece(len(lines) * lettering.line_height, draw)
