"""benchbot specs for single rows: a draft from the table to the book, a doubt to its end, each step told."""

from __future__ import annotations

import argparse
import json
import subprocess
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from benchbot.commands import gaps, job, people, rows, specs
from benchbot.conversation.conversation import Conversation
from benchbot.curation.submitting import Submitted, submit
from benchbot.people import invites
from benchbot.people.register import People
from benchbot.people.terms import Location, Role
from benchbot.places import Home
from benchbot.records import notes, revisions
from benchbot.records.record import open_record

NOW = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
TORQUE = "16 ondrel front caliper bracket bolt torque"
Run = Callable[..., "subprocess.CompletedProcess[str]"]
HEADER = "id,make,model,year_from,year_to,component,position,property,value,second_value,source,source_ref,status\n"
DRAFT = (
    "N1,Brackwell,Ondrel,2014,2020,caliper slide pin bolt,front,torque,30 N·m,{second},Invented sheet 14,p. 9,draft\n"
)


@pytest.fixture
def run(shop: Home, capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str, str]]:
    parser = argparse.ArgumentParser(prog="benchbot")
    commands = parser.add_subparsers(required=True, dest="command")
    specs.add_parser(commands)
    people.add_parser(commands)
    room = {"specs": specs, "people": people}

    def ran(*words: object) -> tuple[int, str, str]:
        args = parser.parse_args([str(word) for word in words])
        code = room[args.command].run(args, NOW)
        out, err = capsys.readouterr()
        return code, out, err

    return ran


@pytest.fixture
def draft(shop: Home, tmp_path: Path, run: Callable[..., tuple[int, str, str]]) -> Callable[..., None]:
    def bring(second: str = "") -> None:
        table = tmp_path / "drafts.csv"
        table.write_text(HEADER + DRAFT.format(second=second), encoding="utf-8")
        assert run("specs", "import", table, "--by", "Ana Orlik")[0] == 0

    return bring


def test_a_draft_waits_is_approved_and_has_a_history(run: Callable[..., Any], draft: Callable[..., None]) -> None:
    assert run("specs", "waiting") == (0, "no row waits for approval\n", "")
    draft()
    code, out, _ = run("specs", "waiting")
    assert (code, out) == (
        0,
        "N1 revision 1, 2026-03-02T08:00 imported by Ana Orlik: 2014-2020 Brackwell Ondrel, "
        "front caliper slide pin bolt torque: 30 N·m\n",
    )
    code, _, err = run("specs", "approve", "N1", "--by", "ana orlik")
    assert code == 1 and err.startswith("N1: You wrote this row yourself") and "one-person allow" in err
    code, _, err = run("specs", "approve", "N1", "--revision", "4", "--by", "Ben Tarrow")
    assert code == 1 and "it is at revision 1 (draft), you looked at 4" in err
    code, out, err = run("specs", "approve", "N1", "--by", "Ben Tarrow")
    assert (code, out) == (0, "N1 revision 2 is verified; it answers after: benchbot specs publish\n"), err
    code, out, _ = run("specs", "history", "N1")
    lines = out.splitlines()
    assert lines[0] == "N1 revision 1, draft, 2026-03-02T08:00 by Ana Orlik (import of drafts.csv)"
    assert "  value: 30 N·m" in lines
    assert "  approved 2026-03-02T08:00 by Ben Tarrow" in lines
    assert lines[-4:] == [
        "N1 revision 2, verified, 2026-03-02T08:00 by ben tarrow (approved revision 1)",
        "  checked_by: Ben Tarrow",
        "  checked_on: 2026-03-02",
        "  status: draft → verified",
    ]
    assert run("specs", "history", "N9")[0] == 1


def test_lists_for_programs(run: Callable[..., Any], draft: Callable[..., None]) -> None:
    draft()
    (one,) = json.loads(run("specs", "waiting", "--json")[1])
    assert (one["spec"], one["revision"], one["before"]) == ("N1", 1, None)
    assert ["value", "", "30 N·m"] in one["changes"]
    (step,) = json.loads(run("specs", "history", "N1", "--json")[1])
    assert (step["status"], step["author"], step["one_person"]) == ("draft", "Ana Orlik", False)
    assert json.loads(run("specs", "questioned", "--json")[1]) == []


