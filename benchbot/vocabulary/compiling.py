"""Turns checked knowledge files into the plain values of a vocabulary."""

from __future__ import annotations

from benchbot.vocabulary.files import KnowledgeFiles, Place
from benchbot.vocabulary.letters import name_words
from benchbot.vocabulary.patterns import expand, expand_text
from benchbot.vocabulary.rows import WordRow
from benchbot.vocabulary.terms import Caution, Component, Phrase, Stated, WordForm

_OF_A_FASTENER = ("torque", "socket", "thread", "note")


def properties_of(place: Place) -> tuple[str, ...]:
    """What the row says, or what every fastener has."""
    if place.row.properties is not None:
        return tuple(place.row.properties)
    return _OF_A_FASTENER if place.row.kind == "fastener" else ()


def default_of(place: Place) -> str | None:
    """The property meant when none is said: the row's own, or the torque of a fastener."""
    if place.row.default is not None:
        return place.row.default
    return "torque" if place.row.kind == "fastener" and "torque" in properties_of(place) else None


def components(files: KnowledgeFiles) -> dict[str, Component]:
    cautions = files.cautions.rows.cautions
    compiled: dict[str, Component] = {}
    for place in files.component_rows():
        row, group = place.row, place.file.group
        named = [c.name for c in cautions if c.name in row.cautions or group in c.groups]
        first = [c.name for c in cautions if c.name in named and c.first == "yes"]
        compiled[row.name] = Component(
            name=row.name,
            group=group,
            kind=row.kind,
            axles=row.axles or place.file.axles,
            fastens=tuple(row.fastens),
            properties=properties_of(place),
            default=default_of(place),
            cautions=(*first, *(name for name in named if name not in first)),
        )
    return compiled


def property_phrases(files: KnowledgeFiles) -> tuple[Phrase, ...]:
    """The phrases of clear and vague properties, their words in the order said; the first claim to a phrase stands."""
    found: dict[tuple[str, ...], Phrase] = {}
    for clear in files.properties.rows.clear:
        for said in (clear.name, *clear.said):
            for words in expand(said):
                found.setdefault(words, Phrase(words, (clear.name,), False, ""))
    for vague in files.properties.rows.vague:
        for said in vague.said:
            for words in expand(said):
                found.setdefault(words, Phrase(words, tuple(vague.could_be), vague.always == "yes", vague.ask))
    return tuple(found.values())


def forms_of(row: WordRow) -> list[tuple[str, str]]:
    """Every way of writing a word, as the reader sees it, and which kind of way it is."""
    kinds = (
        ("short", row.short),
        ("variant", row.variant),
        ("spanish", row.spanish),
        ("variant", row.also),
        ("heard", row.heard),
    )
    return [(" ".join(name_words(form)), how) for how, forms in kinds for form in forms]


def words(files: KnowledgeFiles) -> dict[str, tuple[WordForm, ...]]:
    forms: dict[str, dict[str, WordForm]] = {}
    for row in files.words.rows.words:
        for form, how in forms_of(row):
            forms.setdefault(form, {}).setdefault(row.word, WordForm(row.word, how))
    return {form: tuple(meant.values()) for form, meant in forms.items()}


def positions(files: KnowledgeFiles) -> dict[str, tuple[str, ...]]:
    return {
        text: tuple(row.tokens)
        for row in files.positions.rows.positions
        for said in row.said
        for text in expand_text(said)
    }


def qualifiers(files: KnowledgeFiles) -> dict[str, tuple[Stated, ...]]:
    stated: dict[str, tuple[Stated, ...]] = {}
    for row in files.qualifiers.rows.qualifiers:
        one = Stated(row.key, row.value, row.part == "yes")
        for said in row.said:
            stated[said] = (*stated.get(said, ()), one)
    return stated


def lists(files: KnowledgeFiles) -> dict[str, tuple[str, ...]]:
    """The named lists; "function" and "chatter" take in the everyday words."""
    named = {name: list(words) for name, words in files.lists.rows.lists.items()}
    for name, words in files.everyday.items():
        named[name] = [*named.get(name, []), *words]
    return {name: tuple(dict.fromkeys(words)) for name, words in named.items()}


def cautions(files: KnowledgeFiles) -> dict[str, Caution]:
    return {
        row.name: Caution(row.name, row.text, row.first == "yes", {"es": row.text_es})
        for row in files.cautions.rows.cautions
    }
