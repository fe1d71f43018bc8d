"""Writes the demo's figures the way a sheet prints them: its first unit, stages, ranges and a second unit."""

from __future__ import annotations

import re
from random import Random

LB_FT = 1.3558179483314004  # N·m in one pound-foot, NIST SP 811 appendix B.8
LB_IN = LB_FT / 12
INCH = 25.4  # exact, NIST SP 811 appendix B.8
QUART = 0.946352946  # L in one US liquid quart, NIST SP 811 appendix B.8
PSI = 6.894757293  # kPa in one pound per square inch, NIST SP 811 appendix B.8


def torque(newton_metres: int, units: str, form: str, chance: Random) -> str:
    """A torque cell. form: plain, range, tolerance, angle (stage then degrees) or rotate (seat, rotate, final)."""
    unit = "lb-in" if units == "lb-ft" and newton_metres < 15 else units
    figure = round(newton_metres / {"N·m": 1.0, "lb-ft": LB_FT, "lb-in": LB_IN}[unit])
    if form == "range":
        return f"{figure - max(1, figure // 20)}..{figure + max(1, figure // 20)} {unit}"
    if form == "tolerance":
        return f"{figure} ± {max(1, figure // 20)} {unit}"
    if form == "angle":
        return f"{figure * 11 // 20} {unit} + {chance.choice((30, 45, 60, 90))} deg"
    if form == "rotate":
        return f"{figure // 2} {unit}; rotate; {figure} {unit}"
    return f"{figure} {unit}"


def length(millimetres: float, unit: str, fine: bool = False) -> str:
    """A length cell; fine = a small limit, which an inch sheet prints to the ten-thousandth."""
    if unit == "in":
        return f"{millimetres / INCH:.{4 if fine else 3}f} in"
    return f"{millimetres:.3f}".rstrip("0") + " mm" if fine else f"{millimetres:.1f} mm"


def litres(amount: float, unit: str) -> str:
    return f"{amount / QUART:.1f} qt" if unit == "qt" else f"{amount:.1f} L"


def pressure(kilopascal: int, unit: str) -> str:
    return f"{round(kilopascal / PSI)} psi" if unit == "psi" else f"{kilopascal} kPa"


_SECOND = {
    "N·m": ("lb-ft", 1 / LB_FT),
    "lb-ft": ("N·m", LB_FT),
    "lb-in": ("N·m", LB_IN),
    "mm": ("in", 1 / INCH),
    "L": ("qt", 1 / QUART),
    "qt": ("L", QUART),
    "kPa": ("psi", 1 / PSI),
    "psi": ("kPa", PSI),
}


def in_second_unit(value: str) -> str:
    """The same figure in the sheet's second unit, rounded by less than 1 %; "" for stages, ranges, words, sockets."""
    found = re.fullmatch(r"(\d+(?:\.\d+)?) (\S+)", value)
    if found is None or found[2] not in _SECOND:
        return ""
    unit, factor = _SECOND[found[2]]
    if found[2] == "N·m" and float(found[1]) < 15:
        unit, factor = "lb-in", 1 / LB_IN
    exact = float(found[1]) * factor
    for digits in range(3 if unit == "in" else 0, 6):
        if abs(round(exact, digits) - exact) < 0.005 * exact:
            return f"{exact:.{digits}f} {unit}"
    raise ValueError(f"{value} has no printable second figure")
