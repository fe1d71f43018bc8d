"""What was measured: entered with its unit, held against the limits of this vehicle at once, and put on record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.book_values import BookValues, questions_of
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.line_words import line_words, named, want_words
from benchbot.desk.jobwork.offering import figures_of, lines_of, offered, told
from benchbot.desk.jobwork.step_pages import StepPages
from benchbot.desk.jobwork.typed_figures import Figures, read_figures
from benchbot.desk.sheets import Button
from benchbot.errors import QuantityError
from benchbot.jobs import doing
from benchbot.jobs.judged import verdict_of
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import NOT_JUDGED, Measured, Refused, When
from benchbot.measuring.measured import Measure
from benchbot.measuring.measured import Measured as Readings
from benchbot.outcomes import Answer, Choose
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import property_words

Body = Mapping[str, Any]
_UNITS = ("mm", "in", "thou")
_WHENS: dict[str, When] = {"before": "before", "after": "after"}


@dataclass(frozen=True, slots=True)
class MeasurePages:
    """A page's body: `want`, the number of the line among those that the job measures; `when`, before or after."""

    bench: Bench
    values: BookValues
    steps: StepPages

    def ask(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The line of that number; without one, the first of the step that nobody has entered."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        at = number_in(about[0]) if about else None
        if at is not None and at < len(state.sheet.measures):
            when = _WHENS.get(about[1]) if len(about) > 1 else None
            return self._entry(handling, state, at, when)
        return self.first(handling, state, str(body.get("step", "")))

    def first(self, handling: Handling, state: JobState, step: str) -> Leaf:
        """Those that are still to be entered first; once all are there, whichever is wanted again."""
        wants = [number for number, one in enumerate(state.sheet.measures) if one.step == step]
        if not wants:
            return self.steps.page(handling, state, line(self.bench.words(handling).measure_none, "before"))
        missing = {one.key for one in state.missing_lines(step)}
        open_ones = [number for number in wants if state.sheet.measures[number].key in missing]
        return self._entry(handling, state, open_ones[0]) if open_ones else self._list(handling, state, step)

    def all(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        state = self.bench.job(handling, body)
        return state if isinstance(state, Leaf) else self._list(handling, state, str(body.get("step", "")))

    def written(self, handling: Handling, entry: Body, text: str) -> Leaf:
        """The figures of the line that was asked for."""
        state = self.bench.job(handling, entry)
        if isinstance(state, Leaf):
            return state
        words, at = self.bench.words(handling), int(entry["want"])
        asked = self._entry(handling, state, at, _WHENS.get(str(entry["when"])))
        try:
            figures = read_figures(text)
        except QuantityError:
            return asked.below(line(words.measure_length, "before"))
        if figures is None:
            return asked.below(line(words.measure_figure, "before"))
        when = figures.when or _WHENS[str(entry["when"])]
        if not figures.unit:
            return self._which_unit(handling, state, at, figures.figures, when, _UNITS)
        return self._judge(handling, state, at, figures, when)

    def typed(self, handling: Handling, state: JobState, step: str, figures: Figures) -> Leaf:
        """Figures and nothing else at a step that measures: of the one line left, or of which."""
        words, puts = self.bench.words(handling), lines_of(state, step, figures)
        if len(puts) > 1:
            return offered(state, step, puts, words)
        return self._put(handling, state, puts[0][1], figures)

    def put(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What was measured in between goes into the line that was pressed."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        at, puts = (number_in(about[0]) if about else None), body.get("puts", [])
        if at is None or not 0 <= at < len(puts):
            return self.steps.page(handling, state)
        put = puts[at]
        figures = replace(figures_of(put), when=_WHENS.get(str(put["when"])))
        left = dict.fromkeys(told(figures_of(one)) for one in puts if one["figures"] != put["figures"])
        leaf = self._put(handling, state, int(put["want"]), figures)
        if not left:
            return leaf
        words = self.bench.words(handling)
        return leaf.below(line(words.not_in_job.format(job=state.number, figures="; ".join(left)), "before"))

    def _put(self, handling: Handling, state: JobState, at: int, figures: Figures) -> Leaf:
        when = figures.when or _when(state, state.sheet.measures[at])
        if not figures.unit:
            return self._which_unit(handling, state, at, figures.figures, when, _UNITS)
        return self._judge(handling, state, at, figures, when)

    def unit(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The unit was asked for and is told now."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        at, units = (number_in(about[0]) if about else None), body.get("units", [])
        held = body.get("figures")
        if at is None or not held or not 0 <= at < len(units):
            return self.steps.page(handling, state)
        figures = Figures(tuple(held), str(units[at]))
        return self._judge(handling, state, int(body["want"]), figures, _WHENS[str(body["when"])], told=True)

    def answer(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What the book asked back is told now: the figures that wait for it are judged."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        chosen = self.steps.chosen(handling, about, body, state)
        if isinstance(chosen, Leaf):
            return chosen
        figures = Figures(tuple(body["figures"]), str(body["unit"]))
        when, told = _WHENS[str(body["when"])], bool(body.get("told"))
        return self._judge(handling, chosen, int(body["want"]), figures, when, told)

    def _judge(
        self, handling: Handling, state: JobState, at: int, figures: Figures, when: When, told: bool = False
    ) -> Leaf:
        want, words = state.sheet.measures[at], self.bench.words(handling)
        readings = Readings(tuple(Measure(one, figures.unit) for one in figures.figures), unit_chosen=told)
        turn = self.values.of(handling, state, want, readings)
        outcome = turn.outcome
        held = {"figures": list(figures.figures), "unit": figures.unit, "told": told, "when": when, "want": at}
        if isinstance(outcome, Choose) and outcome.about == "unit":
            units = tuple(str(value) for option in outcome.options for value in option.states.values())
            return self._which_unit(handling, state, at, figures.figures, when, units)
        buttons, asks = questions_of(turn, want, "mq")
        if buttons:
            body = {"job": state.number, "step": want.step} | held | asks
            return Leaf(turn.reply.blocks, (*buttons, Button(words.cancel, "s")), body)
        verdict, notes = NOT_JUDGED, list(turn.reply.blocks)
        if isinstance(outcome, Answer) and outcome.judged:
            said = " ".join(block.text for block in turn.reply.blocks if block.kind == "verdict")[:400]
            verdict = verdict_of(outcome.judged, said, [finding.row for finding in outcome.findings])
        else:
            notes.append(line(words.measure_unmatched, "before"))
        value = " ".join(figures.figures)
        measured = Measured(want.component, want.name, value, figures.unit, when, want.wheel)
        made = doing.measure(
            self.bench.record, state.number, self.bench.who(handling), handling.now, measured, verdict,
            self.bench.once(handling, "line"),
        )  # fmt: skip
        if isinstance(made, Refused):
            return self._entry(handling, state, at, when).below(line(words.refused(made), "before"))
        # below the verdict: what is unsafe is said first
        notes.append(line(words.on_line.format(line=line_words(made, made.measured[-1], words)), "echo"))
        return self._after(handling, made, want, notes)

    def _after(self, handling: Handling, state: JobState, want: Want, notes: list[Block]) -> Leaf:
        """What comes next of the same step, asked for at once; hands are dirty."""
        words = self.bench.words(handling)
        missing = [one for one in state.missing_lines(want.step) if one.where]
        if missing:
            at = next(n for n, one in enumerate(state.sheet.measures) if one.key == missing[0].key)
            asked = self._entry(handling, state, at)
            return asked.below(*notes, line(words.measure_next))
        buttons = (Button(words.to_the_step, "s"), Button(words.another, "ml"))
        return Leaf(tuple(notes), buttons, {"job": state.number, "step": want.step})

    def _entry(self, handling: Handling, state: JobState, at: int, when: When | None = None) -> Leaf:
        words, want = self.bench.words(handling), state.sheet.measures[at]
        then: When = when or _when(state, want)
        text = words.measure_ask.format(
            named=named(want.component, want.wheel, "", words.language),
            property=property_words(want.name, wording_of(words.language)),
            when=words.whens[then],
        )
        other = "before" if then == "after" else "after"
        label = words.measure_before if then == "after" else words.measure_after
        buttons = (
            Button(label, f"m.{at}.{other}"),
            Button(words.another, "ml"),
            Button(words.to_the_step, "s"),
        )
        body = {"job": state.number, "step": want.step, "want": at, "when": then}
        return Leaf((line(text, "question"), line(want.where)), buttons, body, {"do": "measure"} | body)

    def _which_unit(
        self, handling: Handling, state: JobState, at: int, figures: tuple[str, ...], when: When, units: tuple[str, ...]
    ) -> Leaf:
        words, want = self.bench.words(handling), state.sheet.measures[at]
        body = {"job": state.number, "step": want.step, "want": at, "when": when}
        buttons = [Button(unit, f"u.{number}") for number, unit in enumerate(units)]
        buttons.append(Button(words.cancel, "s"))
        text = words.measure_unit.format(figures=" ".join(figures))
        choose = {"figures": list(figures), "units": list(units)}
        return Leaf((line(text, "question"),), tuple(buttons), body | choose, {"do": "measure"} | body)

    def _list(self, handling: Handling, state: JobState, step: str) -> Leaf:
        words = self.bench.words(handling)
        wants = [(number, one) for number, one in enumerate(state.sheet.measures) if one.step == step]
        buttons = [Button(want_words(one, words.language), f"m.{number}", wide=True) for number, one in wants]
        buttons.append(Button(words.to_the_step, "s"))
        return Leaf((line(words.measure_which, "question"),), tuple(buttons), {"job": state.number, "step": step})


def _when(state: JobState, want: Want) -> When:
    """Measured again it is after the work."""
    return "after" if any(_of(one.body, want) for one in state.measured) else "before"


def _of(body: Mapping[str, Any], want: Want) -> bool:
    return (body["component"], body["property"], body["wheel"]) == (want.component, want.name, want.wheel)
