"""Quantities: torque, length, volume, angle, pressure and temperature, read, held, converted and shown."""

from __future__ import annotations

from benchbot.quantities.agreement import Agreement, compare_second
from benchbot.quantities.amounts import (
    Amount,
    Single,
    Span,
    Stage,
    Staged,
    Thread,
    Tolerance,
    ToolSize,
    Value,
    ValueKind,
    Words,
)
from benchbot.quantities.asking import BareUnitQuestion, Conversion, answered, asked_conversion
from benchbot.quantities.convert import convert
from benchbot.quantities.numbers import read_number
from benchbot.quantities.presentation import Presentation, converted_text, present
from benchbot.quantities.reading import parse_value
from benchbot.quantities.reckoning import ConvertedTo
from benchbot.quantities.units import (
    ALSO_WORDS,
    BARE,
    SPELLINGS,
    UNITS,
    BareUnitError,
    Dimension,
    Unit,
    fold_spelling,
    read_unit,
)

__all__ = [
    "ALSO_WORDS",
    "BARE",
    "SPELLINGS",
    "UNITS",
    "Agreement",
    "Amount",
    "BareUnitError",
    "BareUnitQuestion",
    "Conversion",
    "ConvertedTo",
    "Dimension",
    "Presentation",
    "Single",
    "Span",
    "Stage",
    "Staged",
    "Thread",
    "Tolerance",
    "ToolSize",
    "Unit",
    "Value",
    "ValueKind",
    "Words",
    "answered",
    "asked_conversion",
    "compare_second",
    "convert",
    "converted_text",
    "fold_spelling",
    "parse_value",
    "present",
    "read_number",
    "read_unit",
]
