"""The token: where it comes from, what it looks like, and that nothing shows it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from parts import BOT, TOKEN

from benchbot.channels.telegram.locking import only_poller, own_folder
from benchbot.channels.telegram.settings import API_URL, Settings, read_api_url
from benchbot.channels.telegram.token import TOKEN as VARIABLE
from benchbot.channels.telegram.token import TOKEN_FILE, bot_number, read_token
from benchbot.errors import SettingError

OTHER = f"{BOT}:BBInventedForTheseTestsOnly_0123456789"


def written(folder: Path, text: str, mode: int = 0o600) -> Path:
    file = folder / "token"
    file.write_text(text, encoding="utf-8")
    file.chmod(mode)
    return file


def test_the_variable_gives_it() -> None:
    assert read_token(None, {VARIABLE: f" {TOKEN}\n"}) == TOKEN


def test_a_file_gives_it(tmp_path: Path) -> None:
    file = written(tmp_path, f"{TOKEN}\n")
    assert read_token(None, {TOKEN_FILE: str(file)}) == TOKEN
    assert read_token(file, {VARIABLE: OTHER}) == TOKEN, "what the command line names goes first"
    assert read_token(None, {TOKEN_FILE: str(file), VARIABLE: OTHER}) == OTHER


def test_none_at_all_says_where_to_put_it() -> None:
    with pytest.raises(SettingError, match=f"{VARIABLE}.*{TOKEN_FILE}"):
        read_token(None, {VARIABLE: "  "})


@pytest.mark.skipif(os.name != "posix", reason="only POSIX has these bits")
@pytest.mark.parametrize("mode", [0o640, 0o604, 0o660, 0o644, 0o610])
def test_a_file_that_others_can_read_is_refused(tmp_path: Path, mode: int) -> None:
    file = written(tmp_path, TOKEN, mode)
    with pytest.raises(SettingError, match="chmod 600") as refused:
        read_token(file, {})
    assert TOKEN not in str(refused.value)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(SettingError, match=r"none.*cannot be read"):
        read_token(tmp_path / "none", {})


@pytest.mark.parametrize(
    "text",
    ["", "12345", TOKEN[:-5], TOKEN.replace(":", ";"), f"bot{TOKEN}", f"{TOKEN} {TOKEN}", f"{TOKEN}é", "\udcff"],
    ids=range(8),
)
def test_a_wrong_shape_is_refused_and_not_shown(tmp_path: Path, text: str) -> None:
    file = tmp_path / "token"
    file.write_bytes(text.encode("utf-8", "surrogateescape"))
    file.chmod(0o600)
    with pytest.raises(SettingError) as refused:
        read_token(file, {})
    assert str(file) in str(refused.value)
    assert len(text) < 5 or text not in str(refused.value)
    assert refused.value.__cause__ is None, "the cause would quote the file"


def test_settings_do_not_show_it() -> None:
    assert TOKEN not in repr(Settings(TOKEN))
    assert bot_number(TOKEN) == BOT


@pytest.mark.parametrize(
    ("named", "used"),
    [
        ("", "https://api.telegram.org"),
        ("http://localhost:8081", "http://localhost:8081"),
        ("http://localhost:8081/", "http://localhost:8081"),
        ("http://localhost:8081/bot", "http://localhost:8081"),
        ("https://bots.example/api/bot/", "https://bots.example/api"),
    ],
)
def test_the_server_can_be_named(named: str, used: str) -> None:
    assert read_api_url({API_URL: named}) == used


@pytest.mark.parametrize("named", ["localhost:8081", "ftp://localhost", "http://", "http://localhost/?a=b"])
def test_a_server_that_is_no_address_is_refused(named: str) -> None:
    with pytest.raises(SettingError, match=API_URL):
        read_api_url({API_URL: named})


def test_one_poller_of_one_token(tmp_path: Path) -> None:
    first, second = tmp_path / "first", tmp_path / "second"
    first.mkdir()
    second.mkdir()
    with only_poller(TOKEN, first, second):
        with pytest.raises(SettingError, match=rf"process {os.getpid()}\)"), only_poller(TOKEN, second):
            pass
        with only_poller(OTHER, first, second):
            pass
    with only_poller(TOKEN, first, second):
        pass


def test_the_lock_of_a_second_folder_that_is_taken_lets_go_of_the_first(tmp_path: Path) -> None:
    first, second = tmp_path / "first", tmp_path / "second"
    first.mkdir()
    second.mkdir()
    with only_poller(TOKEN, second):
        with pytest.raises(SettingError), only_poller(TOKEN, first, second):
            pass
        with only_poller(TOKEN, first):
            pass


def test_the_lock_does_not_show_the_token(tmp_path: Path) -> None:
    with only_poller(TOKEN, tmp_path):
        for file in tmp_path.iterdir():
            assert TOKEN.partition(":")[2] not in file.name + file.read_bytes().decode("latin-1")
            assert BOT not in file.name


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="accounts have numbers on POSIX only")
def test_a_lock_folder_that_is_not_ours_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    folder = own_folder()
    assert folder.stat().st_mode & 0o077 == 0
    folder.rmdir()
    (tmp_path / "elsewhere").mkdir()
    folder.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(SettingError, match="another account"):
        own_folder()
