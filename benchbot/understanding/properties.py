"""Reads what is wanted of a component: torque, socket, a limit, an amount, or a word that leaves it open."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import product

from benchbot.quantities.units import SPELLINGS, UNITS
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Phrase

_LONGEST = 5
_MERE_NEW = {
    "new",
    "brand",
    "nuevo",
    "nueva",
    "nuevos",
    "nuevas",
    "original",
    "stock",
    "standard",
    "factory",
    "oem",
    "oe",
    "std",
}
_JOINERS = {"and", "n", "&", "+", "/", ",", "y", "or", "plus"}
_UNITS_ALONE_NEVER = {"in", "c", "f", "l", "pt", "deg", "turn", "turns", "k", "m", "t", "pints", "lt", '"', "cc"}


@dataclass(slots=True)
class Wanted:
    """The properties that were named, each with where it stands, and the unit the answer is wanted in."""

    clear: list[tuple[int, str]] = field(default_factory=list)
    vague: list[tuple[int, Phrase]] = field(default_factory=list)
    unit: str | None = None


def read_properties(work: Work) -> Wanted:
    """Takes the words that name properties and units."""
    wanted = Wanted()
    at = 0
    while at < len(work.tokens):
        if not work.free(at):
            at += 1
            continue
        found = _longest(work, at)
        if found is None:
            at += 1
            continue
        length, phrase, how = found
        if len(phrase.means) == 1 and not phrase.always:
            wanted.clear.append((at, phrase.means[0]))
        else:
            wanted.vague.append((at, phrase))
        places = [i for i in range(at, at + length) if work.free(i)]
        work.take(places, "property", " or ".join(phrase.means), how)
        at += length
    _drop_mere_new(work, wanted)
    _read_unit(work, wanted)
    if wanted.unit and dimension_of(wanted.unit) == "torque":
        # "how much in inch pounds" asks for no amount of fluid
        wanted.clear = [(at, name) for at, name in wanted.clear if name != "capacity"]
    return wanted


def _drop_mere_new(work: Work, wanted: Wanted) -> None:
    """Leaves a bare "new" out of account: "new rotors, min?" asks for no new thickness.

    It counts only joined to another property, or to one named vaguely ("min and new", "thickness new").
    """
    for at, name in list(wanted.clear):
        if work.text(at) not in _MERE_NEW or (
            work.role(work.next_at(at)) == "property" and (work.text(work.next_at(at)) not in _MERE_NEW)
        ):
            continue
        beside = [i for i in (work.next_at(at), work.next_at(at, -1)) if 0 <= i < len(work.tokens)]
        joined = any(work.text(i) in _JOINERS for i in (*beside, at + 1, at - 1) if 0 <= i < len(work.tokens))
        others = [other for other in wanted.clear if other[1] != name]
        if any("torque" not in phrase.means for _, phrase in wanted.vague) or (joined and others):
            continue
        wanted.clear.remove((at, name))
        work.take([at], "noise", "says only that the part is new")


def _longest(work: Work, at: int) -> tuple[int, Phrase, str] | None:
    """The longest property phrase that starts here: its length in tokens, the phrase, and how it was found."""
    alternatives: list[list[tuple[str, str]]] = []
    lengths: list[int] = []
    here = at
    while here < len(work.tokens) and len(alternatives) < _LONGEST:
        if work.tokens[here].kind == "mark":
            if work.text(here) not in "-/" or not alternatives:
                break
            here += 1
            continue
        if not work.free(here):
            break
        alternatives.append(_forms(work, here, first=not alternatives))
        here += 1
        lengths.append(here - at)
    best: tuple[int, Phrase, str] | None = None
    for size in range(len(alternatives), 0, -1):
        for choice in product(*alternatives[:size]):
            phrase = work.lexicon.property_phrases.get(tuple(word for word, _ in choice))
            if phrase is not None:
                how = next((h for _, h in choice if h), "")
                if best is None or not how:
                    best = (lengths[size - 1], phrase, how)
                if not how:
                    return best
        if best:
            return best
    return None


def _forms(work: Work, at: int, first: bool) -> list[tuple[str, str]]:
    text = work.text(at)
    forms = [(text, "")]
    if len(text) > 3 and text.endswith("s"):
        forms.append((text[:-1], ""))
    if work.tokens[at].kind != "word":
        return forms
    forms += [(c.word, c.how) for c in work.lexicon.property_forms(text)]
    if not work.lexicon.is_known(text):
        forms += [(c.word, "spelling") for c in work.lexicon.rescued(text)]
    return forms[:4]


def _read_unit(work: Work, wanted: Wanted) -> None:
    """A unit without a number says in what unit the answer is wanted: "in nm?", "ft lbs"."""
    at = 0
    while at < len(work.tokens):
        length, symbol = _unit_at(work, at)
        if length:
            wanted.unit = wanted.unit or symbol
            work.take([i for i in range(at, at + length) if work.free(i)], "unit", symbol)
            at += length
        else:
            at += 1


def _unit_at(work: Work, at: int) -> tuple[int, str]:
    if not work.free(at) or not work.is_word(at):
        return 0, ""
    words: list[str] = []
    best = (0, "")
    here = at
    while here < len(work.tokens) and len(words) < 3:
        if work.tokens[here].kind == "mark":
            if work.text(here) not in "-.·*/":
                break
        elif not work.free(here):
            break
        else:
            words.append(work.text(here))
            for said in (" ".join(words), "".join(words)):
                if said in SPELLINGS and said not in _UNITS_ALONE_NEVER:
                    best = (here - at + 1, SPELLINGS[said])
        here += 1
    return best


def dimension_of(unit: str) -> str:
    """The kind of quantity a unit measures: "torque", "length", ..."""
    return UNITS[unit].dimension
