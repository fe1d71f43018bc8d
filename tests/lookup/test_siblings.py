"""Siblings that must never answer for each other: each is asked for by name, and its own row alone may come."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from desk import Desk, brief, labels, shown

TABLE = Path(__file__).with_name("siblings.csv").read_text(encoding="utf-8")
ROWS = {row["id"]: row for row in csv.DictReader(TABLE.splitlines())}
BOLT = "front bracket bolt torque"

# Each line: how the sibling is asked for, and its row. Every line of a group is a sibling of every other.
GROUPS: dict[str, list[tuple[str, str]]] = {
    "models one letter or one word apart": [
        (f"2013 saltrin {BOLT}", "SAL10-BRK-F"),
        (f"2013 saltrina {BOLT}", "SALA-BRK-F"),
        (f"2013 saltren {BOLT}", "SALE-BRK-F"),
        (f"2013 grand saltrin {BOLT}", "GRAND-BRK-F"),
        (f"2016 saltrin sport {BOLT}", "SPORT-BRK-F"),
        (f"2016 sport saltrin {BOLT}", "SPORT-BRK-F"),
        (f"2013 dromwick grnd saltrin {BOLT}", "GRAND-BRK-F"),
    ],
    "models that are numbers": [
        ("2013 okkerby 6 lug nut torque", "OK6-LUG"),
        ("2013 okkerby 62 lug nut torque", "OK62-LUG"),
        ("2013 okkerby 620 lug nut torque", "OK620-LUG"),
        ("2013 okkerby 1600 lug nut torque", "OK1600-LUG"),
        ("2013 okkerby 2600 lug nut torque", "OK2600-LUG"),
        ("okkerby sixteen hundred twenty thirteen lugs", "OK1600-LUG"),
        ("6 lug 2013 okkerby 62 torque", "OK62-LUG"),
        ("okkerby 62 '13 lugs", "OK62-LUG"),
    ],
    "spans of years": [
        (f"2014 saltrin {BOLT}", "SAL10-BRK-F"),
        (f"2015 saltrin 1.6t {BOLT}", "SAL15-16T-BRK-F"),
        (f"2009 alpek {BOLT}", "ALP-2009-BRK"),
        (f"2010 alpek {BOLT}", "ALP-2009-BRK"),
        (f"2011 alpek {BOLT}", "ALP-2011-BRK"),
    ],
    "engines": [
        (f"2016 saltrin 1.6 non turbo {BOLT}", "SAL15-16-BRK-F"),
        (f"2016 saltrin 1.6t {BOLT}", "SAL15-16T-BRK-F"),
        (f"2016 saltrin 1.6 turbo {BOLT}", "SAL15-16T-BRK-F"),
        (f"2016 saltrin 2.0t {BOLT}", "SAL15-20T-BRK-F"),
        (f"2016 saltrin 2.0l turbo {BOLT}", "SAL15-20T-BRK-F"),
        ("2014 bonrik 1.1 front slide pin bolt torque", "BON-1-PIN"),
        ("2014 bonrik 1.7 front slide pin bolt torque", "BON-7-PIN"),
    ],
    "drives": [
        ("2016 carrowin 2wd front axle nut", "CAR-2WD-AXN"),
        ("2016 carrowin 4wd front axle nut", "CAR-4WD-AXN"),
        ("2016 carrowin 4x4 front axle nut", "CAR-4WD-AXN"),
        ("2016 carrowin four wheel drive front axle nut", "CAR-4WD-AXN"),
        ("2016 carrowin awd front axle nut", "CAR-AWD-AXN"),
        ("2016 carrowin all wheel drive front axle nut", "CAR-AWD-AXN"),
    ],
    "single and dual rear wheels": [
        ("2016 hedrun srw lug nut torque", "HED-SRW-LUG"),
        ("2016 hedrun drw lug nut torque", "HED-DRW-LUG"),
        ("2016 hedrun dually lug nut torque", "HED-DRW-LUG"),
    ],
    "brakes by size": [
        ("2016 carrowin 16 in brakes front rotor min", "CAR-16in-ROT"),
        ('2016 carrowin 17" brakes front rotor min', "CAR-17in-ROT"),
        ("2016 carrowin 320 mm rotors front rotor min", "CAR-320mm-ROT"),
    ],
    "build months": [
        ("2016 carrowin built 05/16 front slide pin bolt", "CAR-OLD-PIN"),
        ("2016 carrowin built may 2016 front slide pin bolt", "CAR-OLD-PIN"),
        ("2016 carrowin built 06/16 front slide pin bolt", "CAR-NEW-PIN"),
        ("2016 carrowin build date 2018-01 front slide pin bolt", "CAR-NEW-PIN"),
    ],
    "front and rear": [
        ("2013 saltrin frt bracket bolt", "SAL10-BRK-F"),
        ("2013 saltrin rr bracket bolt", "SAL10-BRK-R"),
        ("2013 saltrin back bracket bolt", "SAL10-BRK-R"),
        ("2013 saltrin rf bracket bolt", "SAL10-BRK-F"),
        ("2013 saltrin front slide pin bolt", "SAL10-PIN-F"),
        ("2013 saltrin rear slide pin bolt", "SAL10-PIN-R"),
    ],
    "bracket bolt and slide pin bolt": [
        ("2013 saltrin front caliper bracket bolt", "SAL10-BRK-F"),
        ("2013 saltrin front caliper carrier bolt", "SAL10-BRK-F"),
        ("2013 saltrin front anchor bolt", "SAL10-BRK-F"),
        ("2013 saltrin front caliper guide pin", "SAL10-PIN-F"),
        ("2013 saltrin front slide pin", "SAL10-PIN-F"),
        ("2013 saltrin front caliper bolt to bracket", "SAL10-PIN-F"),
    ],
    "upper and lower, inner and outer, left and right": [
        ("2016 hedrun front upper bracket bolt", "HED-BRK-UP"),
        ("2016 hedrun front lower bracket bolt", "HED-BRK-LO"),
        ("2016 hedrun rear top shock bolt", "HED-SHK-UP"),
        ("2016 hedrun rear bottom shock bolt", "HED-SHK-LO"),
        ("2016 hedrun lower ball joint nut", "HED-LBJ"),
        ("2016 hedrun ubj nut", "HED-UBJ"),
        ("2016 hedrun front inner pad min", "HED-PAD-IN"),
        ("2016 hedrun front outer pad min", "HED-PAD-OUT"),
        ("2016 hedrun front left sway bar link nut", "HED-LNK-L"),
        ("2016 hedrun rf sway bar link nut", "HED-LNK-R"),
    ],
    "figures of one part": [
        ("2013 saltrin front rotor min", "SAL10-ROT-F-MIN"),
        ("2013 saltrin front rotor nominal thickness", "SAL10-ROT-F-NEW"),
        ("2013 saltrin front bracket bolt socket", "SAL10-BRK-F-SKT"),
        ("2013 saltrin front bracket bolt torque", "SAL10-BRK-F"),
    ],
    "hub bearing bolt and axle nut": [
        ("2016 hedrun front hub bearing bolt", "HED-HUB-F"),
        ("2016 hedrun rear axle nut", "HED-AXN-R"),
    ],
}  # fmt: skip
LINES = [pytest.param(text, spec, id=text) for group in GROUPS.values() for text, spec in group]


@pytest.mark.parametrize(("text", "spec"), LINES)
def test_each_sibling_answers_for_itself(sibling_desk: Desk, text: str, spec: str) -> None:
    assert brief(sibling_desk.ask(text)) == f"answer {spec}"
    assert ROWS[spec]["value"] in sibling_desk.ask(text).reply.text()


def test_every_group_has_siblings_with_unlike_figures() -> None:
    for name, group in GROUPS.items():
        specs = {spec for _, spec in group}
        assert len(specs) > 1, name
        assert len({ROWS[spec]["value"] for spec in specs}) == len(specs), name


# Where a sibling is near, or a part is left unsaid: what comes, and what must be among the choices.
UNDECIDED: list[tuple[str, str, set[str]]] = [
    (f"2013 saltrn {BOLT}", "choose vehicle", {"Dromwick Saltrin", "Dromwick Saltrina", "Dromwick Saltren"}),
    (f"2013 saltrine {BOLT}", "choose vehicle", {"Dromwick Saltrin", "Dromwick Saltrina"}),
    (f"2013 saltrin or saltrina {BOLT}", "choose vehicle", {"Dromwick Saltrin", "Dromwick Saltrina"}),
    (f"2013 saltrin and grand saltrin {BOLT}", "choose vehicle", {"Dromwick Saltrin", "Dromwick Grand Saltrin"}),
    (f"2013 grand {BOLT}", "choose model", {"Dromwick Grand Saltrin"}),
    ("2013 okkerby lugs", "choose model", {"Okkerby 6", "Okkerby 62", "Okkerby 620", "Okkerby 1600", "Okkerby 2600"}),
    ("2013 okkerby 6 or 62 lugs", "choose vehicle", {"Okkerby 6", "Okkerby 62"}),
    (f"2016 saltrin {BOLT}", "choose qualifier engine", {"1.6", "1.6T", "2.0T"}),
    (f"2016 saltrin 1.6 {BOLT}", "choose qualifier engine", {"1.6", "1.6T"}),
    (f"2016 saltrin 2.0 {BOLT}", "choose qualifier engine", {"2.0T"}),
    (f"2016 saltrin turbo {BOLT}", "choose qualifier engine", {"1.6T", "2.0T"}),
    (f"2016 saltrin v6 {BOLT}", "choose qualifier engine", {"1.6", "1.6T", "2.0T"}),
    (f"2016 saltrin not the 2.0t {BOLT}", "choose qualifier engine", {"1.6", "1.6T"}),
    (f"2016 saltrin 1.6t or 2.0t {BOLT}", "choose qualifier engine", {"1.6T", "2.0T"}),
    ("2016 carrowin front axle nut", "choose qualifier drive", {"2WD", "4WD", "AWD"}),
    ("2016 carrowin 4wd or awd front axle nut", "choose qualifier drive", {"4WD", "AWD"}),
    ("2016 carrowin rear driveshaft flange bolt", "choose qualifier drive", {"RWD"}),
    ("2016 hedrun lugs", "choose qualifier axle", {"SRW", "DRW"}),
    ("2016 carrowin front rotor min", "choose qualifier brakes", {"16 in", "17 in", "320 mm"}),
    ("2016 carrowin front slide pin bolt", "choose qualifier build", {"built up to 2016-05", "built from 2016-06"}),
    (f"grand saltrin {BOLT}", "choose year", {"2013", "2018"}),
    (f"alpek {BOLT}", "choose year", {"2001-2004", "2021-2024"}),
    ("okkerby 62 lugs", "choose year", {"2012", "2018"}),
    ("2013 saltrin bracket bolt", "choose axle", {"front", "rear"}),
    ("2016 hedrun axle nut", "choose axle", {"front", "rear"}),
    ("2016 hedrun drum max", "choose axle", {"front", "rear"}),
    ("2016 hedrun front bracket bolt", "choose height", {"upper", "lower"}),
    ("2016 hedrun rear shock bolt", "choose height", {"upper", "lower"}),
    ("2016 hedrun ball joint nut", "choose component", {"lower ball joint nut", "upper ball joint nut"}),
    ("2016 hedrun front pad min", "choose depth", {"inner", "outer"}),
    ("2016 hedrun front driver side sway bar link nut", "choose side", {"left", "right"}),
    ("2013 saltrin front caliper bolt", "choose component", {"caliper bracket bolt", "caliper slide pin bolt"}),
    ("2013 saltrin front slider bolt", "choose component", {"caliper bracket bolt", "caliper slide pin bolt"}),
    ("2016 hedrun rear wheel bearing torque", "choose component", {"axle nut"}),
    ("2013 saltrin front rotor", "choose property", {"minimum thickness", "nominal thickness"}),
    ("2013 saltrin front rotor thickness", "choose property", {"minimum thickness", "nominal thickness"}),
    ("2016 hedrun oil", "choose property", {"capacity"}),
    (f"2013 saltrin zugbar {BOLT}", "choose left over zugbar", set()),
]  # fmt: skip


@pytest.mark.parametrize(("text", "outcome", "choices"), UNDECIDED, ids=[line[0] for line in UNDECIDED])
def test_what_is_near_or_unsaid_is_asked(sibling_desk: Desk, text: str, outcome: str, choices: set[str]) -> None:
    turn = sibling_desk.ask(text)
    assert brief(turn) == outcome
    assert choices <= set(labels(turn))
    assert shown(turn) == []
    assert not any(row["value"] in turn.reply.text() for row in ROWS.values() if row["value"] not in text)


@pytest.mark.parametrize(
    ("text", "specs"),
    [
        ("2013 saltrin front and rear bracket bolts", ["SAL10-BRK-F", "SAL10-BRK-R"]),
        ("2016 hedrun front bracket bolts upper and lower", ["HED-BRK-UP", "HED-BRK-LO"]),
        ("2016 hedrun upper and lower ball joint nuts", ["HED-UBJ", "HED-LBJ"]),
        ("2013 saltrin front bracket bolt torque and socket", ["SAL10-BRK-F", "SAL10-BRK-F-SKT"]),
        ("2013 saltrin front bracket bolt and slide pin bolt", ["SAL10-BRK-F", "SAL10-PIN-F"]),
        ("2013 saltrin front rotor min and nominal", ["SAL10-ROT-F-MIN", "SAL10-ROT-F-NEW"]),
        ("2013 saltrin rear slide pins and lugs", ["SAL10-PIN-R", "SAL10-LUG"]),
    ],
)
def test_several_things_asked_at_once_are_each_answered(sibling_desk: Desk, text: str, specs: list[str]) -> None:
    turn = sibling_desk.ask(text)
    assert sorted(shown(turn)) == sorted(specs)
    assert all(ROWS[spec]["value"] in turn.reply.text() for spec in specs)


@pytest.mark.parametrize(
    "thread",
    ["M10", "M14", "M10x1.25", "M14x1.5"],
)
def test_a_bolt_of_another_thread_is_not_answered_from_this_one(sibling_desk: Desk, thread: str) -> None:
    """The row's thread is M12x1.5; whoever has an M10 in hand has another bolt."""
    assert shown(sibling_desk.ask(f"2013 saltrin front bracket bolt {thread} torque")) == []
