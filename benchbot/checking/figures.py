"""The figures inside a value that a check compares: the torque that is set last, and one number for its size."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.quantities.amounts import Amount, Plain, Single, Span, Staged, Tolerance, Value, leading_amount
from benchbot.quantities.convert import convert
from benchbot.quantities.units import UNITS

_MEASURED_IN = {"torque": "N·m", "length": "mm", "volume": "L", "pressure": "kPa"}


@dataclass(frozen=True, slots=True)
class Torques:
    """The ends of the torque that a bolt is left with, or, when `snug`, of the highest one before it turns by angle."""

    low: Amount
    high: Amount
    snug: bool


def torques_of(value: Value) -> Torques | None:
    """The torque to judge in a value; None when the value is no torque."""
    if isinstance(value, (Single, Span, Tolerance)):
        return Torques(*ends(value), snug=False)
    if not isinstance(value, Staged):
        return None
    torques = [(at, stage.amount) for at, stage in enumerate(value.stages) if _is(stage.amount, "torque")]
    # Turning on counts; backing off by an angle between two torques does not.
    angles = [at for at, stage in enumerate(value.stages) if _is(stage.amount, "angle")]
    last_at, last = torques[-1]
    if not angles or angles[-1] < last_at:
        assert last is not None
        return Torques(*ends(last), snug=False)
    plains = [plain for _, plain in torques if plain is not None]
    highest = max(plains, key=lambda plain: convert(ends(plain)[1].number, ends(plain)[1].unit, "N·m"))
    return Torques(*ends(highest), snug=True)


def ends(plain: Plain) -> tuple[Amount, Amount]:
    """The lowest and the highest amount that the value allows."""
    if isinstance(plain, Span):
        return plain.low, plain.high
    if isinstance(plain, Tolerance):
        low = plain.middle.number - plain.within.number
        high = plain.middle.number + plain.within.number
        return Amount(low, plain.middle.unit, f"{low:f}"), Amount(high, plain.middle.unit, f"{high:f}")
    return plain.amount, plain.amount


def size_of(value: Value, unit: str = "") -> tuple[bool, float] | None:
    """(whether it is a torque before an angle, its size in the measure of its dimension), None without a size above 0.

    unit: read the same figures as if they were printed in this unit.
    """
    if isinstance(value, Staged):
        torques = torques_of(value)
        assert torques is not None
        return _sized(torques.low, torques.high, torques.snug, unit)
    if isinstance(value, (Single, Span, Tolerance)):
        return _sized(*ends(value), False, unit)
    return None


def unit_of(value: Value) -> str:
    """The symbol of the unit that `size_of` measured, "" for a value without one."""
    if isinstance(value, Staged):
        torques = torques_of(value)
        assert torques is not None
        return torques.low.unit
    return leading_amount(value).unit if isinstance(value, (Single, Span, Tolerance)) else ""


def _sized(low: Amount, high: Amount, snug: bool, unit: str) -> tuple[bool, float] | None:
    measure = _MEASURED_IN.get(UNITS[low.unit].dimension)
    if measure is None or low.number <= 0:
        return None
    one = float(convert(low.number, unit or low.unit, measure))
    other = float(convert(high.number, unit or high.unit, measure))
    return snug, (one * other) ** 0.5


def _is(plain: Plain | None, dimension: str) -> bool:
    return plain is not None and UNITS[leading_amount(plain).unit].dimension == dimension
