"""How a value is shown: the source first and exactly as entered, then conversions that a tool can set."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from benchbot.errors import UnitError
from benchbot.quantities.amounts import Amount, Plain, Single, Span, Stage, Staged, Tolerance, Value, leading_amount
from benchbot.quantities.convert import convert, convert_step
from benchbot.quantities.reckoning import figure_text
from benchbot.quantities.rounding import round_half_up, rounding_step
from benchbot.quantities.units import UNITS, Dimension

# Torque below this many N·m is set with a wrench marked in lb-in.
_SMALL_TORQUE = Decimal(20)
# Lengths that people also say in thousandths of an inch, and in 32nds (linings), in mm.
_SAID_IN_THOUSANDTHS = Decimal("2.54")
_SAID_IN_32NDS = (Decimal(1), Decimal(26))
_SMALL_VOLUME = Decimal(1)

# A tolerance rounded up lets a fastener past its limit, so it may grow or shrink by a twentieth only.
_WITHIN_MOST_OFF = Decimal("0.05")

_FIRST_LINE: dict[str, tuple[str, ...]] = {
    "N\u00b7m": ("lb-ft",),
    "lb-ft": ("N\u00b7m",),
    "lb-in": ("N\u00b7m",),
    "kgf\u00b7m": ("N\u00b7m", "lb-ft"),
    "kgf\u00b7cm": ("N\u00b7m",),
    "mm": ("in",),
    "cm": ("mm", "in"),
    "in": ("mm",),
    "thou": ("mm", "in"),
    "32nds": ("mm",),
    "L": ("qt",),
    "mL": ("fl oz",),
    "qt": ("L",),
    "pt": ("L",),
    "gal": ("L",),
    "fl oz": ("mL",),
    "imp qt": ("L",),
    "imp pt": ("L",),
    "imp gal": ("L",),
    "imp fl oz": ("mL",),
    "deg": (),
    "turns": ("deg",),
    "kPa": ("psi",),
    "MPa": ("psi", "bar"),
    "psi": ("kPa",),
    "bar": ("psi",),
    "kgf/cm\u00b2": ("kPa", "psi"),
    "\u00b0C": ("\u00b0F",),
    "\u00b0F": ("\u00b0C",),
}


@dataclass(frozen=True, slots=True)
class Presentation:
    """A value ready to be shown.

    source: the text exactly as entered. second: the same value in the second unit that the source prints, as
    entered, or None. converted: symbol of a unit -> the whole value in it; where the source prints that unit itself,
    the printed text. primary: those of the converted texts that belong on the first line.
    """

    source: str
    second: str | None
    converted: dict[str, str]
    primary: tuple[str, ...]

    def to_plain(self) -> dict[str, Any]:
        """The presentation as JSON-able values."""
        return {
            "source": self.source,
            "second": self.second,
            "converted": dict(self.converted),
            "primary": list(self.primary),
        }

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Presentation:
        """The inverse of `to_plain`."""
        return cls(plain["source"], plain["second"], dict(plain["converted"]), tuple(plain["primary"]))


def present(value: Value, second: Value | None = None) -> Presentation:
    """How a value is shown; `second` is the same value as the source prints it in a second unit.

    Threads, tool sizes and words are shown as entered and never converted: an 18 mm head takes no inch socket.
    UnitError when the second value measures another dimension.
    """
    amounts = measured(value)
    printed = second.text if second is not None else None
    if not amounts:
        return Presentation(value.text, printed, {}, ())
    unit, largest = amounts[0].unit, max(amounts, key=_size)
    dimension = UNITS[unit].dimension
    converted = {target: converted_text(value, target) for target in _targets(dimension, largest) if target != unit}
    primary = list(_FIRST_LINE[unit])
    if dimension == "torque":
        primary += _small_or_large_torque(largest)
    if second is not None:
        second_unit = _second_unit(second, dimension)
        if second_unit != unit:
            converted[second_unit] = second.text
            primary = [second_unit, *(target for target in primary if target != second_unit)]
    shown = tuple(converted[target] for target in primary if target in converted)
    return Presentation(value.text, printed, converted, shown)


def measured(value: Value) -> tuple[Amount, ...]:
    """The amounts of a value that conversion applies to (for stages, the torques); empty for words and sizes."""
    if isinstance(value, Single):
        return (value.amount,)
    if isinstance(value, Span):
        return (value.low, value.high)
    if isinstance(value, Tolerance):
        return (value.middle,)
    if isinstance(value, Staged):
        held = [measured(stage.amount) for stage in value.stages if stage.amount is not None]
        return tuple(a for amounts in held for a in amounts if UNITS[a.unit].dimension == "torque")
    return ()


def converted_text(value: Value, target: str) -> str:
    """The whole value in another unit, rounded; the angles and words between stages stay as entered.

    UnitError when the value measures another dimension than the target.
    """
    if isinstance(value, Staged):
        return "".join(_stage_text(stage, target) for stage in value.stages)
    if isinstance(value, Single):
        exact = convert(value.amount.number, value.amount.unit, target)
        step = rounding_step(exact, target, source=value.amount.unit)
        return _text((exact,), step, target, "")
    if isinstance(value, Span):
        low = convert(value.low.number, value.low.unit, target)
        high = convert(value.high.number, value.high.unit, target)
        step = min(rounding_step(end, target, tolerance=(high - low) / 2) for end in (low, high))
        return _text((low, high), step, target, " to ")
    if isinstance(value, Tolerance):
        middle = convert(value.middle.number, value.middle.unit, target)
        within = convert_step(value.within.number, value.within.unit, target)
        step = rounding_step(middle, target, tolerance=within)
        while abs(round_half_up(within, step) - within) > within * _WITHIN_MOST_OFF:
            step = step.scaleb(-1)
        return _text((middle, within), step, target, " \u00b1 ")
    raise UnitError(f"{value.text!r} is not measured in {target}; only quantities are converted")


def _text(exact: tuple[Decimal, ...], step: Decimal, unit: str, between: str) -> str:
    return between.join(figure_text(round_half_up(figure, step)) for figure in exact) + f" {unit}"


def _stage_text(stage: Stage, target: str) -> str:
    said = [stage.words] if stage.words else []
    if stage.amount is not None:
        said.append(_converted_stage(stage.amount, target))
    return stage.joint + " ".join(said)


def _converted_stage(amount: Plain, target: str) -> str:
    first = leading_amount(amount)
    if UNITS[first.unit].dimension == "angle":
        return amount.text
    return amount.text if first.unit == target else converted_text(amount, target)


def _size(amount: Amount) -> Decimal:
    """For comparing amounts of one dimension that may be in different units."""
    return convert(amount.number, amount.unit, _YARDSTICK[UNITS[amount.unit].dimension])


_YARDSTICK: dict[str, str] = {
    "torque": "N\u00b7m",
    "length": "mm",
    "volume": "L",
    "angle": "deg",
    "pressure": "kPa",
    "temperature": "\u00b0C",
}


def _small_or_large_torque(largest: Amount) -> list[str]:
    """What goes beside the usual unit on the first line: lb-in with a small torque, lb-ft with a large one in lb-in."""
    if _size(largest) < _SMALL_TORQUE:
        return ["lb-in"]
    return ["lb-ft"] if largest.unit in ("lb-in", "kgf\u00b7cm") else []


def _targets(dimension: Dimension, largest: Amount) -> tuple[str, ...]:
    size = _size(largest)
    if dimension == "torque":
        common = ("N\u00b7m", "lb-ft", "lb-in", "kgf\u00b7m")
        return (*common, "kgf\u00b7cm") if size < _SMALL_TORQUE else common
    if dimension == "length":
        thousandths = ("thou",) if size <= _SAID_IN_THOUSANDTHS else ()
        linings = ("32nds",) if _SAID_IN_32NDS[0] <= size <= _SAID_IN_32NDS[1] else ()
        return ("mm", "in", *thousandths, *linings)
    if dimension == "volume":
        return (
            ("L", "mL", "qt", "pt", "fl oz")
            if size < _SMALL_VOLUME
            else ("L", "mL", "qt", "pt", "gal", "imp qt", "imp pt")
        )
    if dimension == "pressure":
        return ("kPa", "psi", "bar")
    return ("\u00b0C", "\u00b0F") if dimension == "temperature" else ("deg", "turns")


def _second_unit(second: Value, dimension: Dimension) -> str:
    amounts = measured(second)
    if not amounts or UNITS[amounts[0].unit].dimension != dimension:
        raise UnitError(
            f"the second value {second.text!r} is no {dimension}; write the same {dimension} in another unit"
        )
    return amounts[0].unit
