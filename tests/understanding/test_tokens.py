"""How a message is cut: words, numbers with what hangs on them, marks, and codes that are no slot."""

from __future__ import annotations

import pytest
from desk import Desk

from benchbot.understanding.joining import joined_tokens
from benchbot.understanding.spoken import with_spoken_numbers
from benchbot.understanding.tokens import MOST_LETTERS, MOST_TOKENS, tokens_of

KNOWN = {"front", "drain", "plug", "bolt", "bracket", "4x4", "x5", "torque", "rotor", "min"}


def cut(text: str) -> list[str]:
    return [token.text for token in tokens_of(text, KNOWN.__contains__)]


@pytest.mark.parametrize(
    ("text", "tokens"),
    [
        ("front bolt", ["front", "bolt"]),
        ("FRONT  Bolt\n", ["front", "bolt"]),
        ("front/bolt, torque?", ["front", "/", "bolt", ",", "torque", "?"]),
        ("15front", ["15", "front"]),
        ("front15", ["front", "15"]),
        ("2012frontbolt", ["2012", "front", "bolt"]),
        ("drainplug", ["drain", "plug"]),
        ("drainplugg", ["drainplugg"]),
        ("4x4", ["4x4"]),
        ("x5 4x4", ["x5", "4x4"]),
        ("1.8t", ["1.8", "t"]),
        ("1,8", ["1.8"]),
        (".0015", [".0015"]),
        ("145,000", ["145000"]),
        ("1 1/8", ["1", "1/8"]),
        ("17mm", ["17", "mm"]),
        ('17"', ["17", '"']),
        ("17”", ["17", '"']),
        ("what's", ["whats"]),
        ("what’s", ["whats"]),
        ("axle's", ["axles"]),
        ("n·m", ["n", "·", "m"]),
        ("café", ["cafe"]),
        ("ＦＲＯＮＴ", ["front"]),
        ("front\u200bbolt", ["front", "bolt"]),
        ("", []),
        ("   ", []),
    ],
)
def test_cut(text: str, tokens: list[str]) -> None:
    assert cut(text) == tokens


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("front", "word"),
        ("2012", "number"),
        ("1.8", "number"),
        ("1/8", "number"),
        ("?", "mark"),
        ("555-013-0199", "code"),
        ("(555) 013-0199", "code"),
        ("5/11/16", "code"),
        ("10:30", "code"),
        ("m12x1.5", "thread"),
    ],
)
def test_kinds(text: str, kind: str) -> None:
    assert [token.kind for token in tokens_of(text, KNOWN.__contains__)] == [kind]


def test_a_year_after_an_apostrophe_is_short() -> None:
    one, other, third = tokens_of("'12 12 ’09", KNOWN.__contains__)
    assert [(token.text, token.short_year) for token in (one, other, third)] == [
        ("12", True),
        ("12", False),
        ("09", True),
    ]


def test_what_hangs_together_is_glued() -> None:
    assert [token.glued for token in tokens_of("1.8t 17 in x", KNOWN.__contains__)] == [
        False,
        True,
        False,
        False,
        False,
    ]


def test_raw_text_is_kept() -> None:
    assert [token.raw for token in tokens_of("what's '12", KNOWN.__contains__)] == ["what's", "'12"]


def test_a_long_message_is_cut_off() -> None:
    assert len(tokens_of("front " * 500, KNOWN.__contains__)) == MOST_TOKENS
    assert len(cut("a" * 5000)[0]) == MOST_LETTERS


@pytest.mark.parametrize(
    ("text", "tokens"),
    [
        ("rear end oil", ["rear end", "oil"]),
        ("collar per bolt", ["collar per", "bolt"]),
        ("e brake shoe", ["e brake", "shoe"]),
        ("u-joint", ["u joint"]),
        ("torque plate bolt", ["torque plate", "bolt"]),
        ("rear end", ["rear", "end"]),
        ("back in the bay", ["back", "in", "the", "bay"]),
        ("thresher seventeen fifty", ["thresher", "1750"]),
        ("quillane two seventy four", ["quillane", "274"]),
    ],
)
def test_what_is_one_word_is_made_one(desk: Desk, text: str, tokens: list[str]) -> None:
    lexicon = desk.conversation.lexicon
    found = joined_tokens(with_spoken_numbers(tokens_of(text, lexicon.is_known)), lexicon, desk.conversation.book)
    assert [token.text for token in found] == tokens
