"""The vehicles of the demo: invented makes and models, their years, and what splits their figures."""

from __future__ import annotations

from dataclasses import dataclass, field

BRAKES = ("front brakes", "rear brakes")
EVERYTHING = (
    "front brakes",
    "rear brakes",
    "wheels",
    "hubs",
    "suspension",
    "steering",
    "engine",
    "driveline",
    "fluids",
)


@dataclass(frozen=True, slots=True)
class Branch:
    """One way a vehicle is built: the `only_if` text, and where it differs from the rest of its generation."""

    only_if: str
    rear: str = ""
    motor: str = ""
    driven: str = ""
    litres: str = ""


@dataclass(frozen=True, slots=True)
class Generation:
    """A model over a run of model years.

    size: small, middle, large or heavy, which picks the threads and figures.
    rear: drum, disc, hat (disc with shoes inside) or epb (disc with an electric parking brake).
    driven: front, rear or all; wheel: nut or bolt; units: the unit its sheets print first.
    splits: which areas of the vehicle differ by branch; an area not named has one row for all branches.
    """

    make: str
    model: str
    first: int
    last: int
    size: str
    rear: str
    units: str
    motor: str = "petrol"
    driven: str = "front"
    litres: str = "4.0"
    wheel: str = "nut"
    lugs: int = 5
    second: bool = False
    splits: dict[tuple[str, ...], tuple[Branch, ...]] = field(default_factory=dict)

    def branches(self, area: str) -> tuple[Branch, ...]:
        """How this area of the vehicle is split; one nameless branch when it is not."""
        for areas, branches in self.splits.items():
            if area in areas:
                return branches
        return (Branch(""),)


