"""Builds follow-ups: what is carried over from earlier messages, and what is not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from random import Random

from bay_terms import AXLE_SAID, BETWEEN, PART, UNIT_AGAIN
from cases import Cases
from oracle import Ask
from wording import QUALIFIER_SAID


@dataclass(frozen=True, slots=True)
class Chat:
    """Earlier messages, the message that is judged, and the slots that are then in force."""

    after: tuple[str, ...]
    text: str
    ask: Ask
    why: str


class Chats:
    """Draws chats of two to four messages; a draw that cannot be made gives None."""

    def __init__(self, rng: Random, cases: Cases) -> None:
        self.rng, self.cases = rng, cases
        self._kinds: tuple[Callable[[], Chat | None], ...] = (
            self.other_axle, self.other_property, self.other_unit, self.other_part, self.other_part_no_axle,
            self.year_supplied, self.axle_supplied, self.qualifier_supplied, self.other_vehicle, self.vehicle_first,
            self.vehicle_without_year,
        )  # fmt: skip

    def draw(self) -> Chat | None:
        chat = self.rng.choice(self._kinds)()
        if chat is None or self.rng.random() > 0.25 or "supplied" in chat.why:
            return chat
        return replace(chat, after=(*chat.after, self.rng.choice(BETWEEN)))

    def _first(self, *, component: str = "", **off: bool) -> tuple[Chat, str, str, str] | None:
        """An opening question; with it the component, position and property of its row."""
        row = self.cases.row(component=component) if component else self.cases.row()
        if row is None:
            return None
        said = self.cases.plain(row, **off)
        text = self.cases.wording.joined(said.vehicle, said.thing)
        return Chat((), text, said.ask, ""), row.component, row.position, row.property

    def other_axle(self) -> Chat | None:
        first = self._first()
        if first is None or PART[first[1]].axles != "both" or first[2] not in ("front", "rear"):
            return None
        chat, _, position, _ = first
        other = "rear" if position == "front" else "front"
        word = self.rng.choice(AXLE_SAID[other][:2])
        text = self.rng.choice(("and {}?", "{}?", "n {}", "what about the {}")).format(word)
        wanted = replace(chat.ask.wanted[0], positions=(other,))
        return Chat((chat.text,), text, replace(chat.ask, wanted=(wanted,)), "axle changes, rest carried")

    def other_property(self) -> Chat | None:
        first = self._first()
        if first is None:
            return None
        chat, component, _, prop = first
        others = [name for name in PART[component].held if name != prop]
        if not others:
            return None
        name = self.rng.choice(others)
        word = self.cases.wording.property(name, component)
        text = self.rng.choice(("{}?", "and {}?", "and the {}", "ok n {}")).format(word)
        wanted = replace(chat.ask.wanted[0], properties=(name,))
        return Chat((chat.text,), text, replace(chat.ask, wanted=(wanted,)), "property changes, rest carried")

    def other_unit(self) -> Chat | None:
        first = self._first()
        if first is None or first[3] != "torque":
            return None
        return Chat((first[0].text,), self.rng.choice(UNIT_AGAIN), first[0].ask, "same spec, other unit")

    def other_part(self, *, axle: bool = True) -> Chat | None:
        first = self._first()
        other = self.cases.row()
        if first is None or other is None or other.component == first[1]:
            return None
        chat = first[0]
        if not axle and PART[other.component].axles != "both":
            return None
        # A bare part after another property could mean that property again, so the property is then said.
        wanted, thing = self.cases.thing(other, axle=axle, bare=first[3] == "torque")
        text = self.rng.choice(("and {}", "{}?", "ok now {}", "also {}")).format(thing)
        why = "another part, vehicle carried" if axle else "another part: the axle does not carry over"
        return Chat((chat.text,), text, replace(chat.ask, wanted=(wanted,)), why)

    def other_part_no_axle(self) -> Chat | None:
        return self.other_part(axle=False)

    def year_supplied(self) -> Chat | None:
        row = self.cases.row()
        first = self._first(year=False)
        if first is None or row is None:
            return None
        chat = first[0]
        spans = self.cases.models[chat.ask.models[0]]
        span = self.rng.choice(spans)
        year = self.rng.randint(span.year_from, span.year_to)
        text = self.rng.choice(("{0}", "its a {0}", "'{1:02d}", "oh sorry {0}")).format(year, year % 100)
        return Chat((chat.text,), text, replace(chat.ask, year=year), "year supplied")

    def axle_supplied(self) -> Chat | None:
        first = self._first(axle=False)
        if first is None or PART[first[1]].axles != "both" or first[2] not in ("front", "rear"):
            return None
        wanted = replace(first[0].ask.wanted[0], positions=(first[2],))
        text = self.rng.choice(("{}", "the {} one", "{} sorry", "{}?")).format(first[2])
        return Chat((first[0].text,), text, replace(first[0].ask, wanted=(wanted,)), "axle supplied")

    def qualifier_supplied(self) -> Chat | None:
        row = self.cases.row()
        if row is None or row.only is None:
            return None
        said = self.cases.plain(row, qualifier=False)
        key, value = row.only
        text = self.rng.choice(("{}", "its the {}", "{} sorry")).format(QUALIFIER_SAID[value][0])
        ask = replace(said.ask, stated=((key, (value,)),))
        return Chat((self.cases.wording.joined(said.vehicle, said.thing),), text, ask, "qualifier supplied")

    def other_vehicle(self) -> Chat | None:
        first, row = self._first(), self.cases.row()
        if first is None or row is None:
            return None
        said = self.cases.vehicle(row)
        if said.ask.models == first[0].ask.models:
            return None
        text = self.rng.choice(("same on a {}", "ok now a {} same thing", "same for a {}?")).format(said.vehicle)
        return Chat(
            (first[0].text,), text, replace(said.ask, wanted=first[0].ask.wanted), "vehicle changes, part carried"
        )

    def vehicle_first(self, *, year: bool = True) -> Chat | None:
        row = self.cases.row()
        if row is None:
            return None
        said = self.cases.vehicle(row, year=year)
        longer = year and self.rng.random() < 0.3
        wanted, thing = self.cases.thing(row, bare=not longer)
        earlier: tuple[str, ...] = (said.vehicle,)
        if longer:
            other = self.rng.choice([r for r in self.cases.rows if r.vehicle == row.vehicle])
            earlier = (said.vehicle, self.cases.thing(other)[1])
        ask = replace(said.ask, wanted=(wanted,))
        return Chat(earlier, thing, ask, "vehicle set first" if year else "the vehicle is set, its year is not")

    def vehicle_without_year(self) -> Chat | None:
        return self.vehicle_first(year=False)
