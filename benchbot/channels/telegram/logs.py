"""The log: one line an event, for a person or for a machine, and never a token or an invite code in it."""

from __future__ import annotations

import json
import logging
import re
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from types import TracebackType
from typing import Any, TextIO

from benchbot.people.codes import looks_like_code

HIDDEN = "***"
_TOKEN = re.compile(r"\d{6,}(?::|%3A)[A-Za-z0-9_-]{30,}", re.IGNORECASE)
# A code stands in a start link or a start command as it was made, elsewhere with or without its dashes.
_START = re.compile(r"(start\W{1,4})[A-Za-z0-9_-]{15,64}", re.IGNORECASE)
_CODE = re.compile(r"(?<![0-9A-Za-z])[0-9A-Za-z]{5}([\s_\u2010-\u2015\u2212-]{0,3}[0-9A-Za-z]{5}){2}(?![0-9A-Za-z])")
_DASHES = re.compile(r"[\u2010-\u2015\u2212-]")
_BARE = re.compile(r"[^\s\"=\\\x00-\x1f\x7f]+")
# The libraries' own lines: URLs with the token, whole updates with what people wrote, and faults that we log ourselves.
_LIBRARIES = {
    "httpx": logging.WARNING,
    "httpcore": logging.WARNING,
    "telegram": logging.WARNING,
    "telegram.ext.ExtBot": logging.CRITICAL + 1,
    "telegram.request.BaseRequest": logging.CRITICAL + 1,
    "telegram.ext.AIORateLimiter": logging.CRITICAL + 1,
}


def event(log: logging.Logger, what: str, level: int = logging.INFO, /, **facts: object) -> None:
    """Logs that something happened, with its facts."""
    log.log(level, what, extra={"facts": facts})


def fault(log: logging.Logger, what: str, level: int = logging.ERROR, /, **facts: object) -> None:
    """Logs the exception that is being handled, with where it came from."""
    log.log(level, what, extra={"facts": facts}, exc_info=True)


class Hiding(logging.Filter):
    """Takes the token, whatever looks like one, and invite codes out of everything that a record would show."""

    def __init__(self, token: str = "") -> None:
        super().__init__()
        self._token = token

    def filter(self, record: logging.LogRecord) -> bool:
        try:
            text = record.getMessage()
        except Exception:  # A line that cannot be put together would be printed with its raw parts.
            text = f"a log line with the wrong number of parts: {record.msg}"
        record.msg, record.args = self.hide(text), None
        if record.exc_info:
            record.exc_text = logging.Formatter().formatException(record.exc_info)
            record.exc_info = None
        if record.exc_text:
            record.exc_text = self.hide(record.exc_text)
        if record.stack_info:
            record.stack_info = self.hide(record.stack_info)
        facts = getattr(record, "facts", None)
        if facts:
            record.facts = {name: self._hide_fact(value) for name, value in facts.items()}
        return True

    def hide(self, text: str) -> str:
        if self._token:
            text = text.replace(self._token, HIDDEN)
        text = _TOKEN.sub(HIDDEN, text)
        text = _START.sub(rf"\1{HIDDEN}", text)
        return _CODE.sub(_without_code, text)

    def _hide_fact(self, value: object) -> object:
        return value if value is None or isinstance(value, (bool, int, float)) else self.hide(str(value))


def _without_code(found: re.Match[str]) -> str:
    text = found[0]
    return HIDDEN if len(_DASHES.findall(text)) > 1 or looks_like_code(text) else text


class ForPeople(logging.Formatter):
    """Time, level, what happened, facts as name=value; a traceback stands indented below."""

    def format(self, record: logging.LogRecord) -> str:
        facts = "".join(f" {name}={_fact(value)}" for name, value in _facts(record).items())
        line = f"{_time(record)} {record.levelname:<7} {_one_line(record.getMessage())}{facts}"
        trace = [part for part in (record.exc_text, record.stack_info) if part]
        return "\n".join([line, *("    " + row for part in trace for row in part.splitlines())])


class ForMachines(logging.Formatter):
    """One JSON object a line."""

    def format(self, record: logging.LogRecord) -> str:
        own = {
            "time": _time(record),
            "level": record.levelname.lower(),
            "event": record.getMessage(),
            "logger": record.name,
        }
        plain = {**own, **_facts(record), **own}
        trace = [part for part in (record.exc_text, record.stack_info) if part]
        if trace:
            plain["trace"] = "\n".join(trace)
        return json.dumps(plain, ensure_ascii=False, default=str)


@contextmanager
def logging_to(stream: TextIO, token: str = "", as_json: bool = False, level: int = logging.INFO) -> Iterator[None]:
    """Everything that is logged in the meantime goes to the stream, through the filter; so do uncaught exceptions."""
    handler = logging.StreamHandler(stream)
    handler.addFilter(Hiding(token))
    handler.setFormatter(ForMachines() if as_json else ForPeople())
    root = logging.getLogger()
    before = root.level, {name: logging.getLogger(name).level for name in _LIBRARIES}
    hooks = sys.excepthook, threading.excepthook
    root.addHandler(handler)
    root.setLevel(level)
    for name, least in _LIBRARIES.items():
        logging.getLogger(name).setLevel(least)
    sys.excepthook, threading.excepthook = _log_uncaught, _log_uncaught_in_thread
    logging.captureWarnings(True)
    try:
        yield
    finally:
        logging.captureWarnings(False)
        sys.excepthook, threading.excepthook = hooks
        root.removeHandler(handler)
        root.setLevel(before[0])
        for name, least in before[1].items():
            logging.getLogger(name).setLevel(least)


def _log_uncaught(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    logging.getLogger(__name__).critical("stopped by an error of ours", exc_info=(kind, error, trace))


def _log_uncaught_in_thread(about: threading.ExceptHookArgs) -> None:
    error = about.exc_value or RuntimeError("a thread ended without saying why")
    _log_uncaught(about.exc_type, error, about.exc_traceback)


def _facts(record: logging.LogRecord) -> dict[str, Any]:
    facts: dict[str, Any] = getattr(record, "facts", None) or {}
    return facts


def _time(record: logging.LogRecord) -> str:
    return datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _one_line(text: str) -> str:
    """The text without line ends and control characters: what a person wrote must not look like a line of the log."""
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text)


def _fact(value: object) -> str:
    text = str(value)
    return text if _BARE.fullmatch(text) and text.isprintable() else json.dumps(text, ensure_ascii=True)
