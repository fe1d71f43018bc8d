"""The path of an answer with the record on a real server: answers, questions, gaps, notes, and a server that goes."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from desk import NOW, TABLES, Chat, Clock, labels, reasons, shown
from throwaway import PASSWORD, Server, name_of

from benchbot.book.reader import Book
from benchbot.conversation.conversation import Conversation
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish
from benchbot.errors import RecordBusyError, RecordError
from benchbot.places import Home, demo_folder
from benchbot.records import notes
from benchbot.records import server as on_server
from benchbot.records.record import Record, open_record

FRONT = "12 ondrel front bracket bolt torque"
DROP = """
SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity
WHERE datname = current_database() AND pid <> pg_backend_pid() AND backend_type = 'client backend'
"""


@pytest.fixture
def talk(demo_home: Home) -> Iterator[Conversation]:
    opened = Conversation.open(demo_home, Clock())
    yield opened
    opened.close()
    assert not demo_home.record.exists()


@pytest.fixture
def chat(talk: Conversation) -> Chat:
    return Chat(talk, "chat 1")


def test_an_answer_is_on_record_with_the_revision_shown(chat: Chat, record: Record) -> None:
    assert shown(chat.say(FRONT, "m1")) == ["D0001"]
    ((asked, outcome, reply, at),) = record.rows("SELECT asked, outcome, reply, at FROM answer", {})
    assert (asked, outcome, json.loads(reply)) == (FRONT, "answer", ["D0001"])
    assert at.startswith("2026-11-25T09:00:00")
    assert record.rows("SELECT spec, revision FROM answer_spec", {}) == [("D0001", 1)]
    chat.say(FRONT, "m1")
    assert record.row("SELECT count(*) FROM answer", {}) == (1,), "a message that comes twice is answered once"


def test_choices_come_from_the_memory_on_the_server(chat: Chat, demo_home: Home) -> None:
    assert labels(chat.say("ondrel bracket bolt torque")) == ["2009-2013", "2014-2020"]
    with_another = Conversation.open(demo_home, Clock())
    other = Chat(with_another, chat.name)
    assert labels(other.press(2)) == ["front", "rear"]
    assert labels(other.say("rear")) == ["1.6", "2.0T"]
    with_another.close()
    assert shown(chat.press(2)) == ["D0073"]
    # the vehicle is still on the lift
    assert shown(chat.say("front slide pin torque"))


def test_gaps_of_one_meaning_are_one_meaning(chat: Chat, talk: Conversation, record: Record) -> None:
    assert reasons(chat.say("12 ondrel head bolt torque"))
    assert reasons(Chat(talk, "chat 2").say("2012 brackwell ondrel cylinder head bolt tq"))
    assert record.row("SELECT count(*), count(DISTINCT meaning) FROM gap_part", {}) == (2, 1)
    assert record.rows("SELECT state, waits FROM gap", {}) == [("open", 1), ("open", 1)]


def test_a_note_marks_the_row_until_it_is_ended(chat: Chat, record: Record) -> None:
    chat.say(FRONT)
    ((answer,),) = record.rows("SELECT answer FROM answer", {})
    number, fresh = notes.put(record, int(answer), "tester", None, NOW)
    assert fresh
    notes.say(record, number, "the sheet says 5 less")
    assert list(notes.questioned(record, [("D0001", 1)])) == ["D0001"]
    (note,) = notes.open_notes(record)
    assert note.said == "the sheet says 5 less"
    with record.writing() as store:
        assert notes.end(store, number, "kept", "looked at the sheet", "curator", NOW)
    assert notes.questioned(record, [("D0001", 1)]) == {}


def test_what_no_database_takes_does_not_stop_the_bot(chat: Chat, record: Record) -> None:
    chat.say("12 ondrel 100% \0 bolt :name \\ 'quoted' 你好", "m\0")
    ((asked,),) = record.rows("SELECT asked FROM answer", {})
    assert asked == "12 ondrel 100% \N{REPLACEMENT CHARACTER} bolt :name \\ 'quoted' 你好"
    assert record.seen(chat.name, "m\0") is not None


def test_the_book_is_the_same_as_from_a_file(demo_shop: Home, url: str, tmp_path: Path) -> None:
    home = Home(tmp_path)
    for name in TABLES:
        checked = import_table(home, demo_folder() / name, True, "test", NOW) if name == TABLES[0] else None
        assert checked is None or not checked.written
        assert import_table(home, demo_folder() / name, False, "test", NOW).written
    again = import_table(home, demo_folder() / TABLES[0], False, "test", NOW)
    assert (again.new, again.changed) == (0, 0)
    with Book.open(demo_shop.book) as ours:
        assert publish(home, NOW).digest == ours.digest


def test_looking_makes_no_record(server: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    url = server.database()
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", url)
    import_table(Home(tmp_path), demo_folder() / "vehicle_names.csv", True, "test", NOW)
    assert on_server.applied_on_server(url) is None


def test_after_the_server_dropped_us_the_next_question_is_answered(chat: Chat, server: Server, url: str) -> None:
    for _ in range(2):
        server.run(DROP, name_of(url))
        assert shown(chat.say(FRONT)) == ["D0001"]


def test_what_was_half_written_when_the_server_dropped_us_is_not_kept(record: Record, server: Server, url: str) -> None:
    put = "INSERT INTO change (author, at, why) VALUES (:who, '', '')"
    with pytest.raises(RecordBusyError), record.writing() as store:
        store.run(put, {"who": "lost"})
        server.run(DROP, name_of(url))
        store.run(put, {"who": "lost too"})
    with pytest.raises(RecordBusyError), record.writing() as store:
        store.run(put, {"who": "lost at the end"})
        server.run(DROP, name_of(url))
    with record.writing() as store:
        store.run(put, {"who": "kept"})
    assert record.rows("SELECT author FROM change", {}) == [("kept",)]


def test_a_writer_waits_for_the_other_and_not_for_ever(
    record: Record, url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    put = "INSERT INTO change (author, at, why) VALUES (:who, '', '')"
    begun, done = threading.Event(), threading.Event()

    def second() -> None:
        with open_record(url) as other:
            begun.set()
            with other.writing() as store:
                assert store.rows("SELECT author FROM change", {}) == [("first",)]
                store.run(put, {"who": "second"})
        done.set()

    waiting = threading.Thread(target=second)
    with record.writing() as store:
        waiting.start()
        assert begun.wait(5)
        assert not done.wait(0.3)
        store.run(put, {"who": "first"})
        monkeypatch.setattr(on_server, "BUSY_SECONDS", 0.1)
        with (
            open_record(url) as third,
            pytest.raises(RecordBusyError, match="out of reach or busy"),
            third.writing(),
        ):
            pass
    waiting.join(5)
    assert record.rows("SELECT author FROM change ORDER BY change", {}) == [("first",), ("second",)]


def test_no_error_tells_the_password_or_what_a_person_wrote(record: Record, url: str) -> None:
    with pytest.raises(RecordError) as told:
        record.row("SELECT nothing FROM gap WHERE question = :question", {"question": "my secret"})
    assert "my secret" not in str(told.value)
    put = "INSERT INTO seen_message (chat, message, answer) VALUES ('c', :message, 999)"
    with pytest.raises(RecordError, match="violates foreign key") as refused, record.writing() as store:
        store.run(put, {"message": "my secret"})
    assert "(999)" not in str(refused.value), "what the server adds repeats what stands in the row"
    for wrong in (url.replace("?host=", "?host=/nowhere"), url.replace("psycopg", "nodriver")):
        with pytest.raises(RecordError) as closed:
            open_record(wrong)
        assert PASSWORD not in str(closed.value)
