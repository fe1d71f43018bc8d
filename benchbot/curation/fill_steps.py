"""The fields of a row that is filled in one after the other: their order, what may be chosen, and what can be read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from rapidfuzz import fuzz, process

from benchbot.errors import QuantityError
from benchbot.outcomes import Subject
from benchbot.quantities.reading import parse_value
from benchbot.quantities.units import BareUnitError
from benchbot.records.fillings import Fields
from benchbot.specs.cell import cell_fault
from benchbot.specs.figure import check_thread, read_figure
from benchbot.specs.position import read_position
from benchbot.specs.properties import PROPERTIES, nearest_property, read_property
from benchbot.specs.row import FIRST_YEAR, LAST_YEAR
from benchbot.specs.scope import read_scope
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.terms import Vocabulary

# In the order in which they are asked. Those of MORE are asked of nobody; whoever has them adds them.
ASKED = (
    "make", "model", "years", "component", "position", "property", "only_if", "value", "second_value", "thread",
    "class", "source", "source_ref",
)  # fmt: skip
MORE = ("condition", "reuse", "order", "cautions", "review_by")
FIELDS = (*ASKED, *MORE)
MAY_BE_EMPTY = frozenset({"only_if", "position", "second_value", "thread", "class", *MORE})
# What somebody writes who means "nothing".
NOTHING = frozenset({"", "-", "--", "none", "no", "n/a", "nada", "ninguno", "ninguna", "all", "any", "todos", "todas"})
LONGEST = {"make": 60, "model": 60, "class": 30, "condition": 120, "order": 120, "source": 200, "source_ref": 120}
# Figures of these kinds are printed in two units; of the others there is only one way to write them.
_TWO_UNITS = frozenset({"torque", "length", "volume", "pressure", "temperature"})
_YEARS = re.compile(r"(\d{4})(?:\s*(?:-|\u2013|\u2014|\.\.+|to|a|hasta)\s*(\d{4}))?", re.IGNORECASE)
_WAYS_AT_MOST = 6


@dataclass(frozen=True, slots=True)
class Way:
    """One thing to choose for a field: the text that it puts there. default: it is what the question was about."""

    text: str
    default: bool = False


@dataclass(frozen=True, slots=True)
class Unfit:
    """A text that a field cannot hold: what is wrong, what would be right, and what it may have meant.

    half: it is a figure, and only its unit is missing.
    """

    field: str
    wrong: str
    mend: str
    ways: tuple[Way, ...] = ()
    half: str = ""


Read = dict[str, str]


def fields_of(subject: Subject, vocabulary: Vocabulary) -> Fields:
    """What the reading of a question already says; the scope is left to be asked, with the question's as default."""
    cells: dict[str, str] = {}
    if subject.make and subject.model:
        cells |= {"make": subject.make, "model": subject.model}
    if subject.component in vocabulary.components:
        cells["component"] = subject.component
        if subject.property in PROPERTIES:
            cells["property"] = subject.property
    if subject.position and _readable_position(subject.position):
        cells["position"] = read_position(subject.position)
    asked = "; ".join(f"{key}={value}" for key, value in subject.only_if)
    years = (min(subject.years), max(subject.years)) if len(subject.years) == 1 else None
    return Fields(cells, asked_years=years, asked_only_if=_scope_or_nothing(asked))


def next_field(fields: Fields, vocabulary: Vocabulary) -> str:
    """The field to ask for, "" once every one was."""
    for name in ASKED:
        if _has(fields.cells, name) or not _applies(name, fields.cells, vocabulary):
            continue
        return name
    return ""


def kind_of(cells: Mapping[str, str]) -> str:
    """The kind of quantity of the row's property, "" while nobody knows it."""
    return PROPERTIES.get(cells.get("property", ""), "")


