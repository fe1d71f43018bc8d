"""The sheet that pictures of the work are drawn on: black on white, thick lines, letters for a small phone."""

from __future__ import annotations

from io import BytesIO
from typing import Literal

from benchbot.errors import SettingError
from benchbot.pictures.lettering import Lettering

Grey = int
INK, PAPER, MID, PALE = 0, 255, 140, 222
# A small phone shows this width at about 60 mm: letters of 36 have capitals of about 2 mm there (common practice: no
# smaller than a newspaper's; no source).
WIDTH, MARGIN = 720, 30
TITLE, TEXT, SMALL = 50, 36, 30
# Drawn so many times larger and then made smaller, so that slanted lines come out smooth.
_FINER = 3
Align = Literal["left", "middle", "right"]
Spot = tuple[float, float]


class Sheet:
    """A sheet of WIDTH by `height` pixels; every place is (right, down) from its upper left corner."""

    def __init__(self, height: int) -> None:
        """SettingError when what draws is not installed."""
        try:
            from PIL import Image, ImageDraw
        except ImportError as error:
            raise SettingError(
                f"a picture cannot be drawn here ({error}); install what it needs with: pip install "
                "'benchbot[telegram]'"
            ) from error
        self.height = height
        self._page = Image.new("L", (WIDTH * _FINER, height * _FINER), PAPER)
        self._pen = ImageDraw.Draw(self._page)

    def line(self, spots: list[Spot], width: float = 4, grey: Grey = INK, dashes: float = 0) -> None:
        """A line through the spots; dashes: how long each is, 0 for a whole line."""
        if dashes:
            for start, end in _dashed(spots[0], spots[-1], dashes):
                self.line([start, end], width, grey)
            return
        self._pen.line(self._fine(spots), fill=grey, width=round(width * _FINER), joint="curve")

    def circle(self, middle: Spot, radius: float, fill: Grey | None = None, width: float = 4, grey: Grey = INK) -> None:
        """A ring, or a disc with one; width 0: no ring."""
        x, y = middle
        box = self._fine([(x - radius, y - radius), (x + radius, y + radius)])
        self._pen.ellipse(box, fill=fill, outline=grey if width else None, width=round(width * _FINER))

    def area(self, spots: list[Spot], fill: Grey, width: float = 0) -> None:
        """A filled shape with straight sides."""
        outline = INK if width else None
        self._pen.polygon(self._fine(spots), fill=fill, outline=outline, width=max(1, round(width * _FINER)))

    def hatch(self, left: float, top: float, right: float, bottom: float, every: float = 18) -> None:
        """Slanted lines in a box: what lies there is not to be used."""
        across, down = right - left, bottom - top
        start = -down
        while start < across:
            # only the part of the slanted line that lies inside the box
            begin, end = max(0.0, -start), min(down, across - start)
            if end > begin:
                self.line([(left + start + begin, bottom - begin), (left + start + end, bottom - end)], 3, MID)
            start += every

    def arrow(self, start: Spot, end: Spot, width: float = 5, both: bool = False) -> None:
        """A line with a head at its end."""
        from math import atan2, cos, sin

        self.line([start, end], width)
        for tip, tail in ((end, start), (start, end))[: 2 if both else 1]:
            turned = atan2(tail[1] - tip[1], tail[0] - tip[0])
            size = 4.2 * width
            wings = [(tip[0] + size * cos(turned + by), tip[1] + size * sin(turned + by)) for by in (0.42, -0.42)]
            self.area([tip, *wings], INK)

    def write(self, at: Spot, text: str, size: int = TEXT, align: Align = "middle", heavy: bool = False,
              grey: Grey = INK) -> None:  # fmt: skip
        """One line of text with its middle height at `at`, on white where `grey` is dark."""
        lettering = Lettering(size * _FINER, heavy)
        off = {"left": 0.5, "middle": 0.0, "right": -0.5}[align] * lettering.width(text)
        lettering.draw(self._pen, at[0] * _FINER + off, lettering.top_of(at[1] * _FINER), text, grey)

    def width_of(self, text: str, size: int = TEXT) -> float:
        """How wide a line of text comes out, in pixels."""
        return Lettering(size * _FINER).width(text) / _FINER

    def wrapped(self, text: str, size: int, width: float) -> list[str]:
        """The text in lines no wider than that, as far as its words allow."""
        lines = [""]
        for word in text.split():
            longer = f"{lines[-1]} {word}".strip()
            if self.width_of(longer, size) <= width or not lines[-1]:
                lines[-1] = longer
            else:
                lines.append(word)
        return lines

    def clear(self, left: float, top: float, right: float, bottom: float) -> None:
        """White there, for words on what is drawn."""
        self._pen.rectangle(self._fine([(left, top), (right, bottom)]), fill=PAPER)

    def png(self) -> bytes:
        """The sheet as a PNG picture in grey."""
        from PIL import Image

        file = BytesIO()
        small = self._page.resize((WIDTH, self.height), Image.Resampling.LANCZOS)
        small.quantize(16).save(file, "PNG", optimize=True)
        return file.getvalue()

    def _fine(self, spots: list[Spot]) -> list[Spot]:
        return [(x * _FINER, y * _FINER) for x, y in spots]


def _dashed(start: Spot, end: Spot, dashes: float) -> list[tuple[Spot, Spot]]:
    long = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    count = max(1, round(long / dashes / 1.6))

    def at(share: float) -> Spot:
        return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share

    return [(at(number / count), at((number + 0.62) / count)) for number in range(count)]
