"""Sets text with bold and italic words, in the one plain font that comes with Pillow."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from html.parser import HTMLParser

from PIL import Image, ImageDraw, ImageFont

INK, PAPER = 0, 255
_LINE = 1.32
_SLANT = 0.2
_APART = 1.4
_PIECES = re.compile(r" +|[^ ]+")


@dataclass(frozen=True, slots=True)
class Run:
    """Some text of one kind."""

    text: str
    bold: bool = False
    italic: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """One line of runs; each with its place from the left in pixels."""

    runs: tuple[tuple[float, Run], ...]
    width: float


class _Marks(HTMLParser):
    """Reads the marks that the bot uses: <b> and <i>. ValueError for any other, which no picture could show."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: list[list[Run]] = [[]]
        self._on: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        if tag not in ("b", "i"):
            raise ValueError(f"<{tag}>: the pictures know <b> and <i> alone; teach letters.py to draw it")
        self._on.append(tag)

    def handle_endtag(self, tag: str) -> None:
        self._on.remove(tag)

    def handle_data(self, data: str) -> None:
        for number, text in enumerate(data.split("\n")):
            if number:
                self.lines.append([])
            if text:
                self.lines[-1].append(Run(text, "b" in self._on, "i" in self._on))


def runs_of(html: str) -> list[list[Run]]:
    """The lines of a message's HTML, each in runs; empty for an empty line."""
    marks = _Marks()
    marks.feed(html)
    marks.close()
    return marks.lines


@dataclass(frozen=True, slots=True)
class Lettering:
    """Letters of one size, in pixels."""

    size: int

    @property
    def line_height(self) -> int:
        return round(self.size * _LINE)

    def width(self, run: Run) -> float:
        return _font(self.size).getlength(_drawable(run.text)) + _APART * self._stroke(run) * len(run.text)

    def set(self, lines: Iterable[Iterable[Run]], width: float) -> list[Line]:
        """The lines, wrapped so that none is wider; a word that is wider by itself is cut."""
        return [line for runs in lines for line in self._wrapped(runs, width)]

    def draw(self, page: Image.Image, left: float, top: float, line: Line, ink: int = INK) -> None:
        """Draws one line in the room of `line_height` below `top`."""
        for place, run in line.runs:
            self._draw_run(page, left + place, top + self.size, run, ink)

    def _wrapped(self, runs: Iterable[Run], width: float) -> Iterator[Line]:
        placed: list[tuple[float, Run]] = []
        at = blank = 0.0
        for piece in self._pieces(runs, width):
            wide = self.width(piece)
            if not piece.text.strip():
                blank += wide
                continue
            if placed and at + blank + wide > width:
                yield Line(tuple(placed), at)
                placed, at, blank = [], 0.0, 0.0
            placed.append((at + blank, piece))
            at, blank = at + blank + wide, 0.0
        yield Line(tuple(placed), at)

    def _pieces(self, runs: Iterable[Run], width: float) -> Iterator[Run]:
        """Words and blanks; words that are too wide are in several."""
        for run in runs:
            for text in _PIECES.findall(run.text):
                rest = Run(text, run.bold, run.italic)
                while len(rest.text) > 1 and self.width(rest) > width:
                    shorter = range(len(rest.text) - 1, 0, -1)
                    fits = next((n for n in shorter if self.width(Run(rest.text[:n], run.bold)) <= width), 1)
                    yield Run(rest.text[:fits], run.bold, run.italic)
                    rest = Run(rest.text[fits:], run.bold, run.italic)
                yield rest

    def _stroke(self, run: Run) -> float:
        return self.size / 36 if run.bold else 0.0

    def _draw_run(self, page: Image.Image, left: float, ground: float, run: Run, ink: int) -> None:
        stroke = self._stroke(run)
        room = self.size
        mask = Image.new("L", (round(self.width(run)) + 2 * room, 2 * room))
        font, pen = _font(self.size), ImageDraw.Draw(mask)
        for place, letters in self._placed(_drawable(run.text), stroke):
            pen.text((room + place, self.size), letters, fill=255, font=font, anchor="ls", stroke_width=stroke)
        if run.italic:
            slant = (1, _SLANT, -_SLANT * self.size, 0, 1, 0)
            mask = mask.transform(mask.size, Image.Transform.AFFINE, slant, Image.Resampling.BICUBIC)
        # On whole pixels a word looks the same wherever it stands, which keeps the files small.
        page.paste(ink, (round(left) - room, round(ground) - self.size), mask)

    def _placed(self, text: str, stroke: float) -> Iterator[tuple[float, str]]:
        """Bold letters one by one, apart by what each gains: the font has no bold, so they are drawn thicker."""
        if not stroke:
            yield 0.0, text
            return
        font = _font(self.size)
        for at, letter in enumerate(text):
            # measured to its end, so that what two letters move together is kept
            place = font.getlength(text[: at + 1]) - font.getlength(letter) + stroke * _APART * (at + 0.5)
            yield round(place), letter


def plain(text: str, bold: bool = False, italic: bool = False) -> list[list[Run]]:
    """Text without marks, in lines."""
    return [[Run(line, bold, italic)] if line else [] for line in text.split("\n")]


def _drawable(text: str) -> str:
    """The text itself. ValueError when the font has no sign for a part of it: a box in a picture says nothing."""
    missing = sorted({sign for sign in text if not _is_drawn(sign)})
    if missing:
        raise ValueError(f"the font of the pictures has no {' '.join(missing)} (in “{text}”); write it another way")
    return text


@cache
def _is_drawn(sign: str) -> bool:
    font = _font(40)
    nothing, unknown = b"", bytes(font.getmask("\uffff"))
    return sign == " " or bytes(font.getmask(sign)) not in (nothing, unknown)


@cache
def _font(size: int) -> ImageFont.FreeTypeFont:
    font = ImageFont.load_default(size)
    assert isinstance(font, ImageFont.FreeTypeFont), "Pillow was built without FreeType"
    return font
