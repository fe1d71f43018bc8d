"""The command `benchbot people`: the first owner's way in, and looking after members from the machine itself."""

from __future__ import annotations

import argparse
import json
import re
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from io import BytesIO
from pathlib import Path

import pytest

from benchbot.commands import people as command
from benchbot.people import known_bot
from benchbot.people.invites import make, open_invites, redeem
from benchbot.people.register import People
from benchbot.people.terms import Joined, Location
from benchbot.places import Home
from benchbot.records.record import Record, open_record

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)
CODE = re.compile(r"^  ([0-9A-Z]{5}-[0-9A-Z]{5}-[0-9A-Z]{5})$", re.MULTILINE)

Run = Callable[..., int]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path / "home"))
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    (tmp_path / "home").mkdir()
    return Home(tmp_path / "home")


@pytest.fixture
def run(home: Home) -> Run:
    parser = argparse.ArgumentParser(prog="benchbot")
    command.add_parser(parser.add_subparsers(required=True))

    def ran(*words: object, now: datetime = NOW) -> int:
        return command.run(parser.parse_args(["people", *map(str, words)]), now)

    return ran


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    with open_record(home) as opened:
        yield opened


@pytest.fixture
def eastern(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The machine's clock is five hours behind UTC."""
    monkeypatch.setenv("TZ", "EST5")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def let_in(record: Record, location: int, person: str, name: str, role: str = "technician") -> None:
    _, code = make(record, location, role, 1, 1, "test", NOW)  # type: ignore[arg-type]
    assert isinstance(redeem(record, code, person, name, NOW), Joined)


def test_the_first_owner_gets_in(run: Run, record: Record, capsys: pytest.CaptureFixture[str], eastern: None) -> None:
    assert run("invite", "--role", "owner", "--bot", "@example_bot") == 0
    out, err = capsys.readouterr()
    assert err == ""
    (code,) = CODE.findall(out)
    assert out == (
        "Location “Main shop” made; its owner can rename it in the chat.\n"
        "Invite for an owner of Main shop:\n"
        "\n"
        f"  {code}\n"
        f"  https://t.me/example_bot?start={code}\n"
        f"  At a terminal of this machine: benchbot chat --as NAME, and there: /start {code}\n"
        "\n"
        "It works once, until 08 March 2026, 03:00 EST.\n"
        "It is shown this once only, and whoever has it gets in.\n"
    )
    came = redeem(record, code, "telegram 11", "Ana Tolvane", NOW)
    assert isinstance(came, Joined)
    assert (came.location.name, came.role) == ("Main shop", "owner")


def test_without_a_bot_known_the_code_is_to_be_sent(run: Run, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("invite", "--role", "technician") == 0
    out, _ = capsys.readouterr()
    assert CODE.findall(out)
    assert "Open the bot and send it this code." in out
    assert "t.me" not in out


def test_the_bot_that_last_ran_is_linked_to(run: Run, home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    known_bot.save(home, "4101", "example_bot")
    assert run("invite", "--role", "technician") == 0
    assert "https://t.me/example_bot?start=" in capsys.readouterr().out
    assert run("invite", "--role", "technician", "--bot", "https://t.me/other_bot") == 0
    assert "https://t.me/other_bot?start=" in capsys.readouterr().out


def test_a_damaged_word_of_the_bot_is_told_before_anything_is_made(
    run: Run, home: Home, record: Record, capsys: pytest.CaptureFixture[str]
) -> None:
    (home.folder / "bot.json").write_text("{", encoding="utf-8")
    assert run("invite", "--role", "owner") == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "bot.json" in err and "delete it" in err
    assert People(record).locations() == ()
    assert run("invite", "--role", "owner", "--bot", "example_bot") == 0


def test_an_invite_for_many(run: Run, record: Record, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("invite", "--role", "technician", "--uses", 20, "--days", 30) == 0
    out, _ = capsys.readouterr()
    assert "Invite for a technician of Main shop" in out
    assert "It works for 20 people, until" in out
    (invite,) = open_invites(record, 1, NOW)
    assert (invite.uses_left, invite.expires_at) == (20, NOW + timedelta(days=30))


def test_the_first_location_may_be_named(run: Run, record: Record, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("invite", "--role", "owner", "--location", "North shop") == 0
    assert "Location “North shop” made" in capsys.readouterr().out
    assert run("invite", "--role", "owner") == 0
    assert run("invite", "--role", "curator", "--location", "NORTH shop") == 0
    out, _ = capsys.readouterr()
    assert "made" not in out
    assert out.count("of North shop:") == 2
    assert [location.name for location in People(record).locations()] == ["North shop"]


@pytest.mark.parametrize("name", ["", " ", "x" * 61, "a\x1b[2Jb", "\u202eabc", "\udcff"])
def test_a_location_name_that_is_not_fit_makes_nothing(
    run: Run, record: Record, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    assert run("invite", "--role", "owner", "--location", name) == 1
    out, err = capsys.readouterr()
    assert (out, err) == ("", "Give a name of 1 to 60 characters that can all be seen.\n")
    assert People(record).locations() == ()


def test_of_several_locations_one_has_to_be_named(run: Run, record: Record, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("North shop", "South shop"):
        assert isinstance(People(record).add_location(name, "telegram 11", NOW), Location)
    assert run("invite", "--role", "technician") == 1
    assert run("invite", "--role", "technician", "--location", "West shop") == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err == (
        "say which one with --location: North shop, South shop\n"
        "there is no location 'West shop'; there are: North shop, South shop\n"
    )
    assert run("invite", "--role", "technician", "--location", "south shop") == 0
    assert "of South shop:" in capsys.readouterr().out


def test_a_page_for_the_wall(run: Run, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    import zxingcpp
    from PIL import Image

    file = tmp_path / "wall.png"
    assert run("invite", "--role", "technician", "--bot", "example_bot", "--picture", file) == 0
    out, _ = capsys.readouterr()
    (code,) = CODE.findall(out)
    assert out.endswith(f"The page for the wall is in {file}\n")
    with Image.open(BytesIO(file.read_bytes())) as picture:
        read = [found.text for found in zxingcpp.read_barcodes(picture)]
    assert read == [f"https://t.me/example_bot?start={code}"]


def test_no_page_without_a_link(run: Run, tmp_path: Path, record: Record, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("invite", "--role", "technician", "--picture", tmp_path / "wall.png") == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "add --bot NAME" in err
    assert People(record).locations() == ()
    assert not (tmp_path / "wall.png").exists()


def test_a_page_that_cannot_be_written_does_not_cost_the_code(benchbot: Callable[..., subprocess.CompletedProcess[str]],
                                                              home: Home) -> None:  # fmt: skip
    done = benchbot("people", "invite", "--role", "owner", "--bot", "example_bot", "--picture", "/nowhere/at/all.png")
    assert done.returncode == 1
    assert CODE.findall(done.stdout)
    assert "/nowhere/at/all.png" in done.stderr
    assert not CODE.search(done.stderr)
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["invite"],
        ["invite", "--role", "boss"],
        ["invite", "--role", "owner", "--uses", "0"],
        ["invite", "--role", "owner", "--uses", "101"],
        ["invite", "--role", "owner", "--days", "366"],
        ["invite", "--role", "owner", "--days", "1.5"],
        ["invite", "--role", "owner", "--uses", "٣"],
        ["invite", "--role", "owner", "--bot", "a b"],
        ["remove", "telegram 11"],
        ["add"],
    ],
    ids=str,
)
def test_wrong_usage_ends_with_2(run: Run, words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as end:
        run(*words)
    assert end.value.code == 2


def test_nobody_yet(run: Run, record: Record, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list") == 1
    assert run("locations") == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("benchbot people invite --role owner") == 2
    assert run("list", "--json") == 0
    assert json.loads(capsys.readouterr().out) == []
    People(record).open_first("Main shop", NOW)
    assert run("list") == 1
    assert run("locations") == 0
    assert capsys.readouterr().out == "Main shop: nobody yet; units source, language en, 4 h on the lift\n"


@pytest.fixture
def two_shops(record: Record) -> tuple[Location, Location]:
    people = People(record)
    north, south = (people.add_location(name, "telegram 11", NOW) for name in ("North shop", "South shop"))
    assert isinstance(north, Location) and isinstance(south, Location)
    people.rename_person("telegram 11", "Odile Brenn")
    let_in(record, north.number, "telegram 22", "Ana <Tolvane> 🔧")
    let_in(record, north.number, "telegram 33", "Bo\u202e\x1b[2J")
    let_in(record, south.number, "telegram 22", "Ana <Tolvane> 🔧", "curator")
    return north, south


def test_the_list(run: Run, two_shops: object, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("list") == 0
    assert capsys.readouterr().out.splitlines() == [
        "North shop:",
        "  owner       Odile Brenn (telegram 11), since 2026-03-01",
        "  technician  Ana <Tolvane> 🔧 (telegram 22), since 2026-03-01",
        "  technician  Bo [2J (telegram 33), since 2026-03-01",
        "South shop:",
        "  owner       Odile Brenn (telegram 11), since 2026-03-01",
        "  curator     Ana <Tolvane> 🔧 (telegram 22), since 2026-03-01",
    ]
    assert run("list", "--json") == 0
    listed = json.loads(capsys.readouterr().out)
    assert len(listed) == 5
    assert listed[1] == {
        "location": "North shop",
        "person": "telegram 22",
        "name": "Ana <Tolvane> 🔧",
        "role": "technician",
        "since": "2026-03-01T08:00:00+00:00",
    }


def test_the_locations(
    run: Run, record: Record, two_shops: tuple[Location, Location], capsys: pytest.CaptureFixture[str]
) -> None:
    People(record).set_defaults(two_shops[1].number, "metric", "es", 12)
    assert run("locations") == 0
    assert capsys.readouterr().out.splitlines() == [
        "North shop: 2 technicians, 1 owner; units source, language en, 4 h on the lift",
        "South shop: 1 curator, 1 owner; units metric, language es, 12 h on the lift",
    ]


@pytest.mark.parametrize("said", ["telegram 22", "22", "Ana <Tolvane> 🔧", "ana <TOLVANE> 🔧"])
def test_a_member_is_removed_from_one_location(
    run: Run, record: Record, two_shops: tuple[Location, Location], capsys: pytest.CaptureFixture[str], said: str
) -> None:
    assert run("remove", said, "--location", "north SHOP") == 0
    assert capsys.readouterr().out == "Ana <Tolvane> 🔧 (telegram 22) is no member of North shop any more\n"
    people = People(record)
    assert [place.location for place in people.memberships("telegram 22")] == [two_shops[1]]
    by = record.row("SELECT author, role FROM membership_change ORDER BY entry DESC LIMIT 1", {})
    assert by is not None
    assert by[0].startswith("command line, ") and by[1] == ""


def test_a_removed_owner_loses_open_invites(
    run: Run, record: Record, two_shops: tuple[Location, Location], capsys: pytest.CaptureFixture[str]
) -> None:
    let_in(record, two_shops[0].number, "telegram 44", "Cass Orlin", "owner")
    make(record, two_shops[0].number, "owner", 1, 7, "telegram 44", NOW)
    assert run("remove", "44", "--location", "North shop") == 0
    assert "any more; their open invites ended: 1" in capsys.readouterr().out


def test_who_cannot_be_removed(
    run: Run, record: Record, two_shops: tuple[Location, Location], capsys: pytest.CaptureFixture[str]
) -> None:
    let_in(record, two_shops[0].number, "telegram 55", "bo [2j")
    assert run("remove", "11", "--location", "North shop") == 1
    assert run("remove", "99", "--location", "South shop") == 1
    assert run("remove", "Bo [2J", "--location", "North shop") == 1
    assert run("remove", "22", "--location", "West shop") == 1
    assert run("remove", "2", "--location", "North shop") == 1
    out, err = capsys.readouterr()
    assert out == ""
    lines = err.splitlines()
    assert lines[0].startswith("North shop, Odile Brenn: A location keeps one owner at least.")
    assert lines[1] == (
        "South shop: no member is called '99'; give the number of one of: "
        "Odile Brenn (telegram 11), Ana <Tolvane> 🔧 (telegram 22)"
    )
    assert lines[2].startswith("North shop: 2 members are called 'Bo [2J'; give the number of one of: ")
    assert lines[3] == "there is no location 'West shop'; there are: North shop, South shop"
    assert len(People(record).members(two_shops[0].number)) == 4


def test_the_code_goes_to_standard_output_and_nowhere_else(
    benchbot: Callable[..., subprocess.CompletedProcess[str]], home: Home
) -> None:
    done = benchbot("people", "invite", "--role", "owner", "--bot", "example_bot")
    assert (done.returncode, done.stderr) == (0, "")
    (code,) = CODE.findall(done.stdout)
    files = [file for file in home.folder.rglob("*") if file.is_file()]
    assert home.record in files
    for file in files:
        content = file.read_bytes()
        assert code.encode() not in content
        assert code.replace("-", "").encode() not in content
    rows = sqlite3.connect(home.record)
    assert rows.execute("SELECT shown, role FROM invite").fetchall() == [(code[:3], "owner")]
    rows.close()


def test_the_command_line_knows_it(benchbot: Callable[..., subprocess.CompletedProcess[str]], home: Home) -> None:
    assert "people" in benchbot("--help").stdout
    told = benchbot("people", "--help").stdout
    for name in ("invite", "list", "locations", "remove"):
        assert name in told


def test_naming_the_command_stays_light() -> None:
    code = """
import argparse, sys
from benchbot.commands import people
people.add_parser(argparse.ArgumentParser().add_subparsers())
print(sorted({"sqlalchemy", "alembic", "pydantic", "pint", "PIL", "segno", "sqlite3"} & set(sys.modules)))
"""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "[]"
