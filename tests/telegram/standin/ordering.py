"""Gives orders to the control port; the part of the client that both its halves stand on."""

from __future__ import annotations

import json
import threading
from http.client import HTTPConnection
from typing import Any
from urllib.parse import urlsplit

PATIENCE = 10.0  # seconds that any order may take, beyond those that it takes by its nature


class StandInError(Exception):
    """An order that cannot be carried out, or a fault of the stand-in."""


class Ordering:
    """Every thread has a connection of its own, so that one may wait while another gives orders."""

    def __init__(self, control: str) -> None:
        self._port = urlsplit(control).port
        self._host = urlsplit(control).hostname or ""
        self._mine = threading.local()
        self._all: list[HTTPConnection] = []

    def order(self, name: str, patience: float = 0.0, **given: Any) -> Any:
        """One order with its parameters; what is None is left out. patience: how many seconds it may take."""
        body = json.dumps({key: value for key, value in given.items() if value is not None}).encode()
        line: HTTPConnection | None = getattr(self._mine, "line", None)
        if line is None:
            line = HTTPConnection(self._host, self._port, timeout=PATIENCE)
            line.connect()
            self._mine.line = line
            self._all.append(line)
        line.sock.settimeout(patience + PATIENCE)
        line.request("POST", f"/control/{name}", body, {"Content-Type": "application/json"})
        answer = line.getresponse()
        told = json.loads(answer.read())
        if answer.status != 200:
            raise StandInError(told["error"])
        return told

    def hang_up(self) -> None:
        for line in self._all:
            line.close()
        self._all.clear()
