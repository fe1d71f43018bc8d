"""What was missing as the record keeps it: the same identity for everybody who means the same, however they wrote."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from benchbot.book.reader import Book
from benchbot.lookup.lookup import RANGE_CHOSEN
from benchbot.outcomes import Missing, Subject
from benchbot.records.entry import GapPart
from benchbot.understanding.lexicon import Lexicon
from benchbot.understanding.parts import is_head
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.qualifiers import KEYS, value_words

# Stands before a word that the shop knows in the identity of unknown words.
KNOWN = "="
OR = " or "
_JOINING = frozenset({"the", "of", "on", "to", "for", "a", "an", "my", "and", "with", "in"})
_PAIRS = (("front", "rear"), ("upper", "lower"), ("left", "right"), ("inner", "outer"))
_LONGEST_RANGE = 100


def parts_of(missing: Sequence[Missing], reading: Reading, book: Book, lexicon: Lexicon) -> tuple[GapPart, ...]:
    """One part for each thing that was missing; two places or two properties asked at once are a part each."""
    parts: dict[str, GapPart] = {}
    for one in missing:
        for part in _parts(one, reading, book, lexicon):
            parts.setdefault(part.identity, part)
    return tuple(parts.values())


def _parts(one: Missing, reading: Reading, book: Book, lexicon: Lexicon) -> Iterator[GapPart]:
    if one.reason in ("unknown vehicle", "unknown model"):
        yield _vehicle(one, reading, book, lexicon)
    elif one.reason == "unknown component":
        yield _word(one, reading, book, lexicon)
    else:
        for position in _positions(one.subject.position):
            for name in _properties(one.subject, reading):
                yield _row(one, position, name, reading, book, lexicon)


def _vehicle(one: Missing, reading: Reading, book: Book, lexicon: Lexicon) -> GapPart:
    """A name that the book does not have; its make stands apart, for it may be left out by the next who asks.

    Words for the part that stand beside the name are no part of it, and a figure behind it is: a 2 is no 5.
    """
    named = one.reason == "unknown model"
    made = "" if reading.vehicle.make is None or not named else book.make(reading.vehicle.make)
    of_make = {*name_words(made), *(name_words(reading.vehicle.said) if reading.vehicle.state == "make" else ())}
    all_words = [word for word in name_words(one.subject.model if named else one.detail) if word not in of_make]
    words = [word for word in all_words if not _is_of_a_part(word, reading, lexicon)] or all_words
    words += _figures(reading)
    make, rest = KNOWN + made if made else "", words
    if not made and len([word for word in words if word.isalpha()]) > 1 and not book.words(words[0]):
        # the first of several words that nobody knows is taken for the make
        make, *rest = words
    marked = sorted(KNOWN + word if _is_known_name(word, book, lexicon) else word for word in rest)
    said = " ".join(dict.fromkeys(([made] if made else []) + words)) or one.subject.model
    return GapPart("vehicle", _text("vehicle", make, *marked), one.reason, make=made, words=said)


def _word(one: Missing, reading: Reading, book: Book, lexicon: Lexicon) -> GapPart:
    """A word for a part that nobody knows; with no vehicle named and a known part beside it, it is the vehicle's."""
    said = _with_head(one.detail, reading, lexicon)
    words = _part_words(name_words(said), lexicon)
    known = frozenset(word.removeprefix(KNOWN) for word in words if word.startswith(KNOWN))
    if reading.vehicle.state != "named" and len(known) < len(words) and lexicon.phrase(known) is not None:
        return _vehicle(replace(one, reason="unknown vehicle"), reading, book, lexicon)
    return GapPart("word", _text("word", *sorted(words)), one.reason, words=said)


def _with_head(said: str, reading: Reading, lexicon: Lexicon) -> str:
    """The words with the bolt or nut directly behind them, which alone says too little to be read."""
    last = name_words(said)[-1:]
    for before, note in pairwise(reading.notes):
        heads = [candidate for candidate in lexicon.canonical(note.word.casefold()) if is_head(candidate.word)]
        if before.role == "left over" and name_words(before.word)[-1:] == last and note.role == "noise" and heads:
            return f"{said} {note.word}"
    return said


def _is_of_a_part(word: str, reading: Reading, lexicon: Lexicon) -> bool:
    if word in _JOINING or lexicon.canonical(word) or lexicon.is_property_word(word):
        return True
    return word in name_words(reading.unknown_part) and bool(lexicon.rescued(word))


def _is_known_name(word: str, book: Book, lexicon: Lexicon) -> bool:
    return word.isalpha() and (bool(book.words(word)) or lexicon.is_known(word))


