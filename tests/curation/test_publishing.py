"""From the record to the book: what goes in, what stays out, and that any version can be made again."""

from __future__ import annotations

import json
import multiprocessing
import shutil
import sqlite3
from collections.abc import Callable
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from benchbot.book.place import leftovers
from benchbot.book.reader import Book
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import finish, publish, rebuild
from benchbot.errors import BookError
from benchbot.places import Home, knowledge_folder
from benchbot.procedures.loading import load_procedures
from benchbot.vocabulary.digest import digest_of

Write = Callable[..., Path]
TODAY = date(2026, 5, 4)


def bring(home: Home, path: Path, now: datetime) -> None:
    import_table(home, path, False, "curator", now)


def held(home: Home) -> dict[str, tuple[int, str]]:
    with Book.open(home.book) as book:
        vehicles = [number for make in range(1, 9) for number in book.vehicles_of_make(make, 99)]
        rows = book.specs(vehicles, ["caliper bracket bolt", "brake rotor", "axle nut"], TODAY)
        return {row.spec: (row.revision, row.value) for row in rows}


def test_only_verified_rows_speak_and_a_draft_silences_nothing(home: Home, table: Write, now: datetime) -> None:
    rear = {"position": "rear"}
    bring(home, table({}, rear, {"status": "draft"}, {"status": "withdrawn"}), now)
    report = publish(home, now)
    assert (report.version, report.rows, report.made) == (1, 2, True)
    assert held(home) == {"A1": (1, "105 N·m"), "A2": (1, "105 N·m")}
    again = {"value": "110 N·m", "checked_on": "2026-04-01"}
    bring(home, table(again, rear | {"status": "draft"}, {"status": "withdrawn"}), now)
    assert held(home) == {"A1": (1, "105 N·m"), "A2": (1, "105 N·m")}
    assert publish(home, now).version == 2
    assert held(home) == {"A1": (2, "110 N·m"), "A2": (1, "105 N·m")}
    bring(home, table(again, rear | {"status": "withdrawn"}, {"status": "withdrawn"}), now)
    assert publish(home, now).version == 3
    assert held(home) == {"A1": (2, "110 N·m")}


def test_withdrawing_all_silences_the_book(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}), now)
    publish(home, now)
    bring(home, table({"status": "withdrawn"}), now)
    assert publish(home, now).rows == 0
    assert held(home) == {}


def test_there_must_be_something_to_publish(home: Home, tmp_path: Path, now: datetime) -> None:
    with pytest.raises(BookError, match="no specs to publish"):
        publish(home, now)
    names = tmp_path / "names.csv"
    names.write_text("make,model,alias\nDrabent,Olix,oli\n", encoding="utf-8")
    bring(home, names, now)
    with pytest.raises(BookError, match="no specs to publish"):
        publish(home, now)
    assert not home.book.exists()


def test_nothing_new_makes_no_new_book(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}), now)
    first = publish(home, now)
    before = home.book.stat()
    second = publish(home, now + timedelta(days=1))
    assert (second.version, second.digest, second.made) == (first.version, first.digest, False)
    assert home.book.stat() == before


@pytest.mark.parametrize("loss", ["gone", "torn", "another file"])
def test_a_lost_book_is_made_again_as_it_was(home: Home, table: Write, now: datetime, loss: str) -> None:
    bring(home, table({}), now)
    first = publish(home, now)
    if loss == "gone":
        home.book.unlink()
    elif loss == "torn":
        home.book.write_bytes(home.book.read_bytes()[:9_000])
    else:
        home.book.write_bytes(b"no book")
    again = publish(home, now + timedelta(days=3))
    assert (again.version, again.digest, again.made) == (1, first.digest, True)
    with Book.open(home.book) as book:
        assert book.made_on == "2026-05-04"


def test_any_version_can_be_made_again(
    home: Home, table: Write, fleet: Write, tmp_path: Path, now: datetime, dump: Callable[[Path], list[str]]
) -> None:
    rows = {}
    steps = [
        fleet(tmp_path / "fleet.csv", 500),
        table({}, {"position": "rear"}),
        table({"value": "99 N·m"}, {"position": "rear", "status": "withdrawn"}, name="later.csv"),
    ]
    reports = []
    for path in steps:
        bring(home, path, now)
        reports.append(publish(home, now))
        rows[reports[-1].version] = dump(home.book)
    names = tmp_path / "names.csv"
    names.write_text("make,model,alias\nDrabent,Quilsund 3,the three\n", encoding="utf-8")
    bring(home, names, now)
    reports.append(publish(home, now))
    assert len({report.digest for report in reports}) == 4
    for report in reports[:3]:
        file = tmp_path / f"again-{report.version}.sqlite"
        again = rebuild(home, report.version, file)
        assert (again.digest, again.rows) == (report.digest, report.rows)
        assert dump(file) == rows[report.version]
    with pytest.raises(BookError, match="book 9 is not on record"):
        rebuild(home, 9, tmp_path / "never.sqlite")


def test_the_digest_does_not_hang_on_the_order_of_rows(tmp_path: Path, table: Write, now: datetime) -> None:
    digests = set()
    for number, changes in enumerate(
        ([{"id": "X1"}, {"id": "X2", "position": "rear"}], [{"id": "X2", "position": "rear"}, {"id": "X1"}])
    ):
        folder = tmp_path / f"home{number}"
        folder.mkdir()
        bring(Home(folder), table(*changes), now)
        digests.add(publish(Home(folder), now).digest)
    assert len(digests) == 1