def test_a_warning_is_let_pass_with_a_reason(run: Callable[..., Any], draft: Callable[..., None]) -> None:
    draft("23.0 lb-ft")
    code, _, err = run("specs", "approve", "N1", "--by", "Ben Tarrow")
    assert code == 1 and err.startswith("N1: two units: ") and "--reason" in err
    code, _, err = run("specs", "approve", "N1", "--by", "Ben Tarrow", "--reason", "two units=printed so on p. 9")
    assert code == 0, err
    assert "because: printed so on p. 9" in run("specs", "history", "N1")[1]
    for wrong in ("two units", "units=printed", "two units= "):
        with pytest.raises(SystemExit) as ended:
            run("specs", "approve", "N1", "--reason", wrong)
        assert ended.value.code == 2


def test_sent_back_and_withdrawn(run: Callable[..., Any], draft: Callable[..., None]) -> None:
    draft()
    assert run("specs", "send-back", "N1", "which", "page?", "--by", "Ben Tarrow") == (
        0,
        "N1 revision 1 is sent back to Ana Orlik\n",
        "",
    )
    assert run("specs", "waiting")[1] == "no row waits for approval\n"
    assert "  sent back 2026-03-02T08:00 by terminal ben tarrow: which page?" in run("specs", "history", "N1")[1]
    assert run("specs", "withdraw", "F0001", "the", "sheet", "is", "wrong")[0] == 0
    assert run("specs", "withdraw", "F0001", "again")[0] == 1
    assert "F0001 revision 2, withdrawn" in run("specs", "history", "F0001")[1]
    assert run("specs", "withdraw", "N1", "nothing waits", "--draft")[0] == 1


def test_only_the_change_is_taken_back(run: Callable[..., Any], draft: Callable[..., None]) -> None:
    draft()
    code, out, _ = run("specs", "withdraw", "N1", "wrong", "car", "--draft")
    assert (code, out) == (0, "N1 revision 1 waits no more; what answers stays as it is\n")


def test_one_person(run: Callable[..., Any], draft: Callable[..., None]) -> None:
    assert "needs a second person" in run("people", "one-person")[1]
    assert "checked by one person" in run("people", "one-person", "allow")[1]
    draft()
    code, out, _ = run("specs", "approve", "N1", "--by", "Ana Orlik")
    assert (code, out.partition(";")[0]) == (0, "N1 revision 2 is verified, checked by one person")
    assert "revision 2, verified, checked by one person" in run("specs", "history", "N1")[1]
    assert "needs a second person" in run("people", "one-person", "forbid")[1]


def members(shop: Home) -> None:
    """Olga owns the shop, Cora curates, Ted is a technician."""
    with open_record(shop) as record:
        register = People(record)
        place = register.add_location("North", "telegram 1", NOW)
        assert isinstance(place, Location)
        roles: tuple[tuple[str, Role], ...] = (("Olga", "owner"), ("Cora", "curator"), ("Ted", "technician"))
        for number, (name, role) in enumerate(roles, 50):
            _, code = invites.make(record, place.number, role, 1, 1, "test", NOW)
            invites.redeem(record, code, f"telegram {number}", name, NOW)
        register.remove("telegram 1", place.number, "test", NOW)


@pytest.mark.parametrize(
    "words",
    [
        ("specs", "approve", "N1"),
        ("specs", "send-back", "N1", "which page?"),
        ("specs", "withdraw", "F0001", "recalled"),
        ("specs", "withdraw", "N1", "no", "--draft"),
        ("specs", "settle", "1", "right", "looked"),
        ("specs", "publish", "--accept", "split"),
    ],
)
def test_once_there_are_members_the_name_must_be_of_one_who_may(
    shop: Home, run: Callable[..., Any], draft: Callable[..., None], words: tuple[str, ...]
) -> None:
    draft()
    members(shop)
    before = run("specs", "history", "N1"), run("specs", "history", "F0001")
    for name in ("Ted", "Nobody", ""):
        code, _, err = run(*words, *(("--by", name) if name else ()))
        assert code == 1 and "is not a curator or owner of this shop; give --by NAME of one of: Olga, Cora" in err
    assert (run("specs", "history", "N1"), run("specs", "history", "F0001")) == before
    code, _, err = run(*words, "--by", " cora ")
    assert "is not a curator" not in err
    assert code == (1 if "settle" in words else 0), err