def _figures(reading: Reading) -> list[str]:
    """The figures directly behind a word that nobody knows."""
    return [
        word
        for before, note in pairwise(reading.notes)
        if before.role == "left over" and note.role in ("number", "noise")
        for word in name_words(note.word)
        if any(letter.isdigit() for letter in word)
    ]


def _row(one: Missing, position: str, name: str, reading: Reading, book: Book, lexicon: Lexicon) -> GapPart:
    subject = one.subject
    known = bool(subject.make) and book.find_vehicle(subject.make, subject.model) is not None
    # a name that fits several vehicles is no model, and a word that nobody could read may tell this one from the next
    named = "" if known else subject.model
    left = [*reading.left_over, *([reading.unknown_part] if reading.unknown_part else [])]
    said_beside = lexicon.function | lexicon.chatter
    strange = [w for text in left for w in name_words(text) if w not in said_beside or book.words(w)]
    component = OR.join(sorted(subject.component.split(OR)))
    part = GapPart(
        kind="row",
        identity="",
        reason=one.reason,
        make=subject.make,
        model=subject.model if known else "",
        years=_years(subject.years, RANGE_CHOSEN in reading.signs),
        only_if="; ".join(f"{key}={value}" for key, value in _stated(subject)),
        component=component,
        position=_place(position, component, lexicon),
        property=name,
        words=" ".join(word for word in (named, *left) if word),
    )
    identity = _text(
        "row", part.make, part.model, part.years, _narrowed(subject), component, part.position, name,
        " ".join(sorted(name_words(named))), *sorted(_part_words(strange, lexicon)),
    )  # fmt: skip
    return replace(part, identity=identity)


def _part_words(words: Iterable[str], lexicon: Lexicon) -> list[str]:
    """Each word in its one form, marked where the shop knows it; words for a figure are left out."""
    found = []
    for word in words:
        if word in _JOINING:
            continue
        canonical = {candidate.word for candidate in lexicon.canonical(word)}
        near = {candidate.word for candidate in lexicon.rescued(word)} if not canonical else set()
        for meant in sorted(near):
            if lexicon.names_property(meant) or (len(near) == 1 and is_head(meant)):
                canonical = {meant}
        if len(canonical) == 1:
            found.append(KNOWN + canonical.pop())
        else:
            found.append(KNOWN + word if lexicon.is_known(word) else _singular(word))
    return [word for word in found if not lexicon.names_property(word.removeprefix(KNOWN))] or found


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 4 and word.isalpha() and word.endswith("s") and word[-2] != "s" else word


def _years(years: tuple[int, ...], ranged: bool) -> str:
    asked = sorted(set(years))
    if ranged and len(asked) == 2 and asked[1] - asked[0] < _LONGEST_RANGE:
        asked = list(range(asked[0], asked[1] + 1))
    return " ".join(map(str, asked))


def _stated(subject: Subject) -> list[tuple[str, str]]:
    """What was said of engine, drive ..., all of one key together, in the order of the table's keys."""
    said: dict[str, list[str]] = {}
    for key, value in subject.only_if:
        if value not in said.setdefault(key, []):
            said[key].append(value)
    return [(key, " ".join(said[key])) for key in KEYS if key in said]


def _narrowed(subject: Subject) -> str:
    """The same, each value in its plain words, so that "1.8 turbo" and "1.8T" are one."""
    pairs = (
        (key, value if key == "build" else " ".join(sorted(value_words(key, value)))) for key, value in _stated(subject)
    )
    return "; ".join(f"{key}={value}" for key, value in pairs)


def _positions(position: str) -> list[str]:
    """A position that names both of a pair is two: "front rear upper" -> "front upper", "rear upper"."""
    words = position.split()
    for one, other in _PAIRS:
        if one in words and other in words:
            apart = (" ".join(word for word in words if word != gone) for gone in (other, one))
            return [place for part in apart for place in _positions(part)]
    return [position]


def _place(position: str, component: str, lexicon: Lexicon) -> str:
    """The position without what the component's name or nature says already: "lower ball joint nut" is not upper."""
    known = lexicon.vocabulary.components.get(component)
    said = {known.axles, *component.split()} if known is not None else set()
    return " ".join(word for word in position.split() if word not in said)


def _properties(subject: Subject, reading: Reading) -> list[str]:
    """Several properties asked for are each missing; several of which one is meant stay together."""
    names = subject.property.split(OR)
    asked = next((ask for ask in reading.asks if OR.join(ask.components) == subject.component), None)
    each = asked is not None and not asked.vague and asked.properties == tuple(names)
    return names if each else [OR.join(sorted(names))]


def _text(*parts: str) -> str:
    return json.dumps(parts, ensure_ascii=False, separators=(",", ":"))
