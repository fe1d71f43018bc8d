"""What to set on a torque wrench when an adapter moves the fastener away from the drive, and what such a setting gives.

The hand's force F turns the drive with F·L and the fastener with F·(L + E·cos a), so
setting = target · L / (L + E·cos a); the rule is that of the handbooks that come with torque wrenches.
"""

from __future__ import annotations

import math
from decimal import Decimal

from benchbot.errors import QuantityError

IN_LINE, ACROSS, REVERSED = Decimal(0), Decimal(90), Decimal(180)
_EXACT = {IN_LINE: Decimal(1), ACROSS: Decimal(0), REVERSED: Decimal(-1)}
# Reversed and nearly as long as the wrench, an adapter leaves almost no lever, and the sum means nothing.
_LEAST_LEVER = Decimal("0.2")


def cosine(degrees: Decimal) -> Decimal:
    """The cosine of an angle in degrees; exact where the adapter is in line, across or reversed."""
    exact = _EXACT.get(degrees)
    return Decimal(repr(math.cos(math.radians(float(degrees))))) if exact is None else exact


def reach(lever: Decimal, length: Decimal, degrees: Decimal) -> Decimal:
    """L + E·cos a, in the unit of both.

    lever: from the centre of the square drive to the hand; length: from the centre of the square drive to the centre
    of the fastener; degrees: 0 in line with the wrench, 90 across, 180 pointing back along the handle. QuantityError
    when a length is not above zero, the angle is beyond 0 to 180, or hardly any lever is left.
    """
    if lever <= 0 or length < 0 or not 0 <= degrees <= 180:
        raise QuantityError(
            f"wrench {lever}, adapter {length} at {degrees} degrees cannot be; "
            "give lengths above zero and an angle from 0 to 180"
        )
    whole = lever + length * cosine(degrees)
    if whole < lever * _LEAST_LEVER:
        raise QuantityError(f"an adapter of {length} turned back on a wrench of {lever} leaves no lever; turn it round")
    return whole


def setting(target: Decimal, lever: Decimal, length: Decimal, degrees: Decimal = IN_LINE) -> Decimal:
    """What to set so that the fastener gets the target; in the target's unit."""
    return target * lever / reach(lever, length, degrees)


def reached(set_: Decimal, lever: Decimal, length: Decimal, degrees: Decimal = IN_LINE) -> Decimal:
    """What the fastener gets when the wrench clicks at a setting; in the setting's unit."""
    return set_ * reach(lever, length, degrees) / lever
