"""The day of a shop from questions that nobody could answer to a recall that everybody confirms, as plain steps."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the shop, and where they are what."""

    name: str
    place: str
    role: str


@dataclass(frozen=True, slots=True)
class Says:
    """What somebody writes. shows: parts of the last message that stands in their chat then."""

    who: str
    text: str
    shows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Presses:
    """By what the button says, on the last message that has it. on: words of the message that is meant."""

    who: str
    label: str
    shows: tuple[str, ...] = ()
    on: str = ""


@dataclass(frozen=True, slots=True)
class SendsPage:
    """A photo of a source page."""

    who: str
    shows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Runs:
    """A command line at the desk, {folder} in it stands for a folder of the test's own. code: how it ends."""

    words: tuple[str, ...]
    shows: tuple[str, ...] = ()
    code: int = 0


@dataclass(frozen=True, slots=True)
class FillsTable:
    """The curator fills the table in a spreadsheet: the rows that have these parts; the others are deleted."""

    file: str
    cells: tuple[tuple[str, dict[str, str]], ...]
    rows: int


@dataclass(frozen=True, slots=True)
class Comes:
    """It is that time now."""

    moment: datetime


@dataclass(frozen=True, slots=True)
class Hears:
    """All messages to somebody that hold the sign: one for each of these, with its words, in any order."""

    who: str
    sign: str
    each: tuple[tuple[str, ...], ...] = ()


Step = Says | Presses | SendsPage | Runs | FillsTable | Comes | Hears

NORTH, SOUTH = "North bay", "South bay"
PEOPLE = (
    Person("Olga", NORTH, "owner"),
    Person("Cleo", NORTH, "curator"),
    Person("Ana", NORTH, "technician"),
    Person("Ben", SOUTH, "technician"),
    Person("Cy", SOUTH, "technician"),
)
UNITS = {NORTH: "US", SOUTH: "metric"}
# by the clock of UTC; at the other location it is never quiet
QUIET = {SOUTH: ("18:00", "07:00")}
MORNING = datetime(2026, 11, 25, 9, tzinfo=UTC)
EVENING = datetime(2026, 11, 25, 18, 30, tzinfo=UTC)
NEXT_MORNING = datetime(2026, 11, 26, 7, 5, tzinfo=UTC)
NEXT_EVENING = datetime(2026, 11, 26, 19, 30, tzinfo=UTC)
NEXT_NIGHT = datetime(2026, 11, 26, 22, tzinfo=UTC)

REAR_BOLT = "2014 Drabent Quilsund 3, REAR caliper bracket bolt, torque"
AXLE_NUT = "2014 Drabent Quilsund 3, FRONT axle nut, torque"
ROTOR = "2013 Marvane Ossel Cargo, REAR brake rotor, minimum thickness"
HUB_BOLT = "2015 Drabent Quilsund 3, REAR hub bearing bolt, torque"
TOLD, RECALL = "The book has it now:", "RECALL "
LOGGED = "for the curator. I will not estimate."

