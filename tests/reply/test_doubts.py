"""What makes an answer less than sure stands beside its value: one person alone has checked it, somebody doubts it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from benchbot.outcomes import Answer, Finding
from benchbot.reply.compose import compose
from benchbot.reply.reply import Reply
from benchbot.understanding.reading import Reading
from benchbot.vocabulary.terms import Vocabulary

Make = Callable[..., Finding]


def said(answer: Answer, vocabulary: Vocabulary, language: str = "en") -> Reply:
    return compose(answer, Reading(), None, vocabulary, first=False, language=language)


@pytest.mark.parametrize(
    ("language", "source", "short"),
    [
        (
            "en",
            "Source: Invented sheet 14-8, p. 168; checked by one person (demo lead) on 2026-01-05.",
            ", checked by one person",
        ),
        (
            "es",
            "Fuente: Invented sheet 14-8, p. 168; verificado por una sola persona (demo lead) el 2026-01-05.",
            ", verificado por una sola persona",
        ),
    ],
)
def test_one_person(finding: Make, vocabulary: Vocabulary, language: str, source: str, short: str) -> None:
    reply = said(Answer((finding(one_person=True),)), vocabulary, language)
    assert reply.text().splitlines()[-1] == source
    assert reply.short.endswith(short)
    plain = said(Answer((finding(),)), vocabulary, language)
    assert "one person" not in plain.text() and "una sola persona" not in plain.text()
    assert not plain.short.endswith(short)


@pytest.mark.parametrize(
    ("language", "line"),
    [
        ("en", "Questioned on 2026-05-04, check before use"),
        ("es", "Puesto en duda el 2026-05-04, verifique antes de usarlo"),
    ],
)
def test_questioned(finding: Make, vocabulary: Vocabulary, language: str, line: str) -> None:
    reply = said(Answer((replace(finding(), questioned="2026-05-04"),)), vocabulary, language)
    # right under the value, before all else
    assert reply.text().splitlines()[1] == f"{line}."
    assert [block.kind for block in reply.blocks][:3] == ["value", "converted", "before"]
    assert reply.short.startswith(f"{line}: 88 lb-ft")


def test_of_several_values_only_the_one_that_is_doubted_is_marked(finding: Make, vocabulary: Vocabulary) -> None:
    torque, socket = finding(), finding(spec="T0002", property="socket", value="16 mm")
    reply = said(Answer((replace(torque, questioned="2026-05-04"), socket)), vocabulary)
    lines = reply.text().splitlines()
    assert [lines[0][:7], lines[1], lines[2]] == [
        "torque:",
        "Questioned on 2026-05-04, check before use.",
        "socket: 16 mm",
    ]
    assert reply.short.count("Questioned") == 1


def test_rows_of_one_sheet_that_differ_in_who_checked_them_each_say_so(finding: Make, vocabulary: Vocabulary) -> None:
    socket = finding(spec="T0002", property="socket", value="16 mm")
    lines = said(Answer((finding(one_person=True), socket)), vocabulary).text().splitlines()
    assert [line for line in lines if line.startswith("Source of")] == [
        "Source of torque: Invented sheet 14-8, p. 168; checked by one person (demo lead) on 2026-01-05.",
        "Source of socket: Invented sheet 14-8, p. 168; checked by demo lead on 2026-01-05.",
    ]
