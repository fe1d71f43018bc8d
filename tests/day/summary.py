"""What a day leaves on record, as plain lines that two runs of it can be compared by."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from benchbot.records.record import Record

# Each gives lines whose order counts. No moments: those depend on how fast a run was.
TABLES = {
    "answers": "SELECT answer, person, asked, outcome, book_version, location FROM answer ORDER BY answer",
    "shown": "SELECT answer, spec, revision FROM answer_spec ORDER BY answer, spec",
    "gaps": "SELECT gap, question, reason, person, state, waits, location FROM gap ORDER BY gap",
    "meanings": "SELECT meaning, kind, identity, words, state, why, author FROM meaning ORDER BY meaning",
    "parts": "SELECT gap, meaning, reason FROM gap_part ORDER BY gap, meaning",
    "states": "SELECT meaning, state, why, author FROM meaning_change ORDER BY entry",
    "revisions": """SELECT spec, revision, make, model, year_from, year_to, component_read, position_read, property,
        value, second_value, thread, class, source, source_ref, checked_by, checked_on, status, author, why
        FROM spec_revision JOIN change ON change.change = spec_revision.change ORDER BY spec, revision""",
    "reviews": "SELECT spec, revision, person, did, said FROM review ORDER BY entry",
    "warnings": "SELECT spec, revision, concern, reason, person FROM passed_warning ORDER BY entry",
    "fillings": "SELECT filling, meaning, spec, author, state, fields FROM filling ORDER BY filling",
    "evidence": "SELECT spec, revision, digest, kind, size, state, person FROM evidence ORDER BY evidence",
    "words": "SELECT term, said FROM shop_word ORDER BY entry",
    "names": "SELECT make, model, alias FROM vehicle_alias ORDER BY entry",
    "books": "SELECT version, made_on, digest, rows FROM book_version ORDER BY version",
    "followed": "SELECT version FROM followed ORDER BY version",
    "kept": "SELECT said, expected, gap FROM kept_question WHERE ended_at = '' ORDER BY gap",
    "recalls": "SELECT recall, spec, revision, what FROM recall ORDER BY recall",
    "notices": """SELECT recall, person, location, answer, revision, told_at <> '', seen_at <> ''
        FROM recall_notice ORDER BY recall, person""",
    "errands": "SELECT what, state, count(*) FROM errand WHERE what <> 'digest' GROUP BY what, state ORDER BY what",
    "expected": "SELECT person, what FROM expected ORDER BY person",
    "unhandled": "SELECT count(*) FROM arrival WHERE handled_at = ''",
}
SENDINGS = "SELECT chat, state FROM sending ORDER BY sending"
PERSONS = "SELECT person, name FROM person"
_TIME = re.compile(r"\b\d\d:\d\d\b")


def summary(record: Record, screens: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    """Rows by table, how much was sent to whom, and which texts stand in whose chat; people by their names."""
    names = {str(person): str(name) for person, name in record.rows(PERSONS, {})}
    told: dict[str, Any] = {}
    for table, statement in TABLES.items():
        told[table] = [_named(row, names) for row in record.rows(statement, {})]
    chats = {person.partition(" ")[2]: name for person, name in names.items()}
    told["sendings"] = [(chats[str(chat)], state) for chat, state in record.rows(SENDINGS, {}) if chat in chats]
    # What was out when its process died, and not noted, may stand there once more.
    told["texts"] = [(name, *text) for name in sorted(screens) for text in sorted({*map(_said, screens[name])})]
    return told


def differences(one: dict[str, Any], other: dict[str, Any], copies: int = 0) -> list[str]:
    """What one has and the other has not, a line each. copies: so many texts more may stand in the other's chats."""
    found: list[str] = []
    for table, rows in one.items():
        mine, theirs = Counter(rows), Counter(other[table])
        found += [f"{table}: lost {row}" for row in (mine - theirs).elements()]
        new = [f"{table}: new {row}" for row in (theirs - mine).elements()]
        if table == "texts" and len(new) <= copies:
            continue
        found += new
        if mine == theirs and table != "sendings" and rows != other[table]:
            found.append(f"{table}: in another order")
    return found


def _named(row: Any, names: dict[str, str]) -> tuple[Any, ...]:
    return tuple(names.get(cell, cell) if isinstance(cell, str) else cell for cell in row)


def _said(text: str) -> tuple[str, ...]:
    """Its lines, without the time of day."""
    return tuple(_TIME.sub("00:00", line) for line in text.splitlines() if line)
