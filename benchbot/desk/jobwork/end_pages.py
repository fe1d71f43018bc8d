"""The end of a job: what is open and why, who confirms the wheels, what was entered wrong, and the papers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.line_words import line_words, point_words
from benchbot.desk.jobwork.measure_pages import MeasurePages
from benchbot.desk.jobwork.papers import Papers
from benchbot.desk.jobwork.step_pages import StepPages
from benchbot.desk.jobwork.tighten_pages import TightenPages
from benchbot.desk.sheets import Button
from benchbot.jobs import doing
from benchbot.jobs.open_points import Point, open_points
from benchbot.jobs.state import JobState, differs
from benchbot.jobs.terms import Refused
from benchbot.reply.reply import Block

Body = Mapping[str, Any]
_A_PAGE, _LINES = 6, 8
# What is refused about the name of whoever decided, which is asked for again.
_NO_NAME = frozenset({"empty", "too long", "customer"})


@dataclass(frozen=True, slots=True)
class EndPages:
    """The buttons of a list stand for what was listed: its keys and lines lie in the page's body."""

    bench: Bench
    steps: StepPages
    measures: MeasurePages
    fasteners: TightenPages
    papers: Papers

    def points(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What is open, the unsafe first; nothing open: whether it is finished."""
        state = self.bench.job(handling, body)
        return state if isinstance(state, Leaf) else self._points(handling, state, about)

    def _points(self, handling: Handling, state: JobState, about: Sequence[str], *notes: Block) -> Leaf:
        words, held = self.bench.words(handling), open_points(state)
        job = {"job": state.number}
        if not held:
            buttons = (Button(words.finish_yes, "fi"), Button(words.to_the_step, "s"))
            return Leaf((*notes, line(words.points_none.format(job=state.number), "question")), buttons, job)
        last = (len(held) - 1) // _A_PAGE
        page = min((number_in(about[0]) if about else 0) or 0, last)
        shown = held[page * _A_PAGE : (page + 1) * _A_PAGE]
        blocks = [*notes, line(words.points_head.format(job=state.number), "question")]
        blocks += [line(f"{number}. {point_words(one, words)}") for number, one in _numbered(shown, page)]
        buttons_of = [Button(str(number), f"oe.{at}") for at, (number, _) in enumerate(_numbered(shown, page))]
        if page:
            buttons_of.append(Button(words.previous_page, f"o.{page - 1}"))
        if page < last:
            buttons_of.append(Button(words.next_page, f"o.{page + 1}"))
        buttons_of.append(Button(words.to_the_step, "s"))
        keys = [one.key for one in shown]
        return Leaf(tuple(blocks), tuple(buttons_of), job | {"points": keys})

    def point(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """One of them: it is done after all, it is entered, or somebody says why it stays open."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, point = self.bench.words(handling), self._one(state, about, body)
        if point is None:
            return self._points(handling, state, ())
        buttons = []
        if point.kind == "step":
            buttons.append(Button(words.point_done, "od"))
        elif point.kind in ("measurement", "fastener", "bad"):
            wants = state.sheet.fasteners if point.kind == "fastener" else state.sheet.measures
            at = next((n for n, one in enumerate(wants) if self._meant(state, point, n)), None)
            if at is not None:
                buttons.append(Button(words.point_enter, f"{'t' if point.kind == 'fastener' else 'm'}.{at}"))
        elif point.kind == "second person":
            buttons.append(Button(words.confirm, "c"))
        buttons += [Button(words.point_explain, "ow"), Button(words.back, "o.0")]
        body = {"job": state.number, "point": point.key, "step": point.step, "open": True}
        return Leaf((line(point_words(point, words), "question"),), tuple(buttons), body)

    def step_done(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The step of an open point was done, and only nobody had said so."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        step = str(body.get("step", ""))
        if not step or step in state.settled:
            return self._points(handling, state, ())
        made = doing.done(
            self.bench.record, state.number, self.bench.who(handling), handling.now, step, self.bench.once(handling)
        )
        if isinstance(made, Refused):
            return self.bench.refused(handling, made, state.number)
        return self._points(handling, made, ())

    def ask_why(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        words = self.bench.words(handling)
        job = {"job": int(body.get("job", 0)), "point": str(body.get("point", ""))}
        return Leaf((line(words.point_why, "question"),), (Button(words.cancel, "o.0"),), job, {"do": "explain"} | job)

    def explain(self, handling: Handling, entry: Body, text: str) -> Leaf:
        state = self.bench.job(handling, entry)
        if isinstance(state, Leaf):
            return state
        words, reason = self.bench.words(handling), str(entry.get("reason", ""))
        made = doing.explain(
            self.bench.record, state.number, self.bench.who(handling), handling.now, [str(entry["point"])],
            reason or text, self.bench.once(handling), text if reason else "",
        )  # fmt: skip
        if isinstance(made, Refused) and (made.about == "decided" or (reason and made.about in _NO_NAME)):
            # the reason is kept while it is asked who decided
            asked = {key: entry[key] for key in ("job", "point")} | {"reason": reason or text}
            refused = () if made.about == "decided" else (line(words.refused(made), "before"),)
            buttons = (Button(words.cancel, "o.0"),)
            blocks = (*refused, line(words.point_who, "question"))
            return Leaf(blocks, buttons, {"job": state.number}, {"do": "explain"} | asked)
        if isinstance(made, Refused):
            note = line(self.bench.words(handling).refused(made), "before")
            return (
                self._points(handling, state, (), note)
                if made.about == "point"
                else self.ask_why(handling, (), entry).below(note)
            )
        return self._points(handling, made, ())

    def finish(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """Closes the job and sends its papers; what is open is shown instead."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words = self.bench.words(handling)
        made = doing.finish(
            self.bench.record, state.number, self.bench.who(handling), handling.now, self.bench.once(handling)
        )
        if isinstance(made, Refused):
            if made.about == "open points":
                return self._points(handling, state, (), line(words.refused(made), "before"))
            return self.steps.page(handling, state, line(words.refused(made), "before"))
        told = self.papers.send(handling, made)
        head = line(words.finished.format(job=made.number), "question")
        return Leaf((head, *told), (Button(words.papers_again, "fp"),), {"job": made.number})

    def papers_again(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        if state.finished is None:
            return self.steps.page(handling, state)
        words = self.bench.words(handling)
        told = self.papers.send(handling, state)
        head = line(words.finished_by.format(job=state.number, name=state.finished.name), "question")
        buttons = (Button(words.papers_again, "fp"),)
        return Leaf((head, line(words.papers_sent), *told), buttons, {"job": state.number})

    def confirm(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """What waits for a second person, with what was set; their own is shown and not theirs to confirm."""
        state = self.bench.job(handling, body)
        return state if isinstance(state, Leaf) else self._confirm(handling, state)

    def _confirm(self, handling: Handling, state: JobState, *notes: Block) -> Leaf:
        words, person = self.bench.words(handling), handling.asker.person
        waiting = state.unconfirmed()
        others = [one for one in waiting if one.person != person]
        own = [one for one in waiting if one.person == person]
        blocks = [*notes]
        buttons = [Button(words.to_the_step, "s")]
        if not waiting:
            blocks.append(line(words.confirm_none, "question"))
        if others:
            blocks.append(line(words.confirm_ask, "question"))
            # what differs from the book first, so that it is seen before it is confirmed
            others.sort(key=lambda one: not differs(one))
            blocks += [line(line_words(state, one, words), "condition" if differs(one) else "note") for one in others]
            buttons.insert(0, Button(words.confirm_yes, "cy", wide=True))
        if own:
            blocks.append(line(words.confirm_own))
            blocks += [line(line_words(state, one, words)) for one in own]
        body = {"job": state.number, "lines": [one.entry for one in others]}
        return Leaf(tuple(blocks), tuple(buttons), body)

    def confirmed(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """Just those lines that stood there; one that was entered anew since has to be looked at."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, lines = self.bench.words(handling), [int(one) for one in body.get("lines", [])]
        now_waiting = {one.entry for one in state.unconfirmed() if one.person != handling.asker.person}
        if not lines or set(lines) != now_waiting:
            return self._confirm(handling, state, line(words.confirm_more, "before"))
        made = doing.confirm(
            self.bench.record, state.number, self.bench.who(handling), handling.now, lines, self.bench.once(handling)
        )
        if isinstance(made, Refused):
            return self.bench.refused(handling, made, state.number)
        buttons = (Button(words.to_the_step, "s"), Button(words.where_am_i, "w"))
        return Leaf((line(words.confirm_done, "question"),), buttons, {"job": state.number})

    def lines(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """The last lines, of which one may have been entered wrong."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words = self.bench.words(handling)
        latest = list(reversed(state.lines))[:_LINES]
        blocks = [line(words.strike_which if latest else words.strike_none, "question")]
        blocks += [line(f"{number}. {line_words(state, one, words)}") for number, one in enumerate(latest, 1)]
        buttons = [Button(str(number), f"x1.{at}") for at, number in enumerate(range(1, len(latest) + 1))]
        buttons += [Button(words.order_wrong, "xo", wide=True), Button(words.to_the_step, "s")]
        body = {"job": state.number, "lines": [one.entry for one in latest]}
        return Leaf(tuple(blocks), tuple(buttons), body)

    def ask_strike(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        at, entries = (number_in(about[0]) if about else None), body.get("lines", [])
        wanted = entries[at] if at is not None and 0 <= at < len(entries) else body.get("line")
        found = next((one for one in state.lines if one.entry == wanted), None)
        if found is None:
            return self.lines(handling, (), body)
        words = self.bench.words(handling)
        text = words.strike_why.format(line=line_words(state, found, words))
        job = {"job": state.number, "line": found.entry}
        return Leaf((line(text, "question"),), (Button(words.cancel, "s"),), job, {"do": "strike"} | job)

    def strike(self, handling: Handling, entry: Body, text: str) -> Leaf:
        state = self.bench.job(handling, entry)
        if isinstance(state, Leaf):
            return state
        words, number = self.bench.words(handling), int(entry["line"])
        struck = next((one for one in state.lines if one.entry == number), None)
        made = doing.strike(
            self.bench.record, state.number, self.bench.who(handling), handling.now, number, text,
            self.bench.once(handling),
        )  # fmt: skip
        if isinstance(made, Refused) or struck is None:
            asked = self.ask_strike(handling, (), entry)
            return asked.below(line(words.refused(made), "before")) if isinstance(made, Refused) else asked
        return self.steps.page(
            handling, made, line(words.struck.format(line=line_words(state, struck, words)), "before")
        )

    def ask_order(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        words, job = self.bench.words(handling), {"job": int(body.get("job", 0))}
        return Leaf((line(words.order_right, "question"),), (Button(words.cancel, "s"),), job, {"do": "order"} | job)

    def order(self, handling: Handling, entry: Body, text: str) -> Leaf:
        """The number of the order, put right."""
        state = self.bench.job(handling, entry)
        if isinstance(state, Leaf):
            return state
        words = self.bench.words(handling)
        made = doing.correct_order(
            self.bench.record, state.number, self.bench.who(handling), handling.now, text, self.bench.once(handling)
        )
        if isinstance(made, Refused):
            return self.ask_order(handling, (), entry).below(line(words.refused(made), "before"))
        told = words.where_order.format(number=made.repair_order)
        return self.steps.page(handling, made, line(told, "before"))

    def _one(self, state: JobState, about: Sequence[str], body: Body) -> Point | None:
        at, keys = (number_in(about[0]) if about else None), body.get("points", [])
        key = keys[at] if at is not None and 0 <= at < len(keys) else None
        return next((one for one in open_points(state) if one.key == key), None)

    def _meant(self, state: JobState, point: Point, number: int) -> bool:
        """Whether the line of that number is what the point lacks."""
        if point.kind == "bad":
            entry = number_in(point.key.removeprefix("bad "))
            bad = next((one.body for one in state.lines if one.entry == entry), None)
            want = state.sheet.measures[number]
            return bad is not None and (bad["component"], bad["property"], bad["wheel"]) == (
                want.component, want.name, want.wheel,
            )  # fmt: skip
        wants = state.sheet.fasteners if point.kind == "fastener" else state.sheet.measures
        return point.key == f"{point.kind} {wants[number].key}"


def _numbered(shown: Sequence[Point], page: int) -> list[tuple[int, Point]]:
    return list(enumerate(shown, page * _A_PAGE + 1))
