"""Reads the words that steer a message rather than fill a slot: not, or, same, next car, and the qualifiers by name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from benchbot.understanding.longer_names import lengthened, may_lengthen
from benchbot.understanding.reading import VehicleRead
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Stated

_FILL_BEFORE_NEGATED = {"the", "a", "an", "my", "that", "this"}
_EITHER = {"or", "vs", "versus", "maybe"}
_VEHICLE_NOUNS = {"car", "vehicle", "truck", "job", "next", "up", "carro", "coche", "siguiente"}
_SIGNS = (
    "another_vehicle", "another_owner", "conditions", "idiom", "tool", "correction", "stating", "same_vehicle", "same",
    "next_vehicle", "confirm", "out_of_scope", "alternatives",
)  # fmt: skip

_READ_AS = {"next_vehicle": "next vehicle", "same": "same", "same_vehicle": "same"}


@dataclass(slots=True)
class Signs:
    """What steers the reading; `negated` holds words that were said not to hold."""

    found: set[str] = field(default_factory=set)
    negated: list[str] = field(default_factory=list)
    excluded: list[Stated] = field(default_factory=list)
    unsure: set[str] = field(default_factory=set)
    conditions: list[str] = field(default_factory=list)


def read_signs(work: Work) -> Signs:
    """Finds the signs, and takes negated words, so that "not the sport" is never read as sport."""
    signs = Signs()
    for at, token in enumerate(work.tokens):
        if token.kind == "mark":
            if token.text == "?":
                signs.found.add("question")
            continue
        if not work.free(at):
            continue
        if work.in_list(at, "handling"):
            signs.found.add("handling")
        for name in _SIGNS:
            length = work.in_list(at, name)
            if length:
                if name == "next_vehicle" and not _VEHICLE_NOUNS & set(work.matched(at, length)):
                    break
                signs.found.add(name)
                if name == "conditions":
                    signs.conditions.append(" ".join(work.matched(at, length)))
                if name in ("another_vehicle", "another_owner"):
                    work.take([i for i in range(at, at + length) if work.free(i)], "noise", "a idiom")
                if name in ("tool", "idiom", "conditions"):
                    work.take([i for i in range(at, at + length) if work.free(i)], "noise", f"a {name}")
                if name in _READ_AS:
                    work.take([i for i in range(at, at + length) if work.free(i)], "sign", _READ_AS[name])
                break
        length = work.in_list(at, "negation") if work.free(at) else 0
        if token.text == "no" and at and "," in (work.text(at - 1), work.text(at + 1)):
            signs.found.add("correction")
        elif length and not work.in_list(at, "correction"):
            _read_negation(work, at, length, signs)
    return signs


def _read_negation(work: Work, at: int, length: int, signs: Signs) -> None:
    if work.text(at) == "no" and work.text(work.next_at(at)) in ("the", "its", "it", "this", "thats", "a"):
        return
    here = at + length
    while work.text(here) in _FILL_BEFORE_NEGATED or work.text(here) == "-":
        here += 1
    end = here
    kinds: list[str] = []
    while (found := _can_be_negated(work, end)) and _goes_with(found, kinds):
        kinds.append(found)
        end = work.next_at(end)
    if end == here or (_completes_a_part(work, at) and kinds[0] in ("component", "property")):
        return
    words = [i for i in range(at, end) if work.tokens[i].kind != "mark"]
    said = " ".join(work.tokens[i].raw for i in range(here, end) if work.tokens[i].kind != "mark")
    signs.negated.append(said)
    if kinds[0] == "year":
        signs.unsure.add("year")
    if "vehicle" in kinds:
        signs.found.add("negated vehicle")
    if kinds[0] == "qualifier":
        for i in range(here, end):
            signs.excluded.extend(work.lexicon.qualifier_phrases.get((work.text(i),), ()))
    work.take(words, "noise", f"said not to be so: {said}")


def _goes_with(kind: str, before: list[str]) -> bool:
    """What is negated is one thing: "the front rotor" is, "the turbo spark plug" is not."""
    return not before or kind == before[-1] or (before[-1], kind) in (("position", "component"), ("year", "vehicle"))


def _completes_a_part(work: Work, at: int) -> bool:
    """Example: "lug not" is a misheard lug nut, no negation."""
    before = work.next_at(at, -1)
    heard = {c.word for c in work.lexicon.heard_as(work.text(at))}
    if before < 0 or not heard:
        return False
    words = {c.word for c in work.lexicon.canonical(work.text(before))}
    return any(work.lexicon.phrase(frozenset({h, w})) for h in heard for w in words)


def _can_be_negated(work: Work, at: int) -> str:
    """What the word can be said not to be: vehicle, year, qualifier, position, component, property; or ""."""
    text = work.text(at)
    lexicon = work.lexicon
    if not work.free(at) or text in lexicon.function:
        return ""
    if work.is_number(at):
        if len(text) == 4 and text[:2] in ("19", "20"):
            return "year"
        return "vehicle" if work.names.words(text) else ""
    if not work.is_word(at):
        return ""
    qualifier = (text,) in lexicon.qualifier_phrases or text in lexicon.value_words
    if work.names.words(text) and (qualifier or not lexicon.is_known(text)):
        return "vehicle"
    if qualifier:
        return "qualifier"
    if (text,) in lexicon.position_phrases:
        return "position"
    if (text,) in lexicon.property_phrases:
        return "property"
    return "component" if any(c.word in lexicon.part_words for c in lexicon.canonical(text)) else ""


def read_long_qualifiers(work: Work, signs: Signs) -> list[Stated]:
    """Qualifiers of several words, and those written in a code of digits and letters ("4x4"), before anything else."""
    found = _read(work, lambda words: len(words) > 1 or not words[0].isalpha(), signs, VehicleRead(), first_pass=True)
    unblown = [one for one in found if one.key == "engine" and one.value == "naturally aspirated"]
    # no row is ever marked so; it says that the turbo engines are not meant
    signs.excluded.extend(Stated("engine", "turbo", True) for _ in unblown)
    return [one for one in found if one not in unblown]


def read_short_qualifiers(work: Work, signs: Signs, vehicle: VehicleRead) -> list[Stated]:
    """Qualifiers of one word, once the vehicle's name has had its turn; misspelt ones as far as they are forgiven."""
    return _read(work, lambda words: True, signs, vehicle) + _read_rescued(work)


