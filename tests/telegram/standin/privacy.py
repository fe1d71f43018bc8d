"""What of a chat reaches the bot: privacy mode hides in a group whatever is not meant for it."""

from __future__ import annotations

from typing import Any

from .chats import Chat, Message
from .exchange import Exchange
from .spots import spot


def hears(exchange: Exchange, chat: Chat, message: Message) -> bool:
    """https://core.telegram.org/bots/features#privacy-mode; that a mention is heard: value from memory.

    A command without a name is heard always, as if the bot had been the last to write to the group.
    """
    if chat.bot in ("kicked", "left") or chat.migrated_to is not None:
        return False
    if chat.kind in ("private", "channel") or not exchange.privacy or chat.hears_all or chat.bot == "administrator":
        return True
    if message.kind == "service":
        return True
    ours = exchange.bot["id"]
    if message.via_bot is not None and message.via_bot["id"] == ours:
        return True
    if message.reply_to is not None and message.reply_to.ours:
        return True
    return message.text is not None and any(
        _calls(exchange, spot(message.text.plain, entity), entity) for entity in message.text.entities
    )


def _calls(exchange: Exchange, text: str, entity: dict[str, Any]) -> bool:
    name = f"@{exchange.username}".lower()
    if entity["type"] == "bot_command":
        return text.lower().endswith(name) if "@" in text else entity["offset"] == 0
    if entity["type"] == "text_mention":
        return bool(entity["user"]["id"] == exchange.bot["id"])
    return entity["type"] == "mention" and text.lower() == name
