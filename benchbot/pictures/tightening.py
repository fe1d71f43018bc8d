"""In which order the nuts of a wheel are tightened, and its picture."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin

from benchbot.pictures.sheet import INK, MARGIN, MID, PAPER, SMALL, TEXT, TITLE, WIDTH, Sheet, Spot
from benchbot.pictures.wording import ENGLISH, PictureWords

# Numbered clockwise from any of them. Several orders across are equal; these are ours. 4 and 8: the cross pattern of
# ASME PCC-1 (value from memory); 5: the five-pointed star (common practice, no source); 6 and 10: across, then on to
# the pair that lies farthest from those done (common practice, no source; checked by rule in the tests); 3: none lies
# across from another, so they are drawn up in turn.
ORDERS: dict[int, tuple[int, ...]] = {
    3: (1, 2, 3),
    4: (1, 3, 2, 4),
    5: (1, 3, 5, 2, 4),
    6: (1, 4, 2, 5, 3, 6),
    8: (1, 5, 3, 7, 2, 6, 4, 8),
    10: (1, 6, 3, 8, 5, 10, 7, 2, 9, 4),
}
STUDS = tuple(ORDERS)

_HEIGHT = 980
_MIDDLE = (WIDTH / 2, 452.0)
_TOO_MANY_LINES = 8
_RIM, _CIRCLE, _HUB = 320.0, 216.0, 92.0


def tightening_order(studs: int) -> tuple[int, ...]:
    """The studs in the order they are tightened, numbered clockwise. ValueError for a count that we have none for."""
    if studs not in ORDERS:
        raise ValueError(f"there is no order for {studs} studs; there is one for {', '.join(map(str, STUDS))}")
    return ORDERS[studs]


def tightening_picture(studs: int, words: PictureWords = ENGLISH) -> bytes:
    """A PNG picture, 720 pixels wide: each stud bears its turn. ValueError as above; SettingError without Pillow."""
    order = tightening_order(studs)
    sheet = Sheet(_HEIGHT)
    sheet.write((WIDTH / 2, 58), words.order.format(studs=studs), TITLE, heavy=True)
    sheet.circle(_MIDDLE, _RIM, width=9)
    sheet.circle(_MIDDLE, _HUB, width=6)
    turns = {stud: turn for turn, stud in enumerate(order, 1)}
    spots = {stud: _spot(stud, studs, _CIRCLE) for stud in turns}
    radius = {3: 66, 4: 66, 5: 62, 6: 58, 8: 52}.get(studs, 46)
    # more lines than these only hide the figures
    for one, other in pairwise(order) if studs < _TOO_MANY_LINES else ():
        sheet.line([spots[one], spots[other]], 4, MID, dashes=14)
    sheet.circle(_MIDDLE, _HUB - 3, PAPER, 0)
    for stud, turn in turns.items():
        first = turn == 1
        sheet.circle(spots[stud], radius, INK if first else PAPER, 7)
        sheet.write(spots[stud], str(turn), round(radius * 1.2), heavy=True, grey=PAPER if first else INK)
        sheet.write(_spot(stud, studs, _RIM - 26), str(stud), SMALL, grey=INK)
    sheet.write((_MIDDLE[0], _MIDDLE[1] - 22), words.start_at, SMALL)
    sheet.write((_MIDDLE[0], _MIDDLE[1] + 22), words.black, TEXT, heavy=True)
    _below(sheet, order, words)
    return sheet.png()


def _below(sheet: Sheet, order: tuple[int, ...], words: PictureWords) -> None:
    told = words.around if len(order) == 3 else words.across
    top = _MIDDLE[1] + _RIM + 50
    sheet.write((WIDTH / 2, top), told, SMALL + 1)
    sheet.line([(MARGIN, top + 34), (WIDTH - MARGIN, top + 34)], 3)
    sheet.write((WIDTH / 2, top + 68), words.clockwise, SMALL)
    written = "-".join(str(stud) for stud in order)
    sheet.write((WIDTH / 2, top + 118), written, TITLE if len(order) < 10 else TEXT + 6, heavy=True)


def _spot(stud: int, studs: int, radius: float) -> Spot:
    """Clockwise from the top, as one sees the wheel from outside."""
    turned = 2 * pi * (stud - 1) / studs
    return _MIDDLE[0] + radius * sin(turned), _MIDDLE[1] - radius * cos(turned)
