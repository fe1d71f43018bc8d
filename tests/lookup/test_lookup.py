"""What the book does not hold, and why; what is checked, and until when; one question over several readings."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import get_args

import pytest
from desk import Desk, brief, labels, offered, reasons, shown

from benchbot.lookup.lookup import look_up
from benchbot.outcomes import Answer, Choose, Gap, Reason
from benchbot.understanding.reading import Ask, Place, Reading, VehicleRead

GAPS: list[tuple[Reason, str]] = [
    ("unknown vehicle", "2014 wexbury front bracket bolt torque"),
    ("unknown vehicle", "front bracket bolt torque on a 2014 wexbury"),
    ("unknown model", "2014 dromwick zorbel front bracket bolt torque"),
    ("unknown model", "okkerby 41 2013 lugs"),
    ("unknown model", "okkerby 600 2013 lugs"),
    ("unknown component", "2013 saltrin sprocket torque"),
    ("component not held", "2013 saltrin head bolts"),
    ("component not held", "2013 saltrin front bleeder screw torque"),
    ("component not held", "2013 saltrin exhaust bracket bolt torque"),
    ("year not covered", "2009 saltrin front bracket bolt torque"),
    ("year not covered", "2020 saltrin 1.6t front bracket bolt torque"),
    ("year not covered", "2013 saltrin sport front bracket bolt torque"),
    ("position not held", "2016 hedrun front axle nut"),
    ("position not held", "2016 hedrun rear hub bearing bolt"),
    ("qualifier not held", "2016 saltrin 1.8 front bracket bolt torque"),
    ("qualifier not held", "2016 carrowin rwd front axle nut"),
    ("qualifier not held", "2016 carrowin fwd front axle nut"),
    ("qualifier not held", "2016 carrowin 4wd rear driveshaft flange bolt"),
    ("qualifier not held", "2016 carrowin 18 in brakes front rotor min"),
    ("qualifier not held", "2016 hedrun full float lugs"),
    ("property not held", "2016 hedrun oil drain plug torque"),
    ("property not held", "2016 hedrun oil drain plug"),
    ("property not held", "2013 saltrin front slide pin socket"),
    ("property not held", "2016 hedrun oil type"),
]


@pytest.mark.parametrize(("reason", "text"), GAPS, ids=[text for _, text in GAPS])
def test_what_is_not_held_is_a_gap_with_its_reason(sibling_desk: Desk, reason: Reason, text: str) -> None:
    turn = sibling_desk.ask(text)
    assert isinstance(turn.outcome, Gap)
    assert (reasons(turn), shown(turn)) == ([reason], [])
    assert turn.gap is not None
    assert f"Logged as no. {turn.gap} for the curator. I will not estimate." in turn.reply.text()


def test_every_reason_is_met_but_those_that_nothing_here_leads_to() -> None:
    # a row is withdrawn on record after the book was made: conversation/standing.py
    assert set(get_args(Reason)) - {reason for reason, _ in GAPS} == {"no such choice", "withdrawn"}


@pytest.mark.parametrize(
    ("text", "specs", "missing"),
    [
        ("2016 hedrun front and rear axle nut", ["HED-AXN-R"], ["position not held"]),
        ("2013 saltrin front and rear rotor nominal", ["SAL10-ROT-F-NEW"], ["position not held"]),
        ("2013 saltrin front bracket bolt and bleeder", ["SAL10-BRK-F"], ["component not held"]),
        ("2013 saltrin front bracket bolt and head bolt torque", ["SAL10-BRK-F"], ["component not held"]),
        ("2013 saltrin front slide pin torque and socket", ["SAL10-PIN-F"], ["property not held"]),
    ],
)
def test_what_is_missing_stands_beside_the_answer(
    sibling_desk: Desk, text: str, specs: list[str], missing: list[str]
) -> None:
    turn = sibling_desk.ask(text)
    assert (shown(turn), reasons(turn)) == (specs, missing)
    assert turn.gap is not None
    assert "Not in our book:" in turn.reply.text()


@pytest.mark.parametrize("text", ["2016 hedrun oil drain plug", "2016 hedrun oil drain plug torque"])
def test_a_socket_never_stands_in_for_a_torque(sibling_desk: Desk, text: str) -> None:
    assert "19 mm" not in sibling_desk.ask(text).reply.text()
    assert shown(sibling_desk.ask("2016 hedrun oil drain plug socket")) == ["HED-ODP-SKT"]


# OLB-LUG is to be checked again by 2026-11-24, OLB-TIRE by 2026-11-25.
@pytest.mark.parametrize(
    ("day", "lugs", "tire"),
    [
        ((2026, 11, 24), "answer OLB-LUG", "answer OLB-TIRE"),
        ((2026, 11, 25), "gap component not held", "answer OLB-TIRE"),
        ((2026, 11, 26), "gap component not held", "gap component not held"),
    ],
)
def test_a_row_past_its_review_date_does_not_answer(
    sibling_desk: Desk, day: tuple[int, int, int], lugs: str, tire: str
) -> None:
    sibling_desk.clock.moment = datetime(*day, 12, tzinfo=UTC)
    assert brief(sibling_desk.ask("2014 oldrex lugs torque")) == lugs
    assert brief(sibling_desk.ask("2014 oldrex tire pressure")) == tire
    assert brief(sibling_desk.ask("2014 oldrex rear slide pin torque")) == "answer OLB-PIN-R"


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("2014 oldrex front bracket bolt torque", "gap component not held"),
        ("2014 oldrex front slide pin torque", "gap position not held"),
        ("2014 oldrex front bleeder torque", "answer OLB-BLD-F2"),
    ],
)
def test_drafts_and_withdrawn_rows_never_answer(sibling_desk: Desk, text: str, outcome: str) -> None:
    assert brief(sibling_desk.ask(text)) == outcome


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("saltrin", "other vehicle set"),
        ("front bracket bolt torque", "choose vehicle"),
        ("2014 front bracket bolt torque", "choose vehicle"),
        ("torque?", "choose component"),
        ("2013 saltrin torque", "choose component"),
        ("dromwick front bracket bolt 2013", "choose model"),
        ("2013 okkerby saltrin front bracket bolt", "choose vehicle"),
    ],
)
def test_too_little_to_look_up_is_asked(sibling_desk: Desk, text: str, outcome: str) -> None:
    assert brief(sibling_desk.ask(text)) == outcome


def test_without_a_vehicle_there_is_nothing_to_choose_from(sibling_desk: Desk) -> None:
    turn = sibling_desk.ask("front bracket bolt torque")
    assert (labels(turn), offered(turn)) == ([], set())


@pytest.mark.parametrize("said", ["61", "80", "61 nm"])
def test_a_stated_value_is_never_confirmed(sibling_desk: Desk, said: str) -> None:
    turn = sibling_desk.ask(f"2013 saltrin front bracket bolt {said} right?")
    assert shown(turn) == ["SAL10-BRK-F"]
    text = turn.reply.text().casefold()
    assert f"you said {said.casefold()}" in text
    assert "61 n·m" in text
    assert not {"yes", "correct", "right"} & set(text.replace(".", " ").split())


def reading(desk: Desk, component: str, axle: str = "front", left_over: tuple[str, ...] = ()) -> Reading:
    vehicle = desk.conversation.book.find_vehicle("Dromwick", "Saltrin")
    assert vehicle is not None
    ask = Ask((component,), properties=("torque",), place=Place(axles=(axle,)), named=True)
    return Reading("question", VehicleRead("named", (vehicle,)), (2013,), asks=(ask,), left_over=left_over)


def outcome_of(desk: Desk, *readings: Reading) -> Answer | Choose | Gap:
    vocabulary = desk.conversation.lexicon.vocabulary
    outcome = look_up(readings, desk.conversation.book, vocabulary, date(2026, 11, 25))
    assert isinstance(outcome, (Answer, Choose, Gap))
    return outcome


def test_readings_that_agree_are_answered(sibling_desk: Desk) -> None:
    one = reading(sibling_desk, "caliper bracket bolt")
    outcome = outcome_of(sibling_desk, one, one)
    assert isinstance(outcome, Answer)
    assert [finding.row.spec for finding in outcome.findings] == ["SAL10-BRK-F"]


def test_readings_that_differ_are_asked_with_the_rows_of_all(sibling_desk: Desk) -> None:
    bracket, pin = reading(sibling_desk, "caliper bracket bolt"), reading(sibling_desk, "caliper slide pin bolt")
    outcome = outcome_of(sibling_desk, bracket, pin)
    assert isinstance(outcome, Choose)
    assert outcome.about == "component"
    assert {spec for option in outcome.options for spec in option.specs} == {"SAL10-BRK-F", "SAL10-PIN-F"}


def test_a_reading_that_finds_nothing_keeps_another_from_answering(sibling_desk: Desk) -> None:
    bracket, head = reading(sibling_desk, "caliper bracket bolt"), reading(sibling_desk, "cylinder head bolt")
    assert not isinstance(outcome_of(sibling_desk, bracket, head), Answer)
    assert not isinstance(outcome_of(sibling_desk, head, bracket), Answer)


def test_a_word_left_over_holds_back_the_value(sibling_desk: Desk) -> None:
    outcome = outcome_of(sibling_desk, reading(sibling_desk, "caliper bracket bolt", left_over=("zugbar",)))
    assert isinstance(outcome, Choose)
    assert (outcome.about, outcome.key) == ("left over", "zugbar")
