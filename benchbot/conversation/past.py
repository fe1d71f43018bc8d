"""What a chat remembers between messages: the vehicle on the lift, what was asked last, and a pending question."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

from benchbot.measuring.measured import Measured
from benchbot.understanding.reading import Ask, Place
from benchbot.vocabulary.terms import Stated


@dataclass(frozen=True, slots=True)
class Past:
    """The memory of one chat, as it lies in the record.

    vehicles: make and model of every vehicle that can be meant; state as in VehicleRead.
    answered: the last question got its answer or its gap, so that a vehicle named next starts afresh.
    settled: no other vehicle was named since the one on the lift was put there.
    choices: what each choice of the pending question states, in order; labels: how the book's language says them;
    shown: how another language showed them, empty where none did.
    begun: a sum of which a piece was asked back, as far as it goes.
    measured: what was measured, while something is asked back about it.
    """

    vehicles: tuple[tuple[str, str], ...] = ()
    state: str = "none"
    said: str = ""
    years: tuple[int, ...] = ()
    year_range: bool = False
    stated: tuple[Stated, ...] = ()
    excluded: tuple[Stated, ...] = ()
    asks: tuple[Ask, ...] = ()
    left_over: tuple[str, ...] = ()
    only_rows: tuple[str, ...] = ()
    answered: bool = False
    settled: bool = True
    choices: tuple[dict[str, Any], ...] = ()
    labels: tuple[str, ...] = ()
    shown: tuple[str, ...] = ()
    begun: str = ""
    measured: Measured | None = None

    def to_text(self) -> str:
        return json.dumps(asdict(self), ensure_ascii=False, separators=(",", ":"))

    @classmethod
    def from_text(cls, text: str) -> Past:
        plain = json.loads(text)
        return cls(
            vehicles=tuple((make, model) for make, model in plain["vehicles"]),
            state=plain["state"],
            said=plain["said"],
            years=tuple(plain["years"]),
            year_range=plain["year_range"],
            stated=tuple(Stated(s["key"], s["value"], s["part"]) for s in plain["stated"]),
            excluded=tuple(Stated(s["key"], s["value"], s["part"]) for s in plain["excluded"]),
            asks=tuple(_ask(a) for a in plain["asks"]),
            left_over=tuple(plain["left_over"]),
            only_rows=tuple(plain["only_rows"]),
            answered=plain["answered"],
            settled=plain.get("settled", True),
            choices=tuple(plain["choices"]),
            labels=tuple(plain["labels"]),
            # what was remembered before replies had languages holds none
            shown=tuple(plain.get("shown", ())),
            begun=plain.get("begun", ""),
            measured=Measured.from_plain(plain["measured"]) if plain.get("measured") else None,
        )


def _ask(plain: dict[str, Any]) -> Ask:
    place = plain["place"]
    return Ask(
        tuple(plain["components"]),
        plain["always"],
        plain["question"],
        tuple(plain["properties"]),
        plain["vague"],
        Place(
            tuple(place["axles"]),
            tuple(place["sides"]),
            tuple(place["heights"]),
            tuple(place["depths"]),
            place["several"],
        ),
        plain["named"],
    )