def test_a_record_that_was_altered_is_noticed(home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    bring(home, table({}), now)
    publish(home, now)
    home.book.unlink()
    record = sqlite3.connect(home.record)
    record.execute("UPDATE spec_revision SET value = '999 N·m'")
    record.commit()
    record.close()
    with pytest.raises(BookError, match="rows of the record were altered"):
        publish(home, now)
    assert not home.book.exists()
    assert leftovers(home.book) == []
    with pytest.raises(BookError, match="comes out as"):
        rebuild(home, 1, tmp_path / "again.sqlite")


def test_what_a_killed_publishing_left_is_swept_up(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}), now)
    (home.folder / "book.sqlite.next-1").write_bytes(b"half a book")
    (home.folder / "book.sqlite.next-7").write_bytes(b"")
    publish(home, now)
    assert leftovers(home.book) == []
    assert held(home) == {"A1": (1, "105 N·m")}


def _publish(home: Home, now: datetime) -> None:
    publish(home, now)


def test_two_publishings_at_once_make_one_book(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}), now)
    context = multiprocessing.get_context("fork")
    both = [context.Process(target=_publish, args=(home, now)) for _ in range(3)]
    for one in both:
        one.start()
    for one in both:
        one.join()
    assert [one.exitcode for one in both] == [0, 0, 0]
    record = sqlite3.connect(home.record)
    assert record.execute("SELECT version, rows FROM book_version").fetchall() == [(1, 1)]
    record.close()
    assert held(home) == {"A1": (1, "105 N·m")}


def test_the_book_carries_vocabulary_and_shown_values(home: Home, table: Write, tmp_path: Path, now: datetime) -> None:
    words = tmp_path / "words.csv"
    words.write_text("term,said\nwheel nut,roundie\n", encoding="utf-8")
    bring(home, words, now)
    bring(home, table({"second_value": "77 lb-ft"}), now)
    publish(home, now)
    with Book.open(home.book) as book:
        vocabulary = book.vocabulary()
        assert any(
            phrase.words == ("roundie",) and phrase.means == ("wheel nut",) for phrase in vocabulary.component_phrases
        )
        assert book.vocabulary_digest == vocabulary.digest == digest_of(knowledge_folder())
        (row,) = book.specs([1], ["caliper bracket bolt"], TODAY)
        shown = json.loads(row.shown)
        assert (shown["source"], shown["second"], shown["primary"]) == ("105 N·m", "77 lb-ft", ["77 lb-ft"])
    bring_more = tmp_path / "more.csv"
    bring_more.write_text("term,said\nwheel nut,twirler\n", encoding="utf-8")
    bring(home, bring_more, now)
    assert publish(home, now).version == 2


def test_a_component_that_left_the_vocabulary_stops_the_publishing(
    home: Home, table: Write, tmp_path: Path, now: datetime
) -> None:
    bring(home, table({}), now)
    record = sqlite3.connect(home.record)
    record.execute("UPDATE spec_revision SET component_read = 'flux bolt'")
    record.commit()
    record.close()
    with pytest.raises(BookError, match="'flux bolt' is no component any more"):
        publish(home, now)
    assert not home.book.exists()
    bring(home, table({"status": "withdrawn"}), now)
    assert publish(home, now).rows == 0


def test_a_component_that_was_renamed_is_published_by_its_new_name(home: Home, table: Write, now: datetime) -> None:
    bring(home, table({}), now)
    record = sqlite3.connect(home.record)
    record.execute("UPDATE spec_revision SET component_read = 'bracket bolt'")
    record.commit()
    record.close()
    publish(home, now)
    assert held(home) == {"A1": (1, "105 N·m")}


def test_the_book_carries_the_procedures_and_a_change_in_them_makes_a_new_one(
    home: Home, table: Write, tmp_path: Path, now: datetime, monkeypatch: pytest.MonkeyPatch
) -> None:
    knowledge = tmp_path / "knowledge"
    shutil.copytree(knowledge_folder(), knowledge)
    monkeypatch.setattr("benchbot.curation.language.knowledge_folder", lambda: knowledge)
    bring(home, table({}), now)
    assert publish(home, now).version == 1
    with Book.open(home.book) as book:
        first = book.procedures()
        assert first == load_procedures(knowledge, book.vocabulary())
    file = knowledge / "procedures" / "wheel-fitting.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace("title: Wheel", "title: Every wheel", 1), encoding="utf-8")
    assert publish(home, now).version == 2 and not publish(home, now).made
    with Book.open(home.book) as book:
        second = book.procedures()
        assert book.version == 2 and second is not None and second != first
    # a publishing that was killed before the file was put in place leaves the first book, of the same rows
    assert rebuild(home, 1, tmp_path / "first.sqlite").version == 1
    shutil.copy(tmp_path / "first.sqlite", home.book)
    finish(home)
    with Book.open(home.book) as book:
        assert (book.version, book.procedures()) == (2, second)


def test_a_version_kept_before_there_were_procedures_is_made_again_without(
    home: Home, table: Write, now: datetime, tmp_path: Path
) -> None:
    bring(home, table({}), now)
    publish(home, now)
    record = sqlite3.connect(home.record)
    (body,) = record.execute("SELECT body FROM vocabulary").fetchone()
    record.execute("UPDATE vocabulary SET body = ?", (json.dumps(json.loads(body)["vocabulary"]),))
    record.commit()
    record.close()
    rebuild(home, 1, tmp_path / "before.sqlite")
    with Book.open(tmp_path / "before.sqlite") as book:
        assert book.procedures() is None and book.vocabulary().digest == digest_of(knowledge_folder())
