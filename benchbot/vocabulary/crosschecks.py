"""Checks the knowledge files against each other; every fault is kept on the sheet where it stands."""

from __future__ import annotations

from benchbot.errors import Fault
from benchbot.vocabulary.compiling import default_of, forms_of, properties_of
from benchbot.vocabulary.files import KnowledgeFiles
from benchbot.vocabulary.letters import fold, name_words
from benchbot.vocabulary.patterns import PatternError, expand, expand_text
from benchbot.vocabulary.phrasebook import Phrasebook
from benchbot.vocabulary.sheets import Sheet, Step

NEEDED_LISTS = (
    "joining", "function", "small_talk", "out_of_scope", "identifier_before", "unit_after", "counted", "measured",
    "confirm", "negation", "same", "next_vehicle", "joiners", "alternatives",
)  # fmt: skip


def cross_check(files: KnowledgeFiles, book: Phrasebook) -> None:
    """Runs every check; the faults stay on the sheets."""
    _check_components(files)
    _check_cautions(files)
    _check_doubtful(files)
    _check_words(files, book)
    _check_properties(files)
    _check_positions(files)
    _check_qualifiers(files)
    _check_lists(files, book)


def _check_components(files: KnowledgeFiles) -> None:
    names = {place.row.name for place in files.component_rows()}
    cautions = {row.name for row in files.cautions.rows.cautions}
    for place in files.component_rows():
        row, sheet, path = place.row, place.sheet, place.path
        for n, part in enumerate(row.fastens):
            if part not in names:
                mend = "Name a component of these files."
                sheet.blame((*path, "fastens", n), f"{row.name!r} fastens {part!r}, which is no component", mend)
        for n, caution in enumerate(row.cautions):
            if caution not in cautions:
                mend = "Write the caution in cautions.yaml, or correct its name."
                sheet.blame((*path, "cautions", n), f"{row.name!r} has the caution {caution!r}, without wording", mend)
        properties = properties_of(place)
        if not properties:
            sheet.blame((*path, "name"), f"{row.name!r} has no properties", "Say which can be held of it.")
        default = default_of(place)
        if default is not None and default not in properties:
            mend = "Add it to `properties`, or name another default."
            sheet.blame((*path, "default"), f"the default {default!r} of {row.name!r} is none of its properties", mend)


def _check_cautions(files: KnowledgeFiles) -> None:
    sheet = files.cautions.sheet
    groups = {filled.rows.group for filled in files.components}
    worn = {caution for place in files.component_rows() for caution in place.row.cautions}
    seen: dict[str, int] = {}
    for at, row in enumerate(files.cautions.rows.cautions):
        _blame_second(sheet, ("cautions", at, "name"), row.name, seen, at)
        if not row.text_es.strip() or row.text_es == row.text:
            mend = "Word it in Spanish."
            sheet.blame(("cautions", at, "text_es"), f"the caution {row.name!r} has no Spanish wording", mend)
        for n, group in enumerate(row.groups):
            if group not in groups:
                mend = f"Use one of {', '.join(sorted(groups))}."
                sheet.blame(("cautions", at, "groups", n), f"{group!r} is no group of components", mend)
        if not row.groups and row.name not in worn and row.always == "no":
            mend = "Name its groups, or give it to a component."
            sheet.blame(("cautions", at, "name"), f"the caution {row.name!r} belongs to nothing", mend)


def _check_doubtful(files: KnowledgeFiles) -> None:
    names = {place.row.name for place in files.component_rows()}
    for at, row in enumerate(files.doubtful.rows.doubtful):
        seen: set[str] = set()
        for n, name in enumerate(row.could_be):
            path: tuple[Step, ...] = ("doubtful", at, "could be", n)
            if name not in names:
                files.doubtful.sheet.blame(path, f"{name!r} is no component", "Correct the name, or add the component.")
            if name in seen:
                files.doubtful.sheet.blame(path, f"{name!r} stands twice", "Keep one.")
            seen.add(name)


def _check_words(files: KnowledgeFiles, book: Phrasebook) -> None:
    sheet = files.words.sheet
    in_phrases = book.trade_words()
    property_words = {
        word
        for said in [
            *(line for row in files.properties.rows.clear for line in (row.name, *row.said)),
            *(line for row in files.properties.rows.vague for line in row.said),
        ]
        for words in _safely_expanded(said)
        for word in words
    }
    canonical = {row.word for row in files.words.rows.words}
    seen: dict[str, int] = {}
    for at, row in enumerate(files.words.rows.words):
        path: tuple[Step, ...] = ("words", at)
        _blame_second(sheet, (*path, "word"), row.word, seen, at)
        if row.word not in in_phrases and row.word not in property_words:
            mend = "Use it in a phrase, or delete the entry."
            sheet.blame((*path, "word"), f"no component or property is called {row.word!r}", mend)
        for form in row.also:
            if form not in in_phrases:
                mend = "Move it to `variant`."
                sheet.blame((*path, "also"), f"{form!r} is no trade word of its own", mend)
        for form, how in forms_of(row):
            if not form or fold(form) != form:
                sheet.blame(path, f"a form of {row.word!r} is not in plain lower-case letters", "Write it plain.")
            elif len(form) < 2:
                sheet.blame(path, f"{form!r} is a single letter", "Delete it: one letter says too little.")
            elif form == row.word:
                sheet.blame(path, f"{form!r} is the word itself", "Delete it.")
            elif how != "heard" and form not in row.also and (form in canonical or form in in_phrases):
                mend = "List it under `also` or `heard`, or take it out of one of the two."
                stands = in_phrases.get(form, "words.yaml")
                sheet.blame(path, f"{form!r}, a form of {row.word!r}, is a word of its own ({stands})", mend)


