"""What a torque does to a bolt: F = T / (K·d), held against its proof load. It never gives a torque.

Stress areas, strengths and the range of K are those that the check of spec rows uses.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.checking.bolt_load import ANY_FINISH, DRY, OILED, Fastener, fastener_of
from benchbot.checking.strength import strength_of
from benchbot.quantities.fittings import read_thread

__all__ = ["ANY_FINISH", "DRY", "OILED", "Fastener", "Load", "fastener", "load"]


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
