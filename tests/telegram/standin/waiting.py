"""How a test waits without sleeping: a long poll that answers as soon as its conditions hold together."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from .chats import Chat
from .exchange import Exchange
from .seen import inline_answers, notices


async def wait(exchange: Exchange, seconds: float, **conditions: Any) -> bool:
    """False when they did not hold in time.

    chat with messages (so many were sent by the bot, deleted ones count), text (stands in one of its messages now),
    gone (stands in none), edits (so many in all). method with calls (so many begun). notice_count and inline_count
    (so many answers, of one query or of all). pending (at most so many updates unconfirmed). polling (a poll waits).
    outstanding (at most so many ordered faults to come). from_bot (so many messages in all chats). menus (so many).
    """
    _hold(exchange, **conditions)  # a wrong condition is told at once
    return await exchange.until(lambda: _hold(exchange, **conditions), seconds)


def _hold(
    exchange: Exchange,
    chat: int | None = None,
    messages: int | None = None,
    text: str = "",
    gone: str = "",
    edits: int | None = None,
    method: str = "",
    calls: int | None = None,
    query: str = "",
    notice_count: int | None = None,
    inline_count: int | None = None,
    pending: int | None = None,
    polling: bool | None = None,
    outstanding: int | None = None,
    from_bot: int | None = None,
    menus: int | None = None,
) -> bool:
    mine = exchange.chat(chat) if chat is not None else None
    box = exchange.mailbox
    held = [
        messages is None or (mine is not None and mine.from_bot >= messages),
        not text or (mine is not None and _stands(mine, text)),
        not gone or (mine is not None and not _stands(mine, gone)),
        edits is None or (mine is not None and sum(one.edits for one in mine.messages.values() if one.ours) >= edits),
        calls is None or exchange.counts[method.lower()] >= calls,
        notice_count is None or len(notices(exchange, query)) >= notice_count,
        inline_count is None or len(inline_answers(exchange, query)) >= inline_count,
        pending is None or box.pending <= pending,
        polling is None or (box.poller is not None) == polling,
        outstanding is None or exchange.faults.outstanding <= outstanding,
        from_bot is None or exchange.from_bot >= from_bot,
        menus is None or len(exchange.menus) >= menus,
    ]
    return all(held)


def _stands(chat: Chat, text: str) -> bool:
    return any(
        one.ours and not one.deleted and one.text is not None and text in one.text.plain
        for one in chat.messages.values()
    )


ORDERS: dict[str, Callable[..., Any]] = {"wait": wait}
