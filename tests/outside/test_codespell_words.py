"""Trade words misspelt as others have seen them: right, asked back, never another figure.

Source of the misspellings: codespell 2.4.3, `codespell_lib/data/dictionary.txt` (read from the installed package).
"""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import codespell_lib
import pytest
from desk import Desk, published

from benchbot.outcomes import Answer
from benchbot.places import knowledge_folder
from benchbot.specs.columns import SPECS
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.terms import Component, Phrase

DICTIONARY = Path(codespell_lib.__file__).parent / "data" / "dictionary.txt"
CHECKED = {"source": "Invented sheet", "source_ref": "p. 1", "checked_by": "test", "checked_on": "2026-01-15"}
VALUES = {"torque": "{} N·m", "socket": "{} mm", "thread": "M{}x1.5", "capacity": "{} L", "pressure": "{} kPa"}
SHORTEST = 4
# A little under what was measured (0.917): words forgiven too seldom would show here.
FLOOR = 0.88


@dataclass(frozen=True, slots=True)
class Case:
    """A question that is complete but for its words: they name one component, one property, one place."""

    word: str
    words: tuple[str, ...]
    component: str
    property: str
    place: str

    def text(self, spelt: str) -> str:
        said = " ".join(spelt if word == self.word else word for word in self.words)
        return f"2014 dravoq sarnel {said}"


VOCABULARY = load_vocabulary(knowledge_folder())


def held(component: Component) -> tuple[str, ...]:
    """The properties of which the book holds a figure."""
    return tuple(name for name in component.properties if name not in ("note", "fluid"))[:2]


def places(component: Component) -> tuple[str, ...]:
    return ("front", "rear") if component.axles == "both" else ("",)


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """A desk on one invented vehicle of which the book holds every component that there is a word for."""
    folder = tmp_path_factory.mktemp("every-component")
    table = folder / "specs.csv"
    with table.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, SPECS.columns)
        writer.writeheader()
        n = 0
        for component in VOCABULARY.components.values():
            for place in places(component):
                for name in held(component):
                    n += 1
                    row = {"id": f"C{n:04}", "make": "Dravoq", "model": "Sarnel", "year_from": 2011, "year_to": 2019}
                    figure = {"property": name, "value": VALUES.get(name, "{} mm").format(5 + n % 60)}
                    placed = {"component": component.name, "position": place, "status": "verified"}
                    writer.writerow(row | figure | placed | CHECKED)
    desk = Desk(published(folder, table))
    yield desk
    desk.conversation.close()


def misspellings() -> Iterator[tuple[str, tuple[str, ...]]]:
    """(the word as misspelt, what it can have been meant for)."""
    for line in DICTIONARY.read_text(encoding="utf-8").splitlines():
        wrong, _, right = line.partition("->")
        yield wrong, tuple(word.strip() for word in right.split(",") if word.strip())


def cases() -> dict[str, Case]:
    """A question for each trade word: in its shortest phrase that can mean one thing only."""
    found: dict[str, Case] = {}
    for phrase in sorted(VOCABULARY.component_phrases, key=lambda phrase: (len(phrase.words), phrase.words)):
        component = VOCABULARY.components[phrase.means[0]]
        if len(phrase.means) == 1 and not phrase.always and held(component):
            name, place = held(component)[0], places(component)[0]
            said = (*filter(None, (place,)), *phrase.words, *_said(name))
            for word in phrase.words:
                found.setdefault(word, Case(word, said, component.name, name, place))
    for property_phrase in VOCABULARY.property_phrases:
        case = _of_property(property_phrase)
        for word in property_phrase.words if case else ():
            found.setdefault(word, case and Case(word, case.words, case.component, case.property, case.place))
    for axle in ("front", "rear"):
        said = (axle, "caliper", "bracket", "bolt", "torque")
        found[axle] = Case(axle, said, "caliper bracket bolt", "torque", axle)
    return found


def _said(name: str) -> tuple[str, ...]:
    return tuple(name.replace("maximum runout", "runout").split(" "))


def _of_property(phrase: Phrase) -> Case | None:
    if len(phrase.means) != 1 or phrase.always:
        return None
    for component, place in (
        ("brake rotor", "front"),
        ("brake drum", "rear"),
        ("axle nut", "front"),
        ("tire", "front"),
    ):
        if phrase.means[0] in held(VOCABULARY.components[component]):
            said = (place, *component.split(" "), *phrase.words)
            return Case("", said, component, phrase.means[0], place)
    return None


def shown_rows(bench: Desk, case: Case, spelt: str) -> set[tuple[str, str, str]]:
    """Component, position and property of every figure shown."""
    outcome = bench.ask(case.text(spelt)).outcome
    rows = [finding.row for finding in outcome.findings] if isinstance(outcome, Answer) else []
    return {(row.component, row.position, row.property) for row in rows}


def outcome(bench: Desk, case: Case, spelt: str) -> str:
    """right, asked (no figure shown) or wrong (a figure shown that was not asked for)."""
    rows = shown_rows(bench, case, spelt)
    if not rows:
        return "asked"
    return "right" if rows == {(case.component, case.place, case.property)} else "wrong"


def meant(right: tuple[str, ...], known: dict[str, Case]) -> tuple[Case, bool] | None:
    """The case of the first correction that is a trade word (or its plural), and whether it is the plural."""
    for word in right:
        for form, plural in ((word, False), (word.removesuffix("s"), True)):
            if len(form) >= SHORTEST and form in known and form.isalpha():
                return known[form], plural and form != word
    return None


def test_real_misspellings_of_trade_words(bench: Desk) -> None:
    known = cases()
    sound = {word: case for word, case in known.items() if outcome(bench, case, word) == "right"}
    assert len(sound) >= 0.9 * len(known)
    counts: Counter[str] = Counter()
    wrong: list[str] = []
    asked: list[str] = []
    for spelt, right in misspellings():
        found = meant(right, sound)
        if found is None or not spelt.isalpha():
            continue
        case, plural = found
        came = outcome(bench, case, spelt)
        counts[came] += 1
        if came == "wrong":
            rows = sorted(" ".join(row) for row in shown_rows(bench, case, spelt))
            wrong.append(f"{case.text(spelt)!r} (meant {'/'.join(right)}{' plural' if plural else ''}): shown {rows}")
        elif came == "asked":
            asked.append(spelt)
    print(f"codespell: {counts['right']} read right, {counts['asked']} asked back, {counts['wrong']} wrong")
    print("asked back:", *asked[:80])
    assert not wrong, "\n".join(wrong)
    assert counts["right"] >= FLOOR * counts.total()
