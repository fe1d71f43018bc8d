"""Connections of the bot that mend what the two servers answer otherwise than the Bot API's reference says."""

from __future__ import annotations

import asyncio
import json
from typing import Any

from benchbot.channels.telegram.calls import Line

_TRUE = b'{"ok": true, "result": true}'
_LOOK_AGAIN = 0.05


class WithMenus(Line):
    """Says yes to menus: neither telegram-test-api 4.2.1 nor telemelya 0.2.2 knows these methods."""

    async def do_request(self, *args: Any, **call: Any) -> tuple[int, bytes]:
        if call["url"].endswith(("/setMyCommands", "/deleteMyCommands")):
            return 200, _TRUE
        return await super().do_request(*args, **call)


class Mended(WithMenus):
    """For telegram-test-api 4.2.1, lib/routes/bot/; what it should say stands in core.telegram.org/bots/api."""

    def __init__(self, *args: Any, **settings: Any) -> None:
        super().__init__(*args, **settings)
        self._unconfirmed: list[dict[str, Any]] = []

    async def do_request(self, *args: Any, **call: Any) -> tuple[int, bytes]:
        method = call["url"].rpartition("/")[2]
        given = call["request_data"].parameters if call.get("request_data") else {}
        status, body = await super().do_request(*args, **call)
        if status != 200:
            return status, body
        if method == "getUpdates":
            return status, _said(await self._updates(args, call, given, json.loads(body)["result"]))
        if method == "getMe":
            return status, _said(json.loads(body)["result"] | {"is_bot": True})
        if method == "sendMessage":
            return status, _said(_sent(json.loads(body)["result"]))
        if method == "editMessageText":
            return status, _said(_edited(given))
        return (status, _TRUE) if method == "answerCallbackQuery" else (status, body)

    async def _updates(
        self, args: tuple[Any, ...], call: dict[str, Any], given: dict[str, Any], fresh: list[dict[str, Any]]
    ) -> list[dict[str, Any]]:
        """Held open until something came, and again until the offset confirms it: the server hands out once."""
        clock = asyncio.get_running_loop().time
        until = clock() + given.get("timeout", 0)
        held = [one for one in self._unconfirmed if one["update_id"] >= given.get("offset", 0)] + fresh
        while not held and clock() < until:
            await asyncio.sleep(_LOOK_AGAIN)
            held = json.loads((await super().do_request(*args, **call))[1])["result"]
        for one in held:
            if "callback_query" in one:
                one["callback_query"].setdefault("chat_instance", "1")
        self._unconfirmed = held
        return held


def _said(result: Any) -> bytes:
    return json.dumps({"ok": True, "result": result}).encode()


def _sent(message: dict[str, Any]) -> dict[str, Any]:
    """Its date comes in milliseconds, and the objects that were sent along come back as texts."""
    preview = message.get("link_preview_options")
    mended = {"link_preview_options": json.loads(preview)} if isinstance(preview, str) else {}
    return message | {"date": message["date"] // 1000} | mended


def _edited(given: dict[str, Any]) -> dict[str, Any]:
    """The message as it is now, where the server says nothing."""
    chat = {"id": given["chat_id"], "type": "private"}
    return {"message_id": given["message_id"], "date": 1, "chat": chat, "text": given["text"]}
