"""Loads the knowledge files into one vocabulary; a single fault refuses all of it."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from benchbot.errors import Fault, KnowledgeError
from benchbot.vocabulary import compiling
from benchbot.vocabulary.crosschecks import cross_check
from benchbot.vocabulary.digest import digest_of
from benchbot.vocabulary.files import KnowledgeFiles, read_knowledge
from benchbot.vocabulary.letters import fold, name_words
from benchbot.vocabulary.phrasebook import Phrasebook
from benchbot.vocabulary.terms import Phrase, Vocabulary


def load_vocabulary(folder: Path, shop_words: Iterable[tuple[str, str]] = ()) -> Vocabulary:
    """The compiled vocabulary of a knowledge folder, with what the shop says besides.

    shop_words: (term, said) pairs; the term is a component's name or one of its clear names. Raises KnowledgeError
    that names every fault: file and line (or row of the shop's words), what is wrong, what would be right.
    """
    files = read_knowledge(folder)
    book = _phrasebook(files)
    cross_check(files, book)
    files.refuse_if_faulty()
    faults = _add_shop_words(files, book, list(shop_words))
    if faults:
        raise KnowledgeError("the shop's words", faults)
    return Vocabulary(
        digest=digest_of(folder),
        components=compiling.components(files),
        component_phrases=tuple(book.phrases()),
        property_phrases=compiling.property_phrases(files),
        words=compiling.words(files),
        positions=compiling.positions(files),
        qualifiers=compiling.qualifiers(files),
        lists=compiling.lists(files),
        cautions=compiling.cautions(files),
    )


def _phrasebook(files: KnowledgeFiles) -> Phrasebook:
    """Every phrase of every component; names first, so that a synonym never takes another component's name."""
    joining = frozenset(files.lists.rows.lists.get("joining", ()))
    one_word = {
        name_words(form): row.word
        for row in files.words.rows.words
        for form in (*row.short, *row.variant, *row.spanish)
        if len(name_words(form)) > 1
    }
    book = Phrasebook(joining, one_word)
    places = files.component_rows()
    for place in places:
        book.claim_name(place.sheet, (*place.path, "name"), place.row.name)
    for place in places:
        for n, said in enumerate(place.row.said):
            book.claim(place.sheet, (*place.path, "said", n), place.row.name, said)
    for at, row in enumerate(files.doubtful.rows.doubtful):
        book.doubt(files.doubtful.sheet, at, row)
    for at, short in enumerate(files.shorthand.rows.shorthand):
        book.shorten(files.shorthand.sheet, at, short)
    return book


def _add_shop_words(files: KnowledgeFiles, book: Phrasebook, shop_words: list[tuple[str, str]]) -> list[Fault]:
    names = {fold(place.row.name): place.row.name for place in files.component_rows()}
    everyday = {*files.everyday["function"], *files.everyday["chatter"], *files.lists.rows.lists.get("function", ())}
    faults: list[Fault] = []
    for number, (term, said) in enumerate(shop_words, start=1):
        where = f"row {number}"
        name = names.get(fold(term).strip()) or book.clear_meaning(name_words(term))
        if name is None:
            mend = "Use the name of a component, or a word that means just one."
            faults.append(Fault(where, "term", f"{term!r} is no component", mend))
            continue
        words = book.bare(name_words(said))
        if not words or all(word in everyday for word in words):
            faults.append(Fault(where, "said", f"{said!r} holds no word of its own", "Write what the shop says."))
            continue
        meant = book.means(words)
        if meant and meant != (name,):
            wrong = f"{said!r} means {' or '.join(meant)} already"
            faults.append(Fault(where, "said", wrong, f"Choose words that can only mean {name}."))
            continue
        book.add(Phrase(words, (name,), False, ""))
    return faults
