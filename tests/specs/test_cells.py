"""How single cells of a spec table are read: positions, scopes, properties, components, plain text."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.places import knowledge_folder
from benchbot.specs.cell import LONGEST, cell_fault, id_fault
from benchbot.specs.columns import SPECS, VEHICLE_NAMES, WORDS, layout_for
from benchbot.specs.figure import read_figure, sameness
from benchbot.specs.position import ORDER, read_position
from benchbot.specs.properties import PROPERTIES, nearest_property, read_property
from benchbot.specs.scope import read_scope
from benchbot.specs.terms import Terms
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.qualifiers import KEYS


@pytest.fixture(scope="module")
def terms() -> Terms:
    return Terms(load_vocabulary(knowledge_folder()))


@pytest.mark.parametrize("words", list(itertools.permutations(("front", "upper", "left", "inner"))))
def test_positions_come_in_one_order(words: tuple[str, ...]) -> None:
    assert read_position(" ".join(words)) == "front upper left inner"
    assert read_position(", ".join(words).upper()) == "front upper left inner"


@pytest.mark.parametrize("word", ORDER)
def test_each_position_is_known(word: str) -> None:
    assert read_position(word) == read_position(f" {word.title()} ") == word


def test_odd_positions() -> None:
    assert read_position("") == ""
    assert read_position("lower-rear") == read_position("rear lower lower") == "rear lower"
    for text in ("fornt", "f", "both", "front rear", "upper lower", "left/right", "inner outer"):
        with pytest.raises(ValueError, match=r"no position|in one row") as error:
            read_position(text)
        assert len(error.value.args) == 2


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("", ""),
        ("drive=4WD; engine=1.5", "engine=1.5; drive=4WD"),
        ("ENGINE = 2.0T ;", "engine=2.0T"),
        ("axle=DRW;brakes=16 in;trim=Sport  Line", "brakes=16 in; trim=Sport Line; axle=DRW"),
        ("build=..2016-05", "build=..2016-05"),
        ("build = 2016-06 .. 2017-01", "build=2016-06..2017-01"),
        ("build=2016-06..", "build=2016-06.."),
        ("market=EU; transmission=manual; body=wagon", "body=wagon; transmission=manual; market=EU"),
    ],
)
def test_scopes_have_one_text(text: str, read: str) -> None:
    assert read_scope(text).text == read
    assert read_scope(read).text == read


@given(st.lists(st.sampled_from(KEYS[:-1]), unique=True), st.lists(st.sampled_from(KEYS[:-1]), unique=True))
def test_scopes_meet_both_ways_or_not_at_all(one: list[str], other: list[str]) -> None:
    first = read_scope("; ".join(f"{key}=1.6" for key in one))
    second = read_scope("; ".join(f"{key}=2.2" for key in other))
    assert first.compatible(second) == second.compatible(first) == (not set(one) & set(other))
    assert first.compatible(first)


@pytest.mark.parametrize("name", list(PROPERTIES))
def test_each_property_is_read_in_any_dress(name: str) -> None:
    assert read_property(name) == read_property(f" {name.upper()} ") == read_property(name.replace(" ", "  ")) == name
    assert read_property(name.replace("-", " ")) == name


def test_a_property_is_never_guessed() -> None:
    for text in ("", "torqe", "thickness", "minimum", "max runout", "torques"):
        assert read_property(text) is None
    assert nearest_property("torqe") == "write torque"
    assert nearest_property("colour").startswith("write one of: torque, socket")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("caliper bracket bolt", "caliper bracket bolt"),
        ("Caliper Bracket  Bolts", "caliper bracket bolt"),
        ("bracket bolt", "caliper bracket bolt"),
        ("bolt of the caliper bracket", "caliper bracket bolt"),
        ("calliper bracket bolt", "caliper bracket bolt"),
        ("lug nuts", "wheel nut"),
        ("wheel nut", "wheel nut"),
        ("brake pads", "brake pad"),
    ],
)
def test_components_by_term_or_clear_synonym(terms: Terms, text: str, name: str) -> None:
    assert terms.component(text) == name


@pytest.mark.parametrize("text", ["caliper bolt", "flux bolt", "bolt", "calipr bracket bolt", ""])
def test_components_are_never_guessed(terms: Terms, text: str) -> None:
    with pytest.raises(ValueError, match=r"no component|more than one part"):
        terms.component(text)


def test_every_name_of_the_vocabulary_is_itself(terms: Terms) -> None:
    for name in terms.vocabulary.components:
        assert terms.component(name) == name


def test_every_caution_of_the_vocabulary_is_known(terms: Terms) -> None:
    names = list(terms.vocabulary.cautions)
    assert len(names) > 3
    assert terms.cautions(";".join(names)) == "; ".join(names)
    with pytest.raises(ValueError, match="given twice"):
        terms.cautions(f"{names[0]}; {names[0]}")


@pytest.mark.parametrize(
    ("name", "one", "other"),
    [
        ("torque", "95..105 N·m", "95-105 Nm"),
        ("torque", "30 N·m + 90 deg", "30 Nm + 90°"),
        ("minimum thickness", "22.0 mm", "22 mm"),
        ("thread", "M12x1.5", "M12 x 1.5"),
        ("fluid", "DOT 4", "dot  4"),
    ],
)
def test_one_figure_in_two_writings(name: str, one: str, other: str) -> None:
    assert sameness(read_figure(name, one, "").value) == sameness(read_figure(name, other, "").value)


@pytest.mark.parametrize(
    ("name", "one", "other"),
    [
        ("torque", "95 N·m", "96 N·m"),
        ("torque", "95 N·m", "95 lb-ft"),
        ("torque", "30 N·m + 90 deg", "30 N·m + 90 deg + 90 deg"),
        ("torque", "100 N·m", "100 ± 5 N·m"),
        ("fluid", "DOT 4", "DOT 5.1"),
        ("socket", "18 mm", "T40"),
    ],
)
def test_two_figures_are_two(name: str, one: str, other: str) -> None:
    assert sameness(read_figure(name, one, "").value) != sameness(read_figure(name, other, "").value)


@given(st.text(max_size=40))
def test_any_text_is_a_cell_or_has_a_mend(text: str) -> None:
    fault = cell_fault(text)
    if fault is None:
        assert not text.strip().startswith(("=", "+", "-", "@"))
        assert all(letter.isprintable() or letter.isspace() for letter in text)
        assert not set(text) & set("\r\n\t\0\u2028\u2029")
    else:
        assert all(fault)


def test_cells_of_the_trade_are_plain() -> None:
    plain = ("", "105 N·m", "30 N·m + 90 deg", "100 ± 5 N·m", "5/8 in", 'a "quoted" word', "für 4½ °C", "18 mm × 2")
    for text in (*plain, "x" * LONGEST, "ソケット"):
        assert cell_fault(text) is None
    assert cell_fault("x" * (LONGEST + 1)) is not None


def test_ids() -> None:
    for text in ("S0001", "a", "shop/12:3#b-1.2_x", "9" * 64):
        assert id_fault(text) is None
    for text in ("", " ", "a b", "-a", "=a", "é", "9" * 65, "a,b", "a\n"):
        assert id_fault(text) is not None


def test_tables_are_told_apart_by_their_columns() -> None:
    assert layout_for(SPECS.columns) is layout_for(SPECS.required) is SPECS
    assert layout_for(("alias", "model", "make")) is VEHICLE_NAMES
    assert layout_for(("said", "term")) is WORDS
    assert layout_for(("a", "b")) is layout_for(()) is SPECS
