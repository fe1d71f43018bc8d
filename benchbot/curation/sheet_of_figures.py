"""The page that pictures of figures are drawn on: a column as wide as a phone, filled from the top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from benchbot.curation.fills import INK, PAPER, Fill, draw_fill
from benchbot.errors import SettingError
from benchbot.pictures.lettering import Lettering, fitted, wrapped

if TYPE_CHECKING:
    from PIL import Image, ImageDraw

# A phone shows a page of this width about one to one: letters of 26 are about 1.6 mm high there (common practice:
# no smaller than a newspaper's; no source).
WIDTH, MARGIN = 1080, 24
TITLE, TEXT, SMALL = 44, 30, 26
_SAMPLE = 40


@dataclass(slots=True)
class FigureSheet:
    """A page of `height` pixels; `top` is where it is empty from."""

    page: Image.Image
    pen: ImageDraw.ImageDraw
    top: int = MARGIN

    @classmethod
    def of(cls, height: int) -> FigureSheet:
        """SettingError when what draws is not installed."""
        try:
            from PIL import Image, ImageDraw
        except ImportError as error:
            raise SettingError(
                f"a picture cannot be drawn here ({error}); install what it needs with: pip install "
                "'benchbot[telegram]'"
            ) from error
        page = Image.new("RGB", (WIDTH, height), PAPER)
        return cls(page, ImageDraw.Draw(page))

    def title(self, text: str) -> None:
        """In heavy letters, on two lines at most."""
        block = fitted(text, [(TITLE, 2), (TITLE - 8, 2)], WIDTH - 2 * MARGIN, heavy=True)
        for line in block.lines:
            self.left(block.lettering, MARGIN, self.top, line)
            self.top += block.lettering.line_height
        self.top += 10

    def lines(self, texts: Sequence[str], size: int = SMALL) -> None:
        """Each wrapped, from the left margin."""
        lettering = Lettering(size)
        for text in texts:
            for line in wrapped(text, lettering, WIDTH - 2 * MARGIN):
                self.left(lettering, MARGIN, self.top, line)
                self.top += lettering.line_height

    def legend(self, samples: Sequence[tuple[Fill, str, str]]) -> None:
        """What each fill means: (fill, its mark, its words), beside each other as far as there is room."""
        lettering, across = Lettering(SMALL), MARGIN
        for fill, mark, words in samples:
            wide = _SAMPLE + 10 + round(lettering.width(words)) + 30
            if across > MARGIN and across + wide > WIDTH - MARGIN:
                across, self.top = MARGIN, self.top + _SAMPLE + 8
            draw_fill(self.page, (across, self.top, across + _SAMPLE, self.top + _SAMPLE), fill, mark)
            self.left(lettering, across + _SAMPLE + 10, self.top + 2, words)
            across += wide
        self.top += _SAMPLE + 12

    def left(self, lettering: Lettering, left: float, top: float, text: str) -> None:
        """One line that begins at `left`."""
        lettering.draw(self.pen, left + lettering.width(text) / 2, top, text)

    def line(self, box: tuple[int, int, int, int], fill: tuple[int, int, int] = INK, width: int = 1) -> None:
        self.pen.line(box, fill=fill, width=width)

    def png(self) -> bytes:
        """The page down to where it is empty."""
        picture = BytesIO()
        self.page.crop((0, 0, WIDTH, min(self.page.height, self.top + MARGIN))).save(picture, "PNG", optimize=True)
        return picture.getvalue()
