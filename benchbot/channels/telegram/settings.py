"""What can be set for the bot on Telegram."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import urlsplit

from benchbot.errors import SettingError

API_URL = "BENCHBOT_TELEGRAM_API_URL"
_PUBLIC = "https://api.telegram.org"


@dataclass(frozen=True, slots=True)
class Settings:
    """api_url: of the Bot API server, without the token.

    polling_seconds: how long the server may hold a poll open while nothing comes.
    sends_per_second, group_sends_per_minute: what Telegram allows to a bot, and to a bot in one group; 0 is no limit.
    give_up_seconds: without one good poll for so long the process ends, for its supervisor to start it again.
    send_seconds: how long a call may take before it counts as timed out.
    """

    token: str = field(repr=False)
    api_url: str = _PUBLIC
    polling_seconds: int = 50
    sends_per_second: float = 30.0
    group_sends_per_minute: float = 20.0
    give_up_seconds: float = 180.0
    send_seconds: float = 20.0


def read_api_url(settings: Mapping[str, str]) -> str:
    """The Bot API server to use: BENCHBOT_TELEGRAM_API_URL, or Telegram's own. SettingError when it is no URL."""
    named = settings.get(API_URL, "").strip()
    if not named:
        return _PUBLIC
    parts = urlsplit(named)
    if parts.scheme not in ("http", "https") or not parts.hostname or parts.query or parts.fragment:
        raise SettingError(f"{API_URL}: {named} is no address of a Bot API server; write it as http://localhost:8081")
    return named.rstrip("/").removesuffix("/bot").rstrip("/")