def _check_properties(files: KnowledgeFiles) -> None:
    sheet = files.properties.sheet
    claimed: dict[tuple[str, ...], str] = {}
    names: dict[str, int] = {}
    for at, clear in enumerate(files.properties.rows.clear):
        _blame_second(sheet, ("clear", at, "name"), clear.name, names, at)
        for n, said in enumerate(clear.said):
            for words in _expanded(sheet, ("clear", at, "said", n), said):
                other = claimed.setdefault(words, clear.name)
                if other != clear.name:
                    wrong = f"{' '.join(words)!r} is claimed by {other!r} and by {clear.name!r}"
                    sheet.blame(("clear", at, "said", n), wrong, "Take it from one, or make it vague.")
    for at, vague in enumerate(files.properties.rows.vague):
        mark = f"vague words {at + 1}"
        for n, said in enumerate(vague.said):
            for words in _expanded(sheet, ("vague", at, "said", n), said):
                other = claimed.setdefault(words, mark)
                if other != mark:
                    wrong = f"{' '.join(words)!r} is claimed by {other!r} already"
                    sheet.blame(("vague", at, "said", n), wrong, "Keep it in one place.")


def _check_positions(files: KnowledgeFiles) -> None:
    sheet = files.positions.sheet
    claimed: dict[str, int] = {}
    for at, row in enumerate(files.positions.rows.positions):
        for n, said in enumerate(row.said):
            path: tuple[Step, ...] = ("positions", at, "said", n)
            try:
                texts = expand_text(said)
            except PatternError as error:
                sheet.blame(path, str(error), "Write plain words, a/b for either, (a) for one that may be left out.")
                continue
            for text in texts:
                other = claimed.setdefault(text, at)
                if other != at and files.positions.rows.positions[other].tokens != row.tokens:
                    wrong = f"{text!r} stands on line {sheet.lines[('positions', other)]} with other tokens"
                    sheet.blame(path, wrong, "Keep one of them.")


def _check_qualifiers(files: KnowledgeFiles) -> None:
    sheet = files.qualifiers.sheet
    claimed: dict[tuple[str, str], str] = {}
    for at, row in enumerate(files.qualifiers.rows.qualifiers):
        for n, said in enumerate(row.said):
            path: tuple[Step, ...] = ("qualifiers", at, "said", n)
            if fold(said) != said:
                sheet.blame(path, f"{said!r} is not in plain lower-case letters", "Write it plain.")
            other = claimed.setdefault((row.key, said), row.value)
            if other != row.value:
                wrong = f"{said!r} means {row.key} {other} and {row.key} {row.value}"
                sheet.blame(path, wrong, "Keep one of them.")


def _check_lists(files: KnowledgeFiles, book: Phrasebook) -> None:
    sheet = files.lists.sheet
    for name in NEEDED_LISTS:
        if name not in files.lists.rows.lists:
            sheet.blame(("lists",), f"the list {name!r} is missing", "Add it.")
    trade = dict(book.trade_words())
    for row in files.words.rows.words:
        for form, how in forms_of(row):
            if how != "heard":
                trade.setdefault(form, "words.yaml")
    for name, words in files.lists.rows.lists.items():
        seen: dict[str, int] = {}
        for n, word in enumerate(words):
            path: tuple[Step, ...] = ("lists", name, n)
            if fold(word) != word:
                sheet.blame(path, f"{word!r} is not in plain lower-case letters", "Write it plain.")
            _blame_second(sheet, path, word, seen, n)
            if name in ("function", "joining") and word in trade:
                wrong = f"{word!r} means nothing in {name!r}, but is a trade word ({trade[word]})"
                sheet.blame(path, wrong, "Take it out of one of the two.")
    for section, everyday in files.everyday.items():
        for word in everyday:
            if word in trade:
                wrong = f"{word!r} means nothing in [{section}], but is a trade word ({trade[word]})"
                files.more_faults.append(Fault("everyday.txt", "", wrong, "Take it out of one of the two."))
            elif name_words(word) != (word,):
                wrong = f"{word!r} is not one plain lower-case word"
                files.more_faults.append(Fault("everyday.txt", "", wrong, "Write it plain."))


def _blame_second(sheet: Sheet, path: tuple[Step, ...], name: str, seen: dict[str, int], at: int) -> None:
    first = seen.setdefault(name, at)
    if first != at:
        sheet.blame(path, f"{name!r} stands twice", "Keep one of them.")


def _expanded(sheet: Sheet, path: tuple[Step, ...], said: str) -> list[tuple[str, ...]]:
    try:
        return expand(said)
    except PatternError as error:
        sheet.blame(path, str(error), "Write plain words, a/b for either, (a) for one that may be left out.")
        return []


def _safely_expanded(said: str) -> list[tuple[str, ...]]:
    # a pattern that cannot be expanded is blamed by the check of its own file
    try:
        return expand(said)
    except PatternError:
        return []
