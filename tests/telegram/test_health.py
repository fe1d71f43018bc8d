"""The check: one line for everything that is needed, and what to do about what is missing."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from parts import NOW, TOKEN, post, record_of
from standin.client import StandIn
from telegram.request import HTTPXRequest

from benchbot.channels.telegram.health import Finding, findings
from benchbot.channels.telegram.settings import Settings
from benchbot.channels.telegram.token import bot_number
from benchbot.channels.telegram.watch import Watch
from benchbot.errors import SettingError
from benchbot.places import Home
from benchbot.records import outbox
from benchbot.records.engine import sqlite_engine
from benchbot.records.migrate import upgrade
from benchbot.records.newest import NEWEST


@pytest.fixture(scope="module")
def server() -> Iterator[StandIn]:
    with StandIn.start() as server:
        yield server


@pytest.fixture
def shop(demo_shop: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    shutil.copy(demo_shop.book, tmp_path / "book.sqlite")
    shutil.copy(demo_shop.record, tmp_path / "record.sqlite")
    record_of(Home(tmp_path)).close()
    return Home(tmp_path)


def polled(home: Home, bot: str, ago: float = 0) -> None:
    Watch(home, bot, 180, lambda: NOW - timedelta(seconds=ago), tell=lambda _: None).good_poll({})


def looked(settings: Settings | SettingError, home: Home) -> dict[str, Finding]:
    return {finding.name: finding for finding in findings(settings, home, NOW)}


def settings_of(server: StandIn) -> Settings:
    return Settings(server.token, server.url, send_seconds=2)


def test_all_is_well(server: StandIn, shop: Home) -> None:
    polled(shop, bot_number(server.token), 20)
    found = looked(settings_of(server), shop)
    assert all(finding.ok and not finding.todo for finding in found.values())
    assert list(found) == ["server", "token", "database", "to send", "unsure", "book", "polling"]
    assert "ms" in found["server"].says
    assert "@" in found["token"].says
    assert NEWEST in found["database"].says
    assert "version 1" in found["book"].says
    assert "rows" in found["book"].says
    assert "20 s ago" in found["polling"].says
    assert server.token not in repr(found)


def test_a_token_that_the_server_does_not_know(server: StandIn, shop: Home) -> None:
    found = looked(Settings(TOKEN.replace("Invented", "Unknown0"), server.url), shop)
    assert found["server"].ok
    assert not found["token"].ok
    assert "set the token" in found["token"].todo


def test_a_server_that_cannot_be_reached(shop: Home) -> None:
    with StandIn.start() as server:
        server.refuse_connections()
        found = looked(settings_of(server), shop)
        server.accept_connections()
    assert not found["server"].ok
    assert "BENCHBOT_TELEGRAM_API_URL" in found["server"].todo
    assert not found["token"].ok
    assert found["book"].ok


def test_a_wrong_setting_does_not_hide_the_rest(shop: Home) -> None:
    found = looked(SettingError("no bot token is set; put it into ..."), shop)
    assert not found["settings"].ok
    assert found["book"].ok
    assert found["database"].ok


def test_an_empty_home_says_how_to_begin(server: StandIn, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    found = looked(settings_of(server), Home(tmp_path))
    assert "benchbot specs import" in found["database"].todo
    assert "benchbot specs publish" in found["book"].says
    assert "benchbot telegram" in found["polling"].todo
    assert not any(found[name].ok for name in ("database", "book", "polling"))
    assert list(tmp_path.iterdir()) == [], "a look leaves nothing behind"


def test_an_older_record_is_not_changed_by_a_look(server: StandIn, shop: Home) -> None:
    with sqlite3.connect(shop.record) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0001'")
    connection.close()
    found = looked(settings_of(server), shop)
    assert not found["database"].ok
    assert "0001" in found["database"].says
    with sqlite3.connect(shop.record) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == ("0001",)
    connection.close()


def test_a_newer_record_is_told_as_such(server: StandIn, shop: Home) -> None:
    with sqlite3.connect(shop.record) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    connection.close()
    found = looked(settings_of(server), shop)["database"]
    assert (found.ok, "9999" in found.says) == (False, True)
    assert "install the newer benchbot" in found.todo


@pytest.mark.parametrize("at", [None, "0001", NEWEST])
def test_a_record_on_a_database_server_is_not_changed_by_a_look(
    at: str | None, server: StandIn, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A URL that SQLAlchemy takes and that is not ours for a file: the road of a database server, without one."""
    file = tmp_path / "served.sqlite"
    if at is not None:
        engine = sqlite_engine(file)
        with engine.begin() as connection:
            upgrade(connection, at)
        engine.dispose()
    before = file.read_bytes() if file.exists() else b""
    monkeypatch.setenv("BENCHBOT_DATABASE_URL", f"sqlite+pysqlite:///{file}")
    found = looked(settings_of(server), Home(tmp_path))
    assert file.read_bytes() == before
    assert found["database"].ok == (at == NEWEST)
    said = found["database"].line()
    assert {None: "specs import", "0001": f"brings it to {NEWEST} when it starts", NEWEST: f"at migration {NEWEST}"}[
        at
    ] in said
    assert ("to send" in found) == (at == NEWEST)


