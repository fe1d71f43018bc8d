"""What a measurement was judged to be, as the record of a job keeps it."""

from __future__ import annotations

from collections.abc import Sequence

from benchbot.book.rows import SpecRow
from benchbot.jobs.terms import NOT_JUDGED, Judgement, Shown, Verdict
from benchbot.outcomes import Judged

# What may stay on the vehicle; everything else is followed up or explained before the job is finished.
_STAYS = frozenset({"use", "no machining"})


def verdict_of(judged: Sequence[Judged], text: str, rows: Sequence[SpecRow]) -> Verdict:
    """judged: what the limits said, the worst first; text: in words. rows: those of the book it was held against."""
    if not judged:
        return NOT_JUDGED
    good: Judgement = "good" if all(one.verdict in _STAYS for one in judged) else "bad"
    return Verdict(good, text, tuple(shown(row) for row in rows))


def shown(row: SpecRow) -> Shown:
    """A row of the book as a job keeps it: its value exactly as entered."""
    return Shown(f"{row.value}; {row.second_value}" if row.second_value else row.value, row.spec, row.revision)
