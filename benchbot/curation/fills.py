"""Three fills that are told apart in black and white as well as in colour, each with a mark of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from benchbot.pictures.lettering import Lettering

if TYPE_CHECKING:
    from PIL import Image, ImageDraw

# full: what is well; part: what wants a person; none: what is not there.
Fill = Literal["full", "part", "none"]
Box = tuple[int, int, int, int]

INK, PAPER, GRID, SHADE = (0, 0, 0), (255, 255, 255), (170, 170, 170), (236, 236, 236)
# Their grey values lie far apart as well: about 70 and 130 of 255.
_GREEN, _AMBER, _RED = (20, 95, 55), (190, 110, 0), (190, 20, 20)
_STRIPE_EVERY, _STRIPE = 14, 5
_MARK_AT_MOST = 40


def draw_fill(page: Image.Image, box: Box, fill: Fill, mark: str = "", plain: bool = False) -> None:
    """Fills left, top, right, bottom of a page (right and bottom left out).

    mark: a letter on the stripes of "part"; the others bear a tick or a cross. plain: none of these.
    """
    from PIL import Image, ImageDraw

    left, top, right, bottom = box
    width, height = right - left, bottom - top
    if width <= 0 or height <= 0:
        return
    tile = Image.new("RGB", (width, height), _GREEN if fill == "full" else PAPER)
    pen = ImageDraw.Draw(tile)
    size = min(width, height, _MARK_AT_MOST) * 0.62
    middle, centre = width / 2, height / 2
    if fill == "none":
        pen.rectangle((0, 0, width - 1, height - 1), outline=_RED, width=3)
    elif fill == "part":
        for start in range(-height, width, _STRIPE_EVERY):
            pen.line((start, height, start + height, 0), fill=_AMBER, width=_STRIPE)
        pen.rectangle((0, 0, width - 1, height - 1), outline=_AMBER, width=2)
    if not plain and fill == "full":
        _tick(pen, middle, centre, size)
    elif not plain and fill == "none":
        _cross(pen, middle, centre, size)
    elif not plain and mark:
        _sign(pen, middle, centre, size, mark)
    page.paste(tile, (left, top))


def _tick(pen: ImageDraw.ImageDraw, middle: float, centre: float, size: float) -> None:
    points = [(-0.45, 0.05), (-0.12, 0.38), (0.48, -0.36)]
    placed = [(middle + x * size, centre + y * size) for x, y in points]
    pen.line(placed, fill=PAPER, width=max(3, round(size / 5)), joint="curve")


def _cross(pen: ImageDraw.ImageDraw, middle: float, centre: float, size: float) -> None:
    half, width = size * 0.34, max(3, round(size / 5))
    pen.line((middle - half, centre - half, middle + half, centre + half), fill=_RED, width=width)
    pen.line((middle - half, centre + half, middle + half, centre - half), fill=_RED, width=width)


def _sign(pen: ImageDraw.ImageDraw, middle: float, centre: float, size: float, mark: str) -> None:
    radius = size * 0.62
    pen.ellipse((middle - radius, centre - radius, middle + radius, centre + radius), fill=PAPER, outline=INK, width=2)
    letters = Lettering(max(12, round(size)), heavy=True)
    letters.draw(pen, middle, centre - letters.size * 0.64, mark)
