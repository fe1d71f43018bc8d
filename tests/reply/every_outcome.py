"""Outcomes and a reading that between them use every sentence of a language. All names and rows are invented."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import get_args

from benchbot.outcomes import (
    About,
    Answer,
    Calculation,
    Choose,
    Finding,
    Gap,
    Judged,
    Missing,
    Option,
    Other,
    Outcome,
    Procedure,
    Pulled,
    Reason,
    Sentence,
    Subject,
)
from benchbot.procedures.steps import Check, Judge, Measure, Step, Stop, Tighten
from benchbot.reply.english import ENGLISH
from benchbot.understanding.reading import Ask, Place, Reading, VehicleRead, WordNote
from benchbot.vocabulary.qualifiers import KEYS

ONDREL = Subject("Brackwell", "Ondrel", (2018,), (("engine", "1.6"),), "axle nut", "rear", "torque")
OPTIONS = (Option("front", {"axle": "front"}, ("T1",)), Option("rear", {"axle": "rear"}, ("T2",)))

EXPLAINED = Reading(
    vehicle=VehicleRead("named", (1,)),
    asks=(Ask(("caliper bracket bolt", "caliper slide pin bolt"), True, "", ("torque",), False, Place(("front",))),),
    notes=(
        WordNote("15", "year", "2015"),
        WordNote("ondrell", "vehicle", "ondrell", "spelling"),
        WordNote("1.6", "qualifier", "engine 1.6"),
        WordNote("frt", "position", "front"),
        WordNote("calliper", "component", "caliper bracket bolt or caliper slide pin bolt", "variant"),
        WordNote("bolt", "component", "caliper bracket bolt or caliper slide pin bolt", "variant"),
        WordNote("tork", "property", "torque", "heard"),
        WordNote("tq", "property", "torque", "short"),
        WordNote("apriete", "property", "torque", "spanish"),
        WordNote("nm", "unit", "N·m"),
        WordNote("80", "number", "a value you state"),
        WordNote("2", "noise", "a count"),
        WordNote("plese", "noise", "", "spelling of an everyday word"),
        WordNote(",", "noise", "", "a mark"),
        WordNote("next", "sign", "next vehicle"),
        WordNote("blorp", "left over"),
        WordNote("27", "left over", "a number beside the vehicle"),
        WordNote("odd", "noise", "", "some other way"),
    ),
)


def every_outcome(finding: Callable[..., Finding]) -> Iterator[tuple[Outcome, Reading, int | None]]:
    """Outcomes that between them use every wording."""
    full = finding(
        reuse="replace",
        order="1-3-2-4",
        value="70 N·m + 60 deg",
        thread="M12x1.5",
        strength_class="10.9",
        review_by="2031-01-01",
    )
    printed = finding(
        value="9 N·m", second_value="80 lb-in", reuse="reuse", source_ref="", spec="T0002", position="rear"
    )
    spelt = Reading(notes=(WordNote("calipr", "component", "caliper", "spelling"),), left_over=("blorp",))
    yield Answer((full, printed), said_values=("80",)), spelt, None
    yield Answer((full, finding(source="Another sheet", spec="T0003", property="socket", value="16 mm"))), spelt, None
    yield Answer((full,), tuple(Missing(reason, "x", ONDREL) for reason in get_args(Reason))), Reading(), 4
    alone = finding(one_person=True)
    yield Answer((alone,)), Reading(), None
    yield Answer((replace(alone, questioned="2026-05-04"),)), Reading(), None
    yield Gap((Missing("unknown component", "gizmo", Subject()), Missing("withdrawn", "", Subject()))), spelt, None
    for about in get_args(About):
        yield Choose(about, "xyz", "", (), Subject()), Reading(), None
    for key in KEYS:
        yield Choose("qualifier", key, "", OPTIONS, Subject()), Reading(), None
    yield Choose("component", "", "", OPTIONS, Subject()), Reading(), None
    yield Choose("vehicle", "", "", OPTIONS, Subject()), Reading(), None
    yield Choose("unit", "", "", OPTIONS, Subject()), Reading(), None
    for build in ("..2016-05", "2016-06..", "2016-06..2017-01", "2016-05"):
        yield Choose("axle", "", "", OPTIONS, Subject("A", "B", only_if=(("build", build),))), Reading(), None
    yield Calculation("1 in", "25.4 mm", "1 in = 25.4 mm"), Reading(), None
    for name, form in ENGLISH.sums.items():
        said = Sentence(name, tuple((blank, f"{n} mm") for n, blank in enumerate(re.findall(r"\{(\w+)\}", form))))
        yield Calculation("1 mm", "2 mm", "1 + 1", said, source="ISO 1"), Reading(), None
        yield Calculation("1 mm", "", "1 + 1", said, (said,), (said,), refused=True), Reading(), None
    step = Step("axle/nut", "Tighten the nut", "By hand.", "Rust.", ("axle nut",), (), ("tighten it",), ("hot parts",))
    told = replace(
        step,
        checks=(Check("The nut.", "Turns.", "Binds.", "Out again."),),
        stop=Stop("It goes easy.", "New nut."),
        judge=Judge("It is scrap.", "lead tech"),
        measure=(Measure("axle nut", "torque", "On the nut."),),
        tighten=(Tighten("axle nut", ()),) * 4,
        only_if="electric parking brake",
    )
    missing = Gap((Missing("component not held", "", ONDREL),))
    asked = Choose("axle", "", "", OPTIONS, ONDREL)
    pulled = tuple(Pulled(Tighten("axle nut", ()), found) for found in (Answer((full,)), missing, asked, None))
    on = tuple(
        Option(label, {"go": go}, ())
        for label, go in (("Another step", "instead"), ("Next step", "next step"), ("Whole list", "whole list"))
    )
    yield Procedure(told, "axle", "Axle", 2, 3, "front", "Ours.", pulled, (), on), spelt, 5
    yield Procedure(step, listed=("One", "Two"), title="Axle"), Reading(), None
    for name, form in ENGLISH.judging.items():
        measured = Sentence(name, tuple((blank, f"{n} mm") for n, blank in enumerate(re.findall(r"\{(\w+)\}", form))))
        if name.startswith("where "):
            below = Sentence("at the limit", (("measured", "3 mm"), ("limit", "3 mm")))
            yield (
                Answer((alone,), judged=(Judged("nothing left", name.removeprefix("where "), below),)),
                Reading(),
                None,
            )
        else:
            yield Answer((alone,), judged=(Judged("use", "", measured),), advice=(measured,)), Reading(), None
    for what in ("small talk", "out of scope", "too long", "not understood", "nothing asked"):
        yield Other(what), spelt, None  # type: ignore[arg-type]
    for held in ((), ("axle nut",), tuple(f"part {n}" for n in range(11))):
        yield Other("vehicle set", Subject("A", "B"), held), Reading(), None
    yield Other("vehicle set", Subject(model="b")), Reading(), None
