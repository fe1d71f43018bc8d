"""What shall go wrong, as a test orders it: for the next calls of a method, before or after they are handled."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from .refusals import OrderError

KINDS = {"status", "cut", "delay", "garbage", "hang"}
_WORDS = {
    400: "Bad Request: ordered by the test",
    401: "Unauthorized",
    403: "Forbidden: ordered by the test",
    409: "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running",
    500: "Internal Server Error",
    502: "Bad Gateway",
    503: "Service Unavailable",
}


@dataclass(slots=True)
class Fault:
    """One order.

    kind: status (answer `code`), cut (close the connection), delay (answer after `seconds`), garbage (a body that is
    no JSON, with `code`), hang (never answer).
    method: "" is any, "file" the download of one; chat: None is any. skip: so many calls that match go well first;
    times: then so many do not.
    handled: the call is carried out, and only its answer is lost or spoilt; else nothing happens.
    description: of a status, in place of the usual words; parameters go with it.
    """

    kind: str
    method: str = ""
    chat: int | None = None
    skip: int = 0
    times: int = 1
    handled: bool = False
    code: int = 500
    seconds: float = 0.0
    description: str = ""
    parameters: dict[str, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise OrderError(f"no fault of the kind {self.kind!r}; there are {', '.join(sorted(KINDS))}")
        if self.times < 1 or self.skip < 0 or self.seconds < 0:
            raise OrderError("times must be 1 or more, skip and seconds 0 or more")
        self.method = self.method.lower()

    @property
    def words(self) -> str:
        if self.description:
            return self.description
        if self.code == 429:
            return f"Too Many Requests: retry after {self.parameters.get('retry_after', 0)}"
        return _WORDS.get(self.code, "Ordered by the test")


class Faults:
    def __init__(self) -> None:
        self._ordered: list[Fault] = []

    def order(self, fault: Fault) -> None:
        self._ordered.append(fault)

    def clear(self) -> None:
        self._ordered.clear()

    @property
    def outstanding(self) -> int:
        """How many calls are still to fail; 0 once every order was carried out."""
        return sum(fault.times for fault in self._ordered)

    def next(self, method: str, chat: int | None) -> Fault | None:
        """The fault for this call, which uses it up. The first order that matches counts."""
        for fault in self._ordered:
            if fault.method not in ("", method) or fault.chat not in (None, chat):
                continue
            if fault.skip:
                fault.skip -= 1
                return None
            fault.times -= 1
            if not fault.times:
                self._ordered.remove(fault)
            return fault
        return None
