"""A thread, a bolt size or a measured figure is never a model year, nor an engine; years beside them stay years."""

from __future__ import annotations

import pytest
from desk import NOW, Desk
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from benchbot.conversation.past import Past
from benchbot.outcomes import Answer, Choose
from benchbot.understanding.reading import Reading


def read(desk: Desk, text: str) -> Reading:
    return desk.conversation.read(text, Past(), NOW)[0][0]


# Sizes and threads per inch: ASME B1.1, the UNC and UNF series (values from memory).
THREADS = [
    "1/2-20", "1/2-13", "5/8-18", "5/8-11", "7/16-20", "7/16-14", "9/16-18", "9/16-12", "3/8-24", "3/8-16", "5/16-18",
    "5/16-24", "1/4-20", "3/4-16", "3/4-10", "1/2-15", "1/2 - 20", '1/2"-20', "1/2 in-20", "1/2x20", "1/2 x 20",
    "1/2–20", "½-20", "1/2 20 unf", "7/16 20 UNF", "1/2 in 20 tpi", "1/2-20 unf", "1/2-20x1.5", "20 tpi",
    "half inch 20 stud", "half-inch stud",
    "10-32", "8-32", "#10-24", "# 10-24", "no 10-24", "no. 10-32", "10-24 screw", "12-24 unc", "10 - 32",
    "m12", "m 12", "M12x1.5", "m12 x 1.5", "m12×1.5", "m12-1.5", "m12 1.5", "m12 x 1.25", "m14x2", "m12*1.5", "m12·1.5",
    "m10x1.25x30", "14x1.5", "12 x 1.25", "19 x 1.5", "12x1.5", "14 X 2.0", "12,5 x 1,5",
]  # fmt: skip


@pytest.mark.parametrize("thread", THREADS)
@pytest.mark.parametrize(
    "around",
    ["ondrel wheel nut torque {}", "ondrel {} lug torque", "{} ondrel lugs", "ondrel wheel nut torque with {} stud"],
)
def test_a_thread_gives_no_year_and_no_engine(desk: Desk, thread: str, around: str) -> None:
    reading = read(desk, around.format(thread))
    assert (reading.years, reading.stated) == ((), ())


@pytest.mark.parametrize("thread", THREADS)
def test_the_year_beside_a_thread_stays_alone(desk: Desk, thread: str) -> None:
    assert read(desk, f"18 ondrel 1.6 wheel nut torque with {thread}").years == (2018,)
    assert read(desk, f"wheel nut torque {thread}, '12 ondrel").years == (2012,)


@pytest.mark.parametrize("thread", THREADS)
def test_a_thread_shows_no_value_of_a_year_nobody_said(desk: Desk, thread: str) -> None:
    turn = desk.ask(f"ondrel 1.6 {thread} wheel nut torque")
    assert not isinstance(turn.outcome, Answer)
    turn = desk.ask(f"ondrel wheel nut torque {thread} 1.6")
    assert not isinstance(turn.outcome, Answer)


_PITCH = st.integers(min_value=1, max_value=99)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    over=st.integers(min_value=1, max_value=15),
    under=st.sampled_from([2, 4, 8, 16]),
    pitch=_PITCH,
    joint=st.sampled_from(["-", " - ", "- ", " -", "x", " x ", "–"]),
    around=st.sampled_from(["ondrel wheel nut {}", "{} ondrel lug torque", "ondrel {} stud torque", "{}"]),
)
def test_no_inch_thread_gives_a_year(desk: Desk, over: int, under: int, pitch: int, joint: str, around: str) -> None:
    assert read(desk, around.format(f"{over}/{under}{joint}{pitch}")).years == ()


FIGURES = [
    "front rotors 17 and 19 mm", "front rotor 17 or 19 mm", "front rotor 17-19mm", "front rotor 17 to 19 mm",
    "front rotor 17, 18, 19 mm", "front rotor 17/19 mm", "front rotor 17 & 19 mm", "front rotor 17 19 mm",
    "front rotor left 17 right 19 mm", "front rotor 17 left 19 mm right", "front pads inner 11 outer 12 mm",
    "front pads 11 inner 12mm outer", "front rotor 17 then 19 mm", "front rotor was 20 now 19 mm",
    "front rotor 20 new 19 mm now", "discos 17 y 19 mm",
    "front rotor stamped 19", "front rotor stamped min 19", "front rotor min stamped 19", "front rotor min 19",
    "front rotor 19 min", "front rotor limit 19", "front rotor limit is 19", "front rotor max 19", "front rotor 19 max",
    "front rotor min. 19", "front rotor min: 19", "front rotor min thickness 19", "front rotor min thickness is 19",
    "front rotor cast 19", "front rotor it says min 19", "front rotor discard 19", "front rotor 19 is the limit",
    "front rotor minimum of 19", "rotor minimo 19", "rotor limite 19", "front rotor is 18.5 mm stamped min 19",
    "bracket bolt 19 hex", "bracket bolt 17 mm and 19 mm socket",
]  # fmt: skip


