"""The bot that answers for this shop, as it left word of itself in the home for whoever has to link to it."""

from __future__ import annotations

import json
import os
import re
from dataclasses import asdict, dataclass
from pathlib import Path

from benchbot.errors import SettingError
from benchbot.places import Home

_USERNAME = re.compile(r"[A-Za-z][A-Za-z0-9_]{3,31}")


@dataclass(frozen=True, slots=True)
class KnownBot:
    """number: the messenger's id of the bot; username: its name there, without the @."""

    number: str
    username: str


def is_username(text: str) -> bool:
    """Whether a bot can be called that: 4 to 32 letters, digits and underscores, a letter first."""
    return _USERNAME.fullmatch(text) is not None


def link_base(username: str) -> str:
    """The link to the bot of that name."""
    return f"https://t.me/{username}"


def load(home: Home) -> KnownBot | None:
    """What the bot left; None when none has run here yet. SettingError when the file is not one of ours."""
    path = _file(home)
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return None
    except (OSError, UnicodeDecodeError) as error:
        raise SettingError(_damaged(path, str(error))) from error
    try:
        plain = json.loads(text)
        bot = KnownBot(str(plain["number"]), str(plain["username"]))
    except (ValueError, KeyError, TypeError) as error:
        raise SettingError(_damaged(path, f"{type(error).__name__}: {error}")) from error
    if not is_username(bot.username):
        raise SettingError(_damaged(path, f"{bot.username!r} is no bot's name"))
    return bot


def save(home: Home, number: str, username: str) -> None:
    """Leaves word for `load`, whole or not at all."""
    path = _file(home)
    fresh = path.with_name(f"{path.name}.{os.getpid()}.new")
    fresh.write_text(json.dumps(asdict(KnownBot(number, username))), encoding="utf-8")
    fresh.replace(path)


def _file(home: Home) -> Path:
    return home.folder / "bot.json"


def _damaged(path: Path, wrong: str) -> str:
    return f"{path}: this does not say which bot answers here ({wrong}); delete it, the bot writes it anew when it runs"
