"""Whether a row agrees with what was said: qualifier by qualifier, place and year. All values are invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from lookup_rows import row

from benchbot.lookup.matching import (
    Said,
    conditions,
    place_agrees,
    qualifiers_agree,
    rule_out,
    said_by_key,
    settled,
    year_agrees,
)
from benchbot.understanding.reading import Place
from benchbot.vocabulary.qualifiers import Match, built_within, compare, value_words
from benchbot.vocabulary.terms import Stated

# (key, said, what the row holds, how they stand to each other)
COMPARED: list[tuple[str, str, str, Match]] = [
    ("engine", "2.0T", "2.0T", "same"),
    ("engine", "2.0 turbo", "2.0T", "same"),
    ("engine", "2.0 Turbocharged engine", "2.0T", "same"),
    ("engine", "1.80", "1.8", "same"),
    ("engine", "2 litre", "2.0", "same"),
    ("engine", "2.2 diesel", "2.2 Diesel", "same"),
    ("engine", "V-6 3.0", "3.0 V6", "same"),
    ("engine", "petrol", "gas", "same"),
    ("engine", "2.0", "2.0T", "part"),
    ("engine", "turbo", "2.0T", "part"),
    ("engine", "V6", "3.0 V6", "part"),
    ("engine", "hybrid", "2.0 Hybrid", "part"),
    ("engine", "2.0T", "2.0", "more"),
    ("engine", "1.5 turbo diesel", "1.5 Diesel", "more"),
    ("engine", "3.0 V6 turbo", "3.0 V6", "more"),
    ("engine", "V6", "3.5", "unclear"),
    ("engine", "2.0 diesel", "2.0T", "unclear"),
    ("engine", "turbo", "2.5", "unclear"),
    ("engine", "1.8", "2.0T", "other"),
    ("engine", "1.8T", "2.0T", "other"),
    ("engine", "2.4", "2.5", "other"),
    ("engine", "V8", "V6", "other"),
    ("engine", "diesel", "gas", "other"),
    ("drive", "4wd", "4WD", "same"),
    ("drive", "AWD", "4WD", "other"),
    ("drive", "RWD", "2WD", "other"),
    ("drive", "FWD", "AWD", "other"),
    ("axle", "drw", "DRW", "same"),
    ("axle", "SRW", "DRW", "other"),
    ("brakes", '16"', "16 in", "same"),
    ("brakes", "16 inch brakes", "16 in", "same"),
    ("brakes", "HD", "heavy duty", "same"),
    ("brakes", "heavy-duty", "heavy duty", "same"),
    ("brakes", "16", "16 in", "part"),
    ("brakes", "heavy duty", "16 in heavy duty", "part"),
    ("brakes", "16 in", "17 in", "other"),
    ("brakes", "320 mm", "345 mm", "other"),
    ("brakes", "17 mm", "17 in", "other"),
    ("brakes", "performance", "standard", "other"),
    ("brakes", "big", "345 mm", "unclear"),
    ("trim", "sport", "Sport", "same"),
    ("trim", "sport", "Sport Plus", "part"),
    ("trim", "base", "Sport", "other"),
    ("body", "wagon", "sedan", "other"),
    ("transmission", "auto", "automatic", "same"),
    ("transmission", "manual", "6 speed manual", "part"),
    ("transmission", "manual", "automatic", "other"),
    ("market", "US", "Canada", "other"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "said", "held", "match"), COMPARED)
def test_what_was_said_against_what_a_row_holds(key: str, said: str, held: str, match: Match) -> None:
    assert compare(key, value_words(key, said), held) == match


@pytest.mark.parametrize("match", ["same", "part", "more", "unclear", "other"])
def test_the_table_has_each_way_to_stand(match: Match) -> None:
    assert len([row for row in COMPARED if row[3] == match]) >= 3


@pytest.mark.parametrize(
    ("month", "within"),
    [
        ((2016, 4), {"..2016-05", "2015-01..2016-05"}),
        ((2016, 5), {"..2016-05", "2015-01..2016-05"}),
        ((2016, 6), {"2016-06.."}),
        ((2014, 12), {"..2016-05"}),
        ((2030, 1), {"2016-06.."}),
    ],
)
def test_build_months_belong_to_both_ends(month: tuple[int, int], within: set[str]) -> None:
    ranges = ("..2016-05", "2016-06..", "2015-01..2016-05")
    assert {text for text in ranges if built_within(date(*month, 1), text)} == within


def test_a_range_without_a_month_is_refused() -> None:
    with pytest.raises(ValueError, match="'spring' is no month"):
        built_within(date(2016, 1, 1), "spring..")


def said(*pairs: tuple[str, str]) -> dict[str, Said]:
    return said_by_key(Stated(key, value, False) for key, value in pairs)


@pytest.mark.parametrize(
    ("pairs", "clash"),
    [
        ([("engine", "1.6"), ("engine", "1.6")], False),
        ([("engine", "1.6"), ("engine", "2.0T")], True),
        ([("engine", "3.5"), ("engine", "V6")], False),
        ([("drive", "4WD"), ("drive", "2WD")], True),
        ([("drive", "4WD"), ("drive", "AWD")], True),
        ([("brakes", "16 in"), ("brakes", "17 in")], True),
        ([("brakes", "heavy duty"), ("brakes", "16 in heavy duty")], False),
    ],
)
def test_two_values_of_one_key_clash_unless_they_say_the_same(pairs: list[tuple[str, str]], clash: bool) -> None:
    (one,) = said(*pairs).values()
    assert one.clash is clash


def test_the_parts_of_an_engine_are_put_together() -> None:
    one = said_by_key([Stated("engine", "2.0", False), Stated("engine", "turbo", True)])["engine"]
    assert (one.clash, compare("engine", one.words, "2.0T")) == (False, "same")


@pytest.mark.parametrize(
    ("only_if", "pairs", "agrees"),
    [
        ("", [("engine", "1.6")], True),
        ("engine=1.6", [], True),
        ("engine=1.6", [("drive", "4WD")], True),
        ("engine=2.0T", [("engine", "2.0")], True),
        ("engine=2.0T", [("engine", "1.6")], False),
        ("engine=1.6; drive=4WD", [("engine", "1.6"), ("drive", "2WD")], False),
        ("build=..2016-05", [("build", "2016-05")], True),
        ("build=..2016-05", [("build", "2016-06")], False),
        ("drive=4WD", [("drive", "4WD"), ("drive", "2WD")], True),
        ("drive=AWD", [("drive", "4WD"), ("drive", "2WD")], False),
    ],
)
def test_a_row_is_ruled_out_only_by_another_value(only_if: str, pairs: list[tuple[str, str]], agrees: bool) -> None:
    assert qualifiers_agree(row(only_if=only_if), said(*pairs)) is agrees


def test_what_was_said_not_to_be_so_rules_a_row_out() -> None:
    not_turbo = [Stated("engine", "turbo", True)]
    assert not qualifiers_agree(row(only_if="engine=2.0T"), {}, not_turbo)
    assert qualifiers_agree(row(only_if="engine=2.0"), {}, not_turbo)
    assert qualifiers_agree(row(only_if=""), {}, not_turbo)


@pytest.mark.parametrize(
    ("engine", "held", "out"),
    [
        ("1.6T", ("1.6", "1.6T"), {"1.6"}),
        ("1.6T", ("1.6",), set()),
        ("1.6", ("1.6", "1.6T"), set()),
        ("1.6", ("1.6T", "2.0T"), set()),
        ("2.0T", ("1.6", "1.6T", "2.0T"), {"1.6", "1.6T"}),
    ],
)
def test_an_engine_said_exactly_rules_the_overshot_out(engine: str, held: tuple[str, ...], out: set[str]) -> None:
    """A part of an engine, which "1.6" is where a 1.6T is held, rules nothing out."""
    values = [("engine", value) for value in held]
    assert rule_out(said(("engine", engine)), values) == {("engine", value) for value in out}


@pytest.mark.parametrize(
    ("key", "held", "pairs", "done"),
    [
        ("engine", ("1.6", "2.0T"), [("engine", "2.0T")], True),
        ("engine", ("1.6", "2.0T"), [("engine", "2.0")], False),
        ("engine", ("2.0T",), [("engine", "2.0")], False),
        ("engine", ("1.6", "2.0T"), [], False),
        ("engine", ("1.6", "2.0T"), [("engine", "1.6"), ("engine", "2.0T")], False),
        ("engine", ("3.5",), [("engine", "V6")], False),
        ("drive", ("4WD",), [("drive", "4WD")], True),
        ("drive", ("4WD",), [("drive", "AWD")], True),
        ("build", ("..2016-05",), [("build", "2016-05")], True),
    ],
)
def test_a_key_is_settled_once_it_was_said_whole(
    key: str, held: tuple[str, ...], pairs: list[tuple[str, str]], done: bool
) -> None:
    rows = [row(str(n), only_if=f"{key}={value}") for n, value in enumerate(held)]
    assert settled(key, rows, said(*pairs)) is done


PLACES = ("", "front", "rear", "front upper", "front lower", "front left", "rear right", "front inner")


@pytest.mark.parametrize(
    ("place", "agree"),
    [
        (Place(), set(PLACES)),
        (Place(axles=("front",)), {"", "front", "front upper", "front lower", "front left", "front inner"}),
        (Place(axles=("rear",)), {"", "rear", "rear right"}),
        (Place(axles=("front", "rear"), several=True), set(PLACES)),
        (Place(heights=("upper",)), set(PLACES) - {"front lower"}),
        (Place(sides=("left",)), set(PLACES) - {"rear right"}),
        (Place(sides=("side",)), set(PLACES)),
        (Place(depths=("outer",)), set(PLACES) - {"front inner"}),
        (Place(axles=("rear",), sides=("left",)), {"", "rear"}),
    ],
)
def test_places(place: Place, agree: set[str]) -> None:
    assert {position for position in PLACES if place_agrees(row(position=position), place)} == agree


def test_years_are_inclusive_at_both_ends() -> None:
    one = replace(row(), year_from=2010, year_to=2012)
    assert [year for year in range(2008, 2015) if year_agrees(one, (year,))] == [2010, 2011, 2012]
    assert year_agrees(one, ())
    assert year_agrees(one, (2009, 2010))


def test_conditions_are_read_from_the_cell() -> None:
    assert conditions("engine=1.8T; drive=4WD") == (("engine", "1.8T"), ("drive", "4WD"))
    assert conditions("") == ()
