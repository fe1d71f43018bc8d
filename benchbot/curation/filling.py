"""Filling a row at a keyboard: cells that were given at once, the rest asked one after the other."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import ExitStack
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from benchbot.book.reader import Book
from benchbot.checking import Found
from benchbot.curation import fill_flow as flow
from benchbot.curation import gaps
from benchbot.curation.fill_flow import Asking, Refused, Taken
from benchbot.curation.fill_steps import FIELDS, Unfit
from benchbot.curation.submitting import Submitted, in_the_way, vocabulary_of
from benchbot.curation.two_people import name_of
from benchbot.errors import SettingError
from benchbot.places import Home
from benchbot.records.fillings import Filling
from benchbot.records.record import Record, open_record
from benchbot.vocabulary.terms import Vocabulary

Ask = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Filled:
    """What came of it. spec, revision: once submitted. told: what stands in its way, or what passed, line by line.

    by: who has it, when somebody else does.
    """

    state: Literal["submitted", "open", "taken", "word", "handed in", "unknown", "closed"]
    filling: int = 0
    spec: str = ""
    revision: int = 0
    told: tuple[str, ...] = ()
    by: str = ""


def fill_from_command(
    home: Home, group_number: int, cells: Mapping[str, str], author: str, now: datetime, ask: Ask | None = None
) -> tuple[list[str], int]:
    """What is to be told, and 0 when the row is submitted; as `fill_group`.

    ask: puts a question and gives what was typed; EOFError and KeyboardInterrupt leave the row for later.
    """
    done = fill_group(home, group_number, cells, author, now, None if ask is None else _Questions(ask))
    if done.state == "submitted":
        return [*done.told, f"{done.spec} is submitted and waits for approval: benchbot specs approve {done.spec}"], 0
    if done.state == "taken":
        return [f"{done.by} is filling this gap already; ask them, or take it over in the chat (/gaps)"], 1
    if done.state == "handed in":
        return [f"{done.spec} was handed in for this gap; look at it with: benchbot specs history {done.spec}"], 1
    if done.state == "closed":
        return [f"the row is not being filled any more; look with: benchbot gaps show {group_number}"], 1
    if done.state == "unknown":
        return [f"there is no gap {group_number}; look at them with: benchbot gaps list"], 1
    if done.state == "word":
        return ["nobody knows the word yet; say what it means with: benchbot specs import WORDS.csv, or /gaps"], 1
    again = f"what was entered is kept; go on with: benchbot gaps fill {group_number} --set FIELD=VALUE"
    return [*done.told, again], 1


def fill_group(
    home: Home,
    group_number: int,
    cells: Mapping[str, str],
    author: str,
    now: datetime,
    ask: Callable[[Asking], str | None] | None = None,
) -> Filled:
    """Fills the row of a group of gaps and submits it; goes on where this person has begun.

    cells: by field (`years` as 2012-2015) or by column of the spec table. ask: what is missing, None to leave it for
    later; without it nothing is asked. What was entered stays. SettingError: a name that is no field.
    """
    entered = _by_field(cells)
    with ExitStack() as stack:
        record = stack.enter_context(open_record(home))
        book = stack.enter_context(Book.open(home.book)) if home.book.is_file() else None
        vocabulary = vocabulary_of(record)
        group = gaps.group(record, group_number)
        if group is None:
            return Filled("unknown")
        begun = flow.begin(record, group, vocabulary, author, None, now)
        if isinstance(begun, Taken):
            there = begun.filling
            return Filled("taken", there.number, by=name_of(record, there.author) or there.author)
        if isinstance(begun, Refused):
            handed_in = begun.filling if begun.why == "handed in" else None
            return Filled("word") if handed_in is None else Filled("handed in", handed_in.number, handed_in.spec)
        desk = _Keyboard(record, book, vocabulary, now, ask)
        return desk.fill(begun, entered, f"handed in for gap {group.number}")


@dataclass(frozen=True, slots=True)
class _Keyboard:
    record: Record
    book: Book | None
    vocabulary: Vocabulary
    now: datetime
    ask: Callable[[Asking], str | None] | None

    def fill(self, filling: Filling, entered: Mapping[str, str], why: str) -> Filled:
        for field in FIELDS:
            if field in entered:
                done = flow.put(self.record, filling, field, entered[field], self.vocabulary, self.now)
                if isinstance(done, Unfit):
                    return Filled("open", filling.number, told=(_told(done),))
                if isinstance(done, Refused):
                    return self._gone(done)
                filling = done
        while True:
            asking = flow.asking(self.record, filling, self.vocabulary, self.now.date())
            if not asking.field:
                break
            answered = self._asked(filling, asking)
            if answered is None:
                return Filled("open", filling.number, told=(f"{asking.field}: not filled in yet",))
            if isinstance(answered, Refused):
                return self._gone(answered)
            filling = answered
        return self._hand_in(filling, why)

    def _gone(self, refused: Refused) -> Filled:
        """Somebody else has it by now, or nobody."""
        there = refused.filling
        if there is None or refused.why != "not yours":
            return Filled("closed", 0 if there is None else there.number)
        return Filled("taken", there.number, by=name_of(self.record, there.author) or there.author)

    def _asked(self, filling: Filling, asking: Asking) -> Filling | Refused | None:
        """Asks until the answer fits; None when nobody answers."""
        while True:
            text = self.ask(asking) if self.ask is not None else None
            if text is None:
                return None
            done = flow.put(self.record, filling, asking.field, text, self.vocabulary, self.now)
            if not isinstance(done, Unfit):
                return done
            asking = replace(asking, unfit=done, ways=done.ways or asking.ways)

    def _hand_in(self, filling: Filling, why: str) -> Filled:
        name = name_of(self.record, filling.author) or filling.author
        looked = flow.look(self.record, filling, name, self.vocabulary, self.book, self.now)
        if isinstance(looked, Unfit):
            return Filled("open", filling.number, told=(_told(looked),))
        for found in in_the_way(looked.found, filling.fields.reasons):
            if found.level == "refused":
                told = tuple(f"{one.concern}, {one.level}: {one.told}. {one.mend}" for one in looked.found)
                return Filled("open", filling.number, told=told)
            reasoned = self._reason(filling, found)
            if reasoned is None:
                return Filled("open", filling.number, told=(f"{found.concern}, {found.level}: {found.told}",))
            if isinstance(reasoned, Refused):
                return self._gone(reasoned)
            filling = reasoned
        done = flow.hand_in(self.record, filling, why, self.vocabulary, self.book, self.now)
        if isinstance(done, Submitted):
            told = tuple(f"{one.concern}, {one.level}: {one.told}" for one in done.found)
            return Filled("submitted", filling.number, done.spec, done.revision, told)
        if isinstance(done, Refused):
            return self._gone(done)
        if isinstance(done, Unfit):
            return Filled("open", filling.number, told=(_told(done),))
        return Filled("open", filling.number, told=tuple(str(done).splitlines()))

    def _reason(self, filling: Filling, found: Found) -> Filling | Refused | None:
        asking = Asking(filling, found.concern, warning=found)
        while True:
            text = self.ask(asking) if self.ask is not None else None
            if text is None:
                return None
            done = flow.give_reason(self.record, filling, found.concern, text, self.now)
            if not isinstance(done, Unfit):
                return done
            asking = replace(asking, unfit=done)


@dataclass(frozen=True, slots=True)
class _Questions:
    """Words the questions of a keyboard."""

    ask: Ask

    def __call__(self, asking: Asking) -> str | None:
        said = []
        if asking.unfit is not None:
            said.append(f"{asking.unfit.wrong}; {asking.unfit.mend}")
        if asking.warning is not None:
            said.append(f"{asking.warning.concern}: {asking.warning.told}. {asking.warning.mend}.")
            said.append("why it is right all the same: ")
        elif asking.field == "unit":
            said.append(f"{asking.half}: unit ({', '.join(way.text for way in asking.ways)}): ")
        else:
            ways = ", ".join(way.text or "-" for way in asking.ways)
            empty = " (- for none)" if asking.may_be_empty else ""
            said.append(f"{asking.field}{f' [{ways}]' if ways else ''}{empty}: ")
        try:
            return self.ask("\n".join(said))
        except (EOFError, KeyboardInterrupt):
            return None


def _by_field(cells: Mapping[str, str]) -> dict[str, str]:
    entered = {name.strip(): cell for name, cell in cells.items()}
    first, last = entered.pop("year_from", ""), entered.pop("year_to", "")
    if first or last:
        entered["years"] = f"{first or last}-{last or first}"
    strange = [name for name in entered if name not in FIELDS]
    if strange:
        raise SettingError(f"{', '.join(strange)}: no field of a row; the fields are {', '.join(FIELDS)}")
    return entered


def _told(unfit: Unfit) -> str:
    return f"{unfit.field}: {unfit.wrong}; {unfit.mend}"
