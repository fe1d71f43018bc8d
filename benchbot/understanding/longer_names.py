"""Words that could make another model's name of the one found; they are never passed over."""

from __future__ import annotations

from rapidfuzz.distance import OSA

from benchbot.understanding.lexicon import LONGEST_WORD, NameHit
from benchbot.understanding.reading import VehicleRead
from benchbot.understanding.work import Work
from benchbot.vocabulary.letters import deletions


def near_a_longer_name(work: Work, vehicle: VehicleRead, places: frozenset[int]) -> int | None:
    """The everyday word right behind the model that a slip may have made of a longer model's name ("... spot")."""
    if vehicle.state != "named" or not places:
        return None
    after = max(places) + 1
    typed = work.text(after)
    if not work.free(after) or not work.is_word(after) or not 2 < len(typed) <= LONGEST_WORD or not typed.isalpha():
        return None
    if work.lexicon.is_trade(typed) and not work.lexicon.qualifier_phrases.get((typed,)):
        return None
    here = {hit.id for at in places for hit in work.names.words(work.text(at)) if hit.of == "vehicle"}
    for word in work.names.near_words(sorted(deletions(typed, 1))):
        if OSA.distance(typed, word) == 1 and any(h.of == "vehicle" and h.id in here for h in work.names.words(word)):
            return after
    return None


def lengthened(work: Work, vehicle: VehicleRead, at: int) -> bool:
    """Whether the word at `at` could make another model's name of this one's: "hd" behind a number, a body, a trim."""
    word = work.text(at)
    stated = work.lexicon.qualifier_phrases.get((word,), ())
    if word in ("hd", "ld"):
        before, after = work.text(work.next_at(at, -1)), work.text(work.next_at(at))
        return before.isdigit() and after not in ("brake", "brakes")
    if not stated or not all(one.part and one.key in ("trim", "body") for one in stated):
        return False
    if any(one.key == "trim" for one in stated):
        return True
    values = {one.value.casefold() for one in stated} | {word}
    makes = {work.names.make_of(one) for one in vehicle.ids}
    longer = {hit.id for value in values for hit in work.names.words(value) if hit.of == "vehicle"}
    return any(work.names.make_of(one) in makes for one in longer)


def may_lengthen(work: Work, words: tuple[str, ...]) -> bool:
    """Whether a qualifier's words belong to a model's name that the message holds whole ("... 4x4" as a model)."""
    if not all(work.names.words(word) for word in words):
        return False
    texts = {token.text for token in work.tokens}
    shared = set.intersection(*({_form(hit) for hit in work.names.words(word)} for word in words))
    return any(
        hit.words > len(words) and _words_here(work, hit, texts) >= hit.words
        for hit in work.names.words(words[0])
        if hit.of == "vehicle" and _form(hit) in shared
    )


def _form(hit: NameHit) -> tuple[str, int, int]:
    return hit.of, hit.id, hit.form


def _words_here(work: Work, hit: NameHit, texts: set[str]) -> int:
    return sum(any(_form(other) == _form(hit) for other in work.names.words(text)) for text in texts)
