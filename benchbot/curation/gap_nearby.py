"""What the book holds near a gap, for the curator's eyes only: the same vehicle, and the same part of its siblings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from benchbot.book.reader import Book, SpecRow
from benchbot.outcomes import Subject
from benchbot.vocabulary.letters import deletions, name_words, slips_allowed
from benchbot.vocabulary.terms import Vocabulary

_OR = " or "
_MOST_VEHICLES = 100
_MOST_NEAR = 8


def nearby_rows(
    kind: str, subject: Subject, words: str, book: Book, vocabulary: Vocabulary, today: date, most: int
) -> list[SpecRow]:
    """The nearest rows first: this part of this vehicle, its other parts of the kind, this part of the make."""
    parts = [name for name in subject.component.split(_OR) if name in vocabulary.components]
    if kind == "word":
        parts = _parts_like(words, vocabulary)
    own = book.find_vehicle(subject.make, subject.model) if subject.make and subject.model else None
    vehicles = [own] if own is not None else _vehicles_like(f"{subject.model} {words}", kind, book)
    found: dict[str, SpecRow] = {}
    for rows in (
        book.specs(vehicles, parts, today),
        book.specs(vehicles, _of_the_kind(parts, vocabulary), today),
        book.specs(_of_the_make(own, book), parts, today),
        () if parts else book.specs_of(vehicles, today),
    ):
        found.update({row.spec: row for row in _ranked(rows, subject) if row.spec not in found})
        if len(found) >= most:
            break
    return list(found.values())[:most]


def _ranked(rows: Iterable[SpecRow], subject: Subject) -> list[SpecRow]:
    """Years apart, place and property: the nearest to what was asked first."""

    def apart(row: SpecRow) -> tuple[int, bool, bool]:
        years = min((max(row.year_from - year, year - row.year_to, 0) for year in subject.years), default=0)
        unlike = bool(subject.property) and row.property != subject.property
        return years, bool(subject.position) and row.position != subject.position, unlike

    return sorted(rows, key=apart)


def _of_the_kind(parts: Sequence[str], vocabulary: Vocabulary) -> list[str]:
    """The components of the same group that share a word with one of the parts."""
    return [
        name
        for name, one in vocabulary.components.items()
        if any(
            one.group == vocabulary.components[part].group and set(name.split()) & set(part.split()) for part in parts
        )
    ]


def _of_the_make(vehicle: int | None, book: Book) -> list[int]:
    if vehicle is None:
        return []
    return [one for one in book.vehicles_of_make(book.make_of(vehicle), _MOST_VEHICLES) if one != vehicle]


def _parts_like(words: str, vocabulary: Vocabulary) -> list[str]:
    """The components whose names share most words with the unknown ones."""
    said = set(name_words(words))
    shared = {name: len(said & set(name.split())) for name in vocabulary.components}
    best = max(shared.values(), default=0)
    return [name for name, count in shared.items() if best and count == best][:_MOST_NEAR]


def _vehicles_like(words: str, kind: str, book: Book) -> list[int]:
    """The vehicles with a name a slip away from one of the words."""
    if kind == "word":
        return []
    found: dict[int, None] = {}
    for word in name_words(words):
        near = [word] if book.words(word) else book.near_words(sorted(deletions(word, slips_allowed(word))))
        for name in near:
            found.update({hit.id: None for hit in book.words(name) if hit.of == "vehicle"})
    return list(found)[:_MOST_NEAR]
