"""Both languages of the desk have the same sentences, for everything that the rooms before can refuse."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from dataclasses import fields
from typing import get_args

import pytest
from tell_tales import sounds_english

from benchbot.desk.menus import GROUP_COMMANDS, OWNER_COMMANDS, meaning
from benchbot.desk.wording import ENGLISH, Wording, wording_of
from benchbot.people.rights import RIGHTS, Action, decide
from benchbot.people.terms import LANGUAGES, ROLES, About, Decision, Refused
from benchbot.reply.languages import LANGUAGES as REPLY_LANGUAGES

OTHERS = [language for language in LANGUAGES if language != "en"]
# Nothing in these is a word of a language.
WORDLESS = {"units_metric", "units_us"}
# Bot API, answerCallbackQuery: "0-200 characters"; BotCommand, description: "1-256 characters".
NOTICE_AT_MOST, MENU_AT_MOST = 200, 256


def sentences(words: Wording) -> dict[str, str]:
    return {
        one.name: value
        for one in fields(words)
        for value in [getattr(words, one.name)]
        if isinstance(value, str) and one.name != "language"
    }


def blanks(text: str) -> Counter[str]:
    return Counter(re.findall(r"\{(\w*)\}", text))


def denials() -> set[str]:
    """Every reason that a denial can have."""
    nobody_made: Action = "dance"  # type: ignore[assignment]
    actions = (*RIGHTS, nobody_made)
    decisions = [decide(one, role, private) for one in actions for role in (None, *ROLES) for private in (True, False)]
    return {decision.reason for decision in decisions if not decision.allowed}


def test_the_rooms_speak_the_same_languages() -> None:
    assert set(LANGUAGES) == set(REPLY_LANGUAGES)
    for language in LANGUAGES:
        assert wording_of(language).language == language
    assert wording_of("fr") is ENGLISH


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_is_there_with_the_same_blanks(language: str) -> None:
    other = sentences(wording_of(language))
    for where, text in sentences(ENGLISH).items():
        assert blanks(other[where]) == blanks(text), where
        assert other[where].strip() == other[where] != "", where


@pytest.mark.parametrize("language", OTHERS)
def test_no_sentence_was_left_in_english(language: str) -> None:
    words = wording_of(language)
    other = sentences(words)
    assert {where for where, text in sentences(ENGLISH).items() if other[where] == text} == WORDLESS
    texts = (*other.values(), *words.refusals.values(), *words.denials.values())
    assert [text for text in texts if sounds_english(text)] == []
    # as it would not tell anything otherwise
    assert sum(map(sounds_english, sentences(ENGLISH).values())) > len(sentences(ENGLISH)) / 3


@pytest.mark.parametrize("language", OTHERS)
def test_the_titles_of_wear_are_of_the_same_parts(language: str) -> None:
    other = wording_of(language).picture_wear
    assert set(other) == set(ENGLISH.picture_wear)
    assert not set(other.values()) & set(ENGLISH.picture_wear.values())


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("about", get_args(About))
def test_every_refusal_is_worded(language: str, about: About) -> None:
    words = wording_of(language)
    assert words.refused(Refused("in English", about)) == words.refusals[about] != ""
    assert ENGLISH.refused(Refused("in English", about)) == "in English"


@pytest.mark.parametrize("language", OTHERS)
def test_every_denial_is_worded(language: str) -> None:
    words = wording_of(language)
    assert set(words.denials) == denials()
    assert len(denials()) == 5
    for reason in denials():
        assert words.denied(Decision(False, reason)) != reason
        assert ENGLISH.denied(Decision(False, reason)) == reason


@pytest.mark.parametrize("language", OTHERS)
def test_codes_are_refused_in_one_wording(language: str) -> None:
    words = wording_of(language)
    said = {text for about, text in words.refusals.items() if about.startswith("code ")}
    assert said == {words.code_refused}


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_answers_a_press_and_what_stands_in_a_menu_is_short_enough(language: str) -> None:
    words = wording_of(language)
    presses = [text for where, text in sentences(words).items() if where.startswith("pressed_")]
    presses += [words.too_many, words.fault, words.book_changed, words.note_again, words.again_gone, words.outside]
    presses += [words.picture_sent, words.picture_none, *words.denials.values(), *denials()]
    assert all(len(text.format(name="N" * 60) if "{name}" in text else text) <= NOTICE_AT_MOST for text in presses)
    commands = {*GROUP_COMMANDS, *OWNER_COMMANDS, "location", "start"}
    assert all(1 <= len(meaning(command, words)) <= MENU_AT_MOST for command in commands)


def test_an_english_shop_does_not_wait_for_the_other_language() -> None:
    code = "import sys, benchbot.desk.desk; print([m for m in sys.modules if m.endswith('spanish')])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