@pytest.mark.parametrize("figures", FIGURES)
def test_a_measured_or_stamped_figure_gives_no_year(desk: Desk, figures: str) -> None:
    assert read(desk, f"ondrel {figures}").years == ()
    assert read(desk, f"12 ondrel {figures}").years == (2012,)


# Of a bare row of figures the last is taken for the measured one before the rest is read.
_BARE_ROWS = {"front rotor 17 19 mm", "front rotor 17, 18, 19 mm"}


@pytest.mark.parametrize("figures", [one for one in FIGURES if one not in _BARE_ROWS])
def test_what_is_answered_or_asked_is_of_the_year_that_was_said(desk: Desk, figures: str) -> None:
    outcome = desk.ask(f"12 ondrel {figures}").outcome
    about = [one.subject for one in outcome.findings] if isinstance(outcome, Answer) else []
    about += [outcome.subject] if isinstance(outcome, Choose) else []
    assert all(one.years == (2012,) for one in about)
    outcome = desk.ask(f"ondrel {figures}").outcome
    assert isinstance(outcome, Choose)
    assert outcome.subject.years == ()


@pytest.mark.parametrize("figures", ["front pads 1.6 and 2.5 mm", "front pads stamped min 1.6", "front pads limit 1.6"])
def test_a_measured_or_stamped_figure_gives_no_engine(desk: Desk, figures: str) -> None:
    assert read(desk, f"18 ondrel {figures}").stated == ()


@pytest.mark.parametrize(
    ("text", "years"),
    [
        ("12 ondrel lugs", (2012,)),
        ("'12 ondrel lugs", (2012,)),
        ("lugs ondrel 12", (2012,)),
        ("lugs '12", (2012,)),
        ("12-15 ondrel", (2012, 2015)),
        ("12 - 15 ondrel lugs", (2012, 2015)),
        ("ondrel 12-15", (2012, 2015)),
        ("12 or 15 ondrel", (2012, 2015)),
        ("12, 15 ondrel", (2012, 2015)),
        ("10-24 ondrel lugs", (2010, 2024)),
        ("ondrel 12, 19 mm socket", (2012,)),
        ("ondrel 15 19mm lug nut torque", (2015,)),
        ("front rotor min 12 ondrel", (2012,)),
        ("ondrel 12 min thickness front rotor", (2012,)),
        ("2012 ondrel front rotor min 19", (2012,)),
        ("front rotor min ondrel 2012", (2012,)),
        ("front rotor min 2012 ondrel", (2012,)),
        ("ondrel front rotor minimum thickness '12", (2012,)),
        ("12 ondrel 1.6 19 mm", (2012,)),
        ("ondrel built 11/16 lugs", ()),
        ("12 ondrel front pads 4/32", (2012,)),
        ("lugs 12", (2012,)),
    ],
)
def test_years_stay_years(desk: Desk, text: str, years: tuple[int, ...]) -> None:
    assert read(desk, text).years == years


@pytest.mark.parametrize(
    "text", ["4x4 12 ondrel lugs", "12 ondrel 5x114.3 lugs", "12 ondrel 5x4.5 lugs", "12 ondrel 2x4"]
)
def test_a_drive_or_a_bolt_pattern_is_no_thread(desk: Desk, text: str) -> None:
    reading = read(desk, text)
    assert (reading.years, reading.sizes) == ((2012,), ())


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("torque for the m10 bolt", ("m10",)),
        ("m10 torque", ("m10",)),
        ("torque for m12 x 1.50", ("m12x1.50",)),
        ("torque for the 1/2-20 stud", ("1/2-20",)),
        ("what torque for a half inch bolt", ("half inch",)),
        ("what should i torque a 12mm bolt to", ("12 mm",)),
        ("torque 3/8 bolt", ("3/8",)),
        ('torque for the 3/8" bolt', ('3/8 "',)),
        ("torque for a bolt with 15 mm head", ("15 mm",)),
        ("torque for the 12 millimeter screws", ("12 millimeter",)),
        ("torque para el tornillo de 12 mm", ("12 mm",)),
        ("front bracket bolt 17 mm torque", ("17 mm",)),
        ("front rotor 17 mm", ()),
        ("half inch drive", ()),
    ],
)
def test_the_size_that_a_fastener_is_named_by(desk: Desk, text: str, sizes: tuple[str, ...]) -> None:
    assert read(desk, text).sizes == sizes
