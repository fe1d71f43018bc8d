"""`/gaps`: what nobody could answer, ranked by who waits; each with its questions, and what can be done about it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from benchbot.curation import gaps
from benchbot.curation.gaps import Group
from benchbot.desk.bookwork.fill_pages import FillPages
from benchbot.desk.bookwork.leaves import Leaf, Shop, label, line, shortened
from benchbot.desk.bookwork.row_words import spoken
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.desk.wording import counted
from benchbot.records import fillings
from benchbot.records.expected import Expected
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import subject_words

ENTRY = "gap why"
GROUPS_A_PAGE = 5
_QUESTIONS, _NEARBY, _QUESTION_AT_MOST = 5, 6, 120


@dataclass(frozen=True, slots=True)
class GapPages:
    """Each page takes what its button is about: the number of the group, or of a page of the list."""

    shop: Shop
    filling: FillPages

    def all(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, record = self.shop.words(handling), self.shop.record
        found = gaps.groups(record, handling.now)
        mine = fillings.open_of(record, handling.asker.person)
        page = number_in(about[0]) if about else 0
        last = max(0, (len(found) - 1) // GROUPS_A_PAGE)
        at = min(page or 0, last)
        first = at * GROUPS_A_PAGE
        head = counted(len(found), words.gaps_head_one, words.gaps_head_many) if found else words.gaps_none
        blocks, buttons = [Block("question", head)], []
        for number, one in enumerate(found[first : first + GROUPS_A_PAGE], first + 1):
            blocks.append(line(words.gap_line.format(number=number, what=self.what(handling, one))))
            blocks.append(line(self._counts(handling, one)))
            buttons.append(Button(str(number), f"g1.{one.number}"))
        if at:
            buttons.append(Button(words.previous_page, f"g.{at - 1}"))
        if at < last:
            buttons.append(Button(words.next_page, f"g.{at + 1}"))
        if mine:
            what = self.filling.summary(mine[0], handling.asker.language)
            buttons.append(Button(label(words.go_on.format(what=what)), f"fo.{mine[0].number}", wide=True))
        return Leaf(tuple(blocks), tuple(buttons))

    def one(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """A group: the questions as they were asked, why they were not answered, what the book holds nearby."""
        group = self._group(about)
        return self.none(handling) if group is None else self.page(handling, group)

    def page(self, handling: Handling, group: Group, noted: str = "") -> Leaf:
        words, record = self.shop.words(handling), self.shop.record
        blocks = [line(noted)] if noted else []
        blocks += [Block("question", self.what(handling, group)), line(self._counts(handling, group))]
        if group.state != "open":
            blocks.append(line(words.gap_state.format(state=words.states[group.state], why=group.why or "-")))
        asked = gaps.asked(record, group, _QUESTIONS)
        for one in asked:
            question = shortened(one.question, _QUESTION_AT_MOST)
            text = words.gap_asked.format(
                who=one.name, place=one.place or words.nowhere, at=_day(one.at), question=question
            )
            blocks.append(line(text))
        reasons = wording_of(handling.asker.language).reasons
        for reason in dict.fromkeys(one.reason for one in asked):
            blocks.append(line(words.gap_reason.format(reason=reasons.get(reason, reason))))
        blocks += self._nearby(handling, group)
        return Leaf(tuple(blocks), self._buttons(handling, group))

    def wait(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self._why(handling, about, "waiting")

    def set_aside(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self._why(handling, about, "set aside")

    def reopen(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        group = self._group(about)
        if group is None:
            return self.none(handling)
        if group.state != "open":
            gaps.set_state(self.shop.record, group, "open", "", handling.asker.person, handling.now)
        return self.one(handling, about, body)

    def written(self, handling: Handling, entry: Expected, text: str) -> Leaf:
        """The reason of a state."""
        group = gaps.group(self.shop.record, int(entry.body["group"]))
        if group is None:
            return self.none(handling)
        words = self.shop.words(handling)
        state: Literal["waiting", "set aside"] = "waiting" if entry.body["state"] == "waiting" else "set aside"
        gaps.set_state(self.shop.record, group, state, text[:300], handling.asker.person, handling.now)
        again = gaps.group(self.shop.record, group.number) or group
        return self.page(handling, again, words.gap_set.format(state=words.states[state]))

    def none(self, handling: Handling) -> Leaf:
        words = self.shop.words(handling)
        return Leaf((Block("question", words.gone),), (Button(words.back, "g.0"),))

    def what(self, handling: Handling, group: Group) -> str:
        """What was meant, in a line."""
        words = self.shop.words(handling)
        about = subject_words(group.subject, wording_of(handling.asker.language))
        if group.kind == "row":
            return about
        said = words.gap_word if group.kind == "word" else words.gap_vehicle
        text = said.format(words=group.words)
        return f"{text} ({about})" if about and group.kind == "word" else text

    def _why(self, handling: Handling, about: Sequence[str], state: str) -> Leaf:
        group = self._group(about)
        if group is None:
            return self.none(handling)
        words = self.shop.words(handling)
        ask = words.gap_why_wait if state == "waiting" else words.gap_why_aside
        awaits = Expected(ENTRY, {"group": group.number, "state": state})
        blocks = (line(self.what(handling, group)), Block("question", ask))
        return Leaf(blocks, (Button(words.cancel, f"g1.{group.number}"),), awaits=awaits)

    def _group(self, about: Sequence[str]) -> Group | None:
        number = number_in(about[0]) if about else None
        return None if number is None else gaps.group(self.shop.record, number)

    def _counts(self, handling: Handling, group: Group) -> str:
        words = self.shop.words(handling)
        named = {one.number: one.name for one in self.shop.people.locations()}
        places = ", ".join(
            f"{words.nowhere if number is None else named.get(number, words.nowhere)} {count}"
            for number, count in group.locations
        )
        text = words.gap_counts.format(people=group.people, asks=group.asks, last=_day(group.last_at), places=places)
        return text if group.state == "open" else f"{text} · {words.states[group.state]}"

    def _nearby(self, handling: Handling, group: Group) -> list[Block]:
        book, vocabulary = self.shop.conversation.book, self.shop.conversation.lexicon.vocabulary
        rows = gaps.nearby(group, book, vocabulary, handling.now.date(), _NEARBY)
        if not rows:
            return []
        words, language = self.shop.words(handling), handling.asker.language
        blocks = [line(words.gap_nearby)]
        for row in rows:
            name = book.vehicle(row.vehicle)
            years = str(row.year_from) if row.year_from == row.year_to else f"{row.year_from}-{row.year_to}"
            parts = (
                f"{years} {name.make} {name.model}", spoken("only_if", row.only_if, language),
                f"{spoken('position', row.position, language).upper()} {spoken('component', row.component, language)}",
                spoken("property", row.property, language),
            )  # fmt: skip
            what = ", ".join(part.strip() for part in parts if part.strip())
            blocks.append(line(words.gap_near_line.format(spec=row.spec, value=row.value, what=what)))
        return blocks

    def _buttons(self, handling: Handling, group: Group) -> tuple[Button, ...]:
        words, number = self.shop.words(handling), group.number
        buttons = []
        if group.kind == "word":
            buttons.append(Button(words.gap_means, f"w.{number}"))
        elif group.kind == "vehicle":
            buttons.append(Button(words.gap_vehicle_name, f"v.{number}"))
        if group.kind != "word":
            buttons.append(Button(words.gap_fill, f"f.{number}"))
        if group.state != "waiting":
            buttons.append(Button(words.gap_wait, f"gw.{number}"))
        if group.state != "set aside":
            buttons.append(Button(words.gap_aside, f"ga.{number}"))
        if group.state in ("waiting", "set aside"):
            buttons.append(Button(words.gap_open, f"go.{number}"))
        return (*buttons, Button(words.back, "g.0"))


def _day(at: datetime) -> str:
    return at.date().isoformat()
