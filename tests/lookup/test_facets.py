"""What is asked, with which options, and in which order: facet by facet, on rows made for each."""

from __future__ import annotations

import pytest
from lookup_rows import row

from benchbot.book.rows import SpecRow
from benchbot.lookup.facets import (
    MOST_OPTIONS,
    Facet,
    axle_facet,
    component_facet,
    leftover_facet,
    place_facets,
    property_facet,
    qualifier_facets,
    shortened,
    year_facet,
)
from benchbot.lookup.matching import said_by_key
from benchbot.outcomes import Option
from benchbot.places import knowledge_folder
from benchbot.understanding.reading import Ask, Place
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Stated, Vocabulary


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return load_vocabulary(knowledge_folder())


def told(facet: Facet | None) -> dict[str, list[str]]:
    """The options of a facet: label and the rows behind it."""
    assert facet is not None
    return {option.label: list(option.specs) for option in facet.options}


def spans(*years: tuple[int, int]) -> list[SpecRow]:
    return [row(f"Y{first}", year_from=first, year_to=last) for first, last in years]


def ask(component: str = "caliper bracket bolt", place: Place | None = None, **more: object) -> Ask:
    return Ask((component,), properties=("torque",), place=place or Place(), **more)  # type: ignore[arg-type]


def test_few_years_are_offered_one_by_one() -> None:
    assert told(year_facet((), False, spans((2012, 2013), (2014, 2015)))) == {
        "2012": ["Y2012"], "2013": ["Y2012"], "2014": ["Y2014"], "2015": ["Y2014"],
    }  # fmt: skip


def test_more_years_are_offered_as_the_spans_in_which_the_rows_are_the_same() -> None:
    assert told(year_facet((), False, spans((2009, 2013), (2014, 2020)))) == {
        "2009-2013": ["Y2009"],
        "2014-2020": ["Y2014"],
    }


def test_a_hole_between_two_spans_is_not_offered() -> None:
    assert list(told(year_facet((), False, spans((2001, 2005), (2010, 2015))))) == ["2001-2005", "2010-2015"]


def test_too_many_spans_are_put_together_and_none_is_lost() -> None:
    rows = spans(*((2000 + 2 * n, 2001 + 2 * n) for n in range(12)))
    options = told(year_facet((), False, rows))
    assert len(options) <= MOST_OPTIONS
    assert [spec for specs in options.values() for spec in specs] == [one.spec for one in rows]


def test_a_chosen_range_asks_again_only_where_a_row_changes_within_it() -> None:
    assert year_facet((2009, 2010, 2011), True, spans((2009, 2011))) is None
    assert told(year_facet((2009, 2010, 2011), True, spans((2009, 2010), (2011, 2012)))) == {
        "2009": ["Y2009"], "2010": ["Y2009"], "2011": ["Y2011"],
    }  # fmt: skip


def test_a_stated_year_is_not_asked() -> None:
    assert year_facet((2012,), False, spans((2010, 2014))) is None


def test_two_stated_years_are_asked_between() -> None:
    assert list(told(year_facet((2012, 2016), False, spans((2010, 2014), (2015, 2018))))) == ["2012", "2016"]


FRONT, REAR, BLANK = row("F", position="front"), row("R", position="rear"), row("B", position="")


@pytest.mark.parametrize(
    ("component", "place", "rows", "options"),
    [
        ("caliper bracket bolt", Place(), [FRONT, REAR], {"front": ["F"], "rear": ["R"]}),
        ("caliper bracket bolt", Place(), [FRONT], {"front": ["F"], "rear": []}),
        ("caliper bracket bolt", Place(), [BLANK], None),
        ("caliper bracket bolt", Place(), [FRONT, REAR, BLANK], {"front": ["F", "B"], "rear": ["R", "B"]}),
        ("caliper bracket bolt", Place(axles=("front",)), [FRONT], None),
        ("caliper bracket bolt", Place(axles=("front", "rear")), [FRONT, REAR], {"front": ["F"], "rear": ["R"]}),
        ("caliper bracket bolt", Place(axles=("front", "rear"), several=True), [FRONT, REAR], None),
        ("lower ball joint nut", Place(), [FRONT], None),
        ("lower ball joint nut", Place(), [FRONT, REAR], {"front": ["F"], "rear": ["R"]}),
    ],
)
def test_the_axle(
    vocabulary: Vocabulary, component: str, place: Place, rows: list[SpecRow], options: dict[str, list[str]] | None
) -> None:
    held = [row(one.spec, position=one.position, component=component) for one in rows]
    facet = axle_facet(vocabulary, ask(component, place), held)
    assert (told(facet) if facet else None) == options


LEFT, RIGHT = row("Z", position="left"), row("Y", position="right")
UPPER, LOWER = row("U", position="front upper"), row("L", position="front lower")


@pytest.mark.parametrize(
    ("place", "rows", "options"),
    [
        (Place(axles=("front",)), [UPPER, LOWER], {"upper": ["U"], "lower": ["L"]}),
        (Place(axles=("front",)), [UPPER], {"upper": ["U"]}),
        (Place(heights=("upper",)), [UPPER], None),
        (Place(heights=("upper", "lower"), several=True), [UPPER, LOWER], None),
        (Place(sides=("left",)), [row("Z", position="front left")], None),
        (Place(sides=("side",)), [LEFT, RIGHT], {"left": ["Z"], "right": ["Y"]}),
        (Place(), [row("Z", position="inner"), row("Y", position="outer")], {"inner": ["Z"], "outer": ["Y"]}),
        (Place(), [FRONT, REAR], None),
    ],
)  # fmt: skip
def test_upper_or_lower_inner_or_outer_left_or_right(
    place: Place, rows: list[SpecRow], options: dict[str, list[str]] | None
) -> None:
    facets = list(place_facets(ask(place=place), rows))
    assert (told(facets[0]) if facets else None) == options


