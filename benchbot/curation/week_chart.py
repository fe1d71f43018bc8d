"""The week's replies as bars: a bar a location, or for one location a bar a week."""

from __future__ import annotations

from benchbot.curation.digest import Digest, Tally
from benchbot.curation.digest_text import digest_title
from benchbot.curation.figure_wording import FigureWording, figure_wording
from benchbot.curation.fills import INK, PAPER, Fill, draw_fill
from benchbot.curation.sheet_of_figures import MARGIN, SMALL, TEXT, WIDTH, FigureSheet
from benchbot.pictures.lettering import Lettering, fitted

PLACES = 10
BACK_MARK = "?"
_NAMES, _BAR, _GAP = 250, 52, 16
_NAME_TRIES = [(TEXT, 1), (SMALL, 2), (20, 2)]


def week_chart(found: Digest, language: str) -> bytes:
    """A PNG picture, 1080 pixels wide. SettingError when the parts that draw are not installed."""
    words = figure_wording(language)
    bars = found.trend or found.tallies[:PLACES]
    sheet = FigureSheet.of(600 + len(bars) * (_BAR + _GAP))
    sheet.title(digest_title(found, language))
    samples: list[tuple[Fill, str, str]] = [
        ("full", "", words.answered), ("part", BACK_MARK, words.asked_back), ("none", "", words.not_answered),
    ]  # fmt: skip
    sheet.legend(samples)
    sheet.top += 8
    figures = Lettering(SMALL, heavy=True)
    most = max((one.whole for one in bars), default=0)
    # what is left beside the figures, shared out by the same measure in every bar
    free = WIDTH - 2 * MARGIN - _NAMES - max((sum(_least(one, figures)) for one in bars), default=0)
    for one in bars:
        _bar(sheet, one, figures, free / max(most, 1), words)
    if not most:
        sheet.lines([words.quiet], TEXT)
    left_out = len(found.tallies) - len(bars)
    if not found.trend and left_out:
        sheet.lines([words.more_places.format(count=left_out)])
    return sheet.png()


def _least(one: Tally, figures: Lettering) -> list[int]:
    """How wide each share is for its number alone."""
    counts = (one.answered, one.asked_back, one.not_answered)
    return [round(figures.width(f"{count:,}")) + 22 if count else 0 for count in counts]


def _bar(sheet: FigureSheet, one: Tally, figures: Lettering, each: float, words: FigureWording) -> None:
    """each: pixels for one reply, beside those that the number needs that stands in its share."""
    block = fitted(one.name or words.nowhere, _NAME_TRIES, _NAMES - 16)
    under = sheet.top + (_BAR - block.height) // 2
    for line in block.lines:
        sheet.left(block.lettering, MARGIN, under, line)
        under += block.lettering.line_height
    shares: list[tuple[int, Fill]] = [
        (one.answered, "full"), (one.asked_back, "part"), (one.not_answered, "none"),
    ]  # fmt: skip
    left = MARGIN + _NAMES
    sheet.line((left, sheet.top - _GAP // 2, left, sheet.top + _BAR + _GAP // 2), INK, 2)
    for (count, fill), wide in zip(shares, _least(one, figures), strict=True):
        if not count:
            continue
        right = left + wide + round(each * count)
        draw_fill(sheet.page, (left + 2, sheet.top, right, sheet.top + _BAR), fill, plain=True)
        _figure(sheet, figures, (left + 2 + right) / 2, f"{count:,}")
        left = right
    sheet.top += _BAR + _GAP


def _figure(sheet: FigureSheet, figures: Lettering, middle: float, text: str) -> None:
    half, centre = figures.width(text) / 2 + 6, sheet.top + _BAR / 2
    sheet.pen.rectangle((middle - half, centre - 17, middle + half, centre + 17), fill=PAPER)
    figures.draw(sheet.pen, middle, centre - figures.size * 0.64, text)