ASKED = (
    Says("Ana", "2014 quilsund 3 rear caliper bracket bolt torque", (REAR_BOLT, "no. 1 ", LOGGED)),
    Says("Ben", "2014 zippywagon front caliper bracket bolt torque", ("zippywagon", "no. 2 ")),
    Says("Ben", "14 drabent quilsund 3 rr cal brkt bolt tq", (REAR_BOLT, "no. 3 ")),
    Says("Cy", "torque for rear caliper braket bolts on a 2014 Quilsund 3", (REAR_BOLT, "no. 4 ")),
    Says("Ana", "14 quilsund 3 frt axle nut torque", (AXLE_NUT, "no. 5 ")),
    Says("Cy", "how tight is the front axle nut, 2014 drabent quilsund 3", (AXLE_NUT, "no. 6 ")),
    Says("Ben", "2013 ossel cargo rear rotor minimum thickness", (ROTOR, "no. 7 ")),
    Says("Cy", "13 marvane ossel cargo rr disc min", (ROTOR, "no. 8 ")),
    Says("Ana", "14 quilsund 3 lumbo bracket torque", ("“lumbo bracket”", "no. 9 ")),
    Says("Cy", "2015 quilsund 3 rear hub bearing bolt torque", (HUB_BOLT, "no. 10 ")),
    Presses("Cy", "Done already", on=REAR_BOLT),
    Presses("Ben", "Done already", on=ROTOR),
)
GROUPED = (
    Runs(
        ("gaps", "list"),
        (f"{REAR_BOLT}", f"{AXLE_NUT}", f"{ROTOR}", f"{HUB_BOLT}", "lumbo bracket", "zippywagon"),
    ),
    Says(
        "Cleo",
        "/gaps",
        (
            "6 things were asked for in vain:",
            f"1. {REAR_BOLT}\n2 waiting, asked 3x, last 2026-11-25 · South bay 2, North bay 1",
            f"2. {AXLE_NUT}\n2 waiting, asked 2x, last 2026-11-25 · North bay 1, South bay 1",
            f"3. {ROTOR}\n1 waiting, asked 2x, last 2026-11-25 · South bay 2",
        ),
    ),
)
# field by field, as the source has it: an invented row
FILLED_IN_CHAT = (
    Presses("Cleo", "1", ("“torque for rear caliper braket bolts on a 2014 Quilsund 3”", "The book holds nearby")),
    Presses("Cleo", "Fill", ("Model years that the source names?",)),
    Presses("Cleo", "2014", ("Only for some engine",)),
    Presses("Cleo", "No, for all", ("The value, as the source prints it?",)),
    Says("Cleo", "61", ("61: in which unit?",)),
    Presses("Cleo", "N·m", ("printed in a second unit?",)),
    Says("Cleo", "450 lb-ft", ("10 times: the decimal point slipped",)),
    Says("Cleo", "45 lb-ft", ("Thread of the fastener?",)),
    SendsPage("Cleo", ("Keep this picture with the row",)),
    Presses("Cleo", "Keep", ("Kept with the row.",)),
    Presses("Cleo", "Go on", ("Thread of the fastener?",)),
    Says("Cleo", "M10x1.25", ("Strength class?",)),
    Presses("Cleo", "10.9", ("Which source?",)),
    Says("Cleo", "Invented Drabent sheet", ("Which page?",)),
    Says("Cleo", "p. 92", ("So it will be answered:", "61 N·m (45 lb-ft", "1 page attached")),
    Presses("Cleo", "Submit", (" is submitted. Somebody else has to approve it: /book.",)),
)
SHEET = {"source": "Invented sheet", "source_ref": "p. 7"}
IN_A_TABLE = (
    Runs(
        ("gaps", "export", "{folder}/missing.csv"),
        ("3 rows for 3 gaps", "was handed in for it", "lumbo bracket", "zippywagon"),
    ),
    FillsTable(
        "missing.csv",
        (
            ("axle nut", SHEET | {"value": "180 N·m"}),
            ("brake rotor", SHEET | {"value": "11.0 mm"}),
            ("hub bearing bolt", SHEET | {"value": "72 N·m"}),
        ),
        rows=3,
    ),
    Runs(("specs", "import", "{folder}/missing.csv", "--by", "cleo"), ("specs: 3 rows without a fault; 3 new",)),
)
BOLT, NUT, PLATE, HUB = "row-2", "G0003", "G0004", "G0006"
APPROVED = (
    Says("Cleo", f"/book {BOLT}", ("61 N·m (45 lb-ft", "Source page: ")),
    Presses("Cleo", "Approve", ("Not done: You wrote this row yourself",)),
    Runs(("specs", "approve", NUT, "--by", "Cleo"), (f"{NUT}: ",), code=1),
    Says("Olga", "/book", ("Book 1 of 2026-11-25, 16 rows",)),
    Presses("Olga", "To approve 1", (f" {BOLT} by Cleo",)),
    Presses("Olga", "Drafts of tables 3", (f" {NUT} by cleo", f" {PLATE} by cleo", f" {HUB} by cleo")),
    Says("Olga", f"/book {BOLT}", ("61 N·m (45 lb-ft", "Source page: ")),
    Presses("Olga", "Approve", (f"{BOLT} is approved. It answers from the next book on.",)),
    Says("Olga", f"/book {NUT}", ("180 N·m",)),
    Presses("Olga", "Approve", (f"{NUT} is approved.",)),
    Runs(("specs", "approve", PLATE, "--by", "olga"), (f"{PLATE} revision 2 is verified",)),
    Runs(("specs", "approve", HUB, "--by", "olga"), (f"{HUB} revision 2 is verified",)),
)
EXPLAINED = (
    Says("Cleo", "/gaps", ("“lumbo bracket”: nobody knows what it means",)),
    Presses("Cleo", "5", ("14 quilsund 3 lumbo bracket torque",)),
    Presses("Cleo", "What it means", ("which part is meant?",)),
    Says("Cleo", "wheel nut", ("is which of these?",)),
    # what another part is called already is refused before
    Presses("Cleo", "wheel nut", ("From the next book on, “lumbo bracket” means wheel nut.",)),
    Runs(("gaps", "list", "--json"), ('"words": "zippywagon"',)),
    Says("Cleo", "/gaps", ("6 things were asked for in vain:",)),
    Presses("Cleo", "Next", ("6. “zippywagon”: no such vehicle in the book",)),
    Presses("Cleo", "6", ("2014 zippywagon front caliper bracket bolt torque",)),
    Presses("Cleo", "Vehicle name", ("which vehicle is meant?",)),
    Says("Cleo", "marvane osel cargo", ("is which of these?",)),
    Presses("Cleo", "Marvane Ossel Cargo", ("From the next book on, “zippywagon” means Marvane Ossel Cargo.",)),
)
PUBLISHED = (
    Comes(EVENING),
    Says("Olga", "/book"),
    Presses("Olga", "Publish", ("Make the next book of everything approved?",)),
    Presses("Olga", "Yes, publish"),
    Hears("Olga", "Book 2 is published: 20 checked rows.", (("Told: 3.", "Later, as it is quiet there now: 5."),)),
    Hears(
        "Ana",
        TOLD,
        (
            ("2014 quilsund 3 rear caliper bracket bolt torque", "61 N·m (45 lb-ft", "checked by Olga"),
            ("14 quilsund 3 frt axle nut torque", "180 N·m = 133 lb-ft"),
            ("14 quilsund 3 lumbo bracket torque", "110 N·m = 81 lb-ft"),
        ),
    ),
    Hears("Ben", TOLD),
    Hears("Cy", TOLD),
    Comes(NEXT_MORNING),
    Hears(
        "Ben",
        TOLD,
        (
            ("2014 zippywagon front caliper bracket bolt torque", "130 N·m"),
            ("14 drabent quilsund 3 rr cal brkt bolt tq", "61 N·m"),
        ),
    ),
    Hears(
        "Cy",
        TOLD,
        (
            ("how tight is the front axle nut, 2014 drabent quilsund 3", "180 N·m"),
            ("13 marvane ossel cargo rr disc min", "11.0 mm"),
            ("2015 quilsund 3 rear hub bearing bolt torque", "72 N·m"),
        ),
    ),
    Says("Cy", "2014 quilsund 3 rear caliper bracket bolt torque", ("61 N·m",)),
    Says("Cleo", "/gaps", ("Nobody waits for anything. The book answered all.",)),
)
CORRECTED = (
    Says("Cleo", f"/book {BOLT}", ("61 N·m",)),
    Presses("Cleo", "Correct", ("The value, as the source prints it?",)),
    Says("Cleo", "67 N·m", ("printed in a second unit?",)),
    Presses("Cleo", "Not printed", ("Which source?",)),
    Presses("Cleo", "Invented Drabent sheet", ("Which page?",)),
    Says("Cleo", "p. 92, corrected", ("So it will be answered:", "67 N·m = 49.4 lb-ft")),
    Presses("Cleo", "Submit", (f"{BOLT} is submitted.",)),
    Says("Olga", f"/book {BOLT}", ("67 N·m = 49.4 lb-ft", "value: 61 N·m → 67 N·m")),
    Presses("Olga", "Approve", (f"{BOLT} is approved.",)),
)
OLD, NEW, ON = "OLD: 61 N·m", "NEW: 67 N·m", "You asked on 2026-11-"
SEEN = "Seen, checked the vehicle"
RECALLED = (
    Comes(NEXT_EVENING),
    # what is corrected is told whether it is quiet or not
    Runs(
        ("specs", "publish", "--by", "olga"), ("book 3 published: 20 verified specs", "Told: 0.", "Recall notices: 3.")
    ),
    Hears("Ana", RECALL, ((REAR_BOLT, f"{ON}25", OLD, f"{NEW}"),)),
    Hears("Ben", RECALL, ((REAR_BOLT, f"{ON}25", OLD, NEW),)),
    Hears("Cy", RECALL, ((REAR_BOLT, f"{ON}26", OLD, NEW),)),
    Hears("Cleo", RECALL),
    Hears("Olga", "Recall 1", (("REAR caliper bracket bolt, torque: 3 told.",),)),
    Presses("Ana", SEEN, (RECALL, "2026-11-26"), on=RECALL),
    Presses("Cy", SEEN, (RECALL, "2026-11-26"), on=RECALL),
    Says("Olga", "/book", ("Book 3 of 2026-11-26",)),
    Presses("Olga", "Recalls 1", (f"{BOLT} corrected: 2 of 3 confirmed", "not yet: Ben")),
    Runs(("recalls", "list", "--open"), ("Ben (", "NOT CONFIRMED", "Ana (", "confirmed 2026-11-26")),
    Runs(("specs", "history", BOLT), ("value: 61 N·m → 67 N·m", "approved", "picture of the source: ")),
    # what looks once more for those whose message was on its way; nobody is told anything a second time
    Comes(NEXT_NIGHT),
    Says("Ben", "2014 quilsund 3 rear caliper bracket bolt torque", ("67 N·m",)),
    Hears("Ben", TOLD, (("zippywagon",), ("rr cal brkt",))),
    Hears("Ben", RECALL, ((OLD,),)),
)
DAY: tuple[Step, ...] = (
    *ASKED, *GROUPED, *FILLED_IN_CHAT, *IN_A_TABLE, *APPROVED, *EXPLAINED, *PUBLISHED, *CORRECTED, *RECALLED
)  # fmt: skip
