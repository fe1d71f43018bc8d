"""What a difference between two pads of a wheel, or between two sides of an axle, points to."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from benchbot.calculators.pads import of_pair
from benchbot.measuring.limits import length_text
from benchbot.measuring.measured import Measure, Measured
from benchbot.measuring.swings import in_mm
from benchbot.outcomes import Sentence

# As much, in millimetres, is more than two readings of one thing lie apart: common practice, no source.
_TOLD = Decimal(1)
_SIDES = (("left", "right"), ("driver", "passenger"))
_LININGS = frozenset({"brake pad", "brake shoe"})


def differences(measured: Measured, component: str) -> tuple[Sentence, ...]:
    """What the figures of one part on one axle, in units, point to; nothing where they are much alike."""
    lines: list[Sentence] = []
    if component in _LININGS:
        for side in ("", "left", "right", "driver", "passenger"):
            lines += _of_a_wheel(measured, side)
    for one, other in _SIDES:
        first, second = _thinnest(measured, one), _thinnest(measured, other)
        if first is not None and second is not None and abs(in_mm(first) - in_mm(second)) >= _TOLD:
            lines.append(Sentence.of("sides differ", difference=_apart(first, second), one=one, other=other))
    if lines:
        lines.append(Sentence("find the cause"))
    return tuple(dict.fromkeys(lines))


def _of_a_wheel(measured: Measured, side: str) -> Sequence[Sentence]:
    """The inner pad against the outer one."""
    inner = _thinnest(measured, f"{side} inner".strip(), whole=True)
    outer = _thinnest(measured, f"{side} outer".strip(), whole=True)
    if inner is None or outer is None or abs(in_mm(inner) - in_mm(outer)) < _TOLD:
        return ()
    sign = of_pair(in_mm(inner), in_mm(outer))
    return (Sentence.of(sign, difference=_apart(inner, outer)), Sentence(f"{sign} points to"))


def _thinnest(measured: Measured, where: str, whole: bool = False) -> Measure | None:
    """The thinnest at that place; whole: where is all that the place is called, not a part of it."""
    there = [one for one in measured.measures if (one.where == where if whole else where in one.where.split())]
    return min(there, key=in_mm, default=None)


def _apart(one: Measure, other: Measure) -> str:
    return length_text(abs(in_mm(one) - in_mm(other)), one.unit)
