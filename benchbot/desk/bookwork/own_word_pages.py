"""The shop's own words and names of vehicles: all in use, taking one back, and what was answered through it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchbot.curation import words_back
from benchbot.desk.bookwork.leaves import Leaf, Shop, label, line, turned
from benchbot.desk.bookwork.row_words import day_and_time
from benchbot.desk.codes import number_in
from benchbot.desk.handling import Handling
from benchbot.desk.sheets import Button
from benchbot.people.rights import Action
from benchbot.records import own_words
from benchbot.records.entry import moment
from benchbot.records.own_words import OwnWord
from benchbot.records.word_states import Kind
from benchbot.reply.reply import Block

_KINDS: dict[str, Kind] = {"w": "word", "n": "name"}


def code_of(word: OwnWord) -> str:
    """What a button's code calls it."""
    return f"{word.kind[0]}.{word.entry}"


@dataclass(frozen=True, slots=True)
class OwnWordPages:
    """A code is a letter for the kind, and the number of its entry."""

    shop: Shop

    def pages(self) -> dict[str, tuple[Action, Any]]:
        return {
            "k": ("fill gap", self.all),
            "k1": ("fill gap", self.one),
            "ky": ("fill gap", self.take_back),
            "kr": ("fill gap", self.read),
        }

    def all(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, found = self.shop.words(handling), own_words.all_in_use(self.shop.record)
        shown, turns, first = turned(found, about, "k", words.previous_page, words.next_page)
        blocks, buttons = [Block("question", words.words_head if found else words.words_none)], []
        for number, one in enumerate(shown, first + 1):
            name, day = self.shop.name_of(one.author), f"{one.at:%Y-%m-%d}"
            text = words.words_line.format(number=number, said=one.said, means=one.means, name=name, day=day)
            blocks.append(line(text))
            buttons.append(Button(label(f"{number}. {one.said}"), f"k1.{code_of(one)}", wide=True))
        return Leaf(tuple(blocks), (*buttons, *turns, Button(words.back, "b")))

    def one(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, one = self.shop.words(handling), self._word(about)
        if one is None:
            return self.all(handling, (), {})
        text = words.word_sure.format(said=one.said, means=one.means)
        buttons = (Button(words.word_back, f"ky.{code_of(one)}"), Button(words.back, "k.0"))
        return Leaf((line(text, "question"),), buttons)

    def take_back(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        words, one = self.shop.words(handling), self._word(about)
        if one is None:
            return self.all(handling, (), {})
        done = words_back.take_back(self.shop.record, one, handling.asker.person, "", handling.now)
        if done is None:
            text = words.word_gone_before.format(said=one.said)
            return Leaf((line(text, "question"),), (Button(words.back, "k.0"),))
        return self.read(handling, about, {})

    def read(self, handling: Handling, about: Sequence[str], body: Mapping[str, Any]) -> Leaf:
        """What was answered through a word that was taken back, a page at a time."""
        words, one = self.shop.words(handling), self._word(about)
        if one is None:
            return self.all(handling, (), {})
        found = words_back.read_through(self.shop.record, one, handling.now)
        shown, turns, first = turned(found, about[2:], f"kr.{code_of(one)}", words.previous_page, words.next_page)
        head = words.word_read if found else words.word_read_none
        blocks = [
            line(words.word_gone.format(said=one.said, means=one.means), "question"),
            line(head.format(days=words_back.DAYS)),
        ]
        for number, each in enumerate(shown, first + 1):
            place, at = each.place or words.nowhere, day_and_time(moment(each.at))
            text = words.word_read_line.format(number=number, name=each.name, place=place, at=at, asked=each.asked)
            blocks.append(line(text))
        return Leaf(tuple(blocks), (*turns, Button(words.book_publish, "bp"), Button(words.back, "k.0")))

    def _word(self, about: Sequence[str]) -> OwnWord | None:
        kind = _KINDS.get(about[0]) if about else None
        entry = number_in(about[1]) if len(about) > 1 else None
        return None if kind is None or entry is None else own_words.one(self.shop.record, kind, entry)
