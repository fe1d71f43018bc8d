"""What the server refuses: a status, a description in its wording, and the parameters that go with it."""

from __future__ import annotations

from typing import Any


class Refusal(Exception):
    """Becomes {"ok": false, "error_code": ..., "description": ..., "parameters": ...}."""

    def __init__(self, code: int, description: str, parameters: dict[str, Any] | None = None) -> None:
        super().__init__(description)
        self.code = code
        self.description = description
        self.parameters = parameters or {}


def bad(text: str) -> Refusal:
    return Refusal(400, f"Bad Request: {text}")


def forbidden(text: str) -> Refusal:
    return Refusal(403, f"Forbidden: {text}")


def conflict(text: str) -> Refusal:
    return Refusal(409, f"Conflict: {text}")


def too_many(seconds: int) -> Refusal:
    return Refusal(429, f"Too Many Requests: retry after {seconds}", {"retry_after": seconds})


class OrderError(Exception):
    """A test asked for something that cannot happen in a messenger; no answer of the Bot API."""
