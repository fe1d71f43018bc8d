"""Runs telemelya on a free port of loopback, with what it keeps in memory, until standard input is closed."""

from __future__ import annotations

import asyncio
import json
import socket
import sys
from typing import Any

import uvicorn
from fakeredis import FakeAsyncRedis
from telemelya.server.app import app
from telemelya.server.media import media_manager
from telemelya.server.state import state_manager

HOST = "127.0.0.1"


async def _keep_in_memory() -> None:
    state_manager._redis = FakeAsyncRedis(decode_responses=True)


async def _keep_no_pictures() -> None:
    """Its object store is only for pictures, and none is sent here."""


async def serve() -> None:
    # No Redis and no object store need to be there.
    state: Any = state_manager
    state.connect = _keep_in_memory
    pictures: Any = media_manager
    pictures.connect = _keep_no_pictures
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning"))
    asyncio.get_running_loop().add_reader(sys.stdin.fileno(), setattr, server, "should_exit", True)
    with socket.create_server((HOST, 0)) as listening:
        print(json.dumps({"url": f"http://{HOST}:{listening.getsockname()[1]}"}), flush=True)
        await server.serve(sockets=[listening])


if __name__ == "__main__":
    asyncio.run(serve())
