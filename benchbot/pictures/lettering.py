"""Words in the font that comes with Pillow: it knows plain letters only, so accents are put on them here."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import ImageDraw, ImageFont

BLACK, WHITE = 0, 255

# The accents of Spanish and its neighbours: the sign drawn for each, and its size beside the letter's.
_ACCENTS = {
    "\u0301": ("´", 1.0),
    "\u0300": ("`", 1.0),
    "\u0302": ("^", 0.8),
    "\u0303": ("~", 0.75),
    "\u0308": ("··", 1.0),
}
_GAP, _LINE = 0.05, 1.3


class Lettering:
    """Letters of one size, in pixels; heavy ones are drawn bolder. What the font cannot draw is left out."""

    def __init__(self, size: int, heavy: bool = False) -> None:
        self.size = size
        self.line_height = round(size * _LINE)
        self._stroke = size / 40 if heavy else 0.0
        self._font = _font(size)

    def width(self, text: str) -> float:
        """How wide the text is drawn, in pixels."""
        letters, _ = _taken_apart(text)
        return self._font.getlength(letters) + 2 * self._stroke

    def draw(self, page: ImageDraw.ImageDraw, middle: float, top: float, text: str, ink: int = BLACK) -> None:
        """Draws one line of text, its middle at `middle`, in the room of `line_height` below `top`.

        ink: BLACK on white, or on a page in grey WHITE on black.
        """
        letters, accents = _taken_apart(text)
        left, ground = middle - self._font.getlength(letters) / 2, top + self.size
        page.text((left, ground), letters, fill=ink, font=self._font, anchor="ls", stroke_width=self._stroke)
        for at, accent in accents:
            self._draw_accent(page, left + self._font.getlength(letters[:at]), ground, letters[at], accent, ink)

    def top_of(self, middle: float) -> float:
        """The `top` of a line whose letters have that middle height, whatever hangs below it."""
        above, below = self._font.getmetrics()
        return middle + (above - below) / 2 - self.size

    def _draw_accent(
        self, page: ImageDraw.ImageDraw, left: float, ground: float, letter: str, accent: str, ink: int
    ) -> None:
        start, top, end, _ = _ink(self._font, letter)
        if letter in "ij":
            # The accent takes the place of the dot.
            dot, top = top, _ink(self._font, "x")[1]
            room = self._stroke + 1
            under = "white" if ink == BLACK else "black"
            page.rectangle(
                (left + start - room, ground + dot - room, left + end + room, ground + top - room), fill=under
            )
        sign, share = _ACCENTS[accent]
        font = _font(round(self.size * share))
        sign_start, _, sign_end, sign_ground = _ink(font, sign)
        place = (
            left + (start + end) / 2 - (sign_start + sign_end) / 2,
            ground + top - self.size * _GAP - 2 * self._stroke - sign_ground,
        )
        page.text(place, sign, fill=ink, font=font, anchor="ls", stroke_width=self._stroke)


def wrapped(text: str, lettering: Lettering, width: float) -> list[str]:
    """The text in lines that are no wider; a word that is too wide by itself is cut."""
    lines: list[str] = []
    line = ""
    for word in drawable(text).split():
        longer = f"{line} {word}".strip()
        if lettering.width(longer) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while len(line) > 1 and lettering.width(line) > width:
            fits = next(n for n in range(len(line) - 1, 0, -1) if lettering.width(line[:n]) <= width or n == 1)
            lines.append(line[:fits])
            line = line[fits:]
    return [*lines, line] if line else lines


@dataclass(frozen=True, slots=True)
class Block:
    """Lines that are drawn below each other in one lettering."""

    lettering: Lettering
    lines: tuple[str, ...]

    @property
    def height(self) -> int:
        return len(self.lines) * self.lettering.line_height

    def draw(self, page: ImageDraw.ImageDraw, middle: float, top: float) -> None:
        for number, line in enumerate(self.lines):
            self.lettering.draw(page, middle, top + number * self.lettering.line_height, line)


def fitted(text: str, tries: Sequence[tuple[int, int]], width: float, heavy: bool = False) -> Block:
    """The text at the first of the tries, each a size and the lines it may take, that fits without cutting a word.

    The lines are as even as they can be. What does not fit by the last try either is cut: words, then the end.
    """
    for size, most in tries:
        lettering = Lettering(size, heavy)
        lines = wrapped(text, lettering, width)
        if len(lines) <= most and all(lettering.width(word) <= width for word in drawable(text).split()):
            break
    narrower = width
    while (narrower := narrower * 0.99) > 0 and len(even := wrapped(text, lettering, narrower)) == len(lines) > 1:
        lines = even
    return Block(lettering, tuple(lines[:most]))


def drawable(text: str) -> str:
    """The text without what the font cannot draw; a letter whose accent it cannot draw loses the accent."""
    letters, accents = _taken_apart(text)
    on = dict(accents)
    whole = "".join(letter + on.get(at, "") for at, letter in enumerate(letters))
    return unicodedata.normalize("NFC", " ".join(whole.split()))


def _taken_apart(text: str) -> tuple[str, list[tuple[int, str]]]:
    """The plain letters of a text, and which of them carry which accent."""
    letters = ""
    accents: list[tuple[int, str]] = []
    bare = True
    for sign in unicodedata.normalize("NFD", text):
        if sign in _ACCENTS:
            if not bare:
                accents.append((len(letters) - 1, sign))
                bare = True
        elif sign.isspace() or _is_drawn(sign):
            letters += " " if sign.isspace() else sign
            bare = sign.isspace()
        else:
            bare = bare or not unicodedata.combining(sign)
    return letters, accents


def _ink(font: ImageFont.FreeTypeFont, sign: str) -> tuple[float, float, float, float]:
    """Where the ink of a sign is, left, top, right and bottom, seen from where it stands on the ground line."""
    left, top, _, _ = font.getbbox(sign, anchor="ls")
    start, high, end, low = font.getmask(sign).getbbox()
    return left + start, top + high, left + end, top + low


@cache
def _is_drawn(sign: str) -> bool:
    font = _font(40)
    missing = bytes(font.getmask("\uffff"))
    return sign.isprintable() and bytes(font.getmask(sign)) not in (b"", missing)


@cache
def _font(size: int) -> ImageFont.FreeTypeFont:
    from PIL import ImageFont

    font = ImageFont.load_default(size)
    assert isinstance(font, ImageFont.FreeTypeFont), "Pillow was built without FreeType"
    return font
