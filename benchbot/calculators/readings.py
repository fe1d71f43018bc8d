"""What a row of readings around a rotor says: thickness variation, runout, and the thinnest place."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from benchbot.errors import QuantityError

FEW = 4
"""With fewer readings than this around a rotor a thick or thin place is easily missed: common practice, no source."""


def spread(readings: Sequence[Decimal]) -> Decimal:
    """The largest reading less the smallest, in their unit: thickness variation of thicknesses, runout of a dial.

    QuantityError with fewer than two readings.
    """
    if len(readings) < 2:
        raise QuantityError("one reading has no variation; give two or more")
    return max(readings) - min(readings)


def thinnest(readings: Sequence[Decimal]) -> Decimal:
    """The reading that is held against a limit."""
    return min(readings)
