"""A turn as it goes on record: how it was read, what it showed, what was missing."""

from __future__ import annotations

import json
from dataclasses import asdict

from benchbot.book.reader import Book
from benchbot.conversation.meant import parts_of
from benchbot.conversation.steps import bare
from benchbot.outcomes import Outcome, Procedure, findings_of, missing_of
from benchbot.records.record import GapEntry
from benchbot.understanding.lexicon import Lexicon
from benchbot.understanding.reading import Reading


def shown_of(outcome: Outcome) -> tuple[tuple[str, int], ...]:
    """(spec, revision) of every row whose value is shown, each once."""
    return tuple(dict.fromkeys((finding.row.spec, finding.row.revision) for finding in findings_of(outcome)))


def gap_entry(outcome: Outcome, reading: Reading, memory: str | None, book: Book, lexicon: Lexicon) -> GapEntry | None:
    """What the book does not hold; None where nothing is missing. memory: the chat's, when the message came."""
    missing = missing_of(outcome)
    if not missing:
        return None
    # the words of a question about the work say nothing of the fastener that the step tightens
    about = bare(reading) if isinstance(outcome, Procedure) else reading
    detail = json.dumps([asdict(one) for one in missing], ensure_ascii=False)
    return GapEntry(missing[0].reason, detail, parts_of(missing, about, book, lexicon), memory)


def plain_reading(reading: Reading) -> str:
    """The reading as JSON: slots and words, without what can be looked up again."""
    plain = {
        "kind": reading.kind,
        "vehicle": reading.vehicle.said,
        "years": reading.years,
        "stated": [[one.key, one.value] for one in reading.stated],
        "asks": [[list(ask.components), list(ask.properties), list(ask.place.axles)] for ask in reading.asks],
        "left_over": reading.left_over,
        "unknown_part": reading.unknown_part,
        "words": [str(note) for note in reading.notes if note.how != "a mark"],
    }
    return json.dumps(plain, ensure_ascii=False)
