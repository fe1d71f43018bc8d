"""What the commands say and do when the record is on a real server: backup, restore, and the check of the bot."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "telegram"))

from curators_shop import ASK_FRONT, REAR, Shop
from desk import NOW
from standin.client import StandIn
from throwaway import PASSWORD, Server, name_of, program

from benchbot.__main__ import main
from benchbot.book.reader import Book
from benchbot.following.publishing import PublishReport, publish
from benchbot.places import Home
from benchbot.records.migrate import upgrade
from benchbot.records.newest import NEWEST
from benchbot.records.record import open_record
from benchbot.records.server import applied_on_server, server_engine

Check = Callable[[], dict[str, str]]


@pytest.fixture(scope="module")
def messenger() -> Iterator[StandIn]:
    with StandIn.start() as running:
        yield running


@pytest.fixture
def check(
    messenger: StandIn, demo_shop: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Check:  # fmt: skip
    """Runs `telegram --check`; its lines by what they are about."""
    shutil.copy(demo_shop.book, tmp_path / "book.sqlite")
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path))
    monkeypatch.setenv("BENCHBOT_TELEGRAM_TOKEN", messenger.token)
    monkeypatch.setenv("BENCHBOT_TELEGRAM_API_URL", messenger.url)
    monkeypatch.delenv("BENCHBOT_TELEGRAM_TOKEN_FILE", raising=False)

    def run() -> dict[str, str]:
        # before the first start the line "polling" is not ok
        assert main(["telegram", "--check"]) == 1
        said = capsys.readouterr()
        assert PASSWORD not in said.out + said.err
        return {line[8:].partition(":")[0]: line for line in said.out.splitlines()}

    return run


def test_a_check_finds_the_record(url: str, check: Check) -> None:
    said = check()
    assert [name for name, line in said.items() if not line.startswith("ok ")] == ["polling"]
    assert f"at migration {NEWEST}" in said["database"]
    assert said["to send"].endswith("0 waiting")


@pytest.mark.parametrize(("at", "says"), [(None, "there is no record yet"), ("0001", "at migration 0001")])
def test_a_check_changes_nothing(
    at: str | None, says: str, server: Server, check: Check, monkeypatch: pytest.MonkeyPatch
) -> None:
    url = server.database()
    if at is not None:
        engine = server_engine(url)
        with engine.begin() as connection:
            upgrade(connection, at)
        engine.dispose()
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", url)
    said = check()["database"]
    assert said.startswith("not ok") and f"the database server: {says}" in said
    assert applied_on_server(url) == at


def test_a_check_of_a_server_that_is_not_there(url: str, check: Check, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", url.replace("?host=", "?host=/nowhere"))
    said = check()["database"]
    assert said.startswith("not ok") and "out of reach" in said and "check that it runs, and the URL" in said


def test_backup_and_restore_name_the_servers_own_tools(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("BENCHBOT_HOME", str(shop.home.folder))
    file = tmp_path / "b.backup"
    assert main(["backup", str(file)]) == 1
    told = capsys.readouterr().err
    assert "on a database server (postgresql), as BENCHBOT_DATABASE_URL says" in told
    assert "the server's own pg_dump" in told and PASSWORD not in told
    assert not file.exists()
    before = shop.bay.record.rows("SELECT entry, spec, value FROM spec_revision", {})
    assert main(["restore", str(file), "--replace"]) == 1
    told = capsys.readouterr().err
    assert "pg_restore" in told and "benchbot specs publish" in told and PASSWORD not in told
    assert shop.bay.record.rows("SELECT entry, spec, value FROM spec_revision", {}) == before


def test_the_servers_own_tools_bring_all_of_it_back(
    shop: Shop, server: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As docs/running.md says: pg_dump, pg_restore, and the book again by publishing."""
    ana = shop.bay.phone("Ana", technician=shop.main)
    assert "105 N·m" in ana.say(ASK_FRONT).text
    shop.publish_and_follow(REAR)
    with Book.open(shop.home.book) as book:
        version, digest = book.version, book.digest
    dump = tmp_path / "record.dump"
    reached = ["--host", str(server.folder), "--username", "shop"]
    subprocess.run(
        [str(program("pg_dump")), *reached, "--format=custom", f"--file={dump}", name_of(shop.home.record_url)],
        check=True,
    )
    target = server.database()
    subprocess.run([str(program("pg_restore")), *reached, f"--dbname={name_of(target)}", str(dump)], check=True)
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", target)
    home = Home(tmp_path / "elsewhere")
    home.folder.mkdir()
    done = publish(home, NOW)
    assert isinstance(done, PublishReport)
    assert (done.version, done.digest) == (version, digest) == (2, digest)
    with open_record(target) as record:
        assert record.rows("SELECT asked, outcome FROM answer", {}) == [(ASK_FRONT, "answer")]
        with record.writing() as store:
            assert store.row("INSERT INTO change (author, at, why) VALUES ('', '', '') RETURNING change", {}) == (3,)