def test_one_person_is_for_an_owner_to_allow(shop: Home, run: Callable[..., Any]) -> None:
    members(shop)
    for name in ("Cora", "Ted"):
        code, _, err = run("people", "one-person", "allow", "--by", name)
        assert code == 1 and "is not an owner of this shop; give --by NAME of one of: Olga" in err
    assert "needs a second person" in run("people", "one-person")[1]
    assert "checked by one person" in run("people", "one-person", "allow", "--by", "OLGA")[1]


def test_what_was_handed_in_is_listed_before_what_a_table_left(
    shop: Home, run: Callable[..., Any], draft: Callable[..., None]
) -> None:
    draft()
    with open_record(shop) as record:
        newest = revisions.newest(record, "N1")
        assert newest is not None
        cells = newest.cells | {"id": "", "model": "Ondrel 9"}
        assert isinstance(submit(record, cells, "terminal ana", "handed in for gap 1", NOW, {}), Submitted)
    first, second = run("specs", "waiting")[1].splitlines()
    assert " by ana: " in first and "N1" in second and "imported by Ana Orlik" in second


def test_a_name_is_one_person_however_it_is_spelt(shop: Home) -> None:
    # a capital sharp s has two small letters: value from memory of the Unicode case folding table
    for spelt in ("Ana  Groß", "ana GROSS"):
        assert gaps._author(argparse.Namespace(by=spelt)) == "terminal ana gross"
        assert job._named(spelt).person == "terminal ana gross"
        with open_record(shop) as record:
            assert rows._who(record, spelt)[0] == "terminal ana gross"


def test_a_doubt_is_shown_and_settled(shop: Home, run: Callable[..., Any]) -> None:
    assert run("specs", "questioned") == (0, "no answer is questioned\n", "")
    with Conversation.open(shop, lambda: NOW) as conversation:
        turn = conversation.say("telegram 7", "telegram 7", TORQUE)
        number, _ = notes.put(conversation.record, turn.answer, "telegram 7", None, NOW)
        notes.say(conversation.record, number, "the plate says 70")
    code, out, _ = run("specs", "questioned")
    assert (code, out.splitlines()) == (
        0,
        [
            f"note {number}, 2026-03-02T08:00 by telegram 7: 2014-2020 Brackwell Ondrel, "
            "front caliper bracket bolt torque: 88 lb-ft (F0001 revision 1)",
            f"  asked: {TORQUE}",
            "  said: the plate says 70",
        ],
    )
    assert run("specs", "settle", number, "right", "p.", "1", "says", "88")[1] == f"note {number} is settled: right\n"
    assert run("specs", "settle", number, "right", "again")[0] == 1
    with open_record(shop) as record:
        assert notes.open_notes(record) == []


def test_a_program_that_asks_in_batch_sees_the_mark_in_the_text_alone(
    shop: Home, benchbot: Run, tmp_path: Path
) -> None:
    questions = tmp_path / "questions.txt"
    questions.write_text(f"{TORQUE}\n", encoding="utf-8")

    def asked() -> dict[str, Any]:
        done = benchbot("ask", "--batch", str(questions))
        plain: dict[str, Any] = json.loads(done.stdout)
        return plain

    before = asked()
    with open_record(shop) as record:
        notes.put(record, 1, "telegram 7", None, NOW)
    after = asked()
    assert list(after) == list(before)
    text = after.pop("text")
    assert "Questioned on 2026-03-02, check before use." in text.splitlines()
    assert text.replace("Questioned on 2026-03-02, check before use.\n", "") == before.pop("text")
    assert after == before


def test_through_the_real_command(shop: Home, benchbot: Run) -> None:
    assert "no row waits for approval" in benchbot("specs", "waiting").stdout
    assert "second person" in benchbot("people", "one-person").stdout
    wrong = benchbot("specs", "approve", "Z9")
    assert (wrong.returncode, wrong.stderr.startswith("Z9: There is no row Z9.")) == (1, True)
