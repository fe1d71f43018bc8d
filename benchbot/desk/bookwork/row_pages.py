"""A row, by itself: looked at with its pages, approved, sent back, withdrawn, corrected, and its history."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from benchbot.checking import CONCERNS
from benchbot.curation.approving import (
    Denied,
    Waiting,
    approve,
    send_back,
    state_of,
    take_back,
    waiting_one,
    withdraw,
)
from benchbot.curation.fill_preview import preview
from benchbot.curation.history import history
from benchbot.curation.submitting import look_over, vocabulary_of
from benchbot.desk.bookwork.fill_pages import FillPages
from benchbot.desk.bookwork.leaves import Leaf, Shop, line
from benchbot.desk.bookwork.row_words import day_and_time, found_blocks, vehicle_of
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling, plain
from benchbot.desk.picture_files import page_code, picture_file
from benchbot.desk.sheets import Button, Parcel, Sheet
from benchbot.desk.wording import counted
from benchbot.errors import TableError
from benchbot.records import evidence, fillings, revisions
from benchbot.records.evidence import Evidence
from benchbot.records.expected import Expected
from benchbot.records.revisions import Revision
from benchbot.reply.reply import Block

SEND_BACK, WITHDRAW, DROP, PASS = "send back", "withdraw", "drop change", "approve why"
_STEPS = 12
# As many as an album of the messenger holds.
_PAGES = 10


@dataclass(frozen=True, slots=True)
class RowPages:
    """A card's body names the row and the revision that it shows: nobody approves what they have not seen."""

    shop: Shop
    filling: FillPages

    def one(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The row that was pressed in a list, or the one that the card shows."""
        at = number_in(about[0]) if about else None
        specs = body.get("specs", [])
        spec = str(specs[at]) if at is not None and 0 <= at < len(specs) else str(body.get("spec", ""))
        return self.page(handling, spec)

    def page(self, handling: Handling, spec: str, noted: str = "") -> Leaf:
        """A row as it waits for approval, or as it stands."""
        words, record = self.shop.words(handling), self.shop.record
        draft = waiting_one(record, spec)
        newest = revisions.newest(record, spec)
        if newest is None:
            text = words.row_none.format(spec=spec[:64]) if spec else words.gone
            return Leaf((Block("question", text),), (Button(words.back, "b"),))
        cells, asker = self._cells(spec), handling.asker
        held = {"spec": spec, "revision": newest.revision}
        blocks = [line(noted)] if noted else []
        speaking = revisions.answering(record, spec)
        standing = newest if draft is not None or speaking is None else speaking
        if standing.revision != newest.revision:
            # what came after it and does not stand
            blocks.append(line(self._state_line(handling, newest)))
        blocks.append(line(self._state_line(handling, standing)))
        checked_by, checked_on = standing.cells["checked_by"], standing.cells["checked_on"]
        if standing.status == "draft":
            checked_by, checked_on = words.preview_checked, words.preview_when
        shown = preview(
            cells, self.shop.conversation.lexicon.vocabulary, checked_by, checked_on, asker.language,
            asker.manner.units, spec,
        )  # fmt: skip
        blocks += [*shown.blocks, line(words.preview_scope.format(vehicle=vehicle_of(cells, asker.language)))]
        if draft is not None:
            blocks += self._changes(handling, draft) + self._checks(handling, draft)
        kept = self._kept(spec)
        for page in kept:
            text = words.evidence_line.format(file=page.file[:12], kind=page.kind, size=page.size // 1024)
            blocks.append(line(text))
        buttons = []
        if draft is not None:
            buttons += [Button(words.approve, "ay"), Button(words.send_back, "ab")]
        if kept:
            buttons.append(Button(counted(len(kept), words.evidence_page, words.evidence_pages), "ap"))
        buttons += [Button(words.history, "ah"), Button(words.correct, "ac")]
        if draft is not None:
            buttons.append(Button(words.drop_change, "ad"))
        if speaking is not None and speaking.status != "withdrawn":
            buttons.append(Button(words.withdraw if draft is None else words.withdraw_row, "aw"))
        return Leaf(tuple(blocks), (*buttons, Button(words.back, "a.0" if draft else "b")), held)

    def pages(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The pictures of the source pages follow as messages of their own; the row stays where it is."""
        words, spec = self.shop.words(handling), str(body.get("spec", ""))
        cells, kept, lost = self._cells(spec), self._kept(spec)[-_PAGES:], ""
        for number, page in enumerate(kept, 1):
            code = page_code(page.file)
            file = picture_file(self.shop.home, code)
            if file is None or not file.is_file():
                lost = words.evidence_lost.format(file=page.file)
                continue
            text = words.evidence_shown.format(
                spec=spec, number=number, count=len(kept), source=cells["source"], source_ref=cells["source_ref"]
            )
            caption = Sheet((line(text),))
            handling.send(Parcel("picture", handling.incoming.chat, caption, code=code, twice=True))
        return self.page(handling, spec, lost)

    def approve(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The revision that the card shows, and none that came since."""
        return self._approve(handling, str(body.get("spec", "")), int(body.get("revision", 0)), {})

    def send_back(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, spec = self.shop.words(handling), str(body.get("spec", ""))
        draft = waiting_one(self.shop.record, spec)
        if draft is None:
            return self.page(handling, spec)
        awaits = Expected(SEND_BACK, {"spec": spec, "revision": int(body.get("revision", 0))})
        ask = Block("question", words.send_back_why.format(name=draft.name))
        return Leaf((ask,), (Button(words.cancel, "a1"),), dict(body), awaits)

    def withdraw(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, spec = self.shop.words(handling), str(body.get("spec", ""))
        ask = Block("question", words.withdraw_why.format(spec=spec))
        awaits = Expected(WITHDRAW, {"spec": spec, "revision": int(body.get("revision", 0))})
        return Leaf((ask,), (Button(words.cancel, "a1"),), dict(body), awaits)

    def drop(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The change that waits, and only that."""
        words, spec = self.shop.words(handling), str(body.get("spec", ""))
        if waiting_one(self.shop.record, spec) is None:
            return self.page(handling, spec)
        ask = Block("question", words.drop_why.format(spec=spec))
        awaits = Expected(DROP, {"spec": spec, "revision": int(body.get("revision", 0))})
        return Leaf((ask,), (Button(words.cancel, "a1"),), dict(body), awaits)

    def correct(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        return self.filling.begin_row(handling, str(body.get("spec", "")))

    def history(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Who did what when, the latest last; the oldest are left out where there are many."""
        words, spec = self.shop.words(handling), str(body.get("spec", ""))
        blocks = [Block("question", spec)]
        for step in history(self.shop.record, spec)[-_STEPS:]:
            did = f"{step.status} {step.revision}"
            blocks.append(line(words.step_line.format(at=day_and_time(step.at), who=step.name, did=did)))
            blocks += [
                line(words.step_change.format(column=column, old=old or "-", new=new or "-"))
                for column, old, new in step.changes
                if step.revision > 1 and column not in ("status", "checked_by", "checked_on")
            ]
            if step.why:
                blocks.append(line(words.step_why.format(why=step.why)))
            for review in step.reviews:
                if review.did != "submitted":
                    who, at = self.shop.name_of(review.person), day_and_time(review.at)
                    blocks.append(line(words.step_line.format(at=at, who=who, did=f"{review.did}: {review.said}")))
        return Leaf(tuple(blocks), (Button(words.back, "a1"),), dict(body))

    def written(self, handling: Handling, entry: Expected, text: str) -> Leaf:
        """A comment, or a reason."""
        words, record, asker = self.shop.words(handling), self.shop.record, handling.asker
        spec, said = str(entry.body["spec"]), text[:500]
        if entry.what == PASS:
            reasons = {str(entry.body["concern"]): said, **entry.body.get("reasons", {})}
            return self._approve(handling, spec, int(entry.body["revision"]), reasons)
        if entry.what == WITHDRAW:
            gone = withdraw(record, spec, asker.person, said, handling.now, int(entry.body["revision"]))
            if isinstance(gone, Denied):
                return self.page(handling, spec, self._denied(handling, gone))
            page = self.page(handling, spec, words.withdrawn.format(spec=spec))
            # it goes on answering until then
            return replace(page, buttons=(Button(words.book_publish, "bp"), *page.buttons))
        if entry.what == DROP:
            dropped = take_back(record, spec, int(entry.body["revision"]), asker.person, said, handling.now)
            noted = self._denied(handling, dropped) if isinstance(dropped, Denied) else words.change_dropped
            return self.page(handling, spec, noted.format(spec=spec))
        back = send_back(record, spec, int(entry.body["revision"]), asker.person, said, handling.now)
        if isinstance(back, Denied):
            return self.page(handling, spec, self._denied(handling, back))
        name = self.shop.name_of(back.author)
        if back.author != asker.person and back.author.startswith(_reached(asker.person)):
            other = type(asker).of(back.author, name, self.shop.people)
            told = self.shop.words_in(other.language).sent_back_told
            handling.tell(back.author, plain(told.format(name=asker.name, spec=spec, said=said)))
        return Leaf((Block("question", words.sent_back.format(spec=spec, name=name)),), (Button(words.back, "a.0"),))

    def _approve(self, handling: Handling, spec: str, revision: int, reasons: dict[str, str]) -> Leaf:
        words, record, asker = self.shop.words(handling), self.shop.record, handling.asker
        vocabulary, book = vocabulary_of(record), self.shop.conversation.book
        named = {one: reasons[one] for one in CONCERNS if one in reasons}
        done = approve(
            record,
            spec,
            revision,
            asker.person,
            asker.name,
            handling.now,
            named,
            vocabulary,
            book,
        )
        if isinstance(done, Denied):
            if done.about == "warnings" and done.found:
                body = {"spec": spec, "revision": revision, "concern": done.found[0].concern, "reasons": reasons}
                blocks = (*found_blocks(done.found[:1], words), Block("question", words.warning_why))
                held = {"spec": spec, "revision": revision}
                return Leaf(blocks, (Button(words.cancel, "a1"),), held, Expected(PASS, body))
            return self.page(handling, spec, self._denied(handling, done))
        form = words.approved_alone if done.one_person else words.approved
        buttons = (Button(words.book_publish, "bp"), Button(words.back, "a.0"))
        return Leaf((Block("question", form.format(spec=spec)),), buttons)

    def _denied(self, handling: Handling, denied: Denied) -> str:
        words = self.shop.words(handling)
        return words.not_so.format(why=words.denied_reasons.get(denied.about, denied.reason).rstrip("."))

    def _state_line(self, handling: Handling, one: Revision) -> str:
        """Which revision it is, whose, and where it stands."""
        words = self.shop.words(handling)
        by = words.waiting_by.format(
            spec=one.spec, revision=one.revision, name=self.shop.name_of(one.author), at=day_and_time(one.at)
        )
        return words.row_state.format(by=by, state=words.row_states[state_of(self.shop.record, one)])

    def _changes(self, handling: Handling, draft: Waiting) -> list[Block]:
        if draft.before is None:
            return []
        words = self.shop.words(handling)
        return [
            line(words.step_change.format(column=column, old=old or "-", new=new or "-"))
            for column, old, new in draft.changes
            if column not in ("status", "checked_by", "checked_on")
        ]

    def _checks(self, handling: Handling, draft: Waiting) -> list[Block]:
        """What the checks say now, and which warnings its author let pass."""
        words, record = self.shop.words(handling), self.shop.record
        book = self.shop.conversation.book
        try:
            found = look_over(
                record, draft.cells, handling.asker.name, handling.now.date(), vocabulary_of(record), book
            ).found
        except TableError as error:
            return [line(str(fault)) for fault in error.faults[:3]]
        let = {one.concern for one in draft.passed}
        blocks = found_blocks([one for one in found if one.level != "passed" and one.concern not in let], words)
        for one in draft.passed:
            concern = next((words.concerns[key] for key in words.concerns if key == one.concern), one.concern)
            blocks.append(line(words.waiting_passed.format(concern=concern, reason=one.reason, told=one.told)))
        return blocks

    def _kept(self, spec: str) -> list[Evidence]:
        """The pages that lie in the home; one picture that came with two revisions is one page."""
        found = [page for page in evidence.of_spec(self.shop.record, spec) if page.state == "kept"]
        return list({page.digest: page for page in found}.values())

    def _cells(self, spec: str) -> dict[str, str]:
        return fillings.standing_cells(self.shop.record, spec) or {}


def _reached(person: str) -> str:
    """The channel of a person, with which they are reached through this bot."""
    return f"{person.partition(' ')[0]} "
