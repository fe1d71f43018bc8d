"""The methods that only ask, and those that end: getMe, getChat, getFile, logOut, close."""

from __future__ import annotations

from typing import Any

from .exchange import Exchange
from .forms import Form
from .refusals import bad, forbidden

FILE_AT_MOST = 20 * 1024 * 1024  # https://core.telegram.org/bots/api#getfile
_GIFTS = ("unlimited_gifts", "limited_gifts", "unique_gifts", "premium_subscription", "gifts_from_channels")


def get_me(exchange: Exchange, form: Form) -> dict[str, Any]:
    return exchange.bot | {
        "can_join_groups": True,
        "can_read_all_group_messages": not exchange.privacy,
        "supports_inline_queries": exchange.inline,
        "can_connect_to_business": False,
        "has_main_web_app": False,
    }


def get_chat(exchange: Exchange, form: Form) -> dict[str, Any]:
    """The fields that https://core.telegram.org/bots/api#chatfullinfo always has."""
    chat = exchange.known_chat(form.text("chat_id"))
    if chat.bot == "kicked":
        raise forbidden(f"bot was kicked from the {chat.kind} chat")
    found = chat.shown() | {"accent_color_id": 0, "max_reaction_count": 11}
    return found | {"accepted_gift_types": dict.fromkeys(_GIFTS, False)}


def get_file(exchange: Exchange, form: Form) -> dict[str, Any]:
    if not form.text("file_id"):
        raise bad("file_id not specified")
    stored = exchange.files.get(form.text("file_id"))
    if stored is None:
        raise bad("wrong file_id or the file is temporarily unavailable")
    if len(stored.content) > FILE_AT_MOST:
        raise bad("file is too big")
    return {
        "file_id": stored.id,
        "file_unique_id": f"unique{stored.id[-6:]}",
        "file_size": len(stored.content),
        "file_path": stored.path,
    }


def log_out(exchange: Exchange, form: Form) -> bool:
    """Only answered; the real server then refuses the token for ten minutes."""
    return True


def close(exchange: Exchange, form: Form) -> bool:
    return True
