"""A way in by webhook, for a server that cannot be polled: python-telegram-bot's own web server on loopback."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Sequence
from typing import Any

from telegram import Update
from telegram.ext import Updater
from tornado.netutil import bind_sockets

from benchbot.channels.telegram.polling import WANTED, Poller

_HOST = "127.0.0.1"
_PATH = "updates"


class _Straight(asyncio.Queue[object]):
    """Hands on what is put in before `put` returns: only then does the web server tell the sender that we have it."""

    def __init__(self, take: Callable[[Sequence[Update]], Awaitable[None]]) -> None:
        super().__init__()
        self._take = take

    async def put(self, item: object) -> None:
        assert isinstance(item, Update)
        await self._take([item])


class Inlet(Poller):
    """The poller's intake, arrivals on record first and then the lanes, without its polls."""

    async def run(self) -> None:
        await self._left_over()
        updater: Updater = Updater(self._bot, _Straight(self._take_in))
        await updater.initialize()
        listening: Any = bind_sockets(0, _HOST)[0]
        url = f"http://{_HOST}:{listening.getsockname()[1]}/{_PATH}"
        try:
            # The socket is bound already, so that no other process can take its port in the meantime.
            await updater.start_webhook(url_path=_PATH, webhook_url=url, allowed_updates=WANTED, unix=listening)
            while True:
                self._watch.good_poll(self._counts())
                await asyncio.sleep(1)
        finally:
            # Not `shutdown`, which would close the bot under what is still to be sent.
            await updater.stop()
