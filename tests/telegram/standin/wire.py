"""HTTP/1.1 by hand: reads requests off a kept-alive connection one after the other, writes what is answered."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from http import HTTPStatus
from urllib.parse import urlsplit

HEAD_AT_MOST = 65_536
BODY_AT_MOST = 60 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Request:
    """One request; the names of headers are in lower case."""

    verb: str
    path: str
    query: str
    headers: dict[str, str]
    body: bytes


@dataclass(frozen=True, slots=True)
class Answer:
    """torn: the connection is closed after half of the body."""

    status: int
    body: bytes
    kind: str = "application/json"
    torn: bool = False


# No answer at all (None) closes the connection.
Handler = Callable[[Request], "Answer | Awaitable[Answer | None] | None"]


class MalformedError(Exception):
    """The bytes are no HTTP request that we read."""


class Line(asyncio.Protocol):
    """One connection. While an answer is under way, further requests wait in the buffer."""

    def __init__(self, handle: Handler, lines: set[Line]) -> None:
        self._handle = handle
        self._lines = lines
        self._buffer = bytearray()
        self._head: tuple[Request, int] | None = None
        self._task: asyncio.Task[None] | None = None
        self._transport: asyncio.Transport | None = None

    def connection_made(self, transport: asyncio.BaseTransport) -> None:
        assert isinstance(transport, asyncio.Transport)
        self._transport = transport
        self._lines.add(self)

    def connection_lost(self, exc: Exception | None) -> None:
        self._transport = None
        self._lines.discard(self)
        if self._task is not None:
            self._task.cancel()

    @property
    def busy(self) -> bool:
        """An answer is still to come."""
        return self._task is not None

    def cut(self) -> None:
        """Closes the connection at once, whatever is under way."""
        if self._transport is not None:
            self._transport.abort()

    def data_received(self, data: bytes) -> None:
        self._buffer += data
        self._serve()

    def _serve(self) -> None:
        while self._task is None and self._transport is not None:
            try:
                request = self._next()
            except MalformedError as fault:
                body = b'{"ok":false,"error_code":400,"description":"Bad Request: %s"}' % str(fault).encode()
                self._send(Answer(400, body), close=True)
                return
            if request is None:
                return
            close = request.headers.get("connection", "").lower() == "close"
            answer = self._handle(request)
            if answer is None or isinstance(answer, Answer):
                self._send(answer, close)
            else:
                self._task = asyncio.get_running_loop().create_task(self._answer_later(answer, close))

    async def _answer_later(self, coming: Awaitable[Answer | None], close: bool) -> None:
        answer = await coming
        self._task = None
        self._send(answer, close)
        self._serve()

    def _send(self, answer: Answer | None, close: bool) -> None:
        if self._transport is None:
            return
        if answer is None:
            self._transport.abort()
            return
        head = (
            f"HTTP/1.1 {answer.status} {HTTPStatus(answer.status).phrase}\r\nContent-Type: {answer.kind}\r\n"
            f"Content-Length: {len(answer.body)}\r\nConnection: {'close' if close else 'keep-alive'}\r\n\r\n"
        )
        body = answer.body[: len(answer.body) // 2] if answer.torn else answer.body
        self._transport.write(head.encode() + body)
        if close or answer.torn:
            self._transport.close()

    def _next(self) -> Request | None:
        if self._head is None:
            end = self._buffer.find(b"\r\n\r\n")
            if end < 0:
                if len(self._buffer) > HEAD_AT_MOST:
                    raise MalformedError("the head of the request is too long")
                return None
            self._head = read_head(bytes(self._buffer[:end]))
            del self._buffer[: end + 4]
            if self._head[0].headers.get("expect", "").lower() == "100-continue" and self._transport is not None:
                self._transport.write(b"HTTP/1.1 100 Continue\r\n\r\n")
        request, size = self._head
        if size < 0:
            chunked = read_chunks(self._buffer)
            if chunked is None:
                return None
            body, size = chunked
        else:
            if len(self._buffer) < size:
                return None
            body = bytes(self._buffer[:size])
        del self._buffer[:size]
        self._head = None
        return Request(request.verb, request.path, request.query, request.headers, body)


def read_head(head: bytes) -> tuple[Request, int]:
    """The request without its body, and the size of the body; -1 when the body comes in chunks."""
    lines = head.decode("latin-1").split("\r\n")
    words = lines[0].split(" ")
    if len(words) != 3 or not words[2].startswith("HTTP/1."):
        raise MalformedError("no request line")
    headers = {}
    for line in lines[1:]:
        name, colon, value = line.partition(":")
        if not colon:
            raise MalformedError("a header without a colon")
        headers[name.strip().lower()] = value.strip()
    target = urlsplit(words[1])
    request = Request(words[0], target.path, target.query, headers, b"")
    if headers.get("transfer-encoding", "").lower() == "chunked":
        return request, -1
    size = headers.get("content-length", "0")
    if not size.isdecimal() or int(size) > BODY_AT_MOST:
        raise MalformedError("the body has no size that we take")
    return request, int(size)


def read_chunks(buffer: bytearray) -> tuple[bytes, int] | None:
    """The body and how many bytes of the buffer it took, or None while the last chunk is not there."""
    parts = []
    at = 0
    while True:
        end = buffer.find(b"\r\n", at)
        if end < 0:
            return None
        try:
            size = int(bytes(buffer[at:end]).split(b";")[0], 16)
        except ValueError as fault:
            raise MalformedError("a chunk without a size") from fault
        if size < 0 or at + size > BODY_AT_MOST:
            raise MalformedError("the body has no size that we take")
        after = end + 2 + size
        if len(buffer) < after + 2:
            return None
        if buffer[after : after + 2] != b"\r\n":
            raise MalformedError("a chunk without an end")
        parts.append(bytes(buffer[end + 2 : after]))
        at = after + 2
        if size == 0:
            return b"".join(parts), at
