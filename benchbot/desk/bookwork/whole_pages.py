"""A row that was filled in at the phone: seen as the technician will see it, handed in, or kept back by a check."""

from __future__ import annotations

from dataclasses import dataclass

from benchbot.checking import Concern, Found
from benchbot.curation import fill_flow as flow
from benchbot.curation.fill_flow import Refused
from benchbot.curation.fill_preview import preview
from benchbot.curation.fill_steps import Unfit
from benchbot.curation.submitting import Submitted, in_the_way
from benchbot.desk.bookwork.leaves import Leaf, Shop, line
from benchbot.desk.bookwork.row_words import found_blocks, summary, unfit_block, vehicle_of
from benchbot.desk.handling import Handling, plain
from benchbot.desk.sheets import Button
from benchbot.desk.wording import counted
from benchbot.records import evidence
from benchbot.records.expected import Expected
from benchbot.records.fillings import Filling
from benchbot.reply.reply import Block

REASON = "fill reason"


@dataclass(frozen=True, slots=True)
class WholePages:
    """Each page is of a row that nothing is missing of."""

    shop: Shop

    def whole(self, handling: Handling, held: Filling) -> Leaf:
        """The row as a technician will see it, what the checks say of it, and what can be done."""
        words = self.shop.words(handling)
        cells, asker = held.fields.cells, handling.asker
        shown = preview(
            cells, self.shop.vocabulary, words.preview_checked, words.preview_when, asker.language, asker.manner.units,
            held.spec,
        )  # fmt: skip
        scope = words.preview_scope.format(vehicle=vehicle_of(cells, asker.language))
        blocks = [line(words.preview_head), *shown.blocks, line(scope)]
        book = self.shop.conversation.book
        looked = flow.look(self.shop.record, held, asker.name, self.shop.vocabulary, book, handling.now)
        if isinstance(looked, Unfit):
            blocks.append(unfit_block(looked, words))
        else:
            blocks += found_blocks([one for one in looked.found if one.level != "passed"], words)
        kept = [one for one in evidence.of_filling(self.shop.record, held.number) if one.state != "refused"]
        if kept:
            blocks.append(line(counted(len(kept), words.evidence_one, words.evidence_many)))
        number = held.number
        buttons = (
            Button(words.submit, f"fs.{number}"),
            Button(words.change, f"fc.{number}.0"),
            Button(words.add, f"fm.{number}"),
            Button(words.leave, f"fl.{number}"),
            Button(words.drop, f"fd.{number}"),
        )
        return Leaf(tuple(blocks), buttons)

    def handed_in(self, handling: Handling, held: Filling) -> Leaf:
        """Hands it in, asks why a warning may pass, or shows what stands in the way."""
        words, record = self.shop.words(handling), self.shop.record
        book = self.shop.conversation.book
        looked = flow.look(record, held, handling.asker.name, self.shop.vocabulary, book, handling.now)
        if isinstance(looked, Unfit):
            return self._refused(handling, held, [unfit_block(looked, words)])
        standing = in_the_way(looked.found, held.fields.reasons)
        refused = [one for one in standing if one.level == "refused"]
        if refused:
            return self._refused(handling, held, found_blocks(refused, words))
        if standing:
            return self._warning(handling, held, standing[0])
        why = f"handed in for gap {held.meaning}" if held.meaning is not None else f"looked at {held.spec} again"
        done = flow.hand_in(record, held, why, self.shop.vocabulary, book, handling.now)
        if isinstance(done, Refused):
            return self._gone(handling)
        if not isinstance(done, Submitted):
            told = unfit_block(done, words) if isinstance(done, Unfit) else line(str(done))
            return self._refused(handling, held, [told])
        self._tell(handling, held, done)
        buttons = (Button(words.back, "g.0"),)
        return Leaf((Block("question", words.submitted.format(spec=done.spec)),), buttons)

    def reasoned(self, handling: Handling, held: Filling, concern: Concern, text: str) -> Leaf:
        """Why a warning may pass, as it was written; then it is handed in once more."""
        done = flow.give_reason(self.shop.record, held, concern, text, handling.now)
        if isinstance(done, Refused):
            return self._gone(handling)
        return self.handed_in(handling, held if isinstance(done, Unfit) else done)

    def _gone(self, handling: Handling) -> Leaf:
        words = self.shop.words(handling)
        return Leaf((Block("question", words.not_open),), (Button(words.back, "g.0"),))

    def _refused(self, handling: Handling, held: Filling, told: list[Block]) -> Leaf:
        words, number = self.shop.words(handling), held.number
        buttons = (
            Button(words.change, f"fc.{number}.0"),
            Button(words.leave, f"fl.{number}"),
            Button(words.drop, f"fd.{number}"),
        )
        return Leaf((Block("question", words.refused_head), *told), buttons)

    def _warning(self, handling: Handling, held: Filling, found: Found) -> Leaf:
        words, number = self.shop.words(handling), held.number
        awaits = Expected(REASON, {"filling": number, "concern": found.concern})
        buttons = (Button(words.change, f"fc.{number}.0"), Button(words.leave, f"fl.{number}"))
        return Leaf((*found_blocks([found], words), Block("question", words.warning_why)), buttons, awaits=awaits)

    def _tell(self, handling: Handling, held: Filling, done: Submitted) -> None:
        """Whoever else may approve it hears of it."""
        asker, told = handling.asker, set()
        for membership in asker.memberships:
            for member in self.shop.people.people_with(("curator", "owner"), membership.location.number):
                if member.person != asker.person and member.person not in told:
                    told.add(member.person)
                    other = type(asker).of(member.person, member.name, self.shop.people)
                    words = self.shop.words_in(other.language)
                    what = summary(held.fields.cells, held.number, other.language)
                    text = words.send_told.format(name=asker.name, spec=done.spec, what=what)
                    handling.tell(member.person, plain(text))
