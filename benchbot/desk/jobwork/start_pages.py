"""`/job`: the open jobs of the location, and the beginning of one: vehicle, work, what is fitted, wheels, order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.conversation.lift import Lift
from benchbot.conversation.past import Past
from benchbot.conversation.remembering import next_past
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench, vehicle_of
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.step_pages import StepPages
from benchbot.desk.sheets import Button
from benchbot.jobs.beginning import begin
from benchbot.jobs.entries import read_repair_order, read_vehicle
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import WHEELS, Refused, Vehicle
from benchbot.jobs.walking import in_hand
from benchbot.procedures.steps import Procedure
from benchbot.records import jobs, step_overrides
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import position_words
from benchbot.vocabulary.letters import fold

Body = Mapping[str, Any]
Draft = dict[str, Any]
_A_PAGE, _LISTED = 8, 40


@dataclass(frozen=True, slots=True)
class StartPages:
    """A draft lies in the page's body until it is a job: nothing goes on record before it is whole."""

    bench: Bench
    steps: StepPages

    def all(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The open jobs of where they stand."""
        words, standing = self.bench.words(handling), handling.asker.standing
        if standing is None:
            return self.bench.told(handling, words.job_foreign)
        place = standing.location
        held = [one.number for one in jobs.newest(self.bench.record, place.number, _LISTED, only_open=True)]
        last = max(0, (len(held) - 1) // _A_PAGE)
        page = min((number_in(about[0]) if about else 0) or 0, last)
        shown = held[page * _A_PAGE : (page + 1) * _A_PAGE]
        mine = in_hand(self.bench.record, handling.asker.person)
        head = words.jobs_head if held else words.jobs_none
        blocks = [line(head.format(location=place.name), "question")]
        buttons = []
        for number in shown:
            state = job_state(self.bench.record, number)
            if state is not None:
                blocks.append(line(self._line(handling, state, number == mine)))
                buttons.append(Button(str(number), f"jo.{number}"))
        if page:
            buttons.append(Button(words.previous_page, f"j.{page - 1}"))
        if page < last:
            buttons.append(Button(words.next_page, f"j.{page + 1}"))
        buttons.append(Button(words.job_begin, "n1", wide=True))
        if self.bench.may(handling, place.number, "override step").allowed:
            buttons.append(Button(words.job_shop_words, "sw.0", wide=True))
        return Leaf(tuple(blocks), tuple(buttons))

    def open(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """A job of the list, from where it stands; a job that this person has not in hand they take up."""
        number = number_in(about[0]) if about else None
        state = self.bench.job(handling, {"job": number or 0})
        if isinstance(state, Leaf):
            return state
        if in_hand(self.bench.record, handling.asker.person) == state.number and state.paused is None:
            self.bench.put_on_lift(handling, state.vehicle)
            return self.steps.page(handling, state)
        return self.steps.resume(handling, (), {"job": state.number})

    def new(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        return self._next(handling, {})

    def named(self, handling: Handling, text: str) -> Leaf:
        """A job on a vehicle named behind the command; without one, the list."""
        return self._vehicle_said(handling, {}, text) if text.strip() else self.all(handling, (), {})

    def take_lift(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The vehicle that stood on the page, whatever is on the lift by now."""
        plain = body.get("lift")
        return self._next(handling, {"vehicle": plain} if plain else {})

    def as_written(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """A vehicle that the book does not hold."""
        said = read_vehicle(Vehicle(str(body.get("said", ""))))
        if isinstance(said, Refused):
            return self._next(handling, {}, line(self.bench.words(handling).refused(said), "before"))
        return self._next(handling, {"vehicle": Vehicle(said).to_plain()})

    def pick(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The work."""
        at, names = (number_in(about[0]) if about else None), body.get("procedures", [])
        draft = dict(body.get("draft", {}))
        if at is not None and 0 <= at < len(names):
            draft["procedure"] = str(names[at])
        return self._next(handling, draft)

    def more(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        page = (number_in(about[0]) if about else 0) or 0
        return self._which_procedure(handling, dict(body.get("draft", {})), page=page)

    def fit(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        at, draft = (number_in(about[0]) if about else None), dict(body.get("draft", {}))
        variants = self.bench.shelf.procedures().variants(str(draft.get("procedure", ""))) if draft else ()
        if at is not None and 0 <= at < len(variants):
            draft["fitted"] = [variants[at]]
        return self._next(handling, draft)

    def wheel(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """One wheel more, or one less; `all` for the four; `on` once they are chosen."""
        draft = dict(body.get("draft", {}))
        chosen = [str(one) for one in draft.get("wheels", [])]
        what = about[0] if about else ""
        at = number_in(what)
        if what == "all":
            chosen = list(WHEELS)
        elif at is not None and at < len(WHEELS):
            chosen = [one for one in WHEELS if (one in chosen) != (one == WHEELS[at])]
        draft["wheels"] = chosen
        draft["wheels told"] = what in ("on", "all") and bool(chosen)
        return self._next(handling, draft)

    def without_order(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        return self._next(handling, dict(body.get("draft", {})) | {"order": ""})

    def written(self, handling: Handling, entry: Body, text: str) -> Leaf:
        """Which vehicle, which work, or the number of the order."""
        draft = dict(entry.get("draft", {}))
        if entry["asks"] == "vehicle":
            return self._vehicle_said(handling, draft, text)
        if entry["asks"] == "procedure":
            found = self.meant(text)
            if len(found) == 1:
                return self._next(handling, draft | {"procedure": found[0].id})
            names = [one.id for one in found]
            note = () if found else (line(self.bench.words(handling).procedure_unsure, "before"),)
            return self._which_procedure(handling, draft, names, 0, *note)
        number = read_repair_order(text)
        if isinstance(number, Refused):
            return self._which_order(handling, draft, line(self.bench.words(handling).refused(number), "before"))
        return self._next(handling, draft | {"order": number})

    def meant(self, text: str) -> list[Procedure]:
        """The procedures that have every word of the text, in their name or in what they are for."""
        said = set(_words(text)) - _PASSING
        held = self.bench.shelf.procedures().procedures.values()
        by_name = [one for one in held if said and said <= set(_words(f"{one.title} {one.id} {one.axle}"))]
        return by_name or [
            one for one in held
            if said and said <= set(_words(f"{one.title} {one.id} {one.axle} {one.applies_when}"))
        ]  # fmt: skip

    def vehicle(self, handling: Handling, text: str) -> Vehicle | None:
        """The one vehicle with its year that the text names; None when it names none, or several."""
        conversation = self.bench.conversation
        turn = conversation.consider(text, None, handling.asker.manner)
        lift = Lift.of(next_past((turn.reading,), turn.outcome, Past(), conversation.book))
        return vehicle_of(lift) if lift is not None and len(lift.years) == 1 else None

    def _vehicle_said(self, handling: Handling, draft: Draft, text: str) -> Leaf:
        found = self.vehicle(handling, text)
        if found is not None:
            return self._next(handling, draft | {"vehicle": found.to_plain()})
        words = self.bench.words(handling)
        reading = self.bench.conversation.consider(text, None, handling.asker.manner).reading
        if reading.vehicle.state in ("none", "unknown"):
            said = " ".join(text.split())[:120]
            buttons = (Button(words.vehicle_as_written, "na"), Button(words.cancel, "j.0"))
            asks = {"do": "draft", "asks": "vehicle", "draft": draft}
            return Leaf((line(words.vehicle_strange.format(said=said), "question"),), buttons, {"said": said}, asks)
        return self._which_vehicle(handling, draft, line(words.vehicle_unsure, "before"))

    def _next(self, handling: Handling, draft: Draft, *notes: Block) -> Leaf:
        """What is still to be told, or the job."""
        procedures = self.bench.shelf.procedures()
        if "vehicle" not in draft:
            return self._which_vehicle(handling, draft, *notes)
        procedure = procedures.procedures.get(str(draft.get("procedure", "")))
        if procedure is None:
            return self._which_procedure(handling, draft, None, 0, *notes)
        if procedures.variants(procedure.id) and not draft.get("fitted"):
            return self._which_fitted(handling, draft, procedure)
        if procedure.axle == "any" and not draft.get("wheels told"):
            return self._which_wheels(handling, draft, procedure)
        if "order" not in draft:
            return self._which_order(handling, draft, *notes)
        return self._begin(handling, draft, procedure)

    def _begin(self, handling: Handling, draft: Draft, procedure: Procedure) -> Leaf:
        words, standing = self.bench.words(handling), handling.asker.standing
        if standing is None:
            return self.bench.told(handling, words.job_foreign)
        place, vehicle = standing.location, Vehicle.from_plain(draft["vehicle"])
        made = begin(
            self.bench.record,
            self.bench.shelf.procedures(),
            self.bench.conversation.lexicon.vocabulary,
            vehicle,
            procedure.id,
            self.bench.who(handling),
            handling.now,
            place,
            str(draft["order"]),
            [str(one) for one in draft.get("wheels", [])],
            [str(one) for one in draft.get("fitted", [])],
            step_overrides.shop_says(self.bench.record, place.number, procedure.id),
            self.bench.conversation.book.version,
            self.bench.once(handling),
        )
        if isinstance(made, Refused):
            return self.bench.refused(handling, made, 0)
        self.bench.put_on_lift(handling, vehicle)
        told = words.begun.format(job=made.number, title=made.sheet.title, vehicle=vehicle.said)
        return self.steps.outline(handling, made, line(told, "question"))

    def _which_vehicle(self, handling: Handling, draft: Draft, *notes: Block) -> Leaf:
        words = self.bench.words(handling)
        stored = handling.record.chat_state(handling.chat, handling.now)
        lift = Lift.of(Past.from_text(stored)) if stored else None
        asks = {"do": "draft", "asks": "vehicle", "draft": draft}
        cancel = Button(words.cancel, "j.0")
        if lift is None or len(lift.years) != 1:
            return Leaf((*notes, line(words.vehicle_which, "question")), (cancel,), {}, asks)
        blocks = (*notes, line(words.vehicle_lift.format(vehicle=lift.label)), line(words.vehicle_which, "question"))
        body = {"lift": vehicle_of(lift).to_plain()}
        return Leaf(blocks, (Button(words.vehicle_this, "nl"), cancel), body, asks)

    def _which_procedure(
        self, handling: Handling, draft: Draft, names: list[str] | None = None, page: int = 0, *notes: Block
    ) -> Leaf:
        words, held = self.bench.words(handling), self.bench.shelf.procedures().procedures
        if "vehicle" not in draft:
            return self._which_vehicle(handling, draft)
        whole = names or list(held)
        last = (len(whole) - 1) // _A_PAGE
        page = min(page, last)
        shown = whole[page * _A_PAGE : (page + 1) * _A_PAGE]
        buttons = [Button(held[name].title, f"np.{at}", wide=True) for at, name in enumerate(shown)]
        if page:
            buttons.append(Button(words.previous_page, f"nm.{page - 1}"))
        if page < last:
            buttons.append(Button(words.next_page, f"nm.{page + 1}"))
        text = words.procedure_which.format(vehicle=draft["vehicle"]["said"])
        asks = {"do": "draft", "asks": "procedure", "draft": draft}
        body = {"draft": draft, "procedures": shown}
        return Leaf((*notes, line(text, "question")), (*buttons, Button(words.cancel, "j.0")), body, asks)

    def _which_fitted(self, handling: Handling, draft: Draft, procedure: Procedure) -> Leaf:
        words = self.bench.words(handling)
        variants = self.bench.shelf.procedures().variants(procedure.id)
        buttons = [Button(name, f"nf.{at}", wide=True) for at, name in enumerate(variants)]
        text = words.fitted_which.format(title=procedure.title)
        return Leaf((line(text, "question"),), (*buttons, Button(words.cancel, "j.0")), {"draft": draft})

    def _which_wheels(self, handling: Handling, draft: Draft, procedure: Procedure) -> Leaf:
        words, wording = self.bench.words(handling), wording_of(handling.asker.language)
        chosen = [position_words(one, wording) for one in draft.get("wheels", [])]
        buttons = [Button(position_words(wheel, wording), f"nw.{at}") for at, wheel in enumerate(WHEELS)]
        buttons.append(Button(words.wheels_all, "nw.all"))
        if chosen:
            buttons.append(Button(words.go_on, "nw.on"))
        text = words.wheels_which.format(title=procedure.title, chosen=", ".join(chosen) or words.wheels_none)
        return Leaf((line(text, "question"),), (*buttons, Button(words.cancel, "j.0")), {"draft": draft})

    def _which_order(self, handling: Handling, draft: Draft, *notes: Block) -> Leaf:
        words = self.bench.words(handling)
        asks = {"do": "draft", "asks": "order", "draft": draft}
        buttons = (Button(words.order_without, "no"), Button(words.cancel, "j.0"))
        return Leaf((*notes, line(words.order_which, "question")), buttons, {"draft": draft}, asks)

    def _line(self, handling: Handling, state: JobState, mine: bool) -> str:
        words = self.bench.words(handling)
        if state.paused is not None:
            standing = words.job_paused.format(name=state.paused.name)
        else:
            standing = words.job_in_hand if mine else words.job_going.format(name=state.begun.name)
        return words.job_line.format(
            number=state.number,
            vehicle=state.vehicle.said,
            title=state.sheet.title,
            settled=len(state.settled),
            count=len(state.sheet.steps),
            state=standing,
        )


_PASSING = frozenset({"the", "a", "and", "on", "do", "job", "service", "work", "please"})


def _words(text: str) -> list[str]:
    """Folded words; of several the one ("brakes" is "brake")."""
    plain = "".join(letter if letter.isalnum() else " " for letter in fold(text))
    return [word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
            for word in plain.split()]  # fmt: skip
