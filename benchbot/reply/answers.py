"""Lays out an answer: each value with its subject, what comes before it, its cautions and its source."""

from __future__ import annotations

from dataclasses import replace

from benchbot.book.rows import SpecRow
from benchbot.outcomes import Answer, Finding, Subject
from benchbot.reply.figures import before_lines, more_lines, short_value, source_lines, value_line
from benchbot.reply.judged import verdict_blocks, verdict_line
from benchbot.reply.reply import Block
from benchbot.reply.subjects import property_words, subject_words, thing_words, vehicle_words
from benchbot.reply.wording import MAKER_FIRST, Wording
from benchbot.vocabulary.terms import Caution, Vocabulary


def answer_blocks(answer: Answer, vocabulary: Vocabulary, wording: Wording) -> list[Block]:
    """The findings in order. Those that differ in the property alone make one part; each other is a part by itself."""
    groups = _groups(answer.findings)
    alone = len(answer.findings) == 1
    blocks = verdict_blocks(answer, wording)
    if answer.said_values and not answer.judged:
        text = wording.you_said.format(values=wording.both.join(answer.said_values))
        blocks.append(Block("said", text, 1))
    cautioned: set[str] = set()
    for part, (subject, findings) in enumerate(groups, 1):
        for finding in findings:
            label = "" if alone else _label(finding.subject, len(groups) > 1, wording)
            beside = alone and bool(blocks) and blocks[-1].kind == "said"
            blocks += value_line(finding.row, answer.units_first, label, part, wording, beside)
            if finding.questioned:
                blocks.append(Block("before", f"{_doubt(finding, wording)}.", part))
        blocks.append(Block("subject", _echo(subject, findings, alone, len(groups) == 1, wording), part))
        blocks += dict.fromkeys(line for finding in findings for line in before_lines(finding.row, part, wording))
        blocks += _cautions([finding.row for finding in findings], vocabulary, part, cautioned, wording)
        blocks += source_lines([finding.row for finding in findings], part, wording)
    return blocks


def more_blocks(answer: Answer, wording: Wording) -> list[Block]:
    """What is shown of the findings when asked for."""
    alone = len(answer.findings) == 1
    with_thing = len(_groups(answer.findings)) > 1
    return [
        line
        for finding in answer.findings
        for label in ("" if alone else _label(finding.subject, with_thing, wording),)
        for line in more_lines(finding.row, answer.units_first, label, wording)
    ]


def short_answer(answer: Answer, wording: Wording) -> str:
    """All values on one line, each with what it is of."""
    verdicts = [verdict_line(one, wording) for one in answer.judged]
    return " | ".join([*verdicts, *(_short(finding, answer.units_first, wording) for finding in answer.findings)])


def _short(finding: Finding, units: tuple[str, ...], wording: Wording) -> str:
    doubt = f"{_doubt(finding, wording)}: " if finding.questioned else ""
    alone = f", {wording.checked_by_one}" if finding.row.one_person else ""
    return f"{doubt}{short_value(finding.row, units, wording)} - {subject_words(finding.subject, wording)}{alone}"


def _doubt(finding: Finding, wording: Wording) -> str:
    return wording.questioned.format(when=finding.questioned)


def _groups(findings: tuple[Finding, ...]) -> list[tuple[Subject, list[Finding]]]:
    groups: dict[Subject, list[Finding]] = {}
    for finding in findings:
        groups.setdefault(replace(finding.subject, property=""), []).append(finding)
    return list(groups.items())


def _label(subject: Subject, with_thing: bool, wording: Wording) -> str:
    thing = thing_words(subject, wording) if with_thing else ""
    return ", ".join(word for word in (thing, property_words(subject.property, wording)) if word)


def _echo(subject: Subject, findings: list[Finding], alone: bool, with_thing: bool, wording: Wording) -> str:
    if alone:
        return subject_words(findings[0].subject, wording)
    return subject_words(subject, wording) if with_thing else vehicle_words(subject, wording)


def _cautions(
    rows: list[SpecRow], vocabulary: Vocabulary, part: int, cautioned: set[str], wording: Wording
) -> list[Block]:
    """Those that change the doing stand at every value; the others once in a reply, at the first value they are for."""
    belonging = _belonging(rows, vocabulary)
    blocks = [
        Block("before", wording.first_caution.format(text=_text(one, wording)), part) for one in belonging if one.first
    ]
    for one in belonging:
        if not one.first and one.name not in cautioned:
            cautioned.add(one.name)
            blocks.append(Block("caution", wording.caution.format(text=_text(one, wording)), part))
    return blocks


def _text(caution: Caution, wording: Wording) -> str:
    # a book made before cautions were put into this language still warns
    return caution.text_in(wording.language) or caution.text


def _belonging(rows: list[SpecRow], vocabulary: Vocabulary) -> list[Caution]:
    """The cautions of the rows, then those of their components, each once."""
    names = [name for row in rows for name in row.cautions]
    names += [name for row in rows for name in vocabulary.components[row.component].cautions]
    return [vocabulary.cautions[name] for name in dict.fromkeys(names) if name != MAKER_FIRST]
