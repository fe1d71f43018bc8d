"""The picture of the step in hand: sent at once, or when it is said how many studs the wheel has."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from benchbot.desk.codes import number_in
from benchbot.desk.drawing import drawn, is_open
from benchbot.desk.handling import Handling
from benchbot.desk.jobwork.bench import Bench
from benchbot.desk.jobwork.leaves import Leaf, line
from benchbot.desk.jobwork.step_pages import StepPages
from benchbot.desk.picture_files import keep_picture
from benchbot.desk.sheets import Button, Sheet
from benchbot.errors import SettingError
from benchbot.outcomes import Picture
from benchbot.pictures.tightening import STUDS

Body = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class PicturePages:
    """A page's body: `pictured`, what was sent while its step stood there, each by its number of studs, 0 for any other
    picture.
    """

    bench: Bench
    steps: StepPages

    def show(self, handling: Handling, about: Sequence[str], body: Body) -> Leaf:
        """about: how many studs, when that was chosen."""
        state = self.bench.job(handling, body)
        if isinstance(state, Leaf):
            return state
        words, step = handling.words, state.step(str(body.get("step", "")))
        if step is None or step.picture is None:
            return self.steps.page(handling, state)
        picture, sent = Picture(step.picture), list(body.get("pictured", ()))
        studs = number_in(about[0]) if about else 0
        if studs is None or is_open(picture, studs):
            numbers = tuple(Button(str(one), f"i.{one}") for one in STUDS)
            back = Button(self.bench.words(handling).to_the_step, "s")
            about_step = {"job": state.number, "step": step.key, "pictured": sent}
            return Leaf((line(words.picture_studs, "question"),), (*numbers, back), about_step)
        if studs in sent:
            return self._page(handling, body, sent, words.picture_sent)
        try:
            made = drawn(picture, studs, words)
        except SettingError:
            return self._page(handling, body, sent, words.picture_none)
        kept = keep_picture(self.bench.home, made.name, made.content)
        handling.picture(Sheet((line(made.caption),)), None, kept, twice=True)
        return self._page(handling, body, [*sent, studs])

    def _page(self, handling: Handling, body: Body, sent: Sequence[int], told: str = "") -> Leaf:
        """The step, which may be another one by now: somebody else has gone on."""
        leaf = self.steps.show(handling, (), body)
        same = leaf.body.get("step") == body["step"]
        leaf = replace(leaf, body=leaf.body | {"pictured": list(sent)}) if same else leaf
        return leaf.below(line(told, "before")) if told else leaf
