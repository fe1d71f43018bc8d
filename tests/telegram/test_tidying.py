"""What is cleared away now and then: all whose time is over, of every kind."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from parts import BOT, NOW, add, fresh_home, post, record_of

from benchbot.channels.telegram.service import _forget
from benchbot.desk.sheets import Parcel
from benchbot.records import arrivals, cards, expected, outbox
from benchbot.records.expected import Expected

COUNTS = {
    table: f"SELECT count(*) FROM {table}" for table in ("arrival", "sending", "card", "expected")
}  # fmt: skip


def test_whatever_is_over_is_cleared_away(tmp_path: Path) -> None:
    home = fresh_home(tmp_path)
    add(home, post("5"), post("5"))
    with record_of(home) as record:
        arrivals.keep(record, BOT, [(7, "5", "a question")], NOW)
        with record.writing() as store:
            arrivals.handled(store, BOT, 7, NOW)
        outbox.sent(record, 1, "900", NOW)
        for number in (1, 2):
            cards.put(record, "c", "p", "page", str(number), {}, NOW, NOW + timedelta(hours=1))
        expected.put(record, "c", "p", Expected("name", {}), NOW + timedelta(minutes=10))

        def counts() -> dict[str, int]:
            return {table: record.rows(statement, {})[0][0] for table, statement in COUNTS.items()}

        before = {"arrival": 1, "sending": 2, "card": 2, "expected": 1}
        _forget(record, NOW + timedelta(minutes=9))
        assert counts() == before
        _forget(record, NOW + timedelta(hours=2))
        assert counts() == before | {"card": 1, "expected": 0}
        _forget(record, NOW + timedelta(days=31))
        assert counts() == {"arrival": 0, "sending": 1, "card": 1, "expected": 0}


def test_a_picture_that_may_not_have_arrived_keeps_its_code_for_a_day(tmp_path: Path) -> None:
    home = fresh_home(tmp_path)
    add(home, Parcel("picture", "5", code="A-CODE"), post("5"), post("5"))
    with record_of(home) as record:
        for number in (1, 2):
            outbox.ended(record, number, "unsure", "timed out", NOW)
        _forget(record, NOW + timedelta(hours=23))
        assert outbox.unsure(record, 1) is not None
        _forget(record, NOW + timedelta(hours=25))
        assert outbox.unsure(record, 1) is None
        assert outbox.unsure(record, 2) is not None
