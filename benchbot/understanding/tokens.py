"""Cuts a message into tokens: words, numbers with what hangs on them, and the marks between."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from benchbot.understanding.threads import WRITTEN
from benchbot.vocabulary.letters import fold

TokenKind = Literal["word", "number", "mark", "code", "thread"]

MOST_LETTERS = 1200
MOST_TOKENS = 160

_PIECE = re.compile(
    rf"""
    (?P<phone>\+?\(?\d{{3}}\)?[-. ]\d{{3}}[-. ]\d{{4}}|\b\d{{3}}-\d{{4}}\b)
  | (?P<date>\b\d{{1,2}}/\d{{1,2}}/\d{{2,4}}\b)
  | (?P<clock>\b\d{{1,2}}:\d\d\b)
  | (?P<thread>{WRITTEN})
  | (?P<short_year>['`]\d\d(?![\d.]))
  | (?P<fraction>\b\d+/\d+\b)
  | (?P<chunk>\d+\.\d+[^\W_]*|\.\d+|[^\W_]+)
  | (?P<apostrophe>['`])
  | (?P<mark>[^\w\s]|_)
    """,
    re.VERBOSE,
)
_NUMBER = re.compile(r"(?:\d+(?:\.\d+)?|\.\d+)")
_NUMBER_THEN_WORD = re.compile(r"(\d+(?:\.\d+)?|\.\d+)([^\W\d_]+)")
_WORD_THEN_NUMBER = re.compile(r"([^\W\d_]+)(\d+(?:\.\d+)?)")
_MARKS = str.maketrans(
    {"\u2019": "'", "\u2018": "'", "\u00b4": "'", "\u2032": "'", "\u201c": '"', "\u201d": '"', "\u2033": '"'}
    | {"\u00d7": "x", "\u2013": "-", "\u2014": "-", "\u2212": "-", "\u2044": "/"}
)
_DECIMAL_COMMA = re.compile(r"(?<![\d.,])(\d{1,3}),(\d{1,2})(?!\d)")
_THOUSANDS = re.compile(r"(?<![\d.,])(\d{1,3}),(\d{3})(?![\d,])")


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the message.

    text: folded; of a number its digits ("2019", "1.8", ".0015"); of a code what it is ("phone").
    raw: as typed. glued: nothing stood between this token and the one before.
    spoken: the number was said in words. short_year: it was written '19.
    """

    text: str
    raw: str
    kind: TokenKind
    glued: bool = False
    spoken: bool = False
    short_year: bool = False


def tokens_of(text: str, known: Callable[[str], bool], part: Callable[[str], bool] | None = None) -> list[Token]:
    """The tokens of a message, at most MOST_TOKENS of them.

    `known` tells whether a folded chunk such as "4x4" or "x5" is a word of its own; a chunk that is none is taken
    apart where digits and letters meet ("15wendle") or where words that `part` knows were run together ("drainplug").
    """
    part = part or known
    plain = fold(text[:MOST_LETTERS].translate(_MARKS)).translate(_MARKS)
    plain = _THOUSANDS.sub(r"\1\2", plain)
    plain = _DECIMAL_COMMA.sub(r"\1.\2", plain)
    found: list[Token] = []
    end = -1
    for match in _PIECE.finditer(plain):
        kind = match.lastgroup or "mark"
        piece = match.group().strip()
        glued = match.start() == end
        end = match.end()
        if kind == "apostrophe":
            # an apostrophe inside a word is dropped: what's -> whats
            if glued and found and found[-1].kind == "word":
                continue
            continue
        if kind == "chunk":
            after_apostrophe = (
                match.start() >= 2
                and plain[match.start() - 1] in "'`"
                and plain[match.start() - 2].isalpha()
                and found
                and found[-1].kind == "word"
                and len(piece) <= 2
                and piece.isalpha()
            )
            if after_apostrophe:
                joined = found[-1].text + piece
                found[-1] = replace(found[-1], text=joined, raw=found[-1].raw + "'" + piece)
                continue
            found.extend(_chunk_tokens(piece, glued, known, part))
        elif kind == "short_year":
            found.append(Token(piece[1:], piece, "number", glued, short_year=True))
        elif kind == "mark":
            found.append(Token(piece, piece, "mark", glued))
        elif kind == "thread":
            compact = piece.replace(" ", "")
            if known(compact) or (compact[1:].isdigit() and _ends_in_a_number(found) and _is_small(compact)):
                # a model's name, or a vehicle that nobody knows: "2014 m4"
                found.append(Token(compact, piece, "word", glued))
            else:
                found.append(Token(compact if compact[0] not in "hq" else piece, piece, "thread", glued))
        else:
            found.append(Token(piece.replace(" ", ""), piece, "code" if kind != "fraction" else "number", glued))
        if len(found) >= MOST_TOKENS:
            break
    return found


def _ends_in_a_number(tokens: list[Token]) -> bool:
    return bool(tokens) and tokens[-1].kind == "number" and tokens[-1].text.isdigit() and len(tokens[-1].text) > 1


def _is_small(thread: str) -> bool:
    return int(thread[1:]) < 8


def _chunk_tokens(
    chunk: str, glued: bool, known: Callable[[str], bool], part: Callable[[str], bool]
) -> Iterator[Token]:
    if _NUMBER.fullmatch(chunk):
        yield Token(chunk, chunk, "number", glued)
        return
    if chunk.isalpha():
        if len(chunk) < 6 or known(chunk):
            yield Token(chunk, chunk, "word", glued)
            return
        for n, word in enumerate(_run_together(chunk, part) or [chunk]):
            yield Token(word, word, "word", glued if n == 0 else True)
        return
    if known(chunk):
        yield Token(chunk, chunk, "word", glued)
        return
    number_first = _NUMBER_THEN_WORD.match(chunk)
    if number_first:
        digits, letters = number_first.groups()
        yield Token(digits, digits, "number", glued)
        rest = chunk[len(digits) :]
        for n, token in enumerate(_chunk_tokens(rest, True, known, part)):
            yield replace(token, glued=True) if n == 0 else token
        return
    word_first = _WORD_THEN_NUMBER.match(chunk)
    if word_first:
        letters, _ = word_first.groups()
        if len(letters) < 2 or not (known(letters) or len(letters) > 3):
            # "f150", "z71": a name that nobody knows, never a letter and a number
            yield Token(chunk, chunk, "word", glued)
            return
        yield from _chunk_tokens(letters, glued, known, part)
        for n, token in enumerate(_chunk_tokens(chunk[len(letters) :], True, known, part)):
            yield replace(token, glued=True) if n == 0 else token
        return
    yield Token(chunk, chunk, "word", glued)


def _run_together(chunk: str, known: Callable[[str], bool]) -> list[str] | None:
    """The known words that were typed without a space between, or None; each has three letters or more."""
    if len(chunk) > 40:
        return None
    best: list[list[str] | None] = [None] * (len(chunk) + 1)
    best[0] = []
    for end in range(3, len(chunk) + 1):
        for start in range(end - 2):
            before = best[start]
            if before is None or not known(chunk[start:end]):
                continue
            current = best[end]
            if current is None or len(before) + 1 < len(current):
                best[end] = [*before, chunk[start:end]]
    return best[-1]
