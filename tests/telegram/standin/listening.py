"""A port that can be shut for a while: connections are refused meanwhile, and the port stays ours."""

from __future__ import annotations

import asyncio
import socket

from .wire import Handler, Line

HOST = "127.0.0.1"


class Listener:
    def __init__(self, handle: Handler) -> None:
        self._handle = handle
        self._lines: set[Line] = set()
        self._server: asyncio.Server | None = None
        self._held: socket.socket | None = None
        self._timer: asyncio.TimerHandle | None = None
        self._opening: asyncio.Task[None] | None = None
        self.port = 0

    async def open(self, port: int = 0) -> None:
        self._held = _bound(port)
        self.port = self._held.getsockname()[1]
        await self.resume()

    def refuse(self, seconds: float) -> None:
        """Cuts all connections and refuses new ones; seconds 0 means until `resume`."""
        if self._server is not None:
            self._server.close()
            self._server = None
            # Bound but not listening: the port refuses, and nobody else can take it.
            self._held = _bound(self.port)
        self.cut()
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
        if seconds:
            self._timer = asyncio.get_running_loop().call_later(seconds, self._resume_soon)

    def cut(self, only_busy: bool = False) -> None:
        """Closes all connections, or those only that wait for an answer."""
        for line in list(self._lines):
            if line.busy or not only_busy:
                line.cut()

    def _resume_soon(self) -> None:
        self._opening = asyncio.get_running_loop().create_task(self.resume())

    async def resume(self) -> None:
        if self._timer is not None:
            self._timer.cancel()
            self._timer = None
        if self._held is None:
            return
        held, self._held = self._held, None
        loop = asyncio.get_running_loop()
        self._server = await loop.create_server(lambda: Line(self._handle, self._lines), sock=held, backlog=1024)

    def close(self) -> None:
        self.refuse(0)
        if self._held is not None:
            self._held.close()
            self._held = None


def _bound(port: int) -> socket.socket:
    held = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    held.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    held.bind((HOST, port))
    return held
