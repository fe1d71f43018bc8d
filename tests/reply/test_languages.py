"""Both languages say the same sentences, of the same values; a language that is none of ours is refused."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from typing import get_args

import pytest
from every_outcome import EXPLAINED, every_outcome

from benchbot.outcomes import Answer, Finding
from benchbot.reply.compose import compose
from benchbot.reply.english import ENGLISH
from benchbot.reply.languages import LANGUAGES, wording_of
from benchbot.reply.reply import Block, Kind, Reply
from benchbot.reply.why import why
from benchbot.reply.wording import MAKER_FIRST, Wording
from benchbot.understanding.reading import Reading, VehicleRead, VehicleState, WordNote
from benchbot.vocabulary.terms import Vocabulary

Make = Callable[..., Finding]
OTHERS = [language for language in LANGUAGES if language != "en"]
# Nothing in these is a word of a language.
WORDLESS = {"unknown_words", "one_of_several", "calculated", "why_word", "roles qualifier", "roles number"}


def sentences(wording: Wording) -> dict[str, str]:
    """Every sentence by where it stands: "not_held", "reasons year not covered" ..."""
    found: dict[str, str] = {}
    for one in fields(wording):
        value = getattr(wording, one.name)
        if isinstance(value, str):
            found[one.name] = value
        elif one.name != "names":
            found.update({f"{one.name} {key}": text for key, text in value.items()})
    return found


def blanks(text: str) -> Counter[str]:
    return Counter(re.findall(r"\{(\w*)\}", text))


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_is_there_with_the_same_blanks(language: str) -> None:
    english, other = sentences(ENGLISH), sentences(wording_of(language))
    assert set(other) == set(english)
    for where, text in english.items():
        assert blanks(other[where]) == blanks(text), where
        assert other[where].strip(), where


@pytest.mark.parametrize("language", OTHERS)
def test_no_sentence_was_left_in_english(language: str) -> None:
    english, other = sentences(ENGLISH), sentences(wording_of(language))
    assert {where for where, text in english.items() if other[where] == text} == WORDLESS


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sentence_is_used(finding: Make, vocabulary: Vocabulary, language: str) -> None:
    cautions = {name: one for name, one in vocabulary.cautions.items() if name != MAKER_FIRST}
    bare = replace(vocabulary, cautions=cautions)
    texts = [why(EXPLAINED, language), why(Reading(), language)]
    texts += [
        why(Reading(vehicle=VehicleRead(state), notes=(WordNote("x", "noise"),)), language)
        for state in get_args(VehicleState)
    ]
    for outcome, reading, gap in every_outcome(finding):
        reply = compose(outcome, reading, gap, bare, True, language)
        texts += [reply.text(), reply.more_text(), reply.short]
    said = "\n".join(texts).casefold()
    for where, form in sentences(wording_of(language)).items():
        if where != "language":
            for piece in re.split(r"\{\w+\}", form):
                assert piece.strip().casefold() in said, where


def shown(reply: Reply) -> Iterator[Block]:
    yield from (*reply.blocks, *reply.more, *reply.below)


def texts_of(reply: Reply, *kinds: Kind) -> list[str]:
    return [block.text for block in shown(reply) if block.kind in kinds]


@pytest.mark.parametrize("language", OTHERS)
def test_values_are_the_same_in_every_language(finding: Make, vocabulary: Vocabulary, language: str) -> None:
    """Blocks stand in the same order and part; source values word for word; every figure and unit everywhere."""
    for outcome, reading, gap in every_outcome(finding):
        english = compose(outcome, reading, gap, vocabulary, True)
        other = compose(outcome, reading, gap, vocabulary, True, language)
        assert [(b.kind, b.part, b.beside) for b in shown(other)] == [
            (b.kind, b.part, b.beside) for b in shown(english)
        ]
        for one, same in zip(shown(other), shown(english), strict=True):
            assert figures(one.text) == figures(same.text)
        assert figures(other.short) == figures(english.short)
        assert (other.outcome, other.specs) == (english.outcome, english.specs)
        assert [choice.states for choice in other.choices] == [choice.states for choice in english.choices]
        if isinstance(outcome, Answer):
            sources = [f.row.value for f in outcome.findings]
            values = [text for text in texts_of(other, "value") if not text.startswith("(")]
            assert values == sources


def figures(text: str) -> list[str]:
    """The figures of a text, each with the unit behind it."""
    return re.findall(r"\d[\d.x:-]*(?: (?:N·m|kgf·m|kgf·cm|lb-ft|lb-in|mm|in|deg)\b)?", text)


def test_names_sources_and_ids_stay_as_they_are(finding: Make, vocabulary: Vocabulary) -> None:
    one = finding(source="Invented front sheet", source_ref="upper p. 3", checked_by="rear lead", spec="front-1")
    text = compose(Answer((one,)), Reading(), None, vocabulary, False, "es")
    assert "Fuente: Invented front sheet, upper p. 3; verificado por rear lead el 2026-01-05." in text.text()
    assert "2018 Brackwell Ondrel" in text.text()
    assert "Fila front-1, revisión 2" in text.more_text()


def test_english_is_what_is_said_when_no_language_is_named(finding: Make, vocabulary: Vocabulary) -> None:
    for outcome, reading, gap in every_outcome(finding):
        named = compose(outcome, reading, gap, vocabulary, True, "en")
        assert compose(outcome, reading, gap, vocabulary, True) == named
    assert why(EXPLAINED) == why(EXPLAINED, "en")


@pytest.mark.parametrize("language", ["fr", "", "EN", "spanish"])
def test_another_language_is_refused(finding: Make, vocabulary: Vocabulary, language: str) -> None:
    with pytest.raises(ValueError, match=f"no replies are written in '{language}'; choose one of en, es"):
        compose(Answer((finding(),)), Reading(), None, vocabulary, False, language)
    with pytest.raises(ValueError, match="choose one of en, es"):
        why(Reading(), language)


def test_an_english_answer_does_not_wait_for_the_other_language() -> None:
    code = "import sys, benchbot.reply.compose; print([m for m in sys.modules if 'reply.spanish' in m])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
