"""`/job`, its buttons, the entries that its pages ask for, and the words that hands-free people say to it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.past import Past
from benchbot.conversation.typed_choices import typed_choice
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench, Shelf
from benchbot.desk.jobwork.book_values import BookValues
from benchbot.desk.jobwork.end_pages import EndPages
from benchbot.desk.jobwork.leaves import ENTRY, KIND, Leaf, line, post, turn
from benchbot.desk.jobwork.measure_pages import MeasurePages
from benchbot.desk.jobwork.papers import Papers
from benchbot.desk.jobwork.picture_pages import PicturePages
from benchbot.desk.jobwork.shop_pages import ShopPages
from benchbot.desk.jobwork.spoken import Spoken, spoken
from benchbot.desk.jobwork.start_pages import StartPages
from benchbot.desk.jobwork.step_pages import StepPages
from benchbot.desk.jobwork.tighten_pages import TightenPages
from benchbot.desk.jobwork.typed_figures import Figures, read_figures, read_setting
from benchbot.desk.questions import Questions
from benchbot.errors import QuantityError
from benchbot.jobs.entries import read_repair_order
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import Refused
from benchbot.jobs.walking import in_hand, where
from benchbot.outcomes import Answer, Choose, Gap, Outcome, Procedure
from benchbot.people.register import People
from benchbot.people.rights import Action
from benchbot.places import Home
from benchbot.records import cards, expected, jobs
from benchbot.records.cards import Card
from benchbot.records.expected import Expected

COMMAND = "job"
_OF_A_STEP = frozenset({"done", "skip", "measured", "tightened"})
Page = Callable[[Handling, Sequence[str], Mapping[str, Any]], Leaf]


@dataclass(frozen=True, slots=True)
class Jobwork:
    """A button's code: the count of its page, the page that it turns to, and what that is about, with dots between.

    Only the newest page of a job in a chat can be pressed, and each of its buttons once: what is done twice is done by
    two people. Whether somebody may, their role at the job's own location says at every press.
    """

    bench: Bench
    questions: Questions
    starts: StartPages
    steps: StepPages
    measures: MeasurePages
    fasteners: TightenPages
    ends: EndPages
    shop: ShopPages
    pages: dict[str, tuple[Action, Page]]

    @classmethod
    def of(cls, home: Home, conversation: Conversation, people: People, questions: Questions) -> Jobwork:
        bench = Bench(conversation.record, people, conversation, home, Shelf(conversation))
        values = BookValues(bench)
        steps = StepPages(bench, values)
        measures, fasteners = MeasurePages(bench, values, steps), TightenPages(bench, values, steps)
        pictures = PicturePages(bench, steps)
        starts, shop = StartPages(bench, steps), ShopPages(bench)
        ends = EndPages(bench, steps, measures, fasteners, Papers(bench))
        everyone: dict[str, Page] = {
            "j": starts.all,
            "jo": starts.open,
            "n1": starts.new,
            "nl": starts.take_lift,
            "na": starts.as_written,
            "np": starts.pick,
            "nm": starts.more,
            "nf": starts.fit,
            "nw": starts.wheel,
            "no": starts.without_order,
            "s": steps.show,
            "d": steps.done,
            "b": steps.back,
            "n": steps.go_on,
            "k": steps.ask_skip,
            "w": steps.where,
            "v": steps.overview,
            "p": steps.pause,
            "r": steps.resume,
            "q": steps.answer,
            "qx": steps.ask_again,
            "i": pictures.show,
            "m": measures.ask,
            "ml": measures.all,
            "mq": measures.answer,
            "mp": measures.put,
            "u": measures.unit,
            "t": fasteners.ask,
            "tl": fasteners.all,
            "tq": fasteners.answer,
            "ts": fasteners.as_shown,
            "o": ends.points,
            "oe": ends.point,
            "od": ends.step_done,
            "ow": ends.ask_why,
            "c": ends.confirm,
            "cy": ends.confirmed,
            "x": ends.lines,
            "x1": ends.ask_strike,
            "xo": ends.ask_order,
            "fi": ends.finish,
            "fp": ends.papers_again,
        }
        curators: dict[str, Page] = {
            "sw": shop.procedures, "ss": shop.steps, "s1": shop.step, "sq": shop.ask, "se": shop.end,
        }  # fmt: skip
        pages: dict[str, tuple[Action, Page]] = {name: ("job", page) for name, page in everyone.items()}
        pages |= {name: ("override step", page) for name, page in curators.items()}
        return cls(bench, questions, starts, steps, measures, fasteners, ends, shop, pages)

    def command(self, handling: Handling, text: str) -> None:
        """The open jobs; behind the command, the vehicle of a new one."""
        with handling.writing():
            post(handling, self.starts.named(handling, text))

    def press(self, handling: Handling, card: Card, code: str) -> None:
        """Turns the page, when they may still do that, and when nothing was pressed on it before."""
        before, _, rest = code.partition(".")
        name, *about = rest.split(".")
        action, page = self.pages.get(name, (None, None))
        count = number_in(before)
        if action is None or page is None or count is None or count > int(card.body["turn"]):
            handling.refuse(handling.words.pressed_old)
            return
        if count < int(card.body["turn"]):
            handling.refuse(handling.words.pressed_done)
            return
        newest = cards.last_of(handling.record, card.chat, KIND)
        if newest is None or newest.number != card.number:
            handling.refuse(handling.words.pressed_old)
            return
        decision = self.bench.may(handling, None, action)
        if not decision.allowed:
            handling.refuse(handling.words.denied(decision))
            return
        with handling.writing() as store:
            # whoever else presses in this job waits, so that the page is made from all that they did
            jobs.hold(store, int(card.body.get("job", 0)))
            handling.notice()
            turn(handling, card, page(handling, about, card.body))

    def takes(self, handling: Handling, text: str) -> bool:
        """Whether the text is said to a job that this person has in hand in this chat, or is a figure for its step."""
        return self._is_said(handling, text) or self._measured(handling, text) is not None

    def _is_said(self, handling: Handling, text: str) -> bool:
        return spoken(text) is not None and self._page(handling) is not None

    def _measured(self, handling: Handling, text: str) -> tuple[JobState, str, Figures] | None:
        """The job, the step that it is at, which measures something, and the figures that are the whole message."""
        try:
            figures = read_figures(text)
        except QuantityError:
            return None
        card = self._page(handling)
        if figures is None or card is None or not (figures.unit or re.search(r"[.,/]", text)):
            return None
        stored = handling.record.chat_state(handling.chat, handling.now)
        if stored and Past.from_text(stored).begun:
            # a sum that was begun asked for it
            return None
        state = job_state(handling.record, int(card.body["job"]))
        place = None if state is None else where(state, handling.asker.person)
        if state is None or state.paused is not None or state.finished is not None or place is None:
            return None
        step = str(card.body.get("step") or place.step.key)
        measures = any(one.step == step for one in state.sheet.measures)
        return (state, step, figures) if measures else None

    def say(self, handling: Handling, text: str) -> None:
        """Does what was said, on a page of its own below it."""
        measured = self._measured(handling, text)
        if measured is not None:
            with handling.writing() as store:
                jobs.hold(store, measured[0].number)
                post(handling, self.measures.typed(handling, *measured))
            return
        said, card = spoken(text), self._page(handling)
        if said is None or card is None:
            raise ValueError(f"{text!r} was not said to a job")
        with handling.writing() as store:
            jobs.hold(store, int(card.body["job"]))
            post(handling, self._said(handling, said, card.body))

    def awaits(self, handling: Handling) -> bool:
        """Whether an entry of a job is awaited here."""
        entry = expected.one(handling.record, handling.chat, handling.asker.person, handling.now)
        return entry is not None and entry.what == ENTRY and handling.asker.standing is not None

    def written(self, handling: Handling, entry: Expected, text: str) -> None:
        """What was typed is the entry, unless it is said to the job, or is a question: that is answered in between."""
        if self._is_said(handling, text):
            self.say(handling, text)
        elif handling.asker.standing is not None and self._is_question(handling, entry.body, text):
            self.questions.ask(handling, text)
        else:
            with handling.writing() as store:
                jobs.hold(store, int(entry.body.get("job", 0)))
                post(handling, self._entered(handling, entry.body, text))

    def _entered(self, handling: Handling, entry: Mapping[str, Any], text: str) -> Leaf:
        do = entry["do"]
        if do == "draft":
            return self.starts.written(handling, entry, text)
        if do == "skip":
            return self.steps.skip(handling, entry, text)
        if do == "measure":
            return self.measures.written(handling, entry, text)
        if do == "tighten":
            return self.fasteners.written(handling, entry, text)
        if do == "explain":
            return self.ends.explain(handling, entry, text)
        if do == "strike":
            return self.ends.strike(handling, entry, text)
        if do == "order":
            return self.ends.order(handling, entry, text)
        return self.shop.written(handling, entry, text)

    def _said(self, handling: Handling, said: Spoken, body: Mapping[str, Any]) -> Leaf:
        if said.word == "skip" and said.reason and body.get("step"):
            return self.steps.skip(handling, body, said.reason)
        if said.word in _OF_A_STEP and not body.get("step"):
            # no step stands on the page: it is shown before anything is said of it
            shown = self.steps.show(handling, (), body)
            told = line(self.bench.words(handling).not_marked, "before")
            return shown.below(told) if shown.body.get("step") else shown
        page: Page = {
            "done": self.steps.done,
            "next": self.steps.go_on,
            "back": self.steps.back,
            "where": self.steps.where,
            "skip": self.steps.ask_skip,
            "measured": self.measures.ask,
            "tightened": self.fasteners.ask,
            "pause": self.steps.pause,
            "finish": self.ends.points,
        }[said.word]
        return page(handling, (), body)

    def _page(self, handling: Handling) -> Card | None:
        """The newest page of a job in this chat, while this person has that job in hand."""
        card = cards.last_of(handling.record, handling.chat, KIND)
        if card is None or not card.alive(handling.now) or not card.body.get("job"):
            return None
        held = in_hand(handling.record, handling.asker.person)
        return card if held is not None and held == card.body["job"] else None

    def _is_question(self, handling: Handling, entry: Mapping[str, Any], text: str) -> bool:
        """Whether somebody asks in between; what fits the entry is one only where the book answers it."""
        if self._fits(entry, text):
            return False
        stored = handling.record.chat_state(handling.chat, handling.now)
        if stored and typed_choice(text, Past.from_text(stored)) is not None:
            return True
        if entry["do"] == "draft" and entry["asks"] == "vehicle":
            alone = self._alone(handling, text)
            return bool(alone.reading.asks) and isinstance(alone.outcome, (Answer, Choose, Gap))
        if text.rstrip().endswith("?"):
            return True
        outcome = self._alone(handling, text).outcome
        if isinstance(outcome, Answer):
            return True
        # a reason may read like a question about the work, and so may the mark of a tool
        figure = entry["do"] == "measure" or (entry["do"] == "tighten" and not entry.get("set_to"))
        return figure and (isinstance(outcome, Procedure) or _which_step(outcome))

    def _fits(self, entry: Mapping[str, Any], text: str) -> bool:
        if entry["do"] == "measure":
            try:
                return read_figures(text) is not None
            except QuantityError:
                return True
        if entry["do"] == "tighten":
            return read_setting(text) is not None and not text.rstrip().endswith("?")
        if entry["do"] == "draft" and entry["asks"] == "procedure":
            return bool(self.starts.meant(text))
        if entry["do"] == "order" or (entry["do"] == "draft" and entry["asks"] == "order"):
            return not isinstance(read_repair_order(text), Refused)
        return False

    def _alone(self, handling: Handling, text: str) -> Turn:
        return self.bench.conversation.consider(text, None, handling.asker.manner)


def _which_step(outcome: Outcome) -> bool:
    """Whether it is asked back which step of the work is meant."""
    return isinstance(outcome, Choose) and outcome.about == "step"
