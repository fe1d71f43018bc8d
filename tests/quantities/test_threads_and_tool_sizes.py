"""Threads and tool sizes are read with the unit they were written in, or refused."""

from __future__ import annotations

from decimal import Decimal

import pytest

from benchbot.errors import QuantityError
from benchbot.quantities import Thread, ToolSize, parse_value


@pytest.mark.parametrize(
    ("text", "diameter", "unit", "pitch", "per_inch", "left"),
    [
        ("M12x1.5", "12", "mm", "1.5", None, False), ("M12×1.5", "12", "mm", "1.5", None, False),
        ("m8 x 1,25", "8", "mm", "1.25", None, False),
        ("M10", "10", "mm", None, None, False), ("M14X1.5 LH", "14", "mm", "1.5", None, True),
        ("M12-1.75", "12", "mm", "1.75", None, False),
        ("7/16-20", "0.4375", "in", None, "20", False), ("1/2-20 UNF", "0.5", "in", None, "20", False),
        ("9/16-18 left hand", "0.5625", "in", None, "18", True), ("1 1/8-12", "1.125", "in", None, "12", False),
    ],
)  # fmt: skip
def test_threads(text: str, diameter: str, unit: str, pitch: str | None, per_inch: str | None, left: bool) -> None:
    value = parse_value("thread", text)
    assert isinstance(value, Thread)
    assert (value.diameter.number, value.diameter.unit) == (Decimal(diameter), unit)
    assert value.pitch == (None if pitch is None else Decimal(pitch))
    assert value.per_inch == (None if per_inch is None else Decimal(per_inch))
    assert (value.left_hand, value.text) == (left, text)


# ISO 261 coarse pitches, values from memory: none may be refused.
@pytest.mark.parametrize(
    "text",
    ["M1.6x0.35", "M2x0.4", "M2.5x0.45", "M3x0.5", "M4x0.7", "M5x0.8", "M6x1", "M8x1.25", "M10x1.5", "M12x1.75",
    "M14x2", "M16x2",
     "M18x2.5", "M20x2.5", "M22x2.5", "M24x3", "M30x3.5", "M36x4"],
)  # fmt: skip
def test_coarse_threads(text: str) -> None:
    assert isinstance(parse_value("thread", text), Thread)


@pytest.mark.parametrize(
    "text",
    ["M12x15", "M12-10.9", "M8-8.8", "M16-4.8", "M0x1", "M500x2", "12x1.5", "M12x1.5x3", "M12x", "Mx1.5", "18 mm",
    "1/2-200", "7/0-20",
     "9-20", "M12x1.5 RH", "🔩"],
)  # fmt: skip
def test_threads_that_are_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_value("thread", text)


@pytest.mark.parametrize(
    ("text", "drive", "size", "unit", "number"),
    [
        ("18 mm", "", "18", "mm", None), ("18mm socket", "", "18", "mm", None), ("5/8", "", "0.625", "in", None),
        ('13/16"', "", "0.8125", "in", None),
        ("1 1/8 in", "", "1.125", "in", None), ("8 mm hex", "hex", "8", "mm", None),
        ("8 mm hex key", "hex key", "8", "mm", None),
        ("6mm Allen", "hex key", "6", "mm", None), ("H8", "hex key", "8", "mm", None),
        ("36 mm 12-point", "12-point", "36", "mm", None),
        ("5.5 mm", "", "5.5", "mm", None), ("T40", "Torx", None, None, 40), ("T-50 Torx", "Torx", None, None, 50),
        ("TX30", "Torx", None, None, 30),
        ("E14", "E-Torx", None, None, 14), ("E18 E-Torx", "E-Torx", None, None, 18),
        ("M10 spline", "spline", None, None, 10),
        ("PH2", "cross", None, None, 2), ("11 mm flare nut wrench", "flare nut", "11", "mm", None),
    ],
)  # fmt: skip
def test_tool_sizes(text: str, drive: str, size: str | None, unit: str | None, number: int | None) -> None:
    value = parse_value("tool size", text)
    assert isinstance(value, ToolSize)
    assert (value.drive, value.number, value.text) == (drive, number, text)
    if size is None:
        assert value.size is None
    else:
        assert value.size is not None
        assert (value.size.number, value.size.unit) == (Decimal(size), unit)


@pytest.mark.parametrize(
    "text", ["M10", "0 mm", "180 mm", "9 in", "5/8 mm", "T0", "T900", "H0", "18 mm banana", "18 N·m", "T", "mm",
    "-18 mm", "18 cm"]
)  # fmt: skip
def test_tool_sizes_that_are_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_value("tool size", text)
