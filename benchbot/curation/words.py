"""The shop's own words for parts and vehicles: taken when they mean one thing only, else refused with the reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from rapidfuzz.distance import OSA

from benchbot.book.reader import Book
from benchbot.curation.language import shop_vocabulary
from benchbot.errors import KnowledgeError
from benchbot.records import own_words, revisions
from benchbot.records.record import Record
from benchbot.specs.cell import cell_fault
from benchbot.specs.terms import Terms
from benchbot.vocabulary.letters import deletions, name_words, slips_allowed
from benchbot.vocabulary.terms import Vocabulary

LONGEST = 80
Why = Literal["unfit", "no part", "no vehicle", "known", "claimed", "everyday", "near", "vehicle", "part of"]
_Words = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grown:
    """Taken. means: the component, or make and model; it counts from the next book on."""

    said: str
    means: str


@dataclass(frozen=True, slots=True)
class NotTaken:
    """Refused. why: unfit (no words, or too many), no part, no vehicle, known (means that already), claimed (means
    `other` already), everyday (says nothing by itself), near (a slip away from `other`), vehicle (is a name of
    `other`), part of (is a part of the name of `other`). told: the reason in a sentence.
    """

    why: Why
    said: str
    other: str
    told: str


def add_word(
    record: Record, term: str, said: str, author: str, now: datetime, book: Book | None = None
) -> Grown | NotTaken:
    """Lets the shop say `said` for a component. book: whose vehicle names it must not be."""
    said = " ".join(said.split())
    held = revisions.shop_words(record)
    vocabulary = shop_vocabulary(held)
    terms = Terms(vocabulary)
    try:
        name = terms.component(term)
    except ValueError as error:
        return NotTaken("no part", said, term, f"{error.args[0]}; {error.args[1]}")
    refused = _unfit(said) or _said_word(said, name, vocabulary, terms, book)
    if refused is not None:
        return refused
    try:
        shop_vocabulary([*held, (name, said)])
    except KnowledgeError as error:
        # The loader looks at what no word shows alone: a word list that holds it, words that join others.
        return NotTaken("claimed", said, "", error.faults[0].wrong)
    own_words.put_word(record, name, said, author, f"the shop says {said!r} for {name}", now)
    return Grown(said, name)


def add_vehicle_name(
    record: Record, make: str, model: str, alias: str, author: str, now: datetime, book: Book | None = None
) -> Grown | NotTaken:
    """Lets the shop call a vehicle by another name. book: whose names it must be told apart from."""
    alias = " ".join(alias.split())
    vehicle = None if book is None else book.find_vehicle(make, model)
    if vehicle is None and not own_words.holds_vehicle(record, make, model):
        return NotTaken("no vehicle", alias, f"{make} {model}", f"no row is about a {make} {model}")
    unfit = _unfit(alias)
    if unfit is not None:
        return unfit
    words = name_words(alias)
    if words in (name_words(model), name_words(f"{make} {model}")):
        return NotTaken("known", alias, f"{make} {model}", f"{alias!r} is the model's own name")
    vocabulary = shop_vocabulary(revisions.shop_words(record))
    refused = (
        _named_on_record(own_words.names(record), make, model, alias, words)
        or (None if book is None else _named_in_book(book, vehicle, alias, words))
        or _trade_name(alias, words, vocabulary)
    )
    if refused is not None:
        return refused
    own_words.put_name(record, make, model, alias, author, f"the shop says {alias!r} for {make} {model}", now)
    return Grown(alias, f"{make} {model}")


def nearest_vehicles(book: Book, text: str, most: int = 6) -> tuple[tuple[str, str], ...]:
    """(make, model) of the vehicles whose names have most of the words of a text, misspelt ones after the others."""
    points: dict[int, float] = {}
    for word in name_words(text):
        forms = {word: 1.0}
        for near in _near_words(book, word):
            forms.setdefault(near, 0.6)
        best: dict[int, float] = {}
        for form, worth in forms.items():
            for hit in book.words(form):
                ids = (hit.id,) if hit.of == "vehicle" else tuple(book.vehicles_of_make(hit.id, 50))
                for one in ids:
                    best[one] = max(best.get(one, 0.0), worth * (1.0 if hit.of == "vehicle" else 0.5))
        for one, worth in best.items():
            points[one] = points.get(one, 0.0) + worth
    ranked = sorted(points, key=lambda one: (-points[one], one))[:most]
    return tuple((book.vehicle(one).make, book.vehicle(one).model) for one in ranked)


def _unfit(said: str) -> NotTaken | None:
    fault = cell_fault(said)
    if fault is None and not name_words(said):
        fault = (f"{said[:40]!r} holds no word", "write what the shop says")
    if fault is None and len(said) > LONGEST:
        fault = (f"{len(said)} characters are no name", f"write at most {LONGEST}")
    return None if fault is None else NotTaken("unfit", said, "", f"{fault[0]}; {fault[1]}")


def _said_word(said: str, name: str, vocabulary: Vocabulary, terms: Terms, book: Book | None) -> NotTaken | None:
    try:
        meant = terms.component(said)
    except ValueError as error:
        if "more than one" in str(error.args[0]):
            other = str(error.args[1]).removeprefix("write one of: ")
            return NotTaken("claimed", said, other, f"{said!r} already means one of several: {other}")
    else:
        if meant == name:
            return NotTaken("known", said, name, f"{said!r} means {name} already")
        return NotTaken("claimed", said, meant, f"{said!r} already means {meant}")
    words = name_words(said)
    if all(word in _words_without_part(vocabulary) for word in words):
        return NotTaken("everyday", said, "", f"{said!r} says no part: a place, a property or an everyday word")
    sibling = _near_phrase(words, name, vocabulary)
    if sibling:
        told = f"{said!r} is a slip of the finger away from {sibling[0]!r}, which means {sibling[1]}"
        return NotTaken("near", said, sibling[1], told)
    if book is not None:
        hit = _full_name(book, words, None)
        if hit:
            return NotTaken("vehicle", said, hit, f"{said!r} is a name of {hit}")
    return None


def _words_without_part(vocabulary: Vocabulary) -> frozenset[str]:
    found = {word for phrase in vocabulary.property_phrases for word in phrase.words}
    for said in (*vocabulary.positions, *vocabulary.qualifiers):
        found.update(name_words(said))
    for listed in vocabulary.lists.values():
        found.update(word for one in listed for word in name_words(one))
    parts = {word for phrase in vocabulary.component_phrases for word in phrase.words}
    return frozenset(found - parts)


def _near_phrase(words: _Words, name: str, vocabulary: Vocabulary) -> tuple[str, str] | None:
    """A phrase of another component that differs in one word by no more than a slip, or in its blanks alone."""
    mine, joined = set(words), "".join(words)
    for phrase in vocabulary.component_phrases:
        if name in phrase.means:
            continue
        theirs = set(phrase.words)
        alone, other = mine - theirs, theirs - mine
        one_slip = len(alone) == len(other) == 1 and _is_slip(next(iter(alone)), next(iter(other)))
        if one_slip or joined == "".join(phrase.words):
            return " ".join(phrase.words), " or ".join(phrase.means)
    return None


def _is_slip(one: str, other: str) -> bool:
    most = min(slips_allowed(one), slips_allowed(other))
    return most > 0 and OSA.distance(one, other, score_cutoff=most) <= most


def _named_on_record(
    held: Iterable[tuple[str, str, str]], make: str, model: str, alias: str, words: _Words
) -> NotTaken | None:
    for there_make, there_model, there in held:
        vehicle, theirs = f"{there_make} {there_model}", name_words(there)
        same = (there_make, there_model) == (make, model)
        if theirs == words:
            if same:
                return NotTaken("known", alias, vehicle, f"{alias!r} means {vehicle} already")
            return NotTaken("claimed", alias, vehicle, f"{alias!r} already means {vehicle}")
        if not same and _one_slip(words, theirs):
            told = f"{alias!r} is a slip of the finger away from {there!r}, which means {vehicle}"
            return NotTaken("near", alias, vehicle, told)
    return None


def _one_slip(words: _Words, theirs: _Words) -> bool:
    if len(words) != len(theirs):
        return False
    unlike = [(one, other) for one, other in zip(words, theirs, strict=True) if one != other]
    return len(unlike) == 1 and _is_slip(*unlike[0])


def _named_in_book(book: Book, vehicle: int | None, alias: str, words: _Words) -> NotTaken | None:
    whole = _full_name(book, words, vehicle)
    if whole:
        return NotTaken("claimed", alias, whole, f"{alias!r} already means {whole}")
    for at, word in enumerate(words):
        for near in _near_words(book, word):
            there = _full_name(book, (*words[:at], near, *words[at + 1 :]), vehicle)
            if there:
                return NotTaken("near", alias, there, f"{alias!r} is a slip of the finger away from a name of {there}")
    part = _part_of_name(book, words, vehicle)
    if part:
        return NotTaken("part of", alias, part, f"{alias!r} is a part of the name {part}")
    return None


def _near_words(book: Book, word: str) -> list[str]:
    most = slips_allowed(word)
    if not most:
        return []
    return [near for near in book.near_words(sorted(deletions(word, most))) if near != word and _is_slip(word, near)]


def _full_name(book: Book, words: Sequence[str], but: int | None) -> str:
    """The make or vehicle, other than `but`, one of whose names has just these words; "" when there is none."""
    for of, number, _, count in _named(book, words):
        if count == len(set(words)) and not (of == "vehicle" and number == but):
            return _name_of(book, of, number)
    return ""


def _part_of_name(book: Book, words: Sequence[str], but: int | None) -> str:
    for of, number, _, _ in _named(book, words):
        if of == "vehicle" and number != but:
            return _name_of(book, of, number)
    return ""


def _named(book: Book, words: Sequence[str]) -> list[tuple[str, int, int, int]]:
    """(of, id, form, number of words) of every name that has all the words."""
    found: set[tuple[str, int, int, int]] | None = None
    for word in words:
        hits = {(hit.of, hit.id, hit.form, hit.words) for hit in book.words(word)}
        found = hits if found is None else found & hits
    return sorted(found or ())


def _name_of(book: Book, of: str, number: int) -> str:
    if of == "make":
        return book.make(number)
    name = book.vehicle(number)
    return f"{name.make} {name.model}"


def _trade_name(alias: str, words: _Words, vocabulary: Vocabulary) -> NotTaken | None:
    """A vehicle must not be called what a part is called."""
    said = frozenset(words)
    for phrase in vocabulary.component_phrases:
        if frozenset(phrase.words) == said:
            other = " or ".join(phrase.means)
            return NotTaken("claimed", alias, other, f"{alias!r} already means {other}")
    if all(word in _words_without_part(vocabulary) for word in words):
        return NotTaken("everyday", alias, "", f"{alias!r} is a place, a property or an everyday word")
    return None
