"""How many calls a second the stand-in takes: `python tests/telegram/standin/speed.py`. Prints, passes no judgement."""

from __future__ import annotations

import asyncio
import sys
import time
from pathlib import Path
from urllib.parse import urlencode, urlsplit

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from standin.client import StandIn

LINES = 16
CALLS = 16_000


async def _call(server: StandIn, chat: int, count: int) -> None:
    where = urlsplit(server.url)
    reader, writer = await asyncio.open_connection(where.hostname, where.port)
    body = urlencode({"chat_id": chat, "text": "<b>100 N·m</b>", "parse_mode": "HTML"}).encode()
    head = (
        f"POST /bot{server.token}/sendMessage HTTP/1.1\r\nHost: standin\r\n"
        f"Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {len(body)}\r\n\r\n"
    ).encode()
    for _ in range(count):
        writer.write(head + body)
        answer = await reader.readuntil(b"\r\n\r\n")
        assert answer.startswith(b"HTTP/1.1 200"), answer
        size = int(answer.lower().split(b"content-length: ")[1].split(b"\r\n")[0])
        await reader.readexactly(size)
    writer.close()
    await writer.wait_closed()


async def _all(server: StandIn) -> None:
    await asyncio.gather(*(_call(server, 1 + line, CALLS // LINES) for line in range(LINES)))


def main() -> None:
    with StandIn.start() as server:
        server.batch([("person", {"person": 1 + line}) for line in range(LINES)])
        began = time.perf_counter()
        asyncio.run(_all(server))
        seconds = time.perf_counter() - began
        assert server.state()["from_bot"] == CALLS
        print(f"sendMessage: {CALLS / seconds:.0f} calls a second over {LINES} connections")
        began = time.perf_counter()
        orders = [("say", {"chat": 1 + n % LINES, "person": 1 + n % LINES, "text": "torque?"}) for n in range(CALLS)]
        server.batch(orders)
        print(f"messages of people, in one batch: {CALLS / (time.perf_counter() - began):.0f} a second")


if __name__ == "__main__":
    main()
