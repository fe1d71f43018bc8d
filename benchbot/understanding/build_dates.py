"""The month a vehicle was built in, where a message says so."""

from __future__ import annotations

from benchbot.understanding.figures import Numbers, negated
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Stated

BUILT_WORDS = {"built", "build", "production", "produced", "mfd", "mfg", "manufactured", "prod"}


_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def read_built(work: Work, found: Numbers) -> None:
    """A build month: "built 11/16", "build date 2016-05", "built may 2016"."""
    for at, token in enumerate(work.tokens):
        if token.text not in BUILT_WORDS or not work.free(at):
            continue
        here = work.next_at(at)
        while work.text(here) in ("in", "on", "is", "date", "around", "was"):
            here = work.next_at(here)
        month, year, places = _month_at(work, here)
        if month is None or year is None:
            continue
        after = work.next_at(places[-1])
        if negated(work, at) or work.text(after) in ("or", "and", "to") or "/" in work.text(after):
            found.unsure.add("build")
        if work.text(here).count("/") == 2 or (work.is_word(here) and len(work.text(places[-1])) == 2):
            # 07/06 may be June or July, "may 12" a day
            found.unsure.add("build")
        found.stated.append(Stated("build", f"{year:04d}-{month:02d}", False))
        work.take([at, *places], "qualifier", f"built {year:04d}-{month:02d}")


def _month_at(work: Work, at: int) -> tuple[int | None, int | None, list[int]]:
    text = work.text(at)
    if "/" in text:
        month, _, year = text.partition("/")
        year = year.rpartition("/")[2]
        if 1 <= int(month) <= 12 and len(year) in (2, 4):
            return int(month), int(year) if len(year) == 4 else 2000 + int(year), [at]
    name = text[:3]
    if name in _MONTHS and work.is_number(after := work.next_at(at)):
        year = work.text(after)
        if len(year) == 4 or len(year) == 2:
            return _MONTHS.index(name) + 1, int(year) if len(year) == 4 else 2000 + int(year), [at, after]
    if len(text) == 4 and text.isdigit() and work.text(at + 1) in "-/." and work.is_number(at + 2):
        month = work.text(at + 2)
        if month.isdigit() and 1 <= int(month) <= 12:
            return int(month), int(text), [at, at + 2]
    return None, None, []
