"""Where a rotor is measured: points around it, and how far in from its edge."""

from __future__ import annotations

from math import cos, pi, sin

from benchbot.pictures.sheet import INK, MARGIN, PALE, PAPER, SMALL, TEXT, TITLE, WIDTH, Sheet, Spot
from benchbot.pictures.wording import ENGLISH, PictureWords

# Eight around, four at the least, a finger's breadth inside the edge, clear of the lip: common practice, no source.
POINTS = 8

_HEIGHT = 1180
_MIDDLE = (WIDTH / 2, 372.0)
_EDGE, _AT, _INNER, _HAT, _BORE = 268.0, 214.0, 150.0, 126.0, 52.0


def rotor_picture(words: PictureWords = ENGLISH) -> bytes:
    """A PNG picture, 720 pixels wide: the face with its points, and a cut with the micrometer. SettingError as ever."""
    sheet = Sheet(_HEIGHT)
    sheet.write((WIDTH / 2, 54), words.rotor, TITLE - 4, heavy=True)
    _face(sheet, words)
    _cut(sheet, words)
    return sheet.png()


def _face(sheet: Sheet, words: PictureWords) -> None:
    sheet.circle(_MIDDLE, _EDGE, PALE, 8)
    sheet.circle(_MIDDLE, _EDGE - 22, PAPER, 3)
    sheet.circle(_MIDDLE, _INNER, PAPER, 4)
    sheet.circle(_MIDDLE, _HAT, PAPER, 6)
    sheet.circle(_MIDDLE, _BORE, PAPER, 6)
    for number in range(1, POINTS + 1):
        turned = 2 * pi * (number - 1) / POINTS
        spot = (_MIDDLE[0] + _AT * sin(turned), _MIDDLE[1] - _AT * cos(turned))
        # the four that are the least are the black ones
        least = number % 2 == 1
        sheet.circle(spot, 27, INK if least else PAPER, 5)
        sheet.write(spot, str(number), TEXT, heavy=True, grey=PAPER if least else INK)
    top = _MIDDLE[1] + _EDGE + 36
    sheet.write((WIDTH / 2, top), words.points.format(points=POINTS, least=POINTS // 2), SMALL + 2)
    sheet.write((WIDTH / 2, top + 42), words.lowest, TEXT + 2, heavy=True)
    sheet.line([(MARGIN, top + 82), (WIDTH - MARGIN, top + 82)], 3)


def _cut(sheet: Sheet, words: PictureWords) -> None:
    """Half of the rotor from the side: edge on the right, with the lips that nobody must measure over."""
    left, right, top, bottom = 70.0, 520.0, 880.0, 968.0
    lip = 24.0
    worn: list[Spot] = [
        (left, top - 12), (left + 70, top - 12), (left + 82, top), (right - lip, top), (right - lip, top - 18),
        (right, top - 18), (right, bottom + 18), (right - lip, bottom + 18), (right - lip, bottom),
        (left + 82, bottom), (left + 70, bottom + 12), (left, bottom + 12),
    ]  # fmt: skip
    sheet.area(worn, PALE)
    sheet.line([*worn, worn[0]], 5)
    jaw = right - 120
    for tip, away in ((top, -1), (bottom, 1)):
        sheet.area([(jaw - 20, tip), (jaw + 20, tip), (jaw + 20, tip + away * 56), (jaw - 20, tip + away * 56)], INK)
    sheet.write((left, top - 66), words.micrometer, SMALL, "left")
    sheet.line([(left + 176, top - 66), (jaw - 26, top - 36)], 3)
    sheet.write((right + 16, top - 6), words.lip[0], SMALL, "left", heavy=True)
    sheet.write((right + 16, top + 30), words.lip[1], SMALL, "left", heavy=True)
    sheet.write((left + 130, (top + bottom) / 2), words.cut, SMALL, "left")
    under = bottom + 96
    for at in (jaw, right):
        sheet.line([(at, bottom + (60 if at == jaw else 24)), (at, under + 18)], 3)
    sheet.arrow((jaw + 4, under), (right - 4, under), 4, both=True)
    sheet.write((jaw - 16, under), words.finger, TEXT - 2, "right", heavy=True)
    sheet.write((right + 16, under), words.from_edge, SMALL, "left")
    sheet.write((WIDTH / 2, under + 66), words.stamped, TEXT - 2)
