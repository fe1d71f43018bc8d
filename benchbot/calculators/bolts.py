"""What a torque does to a bolt: F = T / (K·d), held against its proof load. It never gives a torque.

Stress areas, strengths and the range of K are those that the check of spec rows uses; areas and loads are rounded to
three figures first, as ISO 898-1 prints them (84.3 mm² × 830 MPa = 70 000 N).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from benchbot.checking.bolt_load import ANY_FINISH, DRY, OILED, Fastener, fastener_of
from benchbot.checking.strength import strength_of
from benchbot.quantities.fittings import read_thread

__all__ = ["ANY_FINISH", "DRY", "OILED", "Fastener", "Load", "breaking", "fastener", "load", "nominal_area", "proof"]


@dataclass(frozen=True, slots=True)
class Load:
    """What a torque can put on a bolt, in N, from the most friction to the least."""

    least: float
    most: float


def fastener(thread: str, strength: str) -> Fastener | None:
    """The bolt of a thread ("M12x1.75") and a class or grade ("10.9"); None where the standards know none such.

    QuantityError when the thread is none.
    """
    read = read_thread(thread)
    known = strength_of(strength, read)
    return None if known is None else fastener_of(read, known)


def load(torque: float, diameter: float, k: tuple[float, float] = ANY_FINISH) -> Load:
    """The loads of a torque in N·m on a thread of a diameter in mm; k: the least and the most nut factor."""
    low, high = k
    return Load(torque / (high * diameter / 1000), torque / (low * diameter / 1000))


def nominal_area(bolt: Fastener) -> Decimal:
    """The stress area in mm² as the tables print it."""
    return _three_figures(Decimal(repr(bolt.area)))


def proof(bolt: Fastener) -> Decimal:
    """The load in N that leaves no lasting stretch, rounded as the tables print it."""
    return _three_figures(nominal_area(bolt) * Decimal(round(bolt.strength.proof)))


def breaking(bolt: Fastener) -> Decimal:
    """The load in N from which it may break, rounded as the tables print it."""
    return _three_figures(nominal_area(bolt) * Decimal(round(bolt.strength.tensile)))


def _three_figures(number: Decimal) -> Decimal:
    return number.quantize(Decimal(1).scaleb(number.adjusted() - 2), rounding=ROUND_HALF_UP)
