"""Runs the stand-in: one port for the bot, one for the test, until the test ends."""

from __future__ import annotations

import argparse
import asyncio
import json
import signal
import sys

from .control import Control
from .exchange import Exchange
from .listening import HOST, Listener
from .service import Service

# The form that the server asks for: digits, a colon, and 24 or more signs. Invented.
TOKEN = "7100200300:AAStandInTokenForTestsOnly_0123456789"


async def serve(exchange: Exchange, port: int, control_port: int, with_parent: bool) -> None:
    bot_side = Listener(Service(exchange).handle)
    test_side = Listener(Control(exchange, bot_side).handle)
    await bot_side.open(port)
    await test_side.open(control_port)
    ended = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGINT, signal.SIGTERM):
        loop.add_signal_handler(number, ended.set)
    if with_parent:
        # The parent holds the other end of the pipe; when it dies, however it dies, we end.
        loop.add_reader(sys.stdin.fileno(), ended.set)
    told = {
        "url": f"http://{HOST}:{bot_side.port}",
        "control": f"http://{HOST}:{test_side.port}",
        "token": exchange.token,
    }
    print(json.dumps(told), flush=True)
    await ended.wait()
    bot_side.close()
    test_side.close()


def main() -> int:
    parser = argparse.ArgumentParser(prog="standin", description="A stand-in for the Telegram Bot API server.")
    parser.add_argument("--port", type=int, default=0, help="for the bot; 0 takes a free one")
    parser.add_argument("--control-port", type=int, default=0, help="for the test; 0 takes a free one")
    parser.add_argument("--token", default=TOKEN)
    parser.add_argument("--username", default="StandInBot")
    parser.add_argument("--no-privacy", action="store_true", help="the bot hears everything in groups")
    parser.add_argument("--no-inline", action="store_true")
    parser.add_argument("--with-parent", action="store_true", help="end when standard input is closed")
    chosen = parser.parse_args()
    exchange = Exchange(chosen.token, chosen.username, not chosen.no_privacy, not chosen.no_inline)
    asyncio.run(serve(exchange, chosen.port, chosen.control_port, chosen.with_parent))
    return 0
