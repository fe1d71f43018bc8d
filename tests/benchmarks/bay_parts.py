"""What a benchmark vehicle has rows for, and how a technician says each of them: in full and in shop shorthand."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """One row of every generation.

    figure: the property. low, high: what its value is drawn from, in `unit`, in steps of 1 / 10**digits. split: whether
    the value differs by engine. full, short: wordings of component and property, without the axle.
    """

    component: str
    position: str
    figure: str
    unit: str
    low: float
    high: float
    full: tuple[str, ...]
    short: tuple[str, ...]
    digits: int = 0
    split: bool = False

    @property
    def axle(self) -> str:
        """The axle that must be stated, "" where the component has none."""
        return next((word for word in self.position.split() if word in ("front", "rear")), "")


_BRACKET = (
    ("caliper bracket bolt torque", "torque for the caliper bracket bolts"),
    ("cal brkt bolt tq", "brkt bolts tq"),
)
_SLIDE = ("caliper slide pin bolt torque",), ("slide pin bolt tq", "cal slide pin tq")
_LEAST = ("rotor minimum thickness", "brake rotor minimum thickness"), ("rotor min thk", "min rotor thickness")
_PAD = ("brake pad minimum thickness",), ("pad min thickness", "min pad thickness")
_BLEEDER = ("bleeder screw torque",), ("bleeder tq", "bleeder torque")
_LINK = ("stabilizer link nut torque", "sway bar link nut torque"), ("sway link nut tq", "stab link nut tq")
_SENSOR = ("wheel speed sensor bolt torque",), ("wss bolt tq", "speed sensor bolt tq")
_HUB = ("hub bearing bolt torque",), ("hub bearing bolt tq", "hub bearing bolts torque")

PARTS: tuple[Part, ...] = (
    Part("caliper bracket bolt", "front", "torque", "lb-ft", 60, 160, *_BRACKET, split=True),
    Part("caliper bracket bolt", "rear", "torque", "lb-ft", 40, 110, *_BRACKET, split=True),
    Part("caliper slide pin bolt", "front", "torque", "lb-ft", 16, 34, *_SLIDE),
    Part("caliper slide pin bolt", "rear", "torque", "lb-ft", 16, 34, *_SLIDE),
    Part("brake rotor", "front", "nominal thickness", "mm", 20, 32,
         ("rotor nominal thickness", "brake rotor nominal thickness"), ("rotor nominal thk",), 1),
    Part("brake rotor", "front", "minimum thickness", "mm", 18, 30, *_LEAST, 1),
    Part("brake rotor", "rear", "minimum thickness", "mm", 8, 18, *_LEAST, 1),
    Part("brake rotor", "front", "maximum runout", "mm", 0.03, 0.1, ("rotor maximum runout",), ("rotor runout",), 2),
    Part("brake pad", "front", "minimum thickness", "mm", 1, 3, *_PAD, 1),
    Part("brake pad", "rear", "minimum thickness", "mm", 1, 3, *_PAD, 1),
    Part("brake hose banjo bolt", "front", "torque", "lb-ft", 18, 30,
         ("brake hose banjo bolt torque", "banjo bolt torque"), ("banjo bolt tq", "banjo tq")),
    Part("bleeder screw", "front", "torque", "lb-in", 60, 120, *_BLEEDER),
    Part("bleeder screw", "rear", "torque", "lb-in", 60, 120, *_BLEEDER),
    Part("wheel speed sensor bolt", "front", "torque", "lb-in", 60, 95, *_SENSOR),
    Part("wheel speed sensor bolt", "rear", "torque", "lb-in", 60, 95, *_SENSOR),
    Part("axle nut", "front", "torque", "lb-ft", 140, 260, ("axle nut torque",), ("axle nut tq",)),
    Part("hub bearing bolt", "front", "torque", "lb-ft", 50, 130, *_HUB),
    Part("hub bearing bolt", "rear", "torque", "lb-ft", 50, 130, *_HUB),
    Part("stabilizer link nut", "front", "torque", "lb-ft", 30, 70, *_LINK),
    Part("stabilizer link nut", "rear", "torque", "lb-ft", 30, 70, *_LINK),
    Part("wheel nut", "", "torque", "lb-ft", 75, 150, ("wheel nut torque", "lug nut torque"), ("lug tq", "lug nut tq")),
    Part("engine oil drain plug", "", "torque", "lb-ft", 18, 36,
         ("oil drain plug torque", "engine oil drain plug torque"), ("drain plug tq",)),
    Part("engine oil", "", "capacity", "qt", 3.2, 7.8,
         ("engine oil capacity", "oil capacity"), ("motor oil capacity", "eng oil capacity"), 1),
    Part("tie rod end nut", "", "torque", "lb-ft", 25, 60,
         ("tie rod end nut torque",), ("tre nut tq", "tie rod nut tq")),
    Part("spark plug", "", "torque", "lb-ft", 10, 20, ("spark plug torque",), ("spark plug tq", "spark plug trq")),
)  # fmt: skip
SHORT_AXLE = {"front": ("frt", "front", "fr"), "rear": ("rr", "rear")}
# Left off every sibling: asking for it must never bring the figure of the vehicle with the near name.
NOT_ON_SIBLINGS = ("hub bearing bolt", "stabilizer link nut")
