"""Turns an outcome into the reply that any channel can show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from benchbot.outcomes import Answer, Calculation, Choose, Gap, Missing, Other, Outcome, Procedure, Sentence, Subject
from benchbot.reply.answers import answer_blocks, more_blocks, short_answer
from benchbot.reply.choices import choices_of
from benchbot.reply.echo import echo_blocks
from benchbot.reply.judged import advice_blocks, unsafe_blocks
from benchbot.reply.languages import wording_of
from benchbot.reply.reply import Block, Choice, Kind, Reply
from benchbot.reply.steps import step_blocks, step_short
from benchbot.reply.subjects import component_words, subject_words, vehicle_words
from benchbot.reply.wording import MAKER_FIRST, Wording
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.terms import Vocabulary

__all__ = ["Block", "Choice", "Kind", "Reply", "compose"]

_HELD_SHOWN = 8


def compose(
    outcome: Outcome, reading: Reading, gap: int | None, vocabulary: Vocabulary, first: bool, language: str = "en"
) -> Reply:
    """The reply to an outcome.

    reading: how the message was read, for the spellings that were put right. gap: the number under which what is
    missing was logged, or None. first: the chat's first reply, which says once that the maker comes first.
    language: one of LANGUAGES; ValueError for any other. Values, units, names and sources are the same in each.
    """
    wording = wording_of(language)
    reply = _of(outcome, reading, gap, vocabulary, wording)
    blocks = (*reply.blocks, *echo_blocks(reading, _subjects(outcome), wording))
    return replace(reply, blocks=blocks, below=(_maker_first(vocabulary, wording),) if first else ())


def _maker_first(vocabulary: Vocabulary, wording: Wording) -> Block:
    caution = vocabulary.cautions.get(MAKER_FIRST)
    text = caution.text_in(wording.language) if caution else None
    return Block("note", text or wording.maker_first)


def _of(outcome: Outcome, reading: Reading, gap: int | None, vocabulary: Vocabulary, wording: Wording) -> Reply:
    if isinstance(outcome, Answer):
        return _answer(outcome, gap, vocabulary, wording)
    if isinstance(outcome, Choose):
        return _choose(outcome, wording)
    if isinstance(outcome, Gap):
        blocks = unsafe_blocks(outcome.unsafe, wording) + _missing_blocks(outcome.missing, gap, wording)
        return Reply("gap", tuple(blocks), short=blocks[0].text)
    if isinstance(outcome, Calculation):
        return _calculation(outcome, wording)
    if isinstance(outcome, Procedure):
        return _procedure(outcome, gap, vocabulary, wording)
    return _other(outcome, reading, wording)


def _subjects(outcome: Outcome) -> tuple[Subject, ...]:
    if isinstance(outcome, Answer):
        return tuple(finding.subject for finding in outcome.findings)
    if isinstance(outcome, Gap):
        return tuple(one.subject for one in outcome.missing)
    return () if isinstance(outcome, (Calculation, Procedure)) else (outcome.subject,)


def _answer(answer: Answer, gap: int | None, vocabulary: Vocabulary, wording: Wording) -> Reply:
    blocks = answer_blocks(answer, vocabulary, wording)
    if answer.missing:
        blocks += _missing_blocks(answer.missing, gap, wording)
    specs = tuple(dict.fromkeys(finding.row.spec for finding in answer.findings))
    more = tuple(more_blocks(answer, wording))
    return Reply("answer", tuple(blocks), more, (), specs, short_answer(answer, wording))


def _missing_blocks(missing: Sequence[Missing], gap: int | None, wording: Wording) -> list[Block]:
    lines = [
        f"{wording.not_held.format(what=_missing_words(one, wording))} {_reason_words(one, wording)}" for one in missing
    ]
    logged = wording.logged.format(number=gap) if gap is not None else wording.not_logged
    return [*(Block("missing", line) for line in dict.fromkeys(lines)), Block("missing", logged)]


def _reason_words(missing: Missing, wording: Wording) -> str:
    if missing.reason == "withdrawn" and missing.detail:
        return wording.withdrawn_on.format(when=missing.detail)
    return wording.reasons[missing.reason]


def _missing_words(missing: Missing, wording: Wording) -> str:
    words = subject_words(missing.subject, wording)
    if missing.reason == "unknown component" and missing.detail and missing.detail not in words:
        said = wording.unknown_words.format(words=missing.detail)
        return f"{words}, {said}" if words else said
    if words:
        return words
    return wording.unknown_words.format(words=missing.detail) if missing.detail else wording.something


def _procedure(step: Procedure, gap: int | None, vocabulary: Vocabulary, wording: Wording) -> Reply:
    not_held = _missing_blocks(step.missing, gap, wording) if step.missing else []
    blocks = step_blocks(step, not_held, vocabulary, wording)
    more = tuple(block for found in step.answers for block in more_blocks(found, wording))
    specs = tuple(dict.fromkeys(finding.row.spec for finding in step.findings))
    choices = choices_of(step.options, "", wording)
    return Reply("procedure", tuple(blocks), more, choices, specs, step_short(step, wording))


def _choose(choose: Choose, wording: Wording) -> Reply:
    question = _question(choose, wording)
    blocks = [*unsafe_blocks(choose.unsafe, wording), Block("question", question)]
    about = subject_words(choose.subject, wording)
    if about:
        blocks.append(Block("subject", about))
    blocks += advice_blocks(choose.advice, wording)
    return Reply("choose", tuple(blocks), (), choices_of(choose.options, choose.key, wording), (), blocks[0].text)


def _question(choose: Choose, wording: Wording) -> str:
    own = choose.question if wording.is_the_books else wording.names.questions.get(choose.question)
    if own:
        return own
    if choose.about == "qualifier" and choose.key in wording.qualifier_questions:
        return wording.qualifier_questions[choose.key]
    if choose.about == "unit" and not choose.key:
        return wording.unit_not_said
    if choose.options and choose.about in wording.with_options:
        return wording.with_options[choose.about]
    return wording.questions[choose.about].format(key=choose.key)


def _calculation(sum_: Calculation, wording: Wording) -> Reply:
    text = wording.calculated.format(given=sum_.given, result=sum_.result)
    if sum_.title is not None:
        text = _sentence(sum_.title, wording)
    blocks = [Block("calculation", text)]
    blocks += [Block("before", _sentence(one, wording)) for one in sum_.cautions]
    if not sum_.refused:
        blocks.append(Block("note", wording.calculated_note.format(formula=sum_.formula)))
    blocks += [Block("note", _sentence(one, wording)) for one in sum_.lines]
    if sum_.source:
        blocks.append(Block("source", wording.calculated_after.format(source=sum_.source)))
    return Reply("other" if sum_.refused else "calculation", tuple(blocks), short=text)


def _sentence(sentence: Sentence, wording: Wording) -> str:
    return wording.sums[sentence.name].format(**dict(sentence.values))


def _other(other: Other, reading: Reading, wording: Wording) -> Reply:
    held = [component_words(one, wording) for one in other.held]
    set_ = other.what == "vehicle set"
    blocks = _vehicle_set(other, held, wording) if set_ else [Block("note", wording.other[other.what])]
    if other.what == "not understood" and reading.left_over:
        words = " ".join(reading.left_over)
        blocks.insert(0, Block("note", wording.not_placed.format(words=words)))
    more: tuple[Block, ...] = ()
    if len(held) > _HELD_SHOWN:
        more = (Block("note", wording.held_all.format(components=", ".join(held))),)
    return Reply("other", tuple(blocks), more, choices_of(other.options, "", wording), (), blocks[0].text)


def _vehicle_set(other: Other, held: list[str], wording: Wording) -> list[Block]:
    vehicle = vehicle_words(other.subject, wording)
    if not other.subject.make:
        return [Block("question", wording.vehicle_unclear.format(vehicle=vehicle))]
    blocks = [Block("question", wording.other["vehicle set"].format(vehicle=vehicle))]
    if not held:
        return [*blocks, Block("note", wording.held_nothing)]
    shown = ", ".join(held[:_HELD_SHOWN])
    rest = len(held) - _HELD_SHOWN
    text = wording.held.format(components=shown)
    if rest > 0:
        text = wording.held_and_more.format(components=shown, count=rest)
    blocks.append(Block("note", text))
    if not other.subject.years:
        blocks.append(Block("note", wording.year_wanted))
    return blocks
