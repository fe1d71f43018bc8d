"""Words written as one that make no sense as one: "wobblestick" is no runout of a manual gearbox, but some part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from benchbot.understanding.lexicon import Lexicon
from benchbot.understanding.reading import WordNote
from benchbot.understanding.tokens import Token

# Roles that are said in one breath ("frontleft", "front-torque", "dieselauto"); anything else written as one names
# something of its own.
_TOGETHER = ({"position"}, {"position", "property"}, {"property"}, {"property", "unit"}, {"unit"}, {"qualifier"})
_TELLING = {"property", "position", "qualifier", "unit"}


def compounds(tokens: Sequence[Token], notes: Sequence[WordNote], lexicon: Lexicon, named: bool) -> list[range]:
    """The places of each run of words, written together or with hyphens, that can only be the name of a part.

    notes: how the words were read one by one. named: the message names a part; then only a run that made one of a word
    such as "wheel" is looked at.
    """
    found = [run for run in _runs(tokens) if _is_name(run, tokens, notes, lexicon)]
    return [run for run in found if not named or any(notes[i].role == "component" for i in run)]


def merged(tokens: Sequence[Token], runs: Sequence[range]) -> tuple[list[Token], list[int]]:
    """The tokens with each run made one word again, and the places of these words."""
    out: list[Token] = []
    places: list[int] = []
    at = 0
    while at < len(tokens):
        run = next((one for one in runs if one.start == at), None)
        if run is None:
            out.append(tokens[at])
            at += 1
            continue
        raw = "".join(tokens[i].raw for i in run)
        places.append(len(out))
        out.append(replace(tokens[at], text=raw.replace("-", ""), raw=raw))
        at = run.stop
    return out, places


def _runs(tokens: Sequence[Token]) -> Iterator[range]:
    at = 0
    while at < len(tokens):
        end = at + 1
        while tokens[at].kind == "word" and (step := _glued(tokens, end)):
            end += step
        if end > at + 1:
            yield range(at, end)
        at = end


def _glued(tokens: Sequence[Token], at: int) -> int:
    """How many tokens from there on go on with the word before: 1, 2 with a hyphen, 0 when none does."""
    for step in (1, 2):
        here = tokens[at : at + step]
        if len(here) == step and all(token.glued for token in here) and here[-1].kind == "word":
            return step if step == 1 or here[0].text == "-" else 0
    return 0


def _is_name(run: range, tokens: Sequence[Token], notes: Sequence[WordNote], lexicon: Lexicon) -> bool:
    words = [i for i in run if tokens[i].kind == "word"]
    parts = [i for i in words if notes[i].role == "component"]
    roles = {notes[i].role for i in words} - {"component"}
    if not roles or not roles <= _TELLING | {"noise"} or not all(lexicon.is_weak(tokens[i].text) for i in parts):
        return False
    # "torque-and-socket"; "front-wheel"
    hyphens = len(words) < len(run)
    said = {i for i in words if hyphens and tokens[i].text in lexicon.function}
    said |= {i for i in words if lexicon.is_weak(tokens[i].text) and notes[i - 1].role == "position"}
    idle = any(notes[i].role == "noise" and i not in said for i in words)
    if roles == {"noise"}:
        # "please-help" is talk; what was taken apart at words of the trade is none
        return idle and not hyphens
    if idle or (parts and "qualifier" in roles) or not any(roles - {"noise"} <= together for together in _TOGETHER):
        return True
    asked = {notes[i].read_as for i in words if notes[i].role == "property"}
    elsewhere = {note.read_as for i, note in enumerate(notes) if note.role == "property" and i not in run}
    return (len(asked) > 1 and not said) or bool(asked and elsewhere - asked)
