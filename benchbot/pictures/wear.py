"""How a part has worn from visit to visit, against the limits that it must not reach."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from benchbot.pictures.sheet import INK, MARGIN, PAPER, SMALL, TEXT, TITLE, WIDTH, Sheet
from benchbot.pictures.wording import ENGLISH, PictureWords

_HEIGHT = 900
_LEFT, _RIGHT, _TOP, _BOTTOM = 136.0, WIDTH - 40.0, 190.0, 700.0
VISITS_AT_MOST = 6
Down = Callable[[Decimal], float]


@dataclass(frozen=True, slots=True)
class Reading:
    """What was measured at a visit. at: its day or its distance, a few letters ("2025-03", "41 000 km")."""

    at: str
    value: Decimal


@dataclass(frozen=True, slots=True)
class Limit:
    """A line of the book: its name as it is shown ("new", "machine to", "discard") and its value."""

    name: str
    value: Decimal


def wear_picture(
    title: str,
    unit: str,
    readings: Sequence[Reading],
    limits: Sequence[Limit],
    discard: Limit,
    worn: Literal["down", "up"] = "down",
    words: PictureWords = ENGLISH,
    note: str = "",
) -> bytes:
    """A PNG picture, 720 pixels wide; what lies past the discard limit is hatched.

    All values in the one unit. The last VISITS_AT_MOST readings are shown, oldest first. worn: "up" where wear makes it
    larger, as a drum's diameter. note: a line below it all, such as that the figures are invented. ValueError without
    a reading; SettingError when what draws is not installed.
    """
    if not readings:
        raise ValueError("there is no reading to draw")
    shown = list(readings)[-VISITS_AT_MOST:]
    sheet = Sheet(_HEIGHT)
    for number, line in enumerate(sheet.wrapped(title, TITLE - 8, WIDTH - 2 * MARGIN)[:2]):
        sheet.write((MARGIN, 50 + number * 52), line, TITLE - 8, "left", heavy=True)
    values = [*(one.value for one in shown), *(one.value for one in limits), discard.value]
    low, high = float(min(values)), float(max(values))
    free = (high - low or 1.0) * 0.16
    low, high = low - free, high + free

    def down(value: Decimal) -> float:
        return _BOTTOM - (float(value) - low) / (high - low) * (_BOTTOM - _TOP)

    past = (down(discard.value), _BOTTOM) if worn == "down" else (_TOP, down(discard.value))
    sheet.hatch(_LEFT, past[0], _RIGHT, past[1])
    _limits(sheet, [*limits, discard], discard, shown[0], down)
    _readings(sheet, shown, down)
    sheet.line([(_LEFT, _TOP), (_LEFT, _BOTTOM), (_RIGHT, _BOTTOM)], 5)
    sheet.write((MARGIN, 150), words.unit.format(unit=unit), SMALL, "left")
    _sentence(sheet, shown[-1], discard, unit, worn, words)
    if note:
        sheet.write((WIDTH / 2, _BOTTOM + 178), note, SMALL - 4)
    return sheet.png()


def _limits(sheet: Sheet, limits: Sequence[Limit], discard: Limit, first: Reading, down: Down) -> None:
    """A name stands where the readings are not: at the left for those that they come to last."""
    for limit in limits:
        at = down(limit.value)
        if limit is discard:
            sheet.line([(_LEFT, at), (_RIGHT, at)], 8)
        else:
            sheet.line([(_LEFT, at), (_RIGHT, at)], 4, dashes=20)
        sheet.write((_LEFT - 14, at), str(limit.value), SMALL, "right", heavy=limit is discard)
        late = abs(limit.value - discard.value) <= abs(limit.value - first.value)
        wide = sheet.width_of(limit.name, SMALL) + 16
        left = _LEFT + 6 if late else _RIGHT - wide
        sheet.clear(left, at - 42, left + wide, at - 7)
        sheet.write((left + wide / 2, at - 24), limit.name, SMALL, heavy=limit is discard)


def _readings(sheet: Sheet, shown: Sequence[Reading], down: Down) -> None:
    count = len(shown)
    room = (_RIGHT - _LEFT - 166) / max(count - 1, 1)
    start = _LEFT + 76 if count > 1 else (_LEFT + _RIGHT) / 2
    spots = [(start + number * room, down(one.value)) for number, one in enumerate(shown)]
    if count > 1:
        sheet.line(spots, 5)
    every = 1 if count <= 4 else 2
    for number, (one, spot) in enumerate(zip(shown, spots, strict=True)):
        last = number == count - 1
        if (count - 1 - number) % every == 0:
            wide = sheet.width_of(str(one.value), TEXT) / 2
            sheet.clear(spot[0] - wide - 4, spot[1] - 64, spot[0] + wide + 4, spot[1] - 22)
            sheet.write((spot[0], spot[1] - 43), str(one.value), TEXT, heavy=last)
            sheet.write((spot[0], _BOTTOM + 34), one.at, SMALL - 4)
    for number, spot in enumerate(spots):
        sheet.circle(spot, 15, INK if number == count - 1 else PAPER, 6)


def _sentence(sheet: Sheet, last: Reading, discard: Limit, unit: str, worn: str, words: PictureWords) -> None:
    left = last.value - discard.value if worn == "down" else discard.value - last.value
    told = words.past.format(limit=discard.name.upper())
    if left > 0:
        told = words.left.format(left=left, unit=unit, limit=discard.name)
    sheet.line([(MARGIN, _BOTTOM + 80), (WIDTH - MARGIN, _BOTTOM + 80)], 3)
    sheet.write((WIDTH / 2, _BOTTOM + 134), told, TITLE - 6, heavy=True)
