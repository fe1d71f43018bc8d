"""A gap whose cause is a word: the curator says which part or vehicle is meant, and the shop's own words grow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.curation import gaps, words_back
from benchbot.curation.fill_steps import nearest_components
from benchbot.curation.gaps import Group
from benchbot.curation.words import Grown, NotTaken, add_vehicle_name, add_word, nearest_vehicles
from benchbot.desk.bookwork.gap_pages import GapPages
from benchbot.desk.bookwork.leaves import Leaf, Shop, label, line
from benchbot.desk.bookwork.own_word_pages import code_of
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.records.expected import Expected
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block
from benchbot.reply.subjects import component_words

WORD, VEHICLE, OTHER = "word part", "word vehicle", "word other"
_OFFERED = 5


@dataclass(frozen=True, slots=True)
class WordPages:
    """A card's body holds the words that are asked about, and the parts or vehicles that its buttons choose from."""

    shop: Shop
    gaps: GapPages

    def ask_part(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Which part a word means."""
        group = self._group(about)
        return self.gaps.none(handling) if group is None else self._ask(handling, group, WORD, group.words)

    def ask_vehicle(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Which vehicle a name means."""
        group = self._group(about)
        return self.gaps.none(handling) if group is None else self._ask(handling, group, VEHICLE, group.words)

    def ask_other(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """Only some of the words are the name of the thing."""
        group = self._group(about)
        if group is None:
            return self.gaps.none(handling)
        words = self.shop.words(handling)
        awaits = Expected(OTHER, {"group": group.number, "vehicle": group.kind == "vehicle"})
        blocks = (Block("question", words.other_words_ask.format(said=group.words)),)
        return Leaf(blocks, (Button(words.back, f"g1.{group.number}"),), awaits=awaits)

    def written(self, handling: Handling, entry: Expected, text: str) -> Leaf:
        group = gaps.group(self.shop.record, int(entry.body["group"]))
        if group is None:
            return self.gaps.none(handling)
        if entry.what == OTHER:
            what = VEHICLE if entry.body["vehicle"] else WORD
            return self._ask(handling, group, what, " ".join(text.split())[:80])
        return self._offer(handling, group, entry.what, str(entry.body["said"]), text)

    def choose(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """The part or vehicle that was pressed."""
        group = self._group(about)
        at = number_in(about[1]) if len(about) > 1 else None
        ways = body.get("ways", [])
        if group is None or at is None or not 0 <= at < len(ways) or "said" not in body:
            return self.gaps.none(handling)
        said, record, book = str(body["said"]), self.shop.record, self.shop.conversation.book
        person, way = handling.asker.person, ways[at]
        done = (
            add_vehicle_name(record, str(way[0]), str(way[1]), said, person, handling.now, book)
            if body.get("vehicle")
            else add_word(record, str(way[0]), said, person, handling.now, book)
        )
        return self._done(handling, group, done)

    def _ask(self, handling: Handling, group: Group, what: str, said: str) -> Leaf:
        words = self.shop.words(handling)
        form = words.word_which if what == WORD else words.name_which
        awaits = Expected(what, {"group": group.number, "said": said})
        buttons = (Button(words.other_words, f"wo.{group.number}"), Button(words.back, f"g1.{group.number}"))
        return Leaf((line(form.format(said=said), "question"),), buttons, awaits=awaits)

    def _offer(self, handling: Handling, group: Group, what: str, said: str, text: str) -> Leaf:
        words, wording = self.shop.words(handling), wording_of(handling.asker.language)
        if what == WORD:
            near = nearest_components(text[:80], self.shop.conversation.lexicon.vocabulary, _OFFERED)
            ways = [[one] for one in near]
            labels = [component_words(one, wording) for one in near]
        else:
            vehicles = nearest_vehicles(self.shop.conversation.book, text[:80], _OFFERED)
            ways = [list(one) for one in vehicles]
            labels = [" ".join(one) for one in vehicles]
        none, some = (words.word_none, words.word_nearest) if what == WORD else (words.name_none, words.name_nearest)
        head = some.format(said=said) if ways else none
        buttons = [Button(label(one), f"wv.{group.number}.{at}", wide=True) for at, one in enumerate(labels)]
        buttons.append(Button(words.back, f"g1.{group.number}"))
        body = {"said": said, "ways": ways, "vehicle": what == VEHICLE}
        awaits = Expected(what, {"group": group.number, "said": said})
        return Leaf((line(head, "question"),), tuple(buttons), body, awaits)

    def _done(self, handling: Handling, group: Group, done: Grown | NotTaken) -> Leaf:
        words = self.shop.words(handling)
        if isinstance(done, Grown):
            text = words.word_taken.format(said=done.said, means=done.means)
            taken = words_back.find(self.shop.record, done.said, done.means)
            back = [Button(words.word_back, f"k1.{code_of(one)}") for one in taken]
            return Leaf((line(text, "question"),), (Button(words.book_publish, "bp"), *back, Button(words.back, "g.0")))
        why = words.not_taken.get(done.why, done.told).format(said=done.said, other=done.other)
        text = words.word_refused.format(said=done.said, why=why)
        buttons = (Button(words.other_words, f"wo.{group.number}"), Button(words.back, f"g1.{group.number}"))
        return Leaf((line(text, "question"),), buttons)

    def _group(self, about: Sequence[str]) -> Group | None:
        number = number_in(about[0]) if about else None
        return None if number is None else gaps.group(self.shop.record, number)