FLEET: tuple[Generation, ...] = (
    Generation("Brackwell", "Ondrel", 2009, 2013, "small", "drum", "lb-ft", lugs=4, litres="3.9"),
    Generation(
        "Brackwell", "Ondrel", 2014, 2020, "middle", "drum", "lb-ft",
        splits={
            EVERYTHING: (
                Branch("engine=1.6", litres="4.1"),
                Branch("engine=2.0T", rear="disc", litres="5.2"),
            ),
        },
    ),
    Generation("Brackwell", "Ondrel Sport", 2015, 2020, "middle", "epb", "lb-ft", litres="5.4"),
    Generation(
        "Brackwell", "Ondrela", 2011, 2016, "small", "drum", "lb-ft", lugs=4, litres="3.7",
        splits={(*BRAKES, "wheels"): (Branch("brakes=15 in"), Branch("brakes=16 in", rear="disc"))},
    ),
    Generation(
        "Brackwell", "Ondrela", 2017, 2022, "middle", "disc", "lb-ft", litres="4.3",
        splits={BRAKES: (Branch("build=..2018-12"), Branch("build=2019-01.."))},
    ),
    Generation("Quillane", "27", 2010, 2015, "small", "drum", "N·m", lugs=4, litres="3.4"),
    Generation("Quillane", "72", 2012, 2018, "middle", "disc", "N·m", litres="4.4"),
    Generation(
        "Quillane", "274", 2016, 2021, "middle", "epb", "N·m", litres="4.8",
        splits={
            ("hubs", "suspension", "rear brakes", "driveline"): (
                Branch("drive=FWD"),
                Branch("drive=AWD", driven="all"),
            ),
        },
    ),
    Generation(
        "Wexmoor", "Thresher 1750", 2012, 2017, "large", "hat", "lb-ft", driven="rear", lugs=6, litres="6.0",
        splits={EVERYTHING: (Branch("drive=2WD"), Branch("drive=4WD", driven="all"))},
    ),
    Generation(
        "Wexmoor", "Thresher 1750", 2018, 2023, "large", "disc", "lb-ft", driven="rear", lugs=6, litres="5.8",
        splits={
            ("hubs", "driveline", "suspension"): (Branch("drive=2WD"), Branch("drive=4WD", driven="all")),
            ("engine",): (Branch("engine=3.4T", litres="5.8"), Branch("engine=5.1", litres="7.4")),
            BRAKES: (
                Branch("drive=2WD; brakes=16 in", rear="drum"),
                Branch("drive=4WD; brakes=16 in"),
                Branch("drive=4WD; brakes=18 in"),
            ),
        },
    ),
    Generation(
        "Wexmoor", "Thresher 2750", 2013, 2019, "heavy", "disc", "lb-ft", driven="rear", lugs=8, litres="11.2",
        motor="diesel", splits={EVERYTHING: (Branch("axle=SRW"), Branch("axle=DRW", rear="hat"))},
    ),
    Generation(
        "Wexmoor", "Ferryman", 2014, 2021, "heavy", "disc", "lb-ft", driven="rear", lugs=6, litres="7.1",
        splits={("rear brakes", "wheels", "hubs"): (Branch("axle=SRW"), Branch("axle=DRW", rear="drum"))},
    ),
    Generation("Pelbrook", "Wendle", 2008, 2012, "small", "drum", "N·m", lugs=4, litres="3.2", second=True),
    Generation(
        "Pelbrook", "Wendle", 2013, 2019, "small", "drum", "N·m", lugs=4, second=True,
        splits={
            EVERYTHING: (
                Branch("engine=1.2", litres="3.3"),
                Branch("engine=1.4T", rear="disc", litres="3.8"),
            ),
        },
    ),
    Generation("Pelbrook", "Wendle Sport", 2014, 2019, "small", "disc", "N·m", litres="4.0", second=True),
    Generation("Pelbrook", "Wendla", 2013, 2019, "middle", "hat", "N·m", litres="4.2", second=True),
    Generation(
        "Pelbrook", "Wendla", 2020, 2024, "middle", "epb", "N·m", second=True,
        splits={("engine", "fluids"): (Branch("engine=1.5", litres="3.9"), Branch("engine=1.8T", litres="4.7"))},
    ),
    Generation(
        "Zephane", "Quorrin", 2006, 2011, "middle", "hat", "N·m", driven="all", litres="5.0",
        splits={("hubs", "driveline", "suspension"): (Branch("drive=2WD", driven="rear"), Branch("drive=4WD"))},
    ),
    Generation(
        "Zephane", "Quorrin", 2012, 2018, "large", "disc", "N·m", driven="all", litres="5.5", second=True,
        splits={BRAKES: (Branch("brakes=17 in"), Branch("brakes=18 in", rear="epb"))},
    ),
    Generation("Zephane", "Grand Quorrin", 2013, 2019, "large", "epb", "N·m", driven="all", litres="6.2", second=True),
    Generation(
        "Imbrel", "Halcya", 2016, 2021, "middle", "epb", "N·m", second=True,
        splits={
            ("engine", "front brakes", "fluids"): (
                Branch("engine=2.5", litres="4.6"),
                Branch("engine=2.0 Hybrid", motor="hybrid", litres="4.0"),
            ),
        },
    ),
    Generation(
        "Imbrel", "Elunor", 2019, 2024, "middle", "epb", "N·m", motor="electric", driven="rear", second=True,
        splits={("hubs", "suspension"): (Branch("drive=RWD"), Branch("drive=AWD", driven="all"))},
    ),
    Generation(
        "Tessaro", "Corrigal", 2012, 2018, "middle", "disc", "N·m", wheel="bolt", litres="4.5",
        splits={("rear brakes", "suspension"): (Branch("body=sedan"), Branch("body=wagon"))},
    ),
    Generation(
        "Tessaro", "Corrigal", 2019, 2024, "middle", "epb", "N·m", wheel="bolt",
        splits={
            ("engine", "front brakes"): (
                Branch("engine=1.8T", litres="4.9"),
                Branch("engine=2.2 Diesel", motor="diesel", litres="5.6"),
            ),
        },
    ),
    Generation("Tessaro", "Plovik", 2010, 2016, "small", "drum", "N·m", wheel="bolt", lugs=4, litres="3.5"),
    Generation(
        "Hollbrek", "Larkin", 2011, 2018, "middle", "drum", "lb-ft", litres="4.2", second=True,
        splits={(*BRAKES, "hubs"): (Branch("build=..2015-06"), Branch("build=2015-07..", rear="disc"))},
    ),
    Generation("Hollbrek", "Vantry", 2010, 2016, "large", "hat", "lb-ft", litres="5.3", second=True),
    Generation(
        "Hollbrek", "Vantry", 2017, 2023, "large", "disc", "lb-ft", litres="5.6", second=True,
        splits={
            (*BRAKES, "wheels"): (Branch("trim=Base"), Branch("trim=Touring", rear="epb")),
            ("driveline",): (Branch("transmission=manual"), Branch("transmission=automatic")),
        },
    ),
)  # fmt: skip

ALIASES: tuple[tuple[str, str, str], ...] = (
    ("Wexmoor", "Thresher 1750", "Thresher half ton"),
    ("Wexmoor", "Thresher 1750", "T1750"),
    ("Wexmoor", "Thresher 2750", "Thresher three quarter ton"),
    ("Wexmoor", "Thresher 2750", "T2750"),
    ("Wexmoor", "Ferryman", "Ferry van"),
    ("Zephane", "Grand Quorrin", "G Quorrin"),
    ("Zephane", "Grand Quorrin", "big Quorrin"),
    ("Imbrel", "Elunor", "Elu"),
    ("Hollbrek", "Vantry", "Vanster"),
)

SHOP_WORDS: tuple[tuple[str, str], ...] = (
    ("brake rotor", "platter"),
    ("wheel nut", "chrome acorn"),
    ("bleeder screw", "weeper"),
    ("stabilizer link nut", "skinny link nut"),
    ("caliper bracket bolt", "claw bolt"),
    ("engine oil", "black gold"),
    ("brake drum", "cake tin"),
    ("brake hose banjo bolt", "ring fitting bolt"),
)
