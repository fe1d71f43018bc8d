"""The word that a running bot leaves of itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchbot.errors import SettingError
from benchbot.people.known_bot import KnownBot, is_username, link_base, load, save
from benchbot.places import Home


def test_what_is_left_is_found(tmp_path: Path) -> None:
    home = Home(tmp_path)
    assert load(home) is None
    save(home, "4101", "example_bot")
    assert load(home) == KnownBot("4101", "example_bot")
    save(home, "4102", "Other_Bot")
    assert load(home) == KnownBot("4102", "Other_Bot")
    assert [path.name for path in tmp_path.iterdir()] == ["bot.json"]
    assert (tmp_path / "bot.json").read_text(encoding="utf-8") == '{"number": "4102", "username": "Other_Bot"}'


def test_a_number_may_be_written_as_one(tmp_path: Path) -> None:
    (tmp_path / "bot.json").write_text('{"number": 4101, "username": "example_bot"}', encoding="utf-8")
    assert load(Home(tmp_path)) == KnownBot("4101", "example_bot")


@pytest.mark.parametrize(
    "content",
    [b"", b"{", b"[]", b"null", b"4", b"{}", b'{"number": 1}', b'{"number": 1, "username": "a b/c"}', b"\xff\xfe"],
)
def test_a_damaged_file_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "bot.json").write_bytes(content)
    with pytest.raises(SettingError, match=r"bot\.json: .*delete it"):
        load(Home(tmp_path))


def test_a_folder_in_its_place_is_told(tmp_path: Path) -> None:
    (tmp_path / "bot.json").mkdir()
    with pytest.raises(SettingError, match="delete it"):
        load(Home(tmp_path))


# Telegram's page "Bots: BotFather": 5 to 32 Latin letters, digits and underscores; shorter ones are sold (value from
# memory: from 4).
@pytest.mark.parametrize(
    ("text", "good"),
    [
        ("example_bot", True),
        ("a" * 32, True),
        ("abcd", True),
        ("abc", False),
        ("a" * 33, False),
        ("1abcd", False),
        ("_abcd", False),
        ("ab cd", False),
        ("abcd\n", False),
        ("äbcde", False),
        ("@abcde", False),
        ("", False),
    ],
)
def test_what_a_bot_can_be_called(text: str, good: bool) -> None:
    assert is_username(text) is good


def test_the_link_to_a_bot() -> None:
    assert link_base("example_bot") == "https://t.me/example_bot"