def _read(
    work: Work,
    wanted: Callable[[tuple[str, ...]], bool],
    signs: Signs,
    vehicle: VehicleRead,
    first_pass: bool = False,
) -> list[Stated]:
    found: list[Stated] = []
    at = 0
    while at < len(work.tokens):
        length = work.match(at, work.lexicon.qualifier_phrases, plurals=False, free_only=True) if work.free(at) else 0
        words = work.matched(at, length)
        whole = words
        if length and first_pass and wanted(words) and may_lengthen(work, words):
            at += length
            continue
        if len(words) > 1 and _goes_on_as_part(work, at + length, words):
            # "manual trans drain plug": only "manual" is the qualifier
            length, words = 1, words[:1]
        if (
            length
            and wanted(whole)
            and all(work.free(i) or work.tokens[i].kind == "mark" for i in range(at, at + length))
        ):
            stated = work.lexicon.qualifier_phrases[words]
            if work.role(work.next_at(at, -1)) == "vehicle" and lengthened(work, vehicle, at):
                # right after the model the word may belong to another model's name: never passed over
                work.take([at], "left over", "may belong to another model's name")
                at += length
                continue
            if _narrows_a_part(work, at, length):
                work.take([at], "left over", "may belong to the component")
                at += length
                continue
            found.extend(stated)
            if beside_or(work, at, length):
                signs.unsure.update(one.key for one in stated)
            reads = " or ".join(f"{one.key} {one.value}" for one in stated)
            work.take([i for i in range(at, at + length) if work.free(i)], "qualifier", reads)
            if any(one.key == "brakes" for one in stated):
                _take_brake_word(work, at + length, reads)
        at += max(length, 1)
    return found


def _narrows_a_part(work: Work, at: int, length: int) -> bool:
    """Example: "turbo oil drain bolt": the word stands right before a component and is a part's name itself."""
    named = length == 1 and work.text(at) in work.lexicon.part_words
    return named and work.role(at + 1) == "component"


def beside_or(work: Work, at: int, length: int) -> bool:
    """Whether "or", "vs" ... stands right before or after (past "the" and the like): one of several, not stated."""
    before = work.next_at(at, -1)
    while work.text(before) in _FILL_BEFORE_NEGATED:
        before = work.next_at(before, -1)
    after = work.next_at(at + length - 1)
    return work.text(before) in _EITHER or work.text(after) in _EITHER


def _take_brake_word(work: Work, after: int, reads: str) -> None:
    """The noun of "heavy duty brakes" belongs to the qualifier, unless a component goes on with it."""
    words = {c.word for c in work.lexicon.canonical(work.text(after))} if work.free(after) else set()
    following = {c.word for c in work.lexicon.canonical(work.text(after + 1))} & work.lexicon.part_words
    if words == {"brake"} and not any(work.lexicon.part_starts_with("brake", other) for other in following):
        work.take([after], "qualifier", reads)


def _goes_on_as_part(work: Work, after: int, words: tuple[str, ...]) -> bool:
    """Whether the last word of the qualifier belongs to a component named right after it."""
    last = {c.word for c in work.lexicon.canonical(words[-1])} & work.lexicon.part_words
    following = {c.word for c in work.lexicon.canonical(work.text(after))} & work.lexicon.part_words
    return (words[0],) in work.lexicon.qualifier_phrases and any(
        work.lexicon.part_starts_with(one, other) for one in last for other in following
    )


def _read_rescued(work: Work) -> list[Stated]:
    found: list[Stated] = []
    for at, token in enumerate(work.tokens):
        if not work.free(at) or token.kind != "word" or work.lexicon.is_known(token.text) or len(token.text) < 5:
            continue
        near = [c.word for c in work.lexicon.rescued(token.text)]
        if len(near) != 1 or (near[0],) not in work.lexicon.qualifier_phrases:
            continue
        if work.lexicon.slip_forgiven_in_position(token.text, near[0]):
            stated = work.lexicon.qualifier_phrases[(near[0],)]
            found.extend(stated)
            work.take([at], "qualifier", " or ".join(f"{one.key} {one.value}" for one in stated), "spelling")
    return found