def qualifiers(rows: list[SpecRow], *stated: tuple[str, str]) -> dict[str, dict[str, list[str]]]:
    said = said_by_key(Stated(key, value, False) for key, value in stated)
    return {facet.key: told(facet) for facet in qualifier_facets(said, rows, rows)}


ENGINES = [row("A", only_if="engine=1.6"), row("B", only_if="engine=2.0T"), row("C", only_if="engine=2.0 Hybrid")]


def test_an_unstated_engine_is_asked_even_when_one_alone_is_held() -> None:
    assert qualifiers(ENGINES[1:2]) == {"engine": {"2.0T": ["B"]}}


def test_a_part_of_an_engine_leaves_those_that_have_it() -> None:
    assert qualifiers(ENGINES, ("engine", "2.0")) == {"engine": {"2.0T": ["B"], "2.0 Hybrid": ["C"]}}


def test_a_whole_engine_is_not_asked() -> None:
    assert qualifiers(ENGINES[1:2], ("engine", "2.0T")) == {}


def test_a_row_for_all_stands_behind_every_option() -> None:
    assert qualifiers([*ENGINES[:2], row("ALL")]) == {"engine": {"1.6": ["A", "ALL"], "2.0T": ["B", "ALL"]}}


def test_every_key_of_the_rows_is_asked() -> None:
    rows = [row("A", only_if="drive=2WD; brakes=16 in"), row("B", only_if="drive=4WD; brakes=18 in")]
    assert qualifiers(rows) == {"drive": {"2WD": ["A"], "4WD": ["B"]}, "brakes": {"16 in": ["A"], "18 in": ["B"]}}


def test_build_months_are_told_in_words() -> None:
    rows = [
        row("A", only_if="build=..2016-05"),
        row("B", only_if="build=2016-06.."),
        row("C", only_if="build=2016-01..2016-03"),
    ]
    labels = list(qualifiers(rows)["build"])
    assert labels == ["built up to 2016-05", "built from 2016-06", "built 2016-01 to 2016-03"]


def test_a_component_is_asked_where_the_words_can_mean_more_than_one_held() -> None:
    rows = [row("A"), row("B", component="caliper slide pin bolt")]
    both = Ask(("caliper bracket bolt", "caliper slide pin bolt", "fixed caliper mounting bolt"))
    assert told(component_facet(both, rows)) == {"caliper bracket bolt": ["A"], "caliper slide pin bolt": ["B"]}
    assert component_facet(both, rows[:1]) is None
    assert component_facet(Ask(("caliper bracket bolt",), always=True), rows[:1]) is None


def test_words_with_two_trade_meanings_are_asked_even_when_one_is_held() -> None:
    both = Ask(("caliper bracket bolt", "caliper slide pin bolt"), always=True)
    assert told(component_facet(both, [row("A")])) == {"caliper bracket bolt": ["A"]}


def test_a_property_is_asked_where_none_was_named_or_vaguely() -> None:
    rows = [row("A", property="minimum thickness"), row("B", property="nominal thickness")]
    wanted = {"minimum thickness": ["A"], "nominal thickness": ["B"]}
    assert told(property_facet(Ask(("brake rotor",), vague=True), rows)) == wanted
    assert told(property_facet(Ask(("brake rotor",)), rows)) == wanted
    assert property_facet(Ask(("brake rotor",), properties=("minimum thickness",)), rows) is None


def test_a_word_left_over_can_be_taken_out_by_the_person_alone() -> None:
    facet = leftover_facet(["zug", "bar"], [row("A"), row("B")])
    assert (facet.key, told(facet)) == ("zug bar", {"leave out “zug bar”": ["A", "B"]})


@pytest.mark.parametrize("count", range(6, 14))
def test_never_more_than_eight_options_and_no_row_lost(count: int) -> None:
    options = shortened([Option(str(n), {}, (f"S{n}",)) for n in range(count)])
    assert len(options) == min(count, MOST_OPTIONS)
    assert [spec for option in options for spec in option.specs] == [f"S{n}" for n in range(count)]
    assert (options[-1].label == "another (type it)") == (count > MOST_OPTIONS)


def facet_of(about: str, *counts: int) -> Facet:
    options = (Option(str(n), {}, tuple(f"{n}.{one}" for one in range(count))) for n, count in enumerate(counts))
    return Facet(about, "", tuple(options))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("order", "facets"),
    [
        (["axle", "year"], [facet_of("year", 3, 1), facet_of("axle", 2, 2)]),
        (["year", "axle"], [facet_of("axle", 3, 1), facet_of("year", 2, 2)]),
        (["year", "component", "axle"], [facet_of("axle", 2, 2), facet_of("component", 2, 2), facet_of("year", 2, 2)]),
        (["vehicle", "axle"], [facet_of("axle", 1, 1, 1, 1), facet_of("vehicle", 4)]),
        (["left over", "year"], [facet_of("year", 1, 1), facet_of("left over", 9)]),
        (["qualifier", "property"], [facet_of("property", 4), facet_of("qualifier", 1, 1, 1, 1)]),
    ],
)
def test_the_most_telling_question_comes_first(order: list[str], facets: list[Facet]) -> None:
    """Less left on the average is more telling; vehicle and left-over words come before all."""
    assert [facet.about for facet in sorted(facets, key=lambda facet: facet.rank)] == order