def test_a_server_that_answers_in_riddles_is_told(shop: Home, monkeypatch: pytest.MonkeyPatch) -> None:
    async def answered(*_: object, **__: object) -> tuple[int, bytes]:
        return 200, b"[]"

    monkeypatch.setattr(HTTPXRequest, "do_request", answered)
    found = looked(Settings(TOKEN, "http://127.0.0.1:9"), shop)
    assert not found["server"].ok
    assert "cannot be read" in found["server"].says


def test_a_damaged_record_and_a_damaged_book(server: StandIn, shop: Home) -> None:
    shop.record.write_bytes(b"no database" * 500)
    shop.book.write_bytes(b"no book" * 500)
    found = looked(settings_of(server), shop)
    assert not found["database"].ok
    assert not found["book"].ok


def test_what_waits_and_what_is_unsure(server: StandIn, shop: Home) -> None:
    bot = bot_number(server.token)
    with record_of(shop) as record:
        with record.writing() as store:
            for minutes in (0, 9):
                body = post("5").to_text()
                outbox.add(store, bot, str(minutes), body, NOW - timedelta(minutes=minutes))
            unsure = outbox.add(store, bot, "7", "{}", NOW)
        outbox.ended(record, unsure, "unsure", "of the test", NOW)
        found = looked(settings_of(server), shop)
        assert found["to send"].ok
        assert "2 waiting, the oldest for 9 min" in found["to send"].says
        assert found["unsure"].says.startswith("1 ")
        with record.writing() as store:
            outbox.add(store, bot, "8", "{}", NOW - timedelta(minutes=11))
    found = looked(settings_of(server), shop)
    assert not found["to send"].ok
    assert "log" in found["to send"].todo


def test_what_waits_for_another_bot_is_not_counted(server: StandIn, shop: Home) -> None:
    with record_of(shop) as record, record.writing() as store:
        outbox.add(store, "another", "8", "{}", NOW - timedelta(days=1))
    assert looked(settings_of(server), shop)["to send"].says == "0 waiting"


@pytest.mark.parametrize(("ago", "ok"), [(0, True), (180, True), (181, False)])
def test_a_poll_long_ago_is_told(server: StandIn, shop: Home, ago: float, ok: bool) -> None:
    polled(shop, bot_number(server.token), ago)
    assert looked(settings_of(server), shop)["polling"].ok == ok


def test_the_poll_of_another_bot_is_told(server: StandIn, shop: Home) -> None:
    polled(shop, "77")
    found = looked(settings_of(server), shop)["polling"]
    assert not found.ok
    assert "77" in found.says


def test_a_line_says_what_to_do() -> None:
    assert Finding("book", True, "version 1").line() == "ok      book: version 1"
    assert Finding("book", False, "gone", "bring it").line() == "not ok  book: gone; bring it"
    assert json.loads(json.dumps(Finding("book", True, "version 1").to_plain()))["ok"] is True
