"""Threads and ranges of make-believe figures for each fastener and part of the demo, by size of vehicle.

A torque is drawn from a range that its own thread and class can bear: T = K D F with K from 0.12 to 0.20 and F at
most 90 % of the ISO 898-1 proof load. No figure is taken from a vehicle; the ranges are invented around that bound.
"""

from __future__ import annotations

from dataclasses import dataclass

SIZES = ("small", "middle", "large", "heavy")

# Nut or bolt head across flats, mm, by nominal diameter: ISO 4014 sizes and common flange heads (common practice).
HEADS: dict[str, tuple[int, ...]] = {
    "M6": (10,),
    "M8": (12, 13),
    "M10": (14, 15, 16),
    "M12": (17, 18, 19),
    "M14": (21, 22),
    "M16": (24,),
}


@dataclass(frozen=True, slots=True)
class Joint:
    """A bolted joint: thread, property class ("" where the joint is no plain bolt), and its torque range in N·m."""

    thread: str
    grade: str
    low: int
    high: int


M6 = Joint("M6x1.0", "8.8", 7, 11)

JOINTS: dict[str, tuple[Joint, Joint, Joint, Joint]] = {
    "front caliper bracket bolt": (
        Joint("M10x1.25", "10.9", 62, 84),
        Joint("M12x1.5", "10.9", 95, 132),
        Joint("M14x1.5", "10.9", 150, 205),
        Joint("M16x1.5", "10.9", 235, 300),
    ),
    "rear caliper bracket bolt": (
        Joint("M10x1.25", "8.8", 44, 58),
        Joint("M10x1.25", "10.9", 58, 82),
        Joint("M12x1.5", "10.9", 100, 135),
        Joint("M14x1.5", "10.9", 155, 210),
    ),
    "caliper slide pin bolt": (
        Joint("M8x1.25", "8.8", 22, 29),
        Joint("M8x1.25", "10.9", 26, 36),
        Joint("M8x1.25", "10.9", 30, 40),
        Joint("M10x1.5", "8.8", 33, 40),
    ),
    "backing plate bolt": (
        Joint("M10x1.25", "8.8", 40, 58),
        Joint("M10x1.25", "10.9", 55, 78),
        Joint("M12x1.5", "8.8", 68, 96),
        Joint("M14x1.5", "8.8", 105, 150),
    ),
    "wheel cylinder bolt": (M6, M6, Joint("M8x1.25", "8.8", 15, 23), Joint("M8x1.25", "8.8", 18, 26)),
    "wheel speed sensor bolt": (M6, M6, M6, M6),
    "electric parking brake motor screw": (M6, M6, M6, M6),
    "brake hose banjo bolt": (
        Joint("M10x1.0", "", 24, 32),
        Joint("M10x1.0", "", 26, 36),
        Joint("M10x1.0", "", 28, 38),
        Joint("M12x1.0", "", 32, 42),
    ),
    "bleeder screw": (
        Joint("M7x1.0", "", 6, 10),
        Joint("M8x1.25", "", 7, 11),
        Joint("M10x1.0", "", 9, 14),
        Joint("M10x1.0", "", 10, 14),
    ),
    "wheel nut": (
        Joint("M12x1.5", "10.9", 88, 112),
        Joint("M12x1.5", "10.9", 100, 132),
        Joint("M14x1.5", "10.9", 148, 190),
        Joint("M14x1.5", "10.9", 175, 215),
    ),
    "axle nut": (
        Joint("M20x1.5", "", 170, 215),
        Joint("M24x1.5", "", 205, 265),
        Joint("M24x1.5", "", 230, 300),
        Joint("M27x1.5", "", 280, 360),
    ),
    "hub bearing bolt": (
        Joint("M10x1.25", "10.9", 52, 78),
        Joint("M12x1.5", "10.9", 78, 118),
        Joint("M14x1.5", "10.9", 132, 182),
        Joint("M14x1.5", "10.9", 165, 215),
    ),
    "lower ball joint nut": (
        Joint("M10x1.25", "8.8", 42, 58),
        Joint("M12x1.25", "8.8", 66, 96),
        Joint("M14x1.5", "8.8", 105, 150),
        Joint("M16x1.5", "8.8", 155, 225),
    ),
    "tie rod end nut": (
        Joint("M10x1.25", "8.8", 32, 50),
        Joint("M12x1.25", "8.8", 46, 72),
        Joint("M14x1.5", "8.8", 76, 112),
        Joint("M14x1.5", "8.8", 92, 130),
    ),
    "stabilizer link nut": (
        Joint("M10x1.25", "8.8", 36, 56),
        Joint("M10x1.25", "8.8", 40, 60),
        Joint("M12x1.5", "8.8", 62, 92),
        Joint("M12x1.5", "8.8", 70, 100),
    ),
    "strut to knuckle bolt": (
        Joint("M12x1.5", "10.9", 88, 125),
        Joint("M14x1.5", "10.9", 130, 190),
        Joint("M16x1.5", "10.9", 180, 250),
        Joint("M16x1.5", "10.9", 210, 290),
    ),
    "strut mount nut": (
        Joint("M8x1.25", "8.8", 18, 27),
        Joint("M8x1.25", "10.9", 24, 34),
        Joint("M10x1.25", "8.8", 36, 54),
        Joint("M10x1.25", "8.8", 40, 58),
    ),
    "lower control arm bolt": (
        Joint("M12x1.5", "10.9", 92, 132),
        Joint("M12x1.5", "10.9", 105, 148),
        Joint("M14x1.5", "10.9", 150, 220),
        Joint("M16x1.5", "10.9", 220, 310),
    ),
    "shock bolt": (
        Joint("M10x1.25", "10.9", 52, 80),
        Joint("M12x1.5", "8.8", 66, 100),
        Joint("M12x1.5", "10.9", 90, 130),
        Joint("M14x1.5", "10.9", 130, 190),
    ),
    "driveshaft flange bolt": (
        Joint("M8x1.25", "10.9", 28, 38),
        Joint("M10x1.25", "10.9", 50, 76),
        Joint("M10x1.25", "10.9", 58, 84),
        Joint("M12x1.5", "10.9", 95, 130),
    ),
    "engine oil drain plug": (
        Joint("M12x1.25", "", 20, 30),
        Joint("M14x1.5", "", 26, 40),
        Joint("M14x1.5", "", 28, 44),
        Joint("M16x1.5", "", 36, 52),
    ),
    "spark plug": (
        Joint("M12x1.25", "", 15, 21),
        Joint("M12x1.25", "", 16, 22),
        Joint("M14x1.25", "", 20, 28),
        Joint("M14x1.25", "", 22, 30),
    ),
}  # fmt: skip

BLEEDER_HEADS = (8, 10, 11)
AXLE_NUT_SOCKETS = (30, 32, 32, 36)
WHEEL_SOCKETS = ((17, 19), (19,), (21,), (22,))
# New thickness of front and rear rotors, mm; the wear allowance is drawn beside it.
ROTORS = {"front": (20.0, 24.0, 30.0, 36.0), "rear": (9.0, 11.0, 20.0, 30.0)}
DRUMS = (200.0, 228.0, 254.0, 320.0)
TIRES = (220, 240, 270, 420)
OILS = {"petrol": ("0W-20", "5W-20", "5W-30"), "hybrid": ("0W-16", "0W-20"), "diesel": ("5W-40", "10W-30")}
BRAKE_FLUIDS = ("DOT 3", "DOT 4", "DOT 4 low viscosity", "DOT 5.1")
ORDERS = {4: "1-3-2-4", 5: "1-3-5-2-4", 6: "1-4-2-5-3-6", 8: "1-5-3-7-2-6-4-8"}
