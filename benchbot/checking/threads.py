"""Pitch, diameter and stress area of a thread: ISO 261, ISO 898-1 and ASME B1.1."""

from __future__ import annotations

from math import pi

from benchbot.quantities.amounts import Thread

MM_PER_INCH = 25.4

# Coarse pitches of ISO 261 in mm by diameter in mm, for a thread that is written without its pitch ("M10").
_COARSE = {
    1.6: 0.35, 2: 0.4, 2.5: 0.45, 3: 0.5, 3.5: 0.6, 4: 0.7, 5: 0.8, 6: 1.0, 7: 1.0, 8: 1.25, 9: 1.25, 10: 1.5, 11: 1.5,
    12: 1.75, 14: 2.0, 16: 2.0, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3.0, 27: 3.0, 30: 3.5, 33: 3.5, 36: 4.0, 39: 4.0,
}  # fmt: skip

# The mean of pitch diameter and of the diameter at the root lies this many pitches below the outer diameter. The two
# standards take different roots: ISO 898-1 (9.1.6.1) one rounded by a sixth of the thread's height, ASME B1.1 not.
_ISO_DEPTH = 0.9382
_INCH_DEPTH = 0.9743

# What ISO 898-1 and SAE J429 cover.
_METRIC_SIZES = (1.6, 39.0)
_INCH_SIZES = (0.25, 1.5)


def is_metric(thread: Thread) -> bool:
    return thread.diameter.unit == "mm"


def diameter_mm(thread: Thread) -> float:
    """The outer diameter in mm."""
    return float(thread.diameter.number) * (1.0 if is_metric(thread) else MM_PER_INCH)


def pitch_mm(thread: Thread) -> float | None:
    """The pitch in mm, the coarse one where none is written; None when that is not known either."""
    if thread.pitch is not None:
        return float(thread.pitch)
    if thread.per_inch is not None:
        return MM_PER_INCH / float(thread.per_inch)
    return _COARSE.get(float(thread.diameter.number))


def stress_area(thread: Thread) -> float | None:
    """The area in mm² that carries the load: pi/4 (d - 0.9382 P)², with 0.9743 for an inch thread.

    None when the pitch is not known, or the standards of strength do not cover the size.
    """
    low, high = _METRIC_SIZES if is_metric(thread) else _INCH_SIZES
    pitch = pitch_mm(thread)
    if pitch is None or not low <= float(thread.diameter.number) <= high:
        return None
    depth = _ISO_DEPTH if is_metric(thread) else _INCH_DEPTH
    return pi / 4 * (diameter_mm(thread) - depth * pitch) ** 2
