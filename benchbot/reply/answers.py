"""Lays out an answer: each value with its subject, what comes before it, its cautions and its source."""

from __future__ import annotations

from dataclasses import replace

from benchbot.book.rows import SpecRow
from benchbot.outcomes import Answer, Finding, Subject
from benchbot.reply import wording
from benchbot.reply.figures import before_lines, more_lines, short_value, source_lines, value_line
from benchbot.reply.reply import Block
from benchbot.reply.subjects import subject_words, thing_words, vehicle_words
from benchbot.vocabulary.terms import Caution, Vocabulary


def answer_blocks(answer: Answer, vocabulary: Vocabulary) -> list[Block]:
    """The findings in order. Those that differ in the property alone make one part; each other is a part by itself."""
    groups = _groups(answer.findings)
    alone = len(answer.findings) == 1
    blocks: list[Block] = []
    if answer.said_values:
        text = wording.YOU_SAID.format(values=" and ".join(answer.said_values))
        blocks.append(Block("said", text, 1))
    cautioned: set[str] = set()
    for part, (subject, findings) in enumerate(groups, 1):
        for finding in findings:
            label = "" if alone else _label(finding.subject, with_thing=len(groups) > 1)
            blocks += value_line(finding.row, answer.units_first, label, part, beside=alone and bool(blocks))
        blocks.append(Block("subject", _echo(subject, findings, alone, with_thing=len(groups) == 1), part))
        blocks += dict.fromkeys(line for finding in findings for line in before_lines(finding.row, part))
        blocks += _cautions([finding.row for finding in findings], vocabulary, part, cautioned)
        blocks += source_lines([finding.row for finding in findings], part)
    return blocks


def more_blocks(answer: Answer) -> list[Block]:
    alone = len(answer.findings) == 1
    with_thing = len(_groups(answer.findings)) > 1
    return [
        line
        for finding in answer.findings
        for line in more_lines(finding.row, answer.units_first, "" if alone else _label(finding.subject, with_thing))
    ]


def short_answer(answer: Answer) -> str:
    """All values on one line, each with what it is of."""
    said = [f"{short_value(f.row, answer.units_first)} - {subject_words(f.subject)}" for f in answer.findings]
    return " | ".join(said)


def _groups(findings: tuple[Finding, ...]) -> list[tuple[Subject, list[Finding]]]:
    groups: dict[Subject, list[Finding]] = {}
    for finding in findings:
        groups.setdefault(replace(finding.subject, property=""), []).append(finding)
    return list(groups.items())


def _label(subject: Subject, with_thing: bool) -> str:
    return ", ".join(word for word in (thing_words(subject) if with_thing else "", subject.property) if word)


def _echo(subject: Subject, findings: list[Finding], alone: bool, with_thing: bool) -> str:
    if alone:
        return subject_words(findings[0].subject)
    return subject_words(subject) if with_thing else vehicle_words(subject)


def _cautions(rows: list[SpecRow], vocabulary: Vocabulary, part: int, cautioned: set[str]) -> list[Block]:
    """Those that change the doing stand at every value; the others once in a reply, at the first value they are for."""
    belonging = _belonging(rows, vocabulary)
    blocks = [Block("before", wording.FIRST_CAUTION.format(text=one.text), part) for one in belonging if one.first]
    for one in belonging:
        if not one.first and one.name not in cautioned:
            cautioned.add(one.name)
            blocks.append(Block("caution", wording.CAUTION.format(text=one.text), part))
    return blocks


def _belonging(rows: list[SpecRow], vocabulary: Vocabulary) -> list[Caution]:
    """The cautions of the rows, then those of their components, each once."""
    names = [name for row in rows for name in row.cautions]
    names += [name for row in rows for name in vocabulary.components[row.component].cautions]
    return [vocabulary.cautions[name] for name in dict.fromkeys(names) if name != wording.MAKER_FIRST]
