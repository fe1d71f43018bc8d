"""The figure of a spec row: its value read by the property's kind of quantity, and checked against the second value."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from typing import Any

from benchbot.errors import QuantityError
from benchbot.quantities.agreement import compare_second
from benchbot.quantities.amounts import Value, ValueKind
from benchbot.quantities.reading import parse_value
from benchbot.specs.properties import PROPERTIES


@dataclass(frozen=True, slots=True)
class Reading:
    """A figure as it was read; `doubt` says why the second value may be a slip, or is ""."""

    value: Value
    second: Value | None
    doubt: str


def read_figure(name: str, value: str, second_value: str) -> Reading:
    """The figure of a property of that exact name. ValueError: ("column: what is wrong", what would be right)."""
    kind: ValueKind = PROPERTIES[name]
    first = _read("value", kind, value)
    if not second_value:
        return Reading(first, None, "")
    if kind == "words":
        raise ValueError(f"second_value: a {name} has no second unit", "leave the cell empty")
    second = _read("second_value", kind, second_value)
    try:
        agreement = compare_second(first, second)
    except QuantityError as error:
        raise ValueError(f"second_value: {error}", "leave the cell empty") from error
    if agreement.grade == "reject":
        raise ValueError(f"second_value: {agreement.text}", "compare both with the source and correct the slip")
    return Reading(first, second, agreement.text)


def check_thread(text: str) -> None:
    """ValueError: (what is wrong, what would be right) when a thread cannot be read."""
    if text:
        try:
            parse_value("thread", text)
        except QuantityError as error:
            raise ValueError(f"{text!r} is no thread ({error})", "write it as M12x1.5 or 1/2-20") from error


def sameness(value: Value) -> tuple[Any, ...]:
    """What two values share when they state the same figure: numbers and units, not how these were typed."""
    return _stripped(value) or (" ".join(value.text.casefold().split()),)


def _read(column: str, kind: ValueKind, text: str) -> Value:
    try:
        return parse_value(kind, text)
    except QuantityError as error:
        raise ValueError(f"{column}: {text!r} is no {kind} ({error})", _EXAMPLES[kind]) from error


def _stripped(part: Any) -> Any:
    if is_dataclass(part) and not isinstance(part, type):
        return tuple(_stripped(getattr(part, field.name)) for field in fields(part) if field.name != "text")
    if isinstance(part, tuple):
        return tuple(_stripped(piece) for piece in part)
    return part.normalize() if isinstance(part, Decimal) else part


_EXAMPLES: dict[ValueKind, str] = {
    "torque": "write it as 128 N·m, 94 lb-ft, 95..105 N·m, 100 ± 5 N·m or 30 N·m + 90 deg",
    "length": "write it as 22.0 mm or 0.87 in",
    "volume": "write it as 4.3 L or 4.5 qt",
    "angle": "write it as 90 deg",
    "pressure": "write it as 230 kPa or 33 psi",
    "temperature": "write it as 80 °C",
    "thread": "write it as M12x1.5 or 1/2-20",
    "tool size": "write it as 18 mm, 3/4 in, T40 or 8 mm hex",
    "words": "write the words as the source prints them",
}
