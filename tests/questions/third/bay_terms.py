"""What the examiner knows of the trade: parts and how they are said, properties, parts no book here holds, chatter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Part:
    """A component and how it is said.

    axles: "both" = the axle must be stated; "one" = sits on one axle by nature; "none" = the axle says nothing.
    said: unambiguous wordings, singular; property -> positions tells what a full vehicle would hold.
    default: the property meant when none is said, or "" when that must be asked.
    """

    name: str
    axles: str
    said: tuple[str, ...]
    held: Mapping[str, tuple[str, ...]]
    default: str = "torque"


FRONT_REAR = ("front", "rear")
BOLT: Mapping[str, tuple[str, ...]] = {"torque": FRONT_REAR, "socket": FRONT_REAR}

PARTS = (
    Part("caliper bracket bolt", "both", ("caliper bracket bolt", "bracket bolt", "carrier bolt", "brkt bolt"), BOLT),
    Part("caliper slide pin bolt", "both", ("slide pin bolt", "caliper slide pin bolt", "guide pin bolt"), BOLT),
    Part(
        "brake rotor", "both", ("rotor", "brake rotor", "disc", "brake disc"),
        {"nominal thickness": FRONT_REAR, "minimum thickness": FRONT_REAR, "maximum runout": FRONT_REAR}, "",
    ),
    Part("brake pad", "both", ("brake pad", "pad"), {"minimum thickness": FRONT_REAR}, ""),
    Part("bleeder screw", "both", ("bleeder screw", "bleeder", "bleed nipple"), {"torque": FRONT_REAR}),
    Part("wheel speed sensor bolt", "both", ("wheel speed sensor bolt", "abs sensor bolt"), {"torque": FRONT_REAR}),
    Part("brake drum", "both", ("brake drum", "drum"), {"maximum diameter": ("rear",)}, ""),
    Part("brake shoe", "both", ("brake shoe", "shoe"), {"minimum thickness": ("rear",)}, ""),
    Part("wheel cylinder bolt", "both", ("wheel cylinder bolt",), {"torque": ("rear",)}),
    Part("backing plate bolt", "both", ("backing plate bolt",), {"torque": ("rear",)}),
    Part("brake hose banjo bolt", "both", ("banjo bolt", "brake hose banjo bolt"), {"torque": ("front",)}),
    Part("wheel nut", "none", ("lug nut", "wheel nut", "lugs"), {"torque": ("",), "socket": ("",)}),
    Part("axle nut", "both", ("axle nut",), {"torque": ("front",)}),
    Part("hub bearing bolt", "both", ("hub bearing bolt",), {"torque": ("rear",)}),
    Part(
        "tie rod end nut", "one", ("tie rod end nut", "outer tie rod end nut", "track rod end nut"),
        {"torque": ("",)},
    ),
    Part("lower ball joint nut", "one", ("lower ball joint nut",), {"torque": ("front",)}),
    Part(
        "stabilizer link nut", "both",
        ("stabilizer link nut", "sway bar link nut", "sway bar end link nut", "drop link nut"),
        {"torque": FRONT_REAR},
    ),
    Part("strut to knuckle bolt", "both", ("strut to knuckle bolt",), {"torque": ("front",)}),
    Part("shock bolt", "both", ("shock bolt",), {"torque": ("rear upper", "rear lower")}),
    Part("engine oil drain plug", "none", ("oil drain plug", "engine oil drain plug", "sump plug"), {"torque": ("",)}),
    Part("engine oil", "none", ("engine oil",), {"capacity": ("",), "fluid": ("",)}, ""),
    Part("brake fluid", "none", ("brake fluid",), {"fluid": ("",)}, "fluid"),
    Part("spark plug", "none", ("spark plug",), {"torque": ("",), "gap": ("",)}, ""),
    Part("tire", "both", ("tire", "tyre"), {"pressure": FRONT_REAR}, ""),
    Part("coolant", "none", ("coolant",), {"capacity": ("",)}, ""),
)  # fmt: skip
PART = {part.name: part for part in PARTS}

# Words with two trade meanings: asked back whatever the book holds.
DOUBTFUL = ("caliper bolt", "caliper bolts", "slider bolt", "slider bolts", "caliper torque", "calliper bolt")
DOUBTFUL_PARTS = ("caliper bracket bolt", "caliper slide pin bolt")

PROPERTY_SAID = {
    "torque": ("torque", "tq", "torque spec", "trq"),
    "socket": ("socket", "socket size"),
    "nominal thickness": ("nominal thickness", "new thickness", "nominal"),
    "minimum thickness": ("min thickness", "minimum thickness", "min", "minimum", "discard", "wear limit"),
    "maximum runout": ("runout", "max runout", "runout limit"),
    "maximum diameter": ("max diameter", "maximum diameter", "max", "discard"),
    "capacity": ("capacity",),
    "fluid": ("type",),
    "gap": ("gap",),
    "pressure": ("pressure",),
}
# Vague wordings, and the properties among which the tech must choose; "" = nothing said.
VAGUE: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "brake rotor": {
        "": ("nominal thickness", "minimum thickness", "maximum runout"),
        "spec": ("nominal thickness", "minimum thickness", "maximum runout"),
        "thickness": ("nominal thickness", "minimum thickness"),
    },
    "brake pad": {"thickness": ("minimum thickness",)},
    "brake drum": {"diameter": ("maximum diameter",)},
    "spark plug": {"": ("torque", "gap")},
    "engine oil": {"": ("capacity", "fluid")},
}
AXLE_SAID = {"front": ("front", "frt", "frnt"), "rear": ("rear", "rr")}

UNKNOWN_PARTS = (
    "exhaust bracket bolt", "hose bracket bolt", "head bolts", "rocker cover bolts", "intake manifold bolts",
    "flywheel bolts", "alternator bracket bolt", "bumper bracket bolt", "seat bolt", "wiper arm nut",
    "clutch slave cylinder bolts", "door hinge bolts", "cab mount bolt", "thermostat housing bolts",
    "turbo oil feed banjo bolt", "timing cover bolts",
)  # fmt: skip

OTHER = (
    "thanks", "cheers mate", "ok got it", "nice one", "ta", "morning all", "hey you there", "never mind sorted it",
    "who took my torque wrench", "the rotors came in wrong, sending em back", "parts guy just dropped the pads off",
    "anyone seen the caliper wind back tool", "is bay {n} free", "out of brake clean again", "lunch at {n}?",
    "back at {n}", "20{y} was a rough year", "need a new {s}mm socket, mine split", "boss is yelling again",
    "who parked in front of my lift", "asdf jkl", "lol", "this phone is useless with gloves on",
    "can somebody bring the tall jack to bay {n}", "customer in the waiting room wants coffee",
    "tell the desk my {n} oclock is late", "left the lug wrench outside", "qwertyuiop",
)  # fmt: skip

BEFORE = (
    "hey ", "hi ", "quick one ", "ok so ", "yo ", "need ", "uh ", "sorry to bug you ",
    "RO {o} ", "ro#{o} ", "RO {o} - ", "my cell is 555-01{p} ", "can i get ", "hands are greasy, ", "G'day, ",
)  # fmt: skip
AFTER = (
    " pls", " please", " thx", " asap", " cust is waiting", " ?", "??", " got it on the lift now", " mate",
    ", {k}k miles on it", ", odometer says {k},000 km", " thanks",
)  # fmt: skip
BETWEEN = ("thx", "ok", "cheers", "got it", "lol", "thanks mate")
UNIT_AGAIN = ("in nm?", "in ft lbs?", "how many ft lbs is that", "whats that in newton meters")
