"""A wrong word or name is taken back: it counts no more from the next book on, and what it answered is listed."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import timedelta
from itertools import count
from pathlib import Path

import pytest
from desk import NOW, TABLES, Chat, Desk, brief, published

from benchbot.__main__ import main
from benchbot.curation import words_back
from benchbot.curation.importing import import_table
from benchbot.curation.publishing import publish, rebuild
from benchbot.curation.words import Grown, add_vehicle_name, add_word
from benchbot.curation.words_back import TakenBack
from benchbot.places import Home, demo_folder
from benchbot.records import own_words, revisions
from benchbot.records.record import Record, open_record

_chats = count(1)
WHO = "terminal cleo"
PART, SAID = "caliper bracket bolt", "zorblatt bolt"
ASKED = "12 brackwell ondrel front zorblatt bolt torque"


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path))
    return published(tmp_path, *(demo_folder() / name for name in TABLES))


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    with open_record(home) as opened:
        yield opened


def asking(home: Home, *texts: str) -> list[str]:
    """What each of the texts comes to, in one new chat of another bench."""
    desk = Desk(home)
    try:
        chat = Chat(desk.conversation, f"chat {next(_chats)}")
        return [brief(chat.say(text)) for text in texts]
    finally:
        desk.conversation.close()


def taken_back(record: Record, said: str) -> TakenBack:
    (word,) = words_back.find(record, said)
    done = words_back.take_back(record, word, WHO, "it was the other bolt", NOW)
    assert done is not None
    return done


def test_a_word_counts_no_more_from_the_next_book_on(home: Home, record: Record) -> None:
    assert isinstance(add_word(record, PART, SAID, WHO, NOW), Grown)
    publish(home, NOW)
    assert asking(home, ASKED) == ["answer D0001"]
    before = revisions.shop_words(record)
    taken_back(record, SAID)
    assert set(before) - set(revisions.shop_words(record)) == {(PART, SAID)}
    assert asking(home, ASKED) == ["answer D0001"]
    assert publish(home, NOW).made
    assert not asking(home, ASKED)[0].startswith("answer")
    assert publish(home, NOW).made is False
    why = record.rows("SELECT author, why FROM change ORDER BY change DESC LIMIT 1", {})
    told = "the shop does not say 'zorblatt bolt' for caliper bracket bolt any more: it was the other bolt"
    assert why == [(WHO, told)]


def test_a_name_counts_no_more_and_the_older_book_can_be_made_again(home: Home, record: Record, tmp_path: Path) -> None:
    add_vehicle_name(record, "Brackwell", "Ondrel", "zippyone", WHO, NOW)
    with_name = publish(home, NOW)
    asked = "12 zippyone front bracket bolt torque"
    assert asking(home, asked) == ["answer D0001"]
    taken_back(record, "zippyone")
    without = publish(home, NOW)
    assert (without.made, without.version) == (True, with_name.version + 1)
    assert not asking(home, asked)[0].startswith("answer")
    for version, finds in ((with_name.version, True), (without.version, False)):
        file = tmp_path / f"again{version}.sqlite"
        rebuild(home, version, file)
        assert (b"zippyone" in file.read_bytes()) is finds


def test_it_can_be_said_again_for_the_same_or_for_another(home: Home, record: Record) -> None:
    add_word(record, PART, SAID, WHO, NOW)
    taken_back(record, SAID)
    assert isinstance(add_word(record, "axle nut", SAID, WHO, NOW), Grown)
    taken_back(record, SAID)
    assert isinstance(add_word(record, PART, SAID, WHO, NOW), Grown)
    assert [one.means for one in words_back.find(record, SAID)] == [PART]
    taken_back(record, SAID)
    assert words_back.find(record, SAID) == []


def test_taken_back_twice_is_told_once(record: Record) -> None:
    add_word(record, PART, SAID, WHO, NOW)
    (word,) = words_back.find(record, SAID)
    assert words_back.take_back(record, word, WHO, "", NOW) is not None
    assert words_back.take_back(record, word, WHO, "", NOW) is None


@pytest.mark.parametrize(
    ("head", "line"),
    [("term,said", f"{PART},{SAID}"), ("make,model,alias", "Brackwell,Ondrel,zippyone")],
)
def test_an_older_table_does_not_bring_it_back(
    home: Home, record: Record, tmp_path: Path, head: str, line: str
) -> None:
    table = tmp_path / "older.csv"
    table.write_text(f"{head}\n{line}\n", encoding="utf-8")
    assert import_table(home, table, False, "test", NOW).new == 1
    taken_back(record, line.rsplit(",", 1)[1])
    again = import_table(home, table, False, "test", NOW)
    assert (again.new, len(again.notes)) == (0, 1)
    assert "was taken back here and is left out" in again.notes[0]
    assert words_back.find(record, line.rsplit(",", 1)[1]) == []


def test_the_answers_that_were_read_through_it_are_listed(home: Home, record: Record) -> None:
    add_word(record, PART, SAID, WHO, NOW)
    publish(home, NOW)
    asking(home, ASKED, "socket?", "12 ondrel axle nut torque", "12 ondrel front bracket bolt torque")
    through = ("ondrel front zorblattbolt torque", "2012", "thanks", "12 ondrel front bracket bolt socket")
    assert [came.split()[0] for came in asking(home, *through)] == ["choose", "answer", "other", "answer"]
    asking(home, "12 ondrel front zorblat bolt torque")
    asking(home, "12 ondrel front bracket bolt torque")
    read = taken_back(record, SAID).read
    assert sorted(one.asked for one in read) == sorted(
        [ASKED, "socket?", "2012", "12 ondrel front zorblat bolt torque"]
    )
    assert [one.at for one in read] == sorted((one.at for one in read), reverse=True)


def test_the_answers_for_a_vehicle_that_was_called_so(home: Home, record: Record) -> None:
    add_vehicle_name(record, "Brackwell", "Ondrel", "zippyone", WHO, NOW)
    publish(home, NOW)
    asking(home, "12 zippyone front bracket bolt torque", "socket", "12 ondrel front bracket bolt torque")
    assert {one.asked for one in taken_back(record, "zippyone").read} == {
        "12 zippyone front bracket bolt torque", "socket",
    }  # fmt: skip


@pytest.mark.parametrize(("days", "listed"), [(180, 1), (181, 0)])
def test_it_goes_back_so_many_days(home: Home, record: Record, days: int, listed: int) -> None:
    add_word(record, PART, SAID, WHO, NOW)
    publish(home, NOW)
    asking(home, ASKED)
    (word,) = words_back.find(record, SAID)
    assert len(words_back.read_through(record, word, NOW + timedelta(days=days))) == listed


def test_at_the_command_line(home: Home, record: Record, capsys: pytest.CaptureFixture[str]) -> None:
    add_word(record, PART, SAID, WHO, NOW)
    publish(home, NOW)
    asking(home, ASKED)
    assert main(["words", "list"]) == 0
    assert f"{SAID} = {PART} (part; {WHO}, 2026-11-25)" in capsys.readouterr().out
    assert main(["words", "take-back", SAID, "--by", "Cleo", "--why", "wrong bolt", "--json"]) == 0
    done = json.loads(capsys.readouterr().out)
    assert (done["said"], done["means"], done["kind"]) == (SAID, PART, "part")
    assert main(["words", "take-back", SAID, "--by", "Cleo"]) == 1
    assert "benchbot words list" in capsys.readouterr().err
    assert main(["words", "list", "--json"]) == 0
    assert SAID not in {one["said"] for one in json.loads(capsys.readouterr().out)}


def test_once_there_are_members_a_curator_must_do_it(
    home: Home, record: Record, capsys: pytest.CaptureFixture[str]
) -> None:
    from benchbot.people import invites
    from benchbot.people.register import People
    from benchbot.people.terms import Location

    add_word(record, PART, SAID, WHO, NOW)
    place = People(record).add_location("North", "telegram 1", NOW)
    assert isinstance(place, Location)
    for number, (name, role) in enumerate((("Ana", "technician"), ("Cleo", "curator"))):
        _, code = invites.make(record, place.number, role, 1, 1, "test", NOW)  # type: ignore[arg-type]
        invites.redeem(record, code, f"telegram {number + 5}", name, NOW)
    assert main(["words", "take-back", SAID, "--by", "Ana"]) == 1
    assert "curator" in capsys.readouterr().err
    assert SAID in {one.said for one in own_words.all_in_use(record)}
    assert main(["words", "take-back", SAID, "--by", "Cleo"]) == 0
