"""Slots of every kind thrown together, in any number and order: what is shown was said, all of it."""

from __future__ import annotations

import os

from bay_messages import SAID_AXLE
from fleets import HELD, SPLITS, say, shop
from hypothesis import given, settings
from hypothesis import strategies as st

from benchbot.outcomes import Answer

EXAMPLES = int(os.environ.get("BENCHBOT_EXAMPLES", "150"))
FLEETS = max(12, EXAMPLES // 100)

checked = settings(max_examples=EXAMPLES, deadline=None, derandomize=True)


@st.composite
def salads(draw: st.DrawFn) -> tuple[int, list[tuple[str, str, str]]]:
    """Slots of every kind in any number and order: (kind, value, as said)."""
    number = draw(st.integers(0, FLEETS - 1))
    there = shop(number)
    words = [("component", name, name) for name in HELD]
    words += [("axle", axle, said) for axle, forms in SAID_AXLE.items() for said in forms]
    words += [("vehicle", f"{make} {model}", f"{make} {model}") for make, model in there.named]
    words += [("year", str(year), str(year)) for year in range(2003, 2024)]
    words += [(key, value, forms[0]) for key, values in SPLITS.items() for value, forms in values.items()]
    words += [("property", name, name) for _, names in HELD.values() for name in names]
    by_kind = st.sampled_from(sorted({kind for kind, _, _ in words}))
    kinds = draw(st.lists(by_kind, min_size=2, max_size=9))
    return number, [draw(st.sampled_from([word for word in words if word[0] == kind])) for kind in kinds]


@checked
@given(salads())
def test_slots_thrown_together_never_answer_what_was_not_said(salad: tuple[int, list[tuple[str, str, str]]]) -> None:
    number, words = salad
    turn = say(shop(number), text := " ".join(said for _, _, said in words))
    said: dict[str, set[str]] = {}
    for kind, value, _ in words:
        said.setdefault(kind, set()).add(value)
    for finding in turn.outcome.findings if isinstance(turn.outcome, Answer) else ():
        row, (make, model) = finding.row, shop(number).named[finding.row.vehicle - 1]
        assert said.get("vehicle") == {f"{make} {model}"}, text
        assert all(row.year_from <= int(year) <= row.year_to for year in said["year"]), text
        assert row.component in said["component"] | {"brake rotor"}, text
        axle = row.position.split(" ")[0]
        assert not axle or row.component == "lower ball joint nut" or axle in said.get("axle", ()), text
        key, _, value = row.only_if.partition("=")
        assert not key or said.get(key) == {value}, text
