"""Each fastener tightened: the value of this vehicle, what was set, with which tool, at which wheel, by whom."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.book_values import BookValues, questions_of, target_of
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.line_words import line_words, want_words
from benchbot.desk.jobwork.step_pages import StepPages
from benchbot.desk.jobwork.step_shown import value_blocks
from benchbot.desk.jobwork.typed_figures import read_setting
from benchbot.desk.sheets import Button
from benchbot.jobs import doing
from benchbot.jobs.agreeing import can_be_set
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState, differs
from benchbot.jobs.terms import HOLD_WHEELS, Refused, Shown, Tightened
from benchbot.reply.reply import Block

Body = Mapping[str, Any]
_KEPT = ("job", "step", "want", "target", "value")


@dataclass(frozen=True, slots=True)
class TightenPages:
    """A page's body: `want`, the number of the fastener among those of the job; `target`, the value it showed."""

    bench: Bench
    values: BookValues
    steps: StepPages

    def ask(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The fastener of that number; without one, the first of the step that nobody has entered."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        at = number_in(about[0]) if about else None
        if at is not None and at < len(state.sheet.fasteners):
            return self._entry(handling, state, at)
        return self.first(handling, state, str(body.get("step", "")))

    def first(self, handling: Handling, state: JobState, step: str) -> Leaf:
        wants = [number for number, one in enumerate(state.sheet.fasteners) if one.step == step]
        if not wants:
            return self.steps.page(handling, state, line(self.bench.words(handling).tighten_none, "before"))
        missing = {one.key for one in state.missing_lines(step)}
        open_ones = [number for number in wants if state.sheet.fasteners[number].key in missing]
        return self._entry(handling, state, open_ones[0]) if open_ones else self._list(handling, state, step)

    def all(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        state = self.bench.job(handling, body)
        return state if isinstance(state, Leaf) else self._list(handling, state, str(body.get("step", "")))

    def answer(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What the book asked back is told now, and the fastener shown with its value."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        chosen = self.steps.chosen(handling, about, body, state)
        return chosen if isinstance(chosen, Leaf) else self._entry(handling, chosen, int(body["want"]))

    def as_shown(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """Set to the value that stood there, with the tool used last."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        tool, target = self._tool(handling, state), body.get("target")
        if not tool or not target or "want" not in body:
            return self.steps.page(handling, state)
        return self._put(handling, state, body, str(body["set_to"]), tool)

    def written(self, handling: Handling, entry: Body, text: str) -> Leaf:
        """What was set and the tool, or the tool alone where the rest is known."""
        state = self.bench.job(handling, entry)
        if isinstance(state, Leaf):
            return state
        words, at = self.bench.words(handling), int(entry["want"])
        setting = read_setting(text)
        if setting is None and entry.get("set_to"):
            return self._put(handling, state, entry, str(entry["set_to"]), text)
        if setting is None or not setting.set_to:
            return self._entry(handling, state, at).below(line(words.tighten_unit, "before"))
        if not setting.tool:
            body = {key: entry[key] for key in _KEPT} | {"set_to": setting.set_to}
            text = words.tighten_tool.format(set_to=setting.set_to)
            buttons = (Button(words.cancel, f"t.{at}"),)
            return Leaf((line(text, "question"),), buttons, body, {"do": "tighten"} | body)
        return self._put(handling, state, entry, setting.set_to, setting.tool)

    def _put(self, handling: Handling, state: JobState, body: Body, set_to: str, tool: str) -> Leaf:
        words, at = self.bench.words(handling), int(body["want"])
        want = state.sheet.fasteners[at]
        target = Shown(**body["target"]) if body.get("target") else None
        tightened = Tightened(want.component, set_to, tool, want.wheel, want.name, target, str(body["value"]))
        made = doing.tighten(
            self.bench.record, state.number, self.bench.who(handling), handling.now, tightened,
            self.bench.once(handling, "line"),
        )  # fmt: skip
        if isinstance(made, Refused):
            return self._entry(handling, state, at).below(line(words.refused(made), "before"))
        kept = made.tightened[-1]
        notes = [line(words.on_line.format(line=line_words(made, kept, words)), "echo")]
        if differs(kept):
            told = words.tighten_differs.format(set_to=set_to, target=body["value"])
            notes.insert(0, line(told, "condition"))
        if made.second_person and want.component in HOLD_WHEELS:
            notes.append(line(words.tighten_second))
        leaf = self._after(handling, made, want, notes)
        if not differs(kept):
            return leaf
        buttons = (Button(words.differs_explain, "ow"), Button(words.corrections, "x"))
        more = tuple(one for one in leaf.buttons if one.code != "x")
        return replace(leaf, buttons=(*buttons, *more), body=leaf.body | {"point": f"differs {kept.entry}"})

    def _after(self, handling: Handling, state: JobState, want: Want, notes: list[Block]) -> Leaf:
        words = self.bench.words(handling)
        missing = [one for one in state.missing_lines(want.step) if not one.where]
        if missing:
            at = next(n for n, one in enumerate(state.sheet.fasteners) if one.key == missing[0].key)
            return self._entry(handling, state, at).below(*notes, line(words.measure_next))
        buttons = (Button(words.to_the_step, "s"), Button(words.another, "tl"), Button(words.corrections, "x"))
        return Leaf(tuple(notes), buttons, {"job": state.number, "step": want.step})

    def _entry(self, handling: Handling, state: JobState, at: int) -> Leaf:
        words, want = self.bench.words(handling), state.sheet.fasteners[at]
        turn = self.values.of(handling, state, want)
        asked, asks = questions_of(turn, want, "tq")
        body: dict[str, Any] = {"job": state.number, "step": want.step, "want": at}
        blocks = list(value_blocks(want, turn, words))
        if asked:
            return Leaf(tuple(blocks), (*asked, Button(words.cancel, "s")), body | asks)
        target = target_of(turn)
        value = "" if target is None else target[1]
        body |= {"target": None if target is None else asdict(target[0]), "value": value}
        question = words.tighten_ask.format(named=want_words(want, words.language))
        buttons = []
        tool = self._tool(handling, state)
        if tool and value and can_be_set(value):
            body["set_to"] = value
            buttons.append(Button(f"{value}, {tool}", "ts", wide=True))
        buttons += [Button(words.another, "tl"), Button(words.to_the_step, "s")]
        awaits = {key: body[key] for key in _KEPT}
        return Leaf((*blocks, line(question, "question")), tuple(buttons), body, {"do": "tighten"} | awaits)

    def _list(self, handling: Handling, state: JobState, step: str) -> Leaf:
        words = self.bench.words(handling)
        wants = [(number, one) for number, one in enumerate(state.sheet.fasteners) if one.step == step]
        buttons = [Button(want_words(one, words.language), f"t.{number}", wide=True) for number, one in wants]
        buttons.append(Button(words.to_the_step, "s"))
        return Leaf((line(words.tighten_which, "question"),), tuple(buttons), {"job": state.number, "step": step})

    def _tool(self, handling: Handling, state: JobState) -> str:
        """The one that this person used last in this job."""
        own = [one for one in state.tightened if one.person == handling.asker.person]
        return str(own[-1].body["tool"]) if own else ""
