"""The bot's token: where it is taken from, what it must look like, and who may be able to read its file."""

from __future__ import annotations

import os
import re
import stat
from collections.abc import Mapping
from pathlib import Path

from benchbot.errors import SettingError

TOKEN, TOKEN_FILE = "BENCHBOT_TELEGRAM_TOKEN", "BENCHBOT_TELEGRAM_TOKEN_FILE"
# The Bot API names no length; every token seen has digits, a colon and 35 characters behind it (value from memory).
_SHAPE = re.compile(r"[0-9]+:[A-Za-z0-9_-]{35,}")
_OTHERS = stat.S_IRWXG | stat.S_IRWXO


def read_token(named: Path | None, settings: Mapping[str, str]) -> str:
    """The token from the file `named`, else from the settings. SettingError, which never shows the token."""
    if named is not None:
        return _checked(_from_file(named), str(named))
    if settings.get(TOKEN, "").strip():
        return _checked(settings[TOKEN], TOKEN)
    if settings.get(TOKEN_FILE, "").strip():
        file = Path(settings[TOKEN_FILE].strip()).expanduser()
        return _checked(_from_file(file), str(file))
    raise SettingError(
        f"no bot token is set; put it into {TOKEN}, or into a file of your own (chmod 600) that {TOKEN_FILE} names"
    )


def bot_number(token: str) -> str:
    """The bot's own number, which a token begins with."""
    return token.partition(":")[0]


def _from_file(file: Path) -> str:
    try:
        mode = file.stat().st_mode
        text = file.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        # The text of a decoding error quotes what the file holds.
        reason = error.strerror if isinstance(error, OSError) else "it is no text"
        raise SettingError(f"{file}: the token cannot be read ({reason}); name a file that holds only it") from None
    if os.name == "posix" and mode & _OTHERS:
        raise SettingError(f"{file}: others than you can read the token; close the file with: chmod 600 {file}")
    return text


def _checked(text: str, where: str) -> str:
    token = text.strip()
    if not _SHAPE.fullmatch(token):
        raise SettingError(
            f"{where}: what stands there is no bot token; it has digits, a colon and at least 35 letters, digits, "
            "dashes or underscores, as the messenger showed it when the bot was made"
        )
    return token
