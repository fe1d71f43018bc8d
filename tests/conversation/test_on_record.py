"""What is put on record of a turn, and that it is there before the reply is given back."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from desk import NOW, Chat, Desk, brief, shown

from benchbot.conversation import conversation as turns
from benchbot.conversation.conversation import VEHICLE_KEPT
from benchbot.conversation.past import Past
from benchbot.errors import RecordError
from benchbot.places import Home
from benchbot.records.record import Entry, Record


@pytest.fixture
def own_desk(demo_shop: Home, tmp_path: Path) -> Iterator[Desk]:
    """A desk whose record nobody else writes to."""
    (tmp_path / "shop").mkdir()
    home = Home(tmp_path / "shop")
    shutil.copy(demo_shop.book, home.book)
    desk = Desk(home)
    yield desk
    desk.conversation.close()


def rows(desk: Desk, table: str) -> list[dict[str, Any]]:
    """Every row of a table of the record, read on a connection of its own."""
    with closing(sqlite3.connect(f"file:{desk.home.record}?mode=ro", uri=True)) as connection:
        connection.row_factory = sqlite3.Row
        return [dict(row) for row in connection.execute(f"SELECT * FROM {table} ORDER BY 1")]


def test_an_answer_is_on_record_with_the_revision_shown(own_desk: Desk) -> None:
    chat = own_desk.chat()
    text = "12 ondrel front bracket bolt torque"
    assert shown(chat.say(text)) == ["D0001"]
    (answer,) = rows(own_desk, "answer")
    assert (answer["chat"], answer["person"], answer["asked"], answer["outcome"]) == (
        chat.name,
        "tester",
        text,
        "answer",
    )
    assert answer["at"].startswith("2026-11-25T09:00:00")
    assert answer["book_version"] == own_desk.conversation.book.version
    assert json.loads(answer["reply"]) == ["D0001"]
    assert rows(own_desk, "answer_spec") == [{"answer": answer["answer"], "spec": "D0001", "revision": 1}]
    assert rows(own_desk, "gap") == []


def test_the_reading_is_on_record_word_by_word(own_desk: Desk) -> None:
    own_desk.ask("12 ondrel frt bracket bolt tq")
    reading = json.loads(rows(own_desk, "answer")[0]["reading"])
    assert (reading["vehicle"], reading["years"], reading["kind"]) == ("ondrel", [2012], "question")
    assert reading["asks"] == [[["caliper bracket bolt"], ["torque"], ["front"]]]
    assert [word.partition(":")[0] for word in reading["words"]] == ["12", "ondrel", "frt", "bracket", "bolt", "tq"]


def test_two_values_are_two_rows_of_one_answer(own_desk: Desk) -> None:
    assert shown(own_desk.ask("12 ondrel front bracket bolt torque and socket")) == ["D0001", "D0002"]
    assert [(row["answer"], row["spec"]) for row in rows(own_desk, "answer_spec")] == [(1, "D0001"), (1, "D0002")]


def test_a_gap_is_on_record_with_its_question_and_reason(own_desk: Desk) -> None:
    turn = own_desk.ask("12 ondrel head bolts")
    (gap,) = rows(own_desk, "gap")
    assert (gap["gap"], gap["question"], gap["reason"], gap["state"]) == (
        turn.gap,
        "12 ondrel head bolts",
        "component not held",
        "open",
    )
    (missing,) = json.loads(gap["detail"])
    assert missing["subject"]["component"] == "cylinder head bolt"
    assert (missing["subject"]["make"], missing["subject"]["model"], missing["subject"]["years"]) == (
        "Brackwell",
        "Ondrel",
        [2012],
    )
    assert rows(own_desk, "answer")[0]["outcome"] == "gap"
    assert rows(own_desk, "answer_spec") == []


def test_what_is_missing_beside_an_answer_is_a_gap_of_its_own(own_desk: Desk) -> None:
    turn = own_desk.ask("12 ondrel front and rear rotor min")
    (gap,) = rows(own_desk, "gap")
    assert (shown(turn), turn.gap, gap["reason"]) == (["D0005"], gap["gap"], "position not held")
    assert [row["spec"] for row in rows(own_desk, "answer_spec")] == ["D0005"]


@pytest.mark.parametrize(
    ("text", "outcome"),
    [
        ("ondrel bracket bolt torque", "choose"),
        ("thanks", "other"),
        ("108 nm to ft lbs", "calculation"),
        ("12 ondrel", "other"),
        ("zxqv blorp", "other"),
        ("x" * 5000, "other"),
    ],
)
def test_every_other_outcome_is_on_record_too(own_desk: Desk, text: str, outcome: str) -> None:
    own_desk.ask(text)
    (answer,) = rows(own_desk, "answer")
    assert (answer["outcome"], answer["asked"]) == (outcome, text[:4000])
    assert rows(own_desk, "answer_spec") == rows(own_desk, "gap") == []


def test_a_pressed_choice_is_a_turn_of_its_own(own_desk: Desk) -> None:
    chat = own_desk.chat()
    chat.say("12 ondrel bracket bolt torque")
    chat.press(1)
    assert [(row["asked"], row["outcome"]) for row in rows(own_desk, "answer")] == [
        ("12 ondrel bracket bolt torque", "choose"),
        ("1", "answer"),
    ]


def test_the_turn_is_on_record_before_it_is_worded(own_desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[int] = []

    def compose(*told: Any) -> Any:
        seen.append(len(rows(own_desk, "answer")))
        return real(*told)

    real = turns.compose
    monkeypatch.setattr(turns, "compose", compose)
    own_desk.ask("12 ondrel front bracket bolt torque")
    own_desk.ask("12 ondrel head bolts")
    assert seen == [1, 2]


def test_what_cannot_be_put_on_record_is_not_answered(own_desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    def put(self: Record, entry: Entry) -> int | None:
        raise RecordError("the disk is full; make room and ask again")

    chat = own_desk.chat()
    with monkeypatch.context() as broken:
        broken.setattr(Record, "put", put)
        with pytest.raises(RecordError, match="the disk is full"):
            chat.say("12 ondrel front bracket bolt torque")
    assert rows(own_desk, "answer") == []
    assert brief(chat.say("socket?")) == "choose component"


@pytest.mark.parametrize(
    ("text", "outcome", "gaps"),
    [
        ("12 ondrel front bracket bolt torque", "answer D0001", 0),
        ("12 ondrel head bolts", "gap component not held", 1),
        ("ondrel bracket bolt torque", "choose year", 0),
    ],
)
def test_a_message_that_comes_twice_is_one_row(own_desk: Desk, text: str, outcome: str, gaps: int) -> None:
    chat = own_desk.chat()
    first, again = chat.say(text, message="m1"), chat.say(text, message="m1")
    assert brief(first) == brief(again) == outcome
    assert first.gap == again.gap
    assert [len(rows(own_desk, table)) for table in ("answer", "gap", "seen_message")] == [1, gaps, 1]


def test_a_message_that_comes_again_later_changes_nothing(own_desk: Desk) -> None:
    chat = own_desk.chat()
    chat.say("12 ondrel front bracket bolt torque", message="m1")
    chat.say("16 wendla front bracket bolt", message="m2")
    chat.say("12 ondrel front bracket bolt torque", message="m1")
    assert brief(chat.say("torque?", message="m3")) == "answer D0898"
    assert len(rows(own_desk, "answer")) == 3


def test_the_same_words_under_another_number_or_in_another_chat_are_new(own_desk: Desk) -> None:
    one, other = own_desk.chat(), own_desk.chat()
    for chat, message in ((one, "m1"), (one, "m2"), (other, "m1"), (one, None), (one, None)):
        chat.say("12 ondrel front bracket bolt torque", message=message)
    assert len(rows(own_desk, "answer")) == 5


def test_a_typed_choice_that_comes_twice_is_one_row(own_desk: Desk) -> None:
    chat = own_desk.chat()
    chat.say("12 ondrel bracket bolt torque", message="m1")
    assert shown(chat.say("1", message="m2")) == ["D0001"]
    chat.say("1", message="m2")
    assert len(rows(own_desk, "answer")) == 2
    assert shown(chat.say("socket?", message="m3")) == ["D0002"]


def state(desk: Desk, chat: Chat) -> Past:
    (row,) = [row for row in rows(desk, "chat_state") if row["chat"] == chat.name]
    return Past.from_text(row["state"])


def test_the_memory_of_a_chat_is_a_row_with_its_end(own_desk: Desk) -> None:
    chat = own_desk.chat()
    chat.say("18 ondrel 2.0t front bracket bolt socket")
    (row,) = rows(own_desk, "chat_state")
    assert row["expires_at"].startswith((NOW + VEHICLE_KEPT).isoformat()[:19])
    past = state(own_desk, chat)
    assert (past.vehicles, past.years, past.answered) == ((("Brackwell", "Ondrel"),), (2018,), True)
    assert [(one.key, one.value) for one in past.stated] == [("engine", "2.0T")]
    assert past.asks[0].place.axles == ("front",)
    assert Past.from_text(past.to_text()) == past


def test_a_chat_goes_on_in_another_process(own_desk: Desk) -> None:
    chat = own_desk.chat()
    chat.say("12 ondrel bracket bolt torque")
    own_desk.conversation.close()
    again = Desk(own_desk.home, own_desk.clock)
    again.clock.moment = NOW + timedelta(hours=1)
    there = Chat(again.conversation, chat.name)
    assert shown(there.press(1)) == ["D0001"]
    assert shown(there.say("socket?")) == ["D0002"]
    again.conversation.close()


def test_a_vehicle_that_left_the_book_is_asked_again(own_desk: Desk) -> None:
    chat = own_desk.chat()
    chat.say("12 ondrel front bracket bolt torque")
    past = state(own_desk, chat)
    with closing(sqlite3.connect(own_desk.home.record)) as connection:
        gone = past.to_text().replace("Ondrel", "Gone")
        connection.execute("UPDATE chat_state SET state = ? WHERE chat = ?", (gone, chat.name))
        connection.commit()
    assert brief(chat.say("front slide pin bolt")) == "choose vehicle"
