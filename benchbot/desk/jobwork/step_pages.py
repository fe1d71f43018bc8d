"""The step in hand: shown, done, skipped, left for the one before or behind; where somebody is; a job that rests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.conversation.conversation import Turn
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.book_values import BookValues, questions_of
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.line_words import wants_words
from benchbot.desk.jobwork.step_shown import cautions, step_blocks
from benchbot.desk.sheets import Button
from benchbot.jobs import doing
from benchbot.jobs.learning import learn, unlearn
from benchbot.jobs.open_points import open_points
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import Refused
from benchbot.jobs.walking import Place, where
from benchbot.outcomes import Answer
from benchbot.people.channels import name_there
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import qualifier_words

Body = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class StepPages:
    """A page's body: `job`, and `step`, the key of the step that stands on it, so that no other one is settled."""

    bench: Bench
    values: BookValues

    def show(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The step that this person is at."""
        state = self.bench.job(handling, body)
        return state if isinstance(state, Leaf) else self.page(handling, state)

    def page(self, handling: Handling, state: JobState, *notes: Block) -> Leaf:
        """The step that this person is at, or what there is instead of one."""
        words, job = self.bench.words(handling), {"job": state.number}
        if state.finished is not None:
            text = words.finished_by.format(job=state.number, name=state.finished.name)
            return Leaf((*notes, line(text, "question")), (Button(words.papers_again, "fp"),), job)
        if state.paused is not None:
            return Leaf((*notes, line(self._rests(handling, state), "question")), (Button(words.resume, "r"),), job)
        place = where(state, handling.asker.person)
        if place is None:
            buttons = (Button(words.finish, "o.0"), Button(words.step_back, "b"), *self._confirm(handling, state))
            return Leaf((*notes, line(words.no_more, "question")), (*buttons, Button(words.where_am_i, "w")), job)
        return self._step(handling, state, place, notes)

    def _step(self, handling: Handling, state: JobState, place: Place, notes: tuple[Block, ...]) -> Leaf:
        words, vocabulary = self.bench.words(handling), self.bench.conversation.lexicon.vocabulary
        found: list[tuple[Want, Turn]] = []
        buttons: list[Button] = []
        body: dict[str, Any] = {"job": state.number, "step": place.step.key, "open": place.state == "open"}
        for want in self._wants(state, place.step.key):
            turn = self.values.of(handling, state, want)
            if any(_alike(want, turn, *other) for other in found):
                continue
            found.append((want, turn))
            asked, more = questions_of(turn, want)
            if asked and not buttons:
                buttons += asked
                body |= more
        blocks = step_blocks(state, place, found, vocabulary, words)
        measures = any(one.step == place.step.key for one in state.sheet.measures)
        fasteners = any(one.step == place.step.key for one in state.sheet.fasteners)
        buttons += [
            *((Button(words.measured, "m"),) if measures else ()),
            *((Button(words.tightened, "t"),) if fasteners else ()),
            Button(words.done, "d"),
            Button(words.step_back, "b"),
            Button(words.step_next, "n"),
            Button(words.skip, "k"),
            Button(words.where_am_i, "w"),
            Button(words.pause, "p"),
            *((Button(handling.words.picture, "i"),) if place.step.picture else ()),
            *self._confirm(handling, state),
        ]
        return Leaf((*notes, *blocks), tuple(buttons), body)

    def done(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What stands on the page is done; nothing of it when another has settled that step since."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, step = self.bench.words(handling), str(body.get("step", ""))
        settled = state.settled.get(step)
        if settled is not None and body.get("open"):
            form = words.other_skipped if settled.what == "skipped" else words.other_did
            return self.page(handling, state, line(form.format(name=settled.name), "before"))
        missing = state.missing_lines(step) if step else ()
        made = self._put(handling, state, "done", step)
        if isinstance(made, Leaf):
            return made
        if not missing:
            return self.page(handling, made)
        told = words.open_lines.format(names=wants_words(missing, words.language))
        return self.page(handling, made, line(told, "before"))

    def back(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        return self._walk(handling, body, "go_back")

    def go_on(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        return self._walk(handling, body, "go_on")

    def pause(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        made = doing.pause(
            self.bench.record, state.number, self.bench.who(handling), handling.now, self.bench.once(handling)
        )
        if isinstance(made, Refused):
            return self.bench.refused(handling, made, state.number)
        words = self.bench.words(handling)
        text = words.paused.format(job=state.number, location=state.begun.body["location_name"])
        return Leaf((line(text, "question"),), (Button(words.resume, "r"),), {"job": state.number})

    def resume(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """This person has the job in hand; their next questions are about its vehicle."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        if state.finished is not None:
            return self.page(handling, state)
        made = doing.resume(
            self.bench.record, state.number, self.bench.who(handling), handling.now, self.bench.once(handling)
        )
        if isinstance(made, Refused):
            return self.bench.refused(handling, made, state.number)
        self.bench.put_on_lift(handling, made.vehicle)
        return self.page(handling, made)

    def ask_skip(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, step = self.bench.words(handling), state.step(str(body.get("step", "")))
        if step is None:
            return self.page(handling, state)
        job = {"job": state.number, "step": step.key, "open": bool(body.get("open"))}
        return Leaf(
            (line(words.skip_why.format(title=step.title), "question"),),
            (Button(words.cancel, "s"),),
            job,
            {"do": "skip"} | job,
        )

    def skip(self, handling: Handling, body: Body, reason: str) -> Leaf:
        """The step that stood on the page is left out."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, step = self.bench.words(handling), str(body.get("step", ""))
        settled = state.settled.get(step)
        if settled is not None and body.get("open"):
            form = words.other_skipped if settled.what == "skipped" else words.other_did
            return self.page(handling, state, line(form.format(name=settled.name), "before"))
        made = doing.skip(
            self.bench.record, state.number, self.bench.who(handling), handling.now, reason, step,
            self.bench.once(handling),
        )  # fmt: skip
        if isinstance(made, Refused):
            asked = self.ask_skip(handling, (), body)
            return asked.below(line(words.refused(made), "before"))
        return self.page(handling, made)

    def answer(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """A choice of what the book asked back: it counts for the whole job, whoever goes on with it."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        chosen = self.chosen(handling, about, body, state)
        return chosen if isinstance(chosen, Leaf) else self.page(handling, chosen)

    def chosen(self, handling: Handling, about: Sequence[str], body: Body, state: JobState) -> JobState | Leaf:
        at = number_in(about[0]) if about else None
        asks = body.get("asks", {"want": "", "states": []})
        if at is None or not 0 <= at < len(asks["states"]):
            return self.page(handling, state)
        made = learn(
            self.bench.record, state.number, self.bench.who(handling), handling.now, asks["states"][at],
            str(asks["want"]), self.bench.once(handling),
        )  # fmt: skip
        return self.bench.refused(handling, made, state.number) if isinstance(made, Refused) else made

    def ask_again(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What was told of the vehicle on the way was wrong."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        made = unlearn(
            self.bench.record, state.number, self.bench.who(handling), handling.now, self.bench.once(handling)
        )
        return (
            self.bench.refused(handling, made, state.number) if isinstance(made, Refused) else self.page(handling, made)
        )

    def where(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """Which job, which step, who else is at it, and how much is open."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, sheet = self.bench.words(handling), state.sheet
        head = words.where_head.format(job=state.number, vehicle=state.vehicle.said, title=sheet.title)
        blocks = [line(head, "question")]
        if state.repair_order:
            blocks.append(line(words.where_order.format(number=state.repair_order)))
        place = where(state, handling.asker.person)
        if place is not None:
            told = words.where_step.format(number=place.number, count=place.count, title=place.step.title)
            blocks.append(line(told))
        points, count = len(open_points(state)), len(sheet.steps)
        blocks.append(line(words.where_settled.format(settled=len(state.settled), count=count, points=points)))
        learned = [text for event in state.learned for text in _learned(event.body["states"], words.language)]
        if learned:
            blocks.append(line(words.where_learned.format(told=", ".join(learned))))
        blocks.append(line(words.where_people.format(names=", ".join(dict.fromkeys(state.names.values())))))
        buttons = [
            Button(words.to_the_step, "s"),
            Button(words.open_points, "o.0"),
            Button(words.overview, "v"),
            Button(words.corrections, "x"),
            *((Button(words.ask_again, "qx"),) if learned else ()),
            *self._confirm(handling, state),
        ]
        # what is said next is said of the step that is named here
        here = {} if place is None else {"step": place.step.key, "open": place.state == "open"}
        return Leaf(tuple(blocks), tuple(buttons), {"job": state.number} | here)

    def overview(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What the work is for and what it takes."""
        state = self.bench.job(handling, body)
        return state if isinstance(state, Leaf) else self.outline(handling, state)

    def outline(self, handling: Handling, state: JobState, *notes: Block) -> Leaf:
        words = self.bench.words(handling)
        procedure = self.bench.shelf.procedures().procedures.get(state.sheet.id)
        blocks = [*notes]
        if procedure is not None:
            vocabulary = self.bench.conversation.lexicon.vocabulary
            blocks += cautions(procedure.cautions, vocabulary, words.language)
            blocks.append(line(words.applies.format(text=procedure.applies_when)))
            for form, texts in (
                (words.tools, procedure.tools),
                (words.consumables, procedure.consumables),
                (words.new_parts, procedure.new_parts_always),
            ):
                blocks.append(line(form.format(text=", ".join(texts))))
        blocks.append(line(words.hands_free))
        return Leaf(tuple(blocks), (Button(words.to_the_step, "s"),), {"job": state.number})

    def _wants(self, state: JobState, step: str) -> list[Want]:
        return [one for one in (*state.sheet.fasteners, *state.sheet.measures) if one.step == step]

    def _walk(self, handling: Handling, body: Body, way: str) -> Leaf:
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        made = self._put(handling, state, way)
        return made if isinstance(made, Leaf) else self.page(handling, made)

    def _put(self, handling: Handling, state: JobState, what: str, step: str = "") -> JobState | Leaf:
        record, who, now, once = self.bench.record, self.bench.who(handling), handling.now, self.bench.once(handling)
        if what == "done":
            made = doing.done(record, state.number, who, now, step, once)
        elif what == "go_back":
            made = doing.go_back(record, state.number, who, now, once)
        else:
            made = doing.go_on(record, state.number, who, now, once)
        if isinstance(made, Refused):
            note = line(self.bench.words(handling).refused(made), "before")
            return self.page(handling, state, note)
        return made

    def _confirm(self, handling: Handling, state: JobState) -> tuple[Button, ...]:
        mine = [one for one in state.unconfirmed() if one.person != handling.asker.person]
        shown = state.second_person and bool(mine)
        return (Button(self.bench.words(handling).confirm, "c"),) if shown else ()

    def _rests(self, handling: Handling, state: JobState) -> str:
        words, paused = self.bench.words(handling), state.paused
        name = paused.name or name_there(paused.person) if paused else ""
        at = f"{paused.at:%Y-%m-%d %H:%M} UTC" if paused else ""
        return words.job_rests.format(job=state.number, vehicle=state.vehicle.said, name=name, at=at)


def _learned(states: Mapping[str, Any], language: str) -> list[str]:
    """What a choice stated, in words."""
    wording = wording_of(language)
    if "stated" in states:
        key, value = states["stated"]
        return [qualifier_words(str(key), str(value), wording)]
    return [str(value) for value in states.values()]


def _alike(want: Want, turn: Turn, other: Want, before: Turn) -> bool:
    """Whether both wheels have the same answer, which is then shown once."""
    if (want.component, want.name) != (other.component, other.name):
        return False
    if isinstance(turn.outcome, Answer) and isinstance(before.outcome, Answer):
        return turn.reply.specs == before.reply.specs
    return type(turn.outcome) is type(before.outcome)