def read_field(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read | Unfit:
    """The cells that a text puts into a field, by column, as the table keeps them."""
    entered = " ".join(text.split()) if field not in ("value", "second_value") else text.strip()
    if field in MAY_BE_EMPTY and entered.casefold() in NOTHING:
        return _left_empty(field, cells, vocabulary)
    fault = cell_fault(entered) if entered else None
    if fault:
        return Unfit(field, fault[0], fault[1])
    if not entered:
        return Unfit(field, "nothing was written", "this has to be filled in")
    if len(entered) > LONGEST.get(field, 200):
        most = LONGEST.get(field, 200)
        return Unfit(field, f"{len(entered)} characters are too many", f"shorten it to {most}")
    try:
        return _READERS.get(field, _words)(field, entered, cells, vocabulary, today)
    except BareUnitError as error:
        if error.number is None or field not in ("value", "second_value"):
            return Unfit(field, str(error), "write the figure with its unit")
        ways = tuple(Way(unit) for unit in error.choices)
        figure = entered.removesuffix(error.said).strip() if error.said else entered
        return Unfit(field, str(error), "choose the unit that the source prints", ways, figure)
    except ValueError as error:
        wrong, mend = (*error.args, "")[:2]
        return Unfit(field, str(wrong), str(mend), _near(field, entered, vocabulary))
    except QuantityError as error:
        return Unfit(field, str(error), "write it as the source prints it")


def nearest_components(text: str, vocabulary: Vocabulary, most: int = _WAYS_AT_MOST) -> tuple[str, ...]:
    """The components whose name or other words are nearest to a text, the nearest first."""
    said = " ".join(name_words(text))
    names: dict[str, str] = {name: name for name in vocabulary.components}
    for phrase in vocabulary.component_phrases:
        if len(phrase.means) == 1:
            names.setdefault(" ".join(phrase.words), phrase.means[0])
    near = process.extract(said, list(names), scorer=fuzz.token_set_ratio, limit=most * 4, score_cutoff=55)
    ranked = sorted(near, key=lambda one: (-one[1], -fuzz.ratio(said, one[0])))
    return tuple(dict.fromkeys(names[one[0]] for one in ranked))[:most]


def _has(cells: Mapping[str, str], field: str) -> bool:
    return "year_from" in cells and "year_to" in cells if field == "years" else field in cells


def _applies(field: str, cells: Mapping[str, str], vocabulary: Vocabulary) -> bool:
    kind = kind_of(cells)
    if field == "position":
        component = vocabulary.components.get(cells.get("component", ""))
        return component is None or component.axles == "both"
    if field == "second_value":
        return kind in _TWO_UNITS
    if field == "thread":
        component = vocabulary.components.get(cells.get("component", ""))
        return kind == "torque" and (component is None or component.kind == "fastener")
    if field == "class":
        return kind == "torque" and bool(cells.get("thread"))
    return True


def _left_empty(field: str, cells: Mapping[str, str], vocabulary: Vocabulary) -> Read | Unfit:
    component = vocabulary.components.get(cells.get("component", ""))
    if field == "position" and component is not None and component.axles == "both":
        wrong = f"a {component.name} sits on both axles"
        return Unfit(field, wrong, "say which: front or rear", (Way("front"), Way("rear")))
    return {field: ""}


def _words(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    if field in ("make", "model") and not name_words(text):
        raise ValueError(f"{text!r} holds no letter or digit", "write the name as the vehicle maker does")
    return {field: text}


def _years(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    found = _YEARS.fullmatch(text)
    if found is None:
        raise ValueError(f"{text[:40]!r} is no model year", "write 2012, or 2012-2015 for a span of years")
    first, last = int(found[1]), int(found[2] or found[1])
    if not FIRST_YEAR <= first <= last <= LAST_YEAR:
        raise ValueError(f"{text[:40]!r} is no span of model years", "write the first year before the last")
    return {"year_from": str(first), "year_to": str(last)}


def _scope(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    return {field: read_scope(text).text}


def _component(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    return {field: Terms(vocabulary).component(text)}


def _position(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    return {field: read_position(text)}


def _property(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    name = read_property(text)
    if name is None:
        raise ValueError(f"{text[:40]!r} is no property", nearest_property(text))
    return {field: name}


def _value(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    name = cells.get("property", "")
    if name not in PROPERTIES:
        raise ValueError("nobody has said yet what is stated", "say the property first")
    parse_value(PROPERTIES[name], text)
    _told(name, text, "")
    return {field: text}


def _second_value(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    name, value = cells.get("property", ""), cells.get("value", "")
    if name not in PROPERTIES or not value:
        raise ValueError("there is no first value yet", "write the value that the source prints first")
    parse_value(PROPERTIES[name], text)
    _told(name, value, text)
    return {field: text}


def _told(name: str, value: str, second: str) -> None:
    try:
        read_figure(name, value, second)
    except ValueError as error:
        what, mend = error.args
        raise ValueError(str(what).partition(": ")[2] or what, mend) from error


def _thread(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    check_thread(text)
    return {field: text}


def _cautions(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    return {field: Terms(vocabulary).cautions(text)}


def _review_by(field: str, text: str, cells: Mapping[str, str], vocabulary: Vocabulary, today: date) -> Read:
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"{text[:40]!r} is no date", "write it as year-month-day, for example 2027-03-31") from None
    if day <= today:
        raise ValueError(f"{text} is over", "write the day until which the value may answer")
    return {field: day.isoformat()}


_READERS = {
    "years": _years, "only_if": _scope, "component": _component, "position": _position, "property": _property,
    "value": _value, "second_value": _second_value, "thread": _thread, "cautions": _cautions, "review_by": _review_by,
}  # fmt: skip


def _near(field: str, text: str, vocabulary: Vocabulary) -> tuple[Way, ...]:
    if field == "component":
        return tuple(Way(name) for name in nearest_components(text, vocabulary))
    return ()


def _readable_position(text: str) -> bool:
    try:
        return bool(read_position(text))
    except ValueError:
        # several places were meant; which one is asked
        return False


def _scope_or_nothing(text: str) -> str:
    try:
        return read_scope(text).text
    except ValueError:
        # said of the vehicle in words that no row can be limited to
        return ""


def ways_of(
    field: str, fields: Fields, vocabulary: Vocabulary, known_scopes: Iterable[str], sources: Iterable[str], today: date
) -> tuple[Way, ...]:
    """What can be chosen for a field, at most six; anything that is not among them can be typed.

    known_scopes: what other rows of the vehicle are limited to. sources: those that the person used last. The scope
    of the question comes first, and no way is wider than it.
    """
    cells = fields.cells
    component = vocabulary.components.get(cells.get("component", ""))
    found: list[Way] = []
    if field == "years" and fields.asked_years:
        first, last = fields.asked_years
        found = [Way(str(first) if first == last else f"{first}-{last}", default=True)]
    elif field == "only_if":
        found = [Way(fields.asked_only_if, default=True)]
        asked = read_scope(fields.asked_only_if)
        narrower = (read_scope(one) for one in known_scopes if one)
        found += [Way(one.text) for one in narrower if set(asked.pairs) < set(one.pairs)]
    elif field == "position":
        found = [Way(one) for one in ("front", "rear", "front left", "front right", "rear left", "rear right")]
        found = found[:2] if component is None or component.kind != "part" else found
    elif field == "property":
        found = [Way(one) for one in (component.properties if component else ())]
    elif field == "class":
        found = [Way(one) for one in ("8.8", "10.9", "12.9")]
    elif field == "reuse":
        found = [Way("replace"), Way("reuse")]
    elif field == "condition":
        found = [Way(one) for one in ("dry", "oiled", "wheels on the ground", "at ride height")]
    elif field == "order":
        found = [Way("crisscross")]
    elif field == "cautions":
        named = component.cautions if component else ()
        found = [Way(one) for one in vocabulary.cautions if one not in named and one != "maker first"]
    elif field == "source":
        found = [Way(one) for one in sources]
    elif field == "review_by":
        found = [Way(_in_years(today, years)) for years in (1, 2)]
    return tuple(dict.fromkeys(found))[:_WAYS_AT_MOST]


def _in_years(today: date, years: int) -> str:
    day = min(today.day, 28)
    return today.replace(year=today.year + years, day=day).isoformat()
