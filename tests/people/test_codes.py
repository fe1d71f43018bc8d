"""Codes: what they are made of, what is taken for one, and the link that carries one."""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.people.codes import LETTERS, deep_link, digest, looks_like_code, new_code, plain_code

CODE = "K7QPM-2XWDH-9RTVA"
PLAIN = "K7QPM2XWDH9RTVA"


def test_a_code_is_fifteen_of_32_letters_in_groups_of_five() -> None:
    assert len(LETTERS) == len(set(LETTERS)) == 32
    assert not set("ILOU") & set(LETTERS)
    codes = {new_code() for _ in range(2_000)}
    assert len(codes) == 2_000
    for code in codes:
        assert re.fullmatch(rf"[{LETTERS}]{{5}}-[{LETTERS}]{{5}}-[{LETTERS}]{{5}}", code)
        assert looks_like_code(code)
        assert plain_code(code) == code.replace("-", "")


def test_every_letter_comes_at_every_place() -> None:
    codes = [new_code().replace("-", "") for _ in range(4_000)]
    for at in range(15):
        seen = Counter(code[at] for code in codes)
        assert set(seen) == set(LETTERS)
        # A digit above 1 comes 164 times on average among 4,000, since each group has one; 77 is six deviations.
        assert max(seen.values()) < 164 + 77


@pytest.mark.parametrize(
    "typed",
    [
        CODE,
        PLAIN,
        CODE.lower(),
        PLAIN.lower(),
        f"  {CODE}\n",
        "K7QPM 2XWDH 9RTVA",
        "K7QPM\u20142XWDH\u20119RTVA",
        "K7QPM - 2XWDH - 9RTVA",
        "\u200fK7QPM-2XWDH-9RTVA\u200e",
        "k7qpm_2xwdh_9rtva",
    ],
)
def test_a_code_is_taken_however_it_is_typed(typed: str) -> None:
    assert looks_like_code(typed)
    assert plain_code(typed) == PLAIN


def test_letters_that_are_misread_are_taken_for_what_they_were() -> None:
    assert plain_code("A1O2B-0I3C4-L5D6E") == plain_code("a102b-013c4-15d6e") == "A102B013C415D6E"
    assert looks_like_code("A1O2B-0I3C4-L5D6E")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "-",
        "K7QPM-2XWDH",
        f"{CODE}-A",
        f"{CODE}A",
        f"code {CODE}",
        f"{CODE}?",
        "K7UPM-2XWDH-9RTVA",
        "K7QPÑ-2XWDH-9RTVA",
        "K7QPМ-2XWDH-9RTVA",
        "K7Q-PM2XWDH-9RTVA",
        "１２３４５-2XWDH-9RTVA",
        "front brake bolts",
        "drill front bolts",
        "differentialoil",
        "123451234512345",
        "2015t front hoses",
        "22016 front axles",
        "rear brake 2016t",
        "1" * 15,
        "K7QPM2XWDH9RTVA" * 700,
        " " * 10_000 + CODE,
    ],
)
def test_what_is_no_code_is_not_taken_for_one(text: str) -> None:
    assert not looks_like_code(text)


@pytest.mark.parametrize("text", ["", "U" * 15, "\ud800" * 15, "\x00" * 15, "ß" * 15, "ıııııııııııııııı", "x" * 10_000])
def test_what_cannot_be_a_code_has_no_plain_form(text: str) -> None:
    assert plain_code(text) is None
    assert not looks_like_code(text)


@given(st.text())
def test_any_text_is_read_without_a_fault(text: str) -> None:
    plain = plain_code(text)
    assert plain is None or (len(plain) == 15 and set(plain) <= set(LETTERS))
    assert not looks_like_code(text) or plain is not None


def test_no_question_of_the_test_sets_is_taken_for_a_code() -> None:
    folder = Path(__file__).resolve().parent.parent / "questions"
    lines = [line for path in folder.rglob("*.jsonl") for line in path.read_text(encoding="utf-8").splitlines()]
    texts = [found for line in lines for found in re.findall(r'"(?:text|q|question)": ?"([^"]*)"', line)]
    assert len(texts) > 300
    assert [text for text in texts if looks_like_code(text)] == []


def test_a_digest_is_sha_256_of_the_plain_letters() -> None:
    assert digest(PLAIN) == hashlib.sha256(b"K7QPM2XWDH9RTVA").hexdigest()
    # FIPS 180-4, the example of one block: SHA-256 of "abc".
    assert digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_a_link_carries_the_code() -> None:
    assert deep_link("https://t.me/example_bot", CODE) == f"https://t.me/example_bot?start={CODE}"


# Telegram's page "Deep linking": A-Z, a-z, 0-9, _ and -, up to 64 characters.
@pytest.mark.parametrize("code", ["", "a b", "a&b=1", "a" * 65, "ñ", f"{CODE}\n"])
def test_a_link_carries_nothing_else(code: str) -> None:
    with pytest.raises(ValueError, match="1 to 64"):
        deep_link("https://t.me/example_bot", code)
