"""What is left of a pad or a rotor, and how far it lasts when it goes on wearing as it did so far."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Reading:
    """A thickness, and how far it may be off to either side (half of the last place read); both in one unit."""

    size: Decimal
    off: Decimal


@dataclass(frozen=True, slots=True)
class Lasting:
    """How far a part lasts yet, in the unit of what it ran: as the readings say, at the least and at the most.

    most is None where the wear so far could be none at all as far as the readings can tell.
    """

    likely: Decimal
    least: Decimal
    most: Decimal | None


def left(now: Decimal, limit: Decimal) -> Decimal:
    """What may still wear off; nothing once the limit is reached."""
    return max(now - limit, Decimal(0))


def share_left(was: Decimal, now: Decimal, limit: Decimal) -> Decimal:
    """What is left in percent of all that could wear; was must lie above limit."""
    return left(now, limit) / (was - limit) * 100


def lasts(was: Reading, now: Reading, limit: Decimal, ran: Decimal) -> Lasting | None:
    """How far it lasts yet after it ran `ran`, at the same wear: (now - limit) / (was - now) * ran.

    The least and the most are the ends that the readings allow, each as far off as it can be. None when no wear shows.
    """
    worn = was.size - now.size
    if worn <= 0:
        return None
    least = left(now.size - now.off, limit) / (worn + was.off + now.off) * ran
    sure = worn - was.off - now.off
    most = left(now.size + now.off, limit) / sure * ran if sure > 0 else None
    return Lasting(left(now.size, limit) / worn * ran, least, most)
