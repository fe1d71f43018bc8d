"""Turns an outcome into the reply that any channel can show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from benchbot.outcomes import Answer, Calculation, Choose, Gap, Missing, Option, Other, Outcome, Subject
from benchbot.reply import wording
from benchbot.reply.answers import answer_blocks, more_blocks, short_answer
from benchbot.reply.echo import echo_blocks
from benchbot.reply.reply import Block, Choice, Kind, Reply
from benchbot.reply.subjects import subject_words, vehicle_words
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.terms import Vocabulary

__all__ = ["Block", "Choice", "Kind", "Reply", "compose"]

_HELD_SHOWN = 8


def compose(outcome: Outcome, reading: Reading, gap: int | None, vocabulary: Vocabulary, first: bool) -> Reply:
    """The reply to an outcome.

    reading: how the message was read, for the spellings that were put right. gap: the number under which what is
    missing was logged, or None. first: the chat's first reply, which says once that the maker comes first.
    """
    reply = _of(outcome, reading, gap, vocabulary)
    blocks = (*reply.blocks, *echo_blocks(reading, _subjects(outcome)))
    return replace(reply, blocks=blocks, below=(_maker_first(vocabulary),) if first else ())


def _maker_first(vocabulary: Vocabulary) -> Block:
    caution = vocabulary.cautions.get(wording.MAKER_FIRST)
    return Block("note", caution.text if caution else wording.MAKER_FIRST_TEXT)


def _of(outcome: Outcome, reading: Reading, gap: int | None, vocabulary: Vocabulary) -> Reply:
    if isinstance(outcome, Answer):
        return _answer(outcome, gap, vocabulary)
    if isinstance(outcome, Choose):
        return _choose(outcome)
    if isinstance(outcome, Gap):
        blocks = _missing_blocks(outcome.missing, gap)
        return Reply("gap", tuple(blocks), short=blocks[0].text)
    if isinstance(outcome, Calculation):
        return _calculation(outcome)
    return _other(outcome, reading)


def _subjects(outcome: Outcome) -> tuple[Subject, ...]:
    if isinstance(outcome, Answer):
        return tuple(finding.subject for finding in outcome.findings)
    if isinstance(outcome, Gap):
        return tuple(one.subject for one in outcome.missing)
    return () if isinstance(outcome, Calculation) else (outcome.subject,)


def _answer(answer: Answer, gap: int | None, vocabulary: Vocabulary) -> Reply:
    blocks = answer_blocks(answer, vocabulary)
    if answer.missing:
        blocks += _missing_blocks(answer.missing, gap)
    specs = tuple(dict.fromkeys(finding.row.spec for finding in answer.findings))
    return Reply("answer", tuple(blocks), tuple(more_blocks(answer)), (), specs, short_answer(answer))


def _missing_blocks(missing: Sequence[Missing], gap: int | None) -> list[Block]:
    lines = [f"{wording.NOT_HELD.format(what=_missing_words(one))} {wording.REASONS[one.reason]}" for one in missing]
    logged = wording.LOGGED.format(number=gap) if gap is not None else wording.NOT_LOGGED
    return [*(Block("missing", line) for line in dict.fromkeys(lines)), Block("missing", logged)]


def _missing_words(missing: Missing) -> str:
    words = subject_words(missing.subject)
    if missing.reason == "unknown component" and missing.detail and missing.detail not in words:
        said = wording.UNKNOWN_WORDS.format(words=missing.detail)
        return f"{words}, {said}" if words else said
    if words:
        return words
    return wording.UNKNOWN_WORDS.format(words=missing.detail) if missing.detail else wording.SOMETHING


def _choose(choose: Choose) -> Reply:
    question = _question(choose)
    blocks = [Block("question", question)]
    about = subject_words(choose.subject)
    if about:
        blocks.append(Block("subject", about))
    return Reply("choose", tuple(blocks), (), _choices(choose.options), (), question)


def _question(choose: Choose) -> str:
    if choose.question:
        return choose.question
    if choose.about == "qualifier" and choose.key in wording.QUALIFIER_QUESTIONS:
        return wording.QUALIFIER_QUESTIONS[choose.key]
    if choose.about == "unit" and not choose.key:
        return wording.UNIT_NOT_SAID
    if choose.options and choose.about in wording.WITH_OPTIONS:
        return wording.WITH_OPTIONS[choose.about]
    return wording.QUESTIONS[choose.about].format(key=choose.key)


def _choices(options: tuple[Option, ...]) -> tuple[Choice, ...]:
    return tuple(Choice(option.label, option.states) for option in options)


def _calculation(sum_: Calculation) -> Reply:
    text = wording.CALCULATED.format(given=sum_.given, result=sum_.result)
    note = wording.CALCULATED_NOTE.format(formula=sum_.formula)
    return Reply("calculation", (Block("calculation", text), Block("note", note)), short=text)


def _other(other: Other, reading: Reading) -> Reply:
    blocks = _vehicle_set(other) if other.what == "vehicle set" else [Block("note", wording.OTHER[other.what])]
    if other.what == "not understood" and reading.left_over:
        words = " ".join(reading.left_over)
        blocks.insert(0, Block("note", wording.NOT_PLACED.format(words=words)))
    more: tuple[Block, ...] = ()
    if len(other.held) > _HELD_SHOWN:
        more = (Block("note", wording.HELD_ALL.format(components=", ".join(other.held))),)
    return Reply("other", tuple(blocks), more, _choices(other.options), (), blocks[0].text)


def _vehicle_set(other: Other) -> list[Block]:
    vehicle = vehicle_words(other.subject)
    if not other.subject.make:
        return [Block("question", wording.VEHICLE_UNCLEAR.format(vehicle=vehicle))]
    blocks = [Block("question", wording.OTHER["vehicle set"].format(vehicle=vehicle))]
    if not other.held:
        return [*blocks, Block("note", wording.HELD_NOTHING)]
    shown = ", ".join(other.held[:_HELD_SHOWN])
    rest = len(other.held) - _HELD_SHOWN
    held = wording.HELD.format(components=shown)
    if rest > 0:
        held = wording.HELD_AND_MORE.format(components=shown, count=rest)
    blocks.append(Block("note", held))
    if not other.subject.years:
        blocks.append(Block("note", wording.YEAR_WANTED))
    return blocks
