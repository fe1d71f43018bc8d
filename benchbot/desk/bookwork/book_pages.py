"""`/book`: the version in place, what waits for somebody, publishing, and whether one person alone may approve."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.curation.ageing import due
from benchbot.curation.approving import waiting
from benchbot.curation.recalling import recall_list
from benchbot.curation.settling import DID, NotSettled, Questioned, open_notes, settle
from benchbot.curation.two_people import allow_one_person, one_person_allowed
from benchbot.desk.bookwork.fill_pages import FillPages
from benchbot.desk.bookwork.leaves import Leaf, Shop, line, turned
from benchbot.desk.bookwork.row_words import day_and_time
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.people.rights import Action
from benchbot.records import errands, revisions
from benchbot.records.expected import Expected
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import subject_words

ENTRY = "book why"
Page = Callable[[Handling, Sequence[str], Mapping[str, Any]], Leaf]


@dataclass(frozen=True, slots=True)
class BookPages:
    """What takes longer than an answer is an errand: it is put on record and done once, and who asked hears of it."""

    shop: Shop
    filling: FillPages

    def pages(self) -> dict[str, tuple[Action, Page]]:
        return {
            "b": ("approve", self.first),
            "bp": ("approve", self.publish_sure),
            "by": ("approve", self.publish),
            "bA": ("approve", self.publish_why),
            "bq": ("approve", self.questioned),
            "b1": ("approve", self.note),
            "br": ("approve", self.right),
            "bd": ("approve", self.due),
            "bD": ("fill gap", self.look_again),
            "bC": ("fill gap", self.correct),
            "bR": ("approve", self.recalls),
            "bc": ("approve", self.coverage),
            "bw": ("approve", self.digest),
            "bo": ("set defaults", self.one_person),
            "bO": ("set defaults", self.set_one_person),
        }

    def first(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, record = self.shop.words(handling), self.shop.record
        book = self.shop.conversation.book
        head = words.book_head.format(version=book.version, made_on=book.made_on, rows=f"{book.rows:,}")
        buttons = [
            Button(words.book_waiting.format(count=sum(not one.imported for one in waiting(record))), "a.0"),
            Button(words.book_questioned.format(count=len({one.note for one in open_notes(record)})), "bq.0"),
            Button(words.book_due.format(count=len(due(record, handling.now.date()))), "bd.0"),
            Button(words.book_recalls.format(count=sum(bool(one.open) for one in recall_list(record))), "bR.0"),
            Button(words.book_words, "k.0"),
            Button(words.book_publish, "bp"),
            Button(words.book_coverage, "bc"),
            Button(words.book_digest, "bw"),
        ]
        if self.shop.may(handling, "set defaults").allowed:
            buttons.append(Button(words.book_one_person, "bo"))
        return Leaf((Block("question", head), line(words.row_which)), tuple(buttons))

    def publish_sure(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words = self.shop.words(handling)
        buttons = (Button(words.publish_yes, "by"), Button(words.publish_all_the_same, "bA"), Button(words.back, "b"))
        return Leaf((Block("question", words.publish_sure),), buttons)

    def publish(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self._publish(handling, "")

    def publish_why(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Kept questions come to something else, and somebody says why that is right."""
        words = self.shop.words(handling)
        awaits = Expected(ENTRY, {"do": "accept"})
        return Leaf((Block("question", words.publish_why),), (Button(words.cancel, "b"),), awaits=awaits)

    def questioned(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, found = self.shop.words(handling), open_notes(self.shop.record)
        places = {one.number: one.name for one in self.shop.people.locations()}
        shown, turns, first = turned(found, about, "bq", words.previous_page, words.next_page)
        blocks = [Block("question", words.questioned_head if found else words.questioned_none)]
        buttons = []
        for number, one in enumerate(shown, first + 1):
            place = words.nowhere if one.location is None else places.get(one.location, words.nowhere)
            text = words.questioned_line.format(
                number=number, spec=one.spec, name=one.name, place=place, at=day_and_time(one.at), said=one.said
            )
            blocks.append(line(text))
            buttons.append(Button(str(number), f"b1.{one.note}.{number - first - 1}"))
        specs = [one.spec for one in shown]
        return Leaf(tuple(blocks), (*buttons, *turns, Button(words.back, "b")), {"specs": specs})

    def note(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """One questioned row: right as it is, to be corrected, or to be withdrawn."""
        words, one = self.shop.words(handling), self._note(about, body)
        if one is None:
            return self.questioned(handling, ("0",), {})
        blocks = (
            line(f"{one.spec} · {one.vehicle}"),
            Block("question", one.value),
            line(f"{one.name}: “{one.said}”"),
            line(f"“{one.asked}”"),
        )
        newest, speaking = revisions.newest(self.shop.record, one.spec), revisions.answering(self.shop.record, one.spec)
        gone = speaking is not None and speaking.status == "withdrawn"
        mended = (words.questioned_withdrawn, "withdrawn") if gone else (words.questioned_corrected, "corrected")
        buttons = [
            Button(words.questioned_right, f"br.{one.note}.right"),
            Button(words.correct, "bC"),
            Button(mended[0], f"br.{one.note}.{mended[1]}"),
            Button(words.history, "ah"),
        ]
        if not gone:
            buttons.append(Button(words.withdraw, "aw"))
        held = {"spec": one.spec, "revision": newest.revision if newest else 0, "specs": [one.spec]}
        return Leaf(blocks, (*buttons, Button(words.back, "bq.0")), held)

    def right(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """What a curator found: that is written down before the mark goes from the answer."""
        words = self.shop.words(handling)
        number = number_in(about[0]) if about else None
        did = about[1] if len(about) > 1 else ""
        if number is None or did not in DID:
            return self.questioned(handling, ("0",), {})
        awaits = Expected(ENTRY, {"do": "settle", "note": number, "did": did})
        return Leaf((Block("question", words.questioned_why),), (Button(words.cancel, "bq.0"),), awaits=awaits)

    def due(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Rows that stop answering soon, or have stopped."""
        words, found = self.shop.words(handling), due(self.shop.record, handling.now.date())
        shown, turns, first = turned(found, about, "bd", words.previous_page, words.next_page)
        blocks, buttons = [Block("question", words.due_head if found else words.due_none)], []
        for number, one in enumerate(shown, first + 1):
            what = subject_words(one.subject, wording_of(handling.asker.language))
            text = words.due_line.format(
                number=number, spec=one.spec, day=one.review_by.isoformat(), what=what, value=one.value
            )
            blocks.append(line(text))
            buttons.append(Button(str(number), f"bD.{number - first - 1}"))
        specs = [one.spec for one in shown]
        return Leaf(tuple(blocks), (*buttons, *turns, Button(words.back, "b")), {"specs": specs})

    def look_again(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """A row of the list is read in its source again."""
        at, specs = (number_in(about[0]) if about else None), body.get("specs", [])
        if at is None or not 0 <= at < len(specs):
            return self.due(handling, ("0",), {})
        return self.filling.begin_row(handling, str(specs[at]))

    def correct(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self.filling.begin_row(handling, str(body.get("spec", "")))

    def recalls(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Who was shown a value that is another one now; whom it still concerns only owners are told."""
        words, found = self.shop.words(handling), recall_list(self.shop.record)
        shown, turns, _ = turned(found, about, "bR", words.previous_page, words.next_page)
        named = self.shop.may(handling, "see members").allowed
        blocks = [Block("question", words.recalls_head if found else words.recalls_none)]
        for one in shown:
            told, still = len(one.shown), one.open
            text = words.recall_line.format(
                spec=one.recall.spec, what=words.recalled[one.recall.what], seen=told - len(still), told=told
            )
            blocks.append(line(text))
            if still and named:
                names = ", ".join(dict.fromkeys(notice.name or notice.person for notice in still))
                blocks.append(line(words.recall_open.format(names=names)))
        return Leaf(tuple(blocks), (*turns, Button(words.back, "b")))

    def coverage(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self._errand(handling, "coverage", self.shop.words(handling).coverage_asked)

    def digest(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self._errand(handling, "digest", self.shop.words(handling).digest_asked)

    def one_person(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, allowed = self.shop.words(handling), one_person_allowed(self.shop.record)
        text = words.one_now_allowed if allowed else words.one_now_forbidden
        other = Button(words.one_forbid, "bO.no") if allowed else Button(words.one_allow, "bO.yes")
        return Leaf((Block("question", text),), (other, Button(words.back, "b")))

    def set_one_person(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        wanted = about[:1] == ["yes"]
        if one_person_allowed(self.shop.record) != wanted:
            allow_one_person(self.shop.record, wanted, handling.asker.person, handling.now)
        return self.one_person(handling, (), body)

    def written(self, handling: Handling, entry: Expected, text: str) -> Leaf:
        """A reason, or what was found about a note."""
        words = self.shop.words(handling)
        said = " ".join(text.split())[:500]
        if entry.body["do"] == "accept":
            return self._publish(handling, said)
        did = next((one for one in DID if one == entry.body["did"]), None)
        if did is None:
            return self.questioned(handling, ("0",), {})
        done = settle(self.shop.record, int(entry.body["note"]), did, said, handling.asker.person, handling.now)
        if isinstance(done, NotSettled):
            told = words.not_mended.format(spec=done.spec) if done.about == "not mended" else words.gone
        else:
            told = words.settled.format(note=done.note)
        return Leaf((Block("question", told),), (Button(words.back, "bq.0"),))

    def _publish(self, handling: Handling, accept: str) -> Leaf:
        body = {"by": handling.asker.person, "accept": accept}
        with self.shop.record.writing() as store:
            errands.put(store, "publish", body, handling.now)
        words = self.shop.words(handling)
        return Leaf((Block("question", words.publish_asked),), (Button(words.back, "b"),))

    def _errand(self, handling: Handling, what: str, told: str) -> Leaf:
        body = {"by": handling.asker.person, "location": handling.asker.manner.location}
        with self.shop.record.writing() as store:
            errands.put(store, what, body, handling.now)
        return Leaf((Block("question", told),), (Button(self.shop.words(handling).back, "b"),))

    def _note(self, about: Sequence[str], body: Mapping[str, Any]) -> Questioned | None:
        number = number_in(about[0]) if about else None
        at = number_in(about[1]) if len(about) > 1 else None
        specs = body.get("specs", [])
        spec = str(specs[at]) if at is not None and 0 <= at < len(specs) else ""
        return next((one for one in open_notes(self.shop.record) if one.note == number and one.spec == spec), None)
