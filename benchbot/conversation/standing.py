"""An answer less the rows that were withdrawn since the book was made: they are silent at once."""

from __future__ import annotations

from dataclasses import replace

from benchbot.outcomes import Answer, Gap, Missing
from benchbot.records.record import Record
from benchbot.records.withdrawals import withdrawn_since


def standing(answer: Answer, record: Record) -> Answer | Gap:
    """What of an answer may be shown still. A verdict that may rest on a withdrawn row goes with it."""
    gone = withdrawn_since(record, [(one.row.spec, one.row.revision) for one in answer.findings])
    if not gone:
        return answer
    missing = tuple(
        Missing("withdrawn", gone[one.row.spec].isoformat(), one.subject)
        for one in answer.findings
        if one.row.spec in gone
    )
    kept = tuple(one for one in answer.findings if one.row.spec not in gone)
    if not kept or answer.judged or answer.advice:
        return Gap((*missing, *answer.missing))
    return replace(answer, findings=kept, missing=(*missing, *answer.missing))
