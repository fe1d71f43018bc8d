"""What the shop itself says to a step at a location: kept by its curators, shown labelled above the step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.sheets import Button
from benchbot.jobs.shop_words import say
from benchbot.jobs.terms import Refused
from benchbot.people.rights import Action
from benchbot.people.terms import Location
from benchbot.records import step_overrides
from benchbot.reply.reply import Block

Body = Mapping[str, Any]
_A_PAGE = 8
_ACTION: Action = "override step"


@dataclass(frozen=True, slots=True)
class ShopPages:
    """For the location where they stand; a page's body says `procedure` and `step`."""

    bench: Bench

    def procedures(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        words, held = self.bench.words(handling), self.bench.shelf.procedures().procedures
        names = list(held)
        shown, turns, _ = self._turned(handling, names, about, "sw")
        buttons = [Button(held[name].title, f"ss.0.{at}", wide=True) for at, name in enumerate(shown)]
        back = Button(words.back, "j.0")
        return Leaf((line(words.words_which, "question"),), (*buttons, *turns, back), {"procedures": shown})

    def steps(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The steps of the work that was pressed, or a further page of them."""
        place, procedures = self._place(handling), self.bench.shelf.procedures()
        at, names = (number_in(about[1]) if len(about) > 1 else None), body.get("procedures", [])
        name = str(names[at]) if at is not None and 0 <= at < len(names) else str(body.get("procedure", ""))
        if place is None or name not in procedures.procedures:
            return self.procedures(handling, ("0",), {})
        words = self.bench.words(handling)
        says = step_overrides.shop_says(self.bench.record, place.number, name)
        keys = list(procedures.procedures[name].steps)
        shown, turns, first = self._turned(handling, keys, about, "ss")
        blocks = [line(words.words_step.format(title=procedures.procedures[name].title), "question")]
        buttons = []
        for number, key in enumerate(shown, first + 1):
            blocks.append(line(f"{number}. {procedures.steps[key].title}{' *' if key in says else ''}"))
            buttons.append(Button(str(number), f"s1.{number - first - 1}"))
        body = {"procedure": name, "steps": shown}
        return Leaf(tuple(blocks), (*buttons, *turns, Button(words.back, "sw.0")), body)

    def step(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        at, keys = (number_in(about[0]) if about else None), body.get("steps", [])
        key = str(keys[at]) if at is not None and 0 <= at < len(keys) else str(body.get("step", ""))
        return self._step(handling, str(body.get("procedure", "")), key)

    def ask(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        procedure, step = str(body.get("procedure", "")), str(body.get("step", ""))
        place, held = self._place(handling), self.bench.shelf.procedures().steps.get(step)
        if place is None or held is None:
            return self.procedures(handling, ("0",), {})
        words = self.bench.words(handling)
        text = words.words_ask.format(location=place.name, title=held.title)
        body = {"procedure": procedure, "step": step}
        awaits = {"do": "shop word", "location": place.number} | body
        return Leaf((line(text, "question"),), (Button(words.cancel, "s1"),), body, awaits)

    def written(self, handling: Handling, entry: Body, text: str) -> Leaf:
        """It counts at the location for which it was asked, wherever they stand by now."""
        location = int(entry["location"])
        decision = self.bench.may(handling, location, _ACTION)
        if not decision.allowed:
            return self.bench.told(handling, handling.words.denied(decision))
        words, procedure, step = self.bench.words(handling), str(entry["procedure"]), str(entry["step"])
        procedures, person = self.bench.shelf.procedures(), handling.asker.person
        made = say(self.bench.record, procedures, location, procedure, step, text, person, handling.now)
        if isinstance(made, Refused):
            return self.ask(handling, (), entry).below(line(words.refused(made), "before"))
        return self._step(handling, procedure, step, line(words.words_kept, "question"))

    def end(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        place, procedure, step = self._place(handling), str(body.get("procedure", "")), str(body.get("step", ""))
        if place is None:
            return self.procedures(handling, ("0",), {})
        person = handling.asker.person
        ended = step_overrides.end(self.bench.record, place.number, procedure, step, person, handling.now)
        notes = (line(self.bench.words(handling).words_ended, "question"),) if ended else ()
        return self._step(handling, procedure, step, *notes)

    def _step(self, handling: Handling, procedure: str, key: str, *notes: Block) -> Leaf:
        words, place = self.bench.words(handling), self._place(handling)
        step = self.bench.shelf.procedures().steps.get(key)
        if place is None or step is None:
            return self.procedures(handling, ("0",), {})
        said = step_overrides.shop_says(self.bench.record, place.number, procedure).get(key, "")
        now = words.words_now.format(text=said) if said else words.words_none
        blocks = (*notes, line(step.title, "question"), line(step.do), line(now, "before"))
        buttons = [Button(words.words_set, "sq")]
        if said:
            buttons.append(Button(words.words_end, "se"))
        buttons.append(Button(words.back, "ss.0"))
        return Leaf(blocks, tuple(buttons), {"procedure": procedure, "step": key})

    def _place(self, handling: Handling) -> Location | None:
        """Where they stand, as long as they may settle it there."""
        standing = handling.asker.standing
        if standing is None or not self.bench.may(handling, standing.location.number, _ACTION).allowed:
            return None
        return standing.location

    def _turned(
        self, handling: Handling, whole: Sequence[str], about: Sequence[str], code: str
    ) -> tuple[list[str], list[Button], int]:
        words = self.bench.words(handling)
        last = max(0, (len(whole) - 1) // _A_PAGE)
        at = min((number_in(about[0]) if about else 0) or 0, last)
        buttons = [Button(words.previous_page, f"{code}.{at - 1}")] if at else []
        if at < last:
            buttons.append(Button(words.next_page, f"{code}.{at + 1}"))
        return list(whole[at * _A_PAGE : (at + 1) * _A_PAGE]), buttons, at * _A_PAGE
