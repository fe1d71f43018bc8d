"""The parameters of a call, however they came: in the query, urlencoded, as JSON, or as multipart with files."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import parse_qsl, unquote

from .refusals import bad
from .wire import Request

_NAME = re.compile(r'(?:^|;)\s*name="((?:[^"\\]|\\.)*)"')
_FILENAME = re.compile(r'(?:^|;)\s*filename="((?:[^"\\]|\\.)*)"')
_FILENAME_CODED = re.compile(r"(?:^|;)\s*filename\*=[Uu][Tt][Ff]-8''([^;\s]+)")


@dataclass(frozen=True, slots=True)
class Upload:
    filename: str
    kind: str
    content: bytes


@dataclass(slots=True)
class Form:
    """Values as they came: text, or any JSON value when the call came as JSON."""

    values: dict[str, Any] = field(default_factory=dict)
    files: dict[str, Upload] = field(default_factory=dict)

    def __contains__(self, name: str) -> bool:
        return name in self.values or name in self.files

    def text(self, name: str) -> str:
        """The value as text; empty when it is missing."""
        value = self.values.get(name)
        if value is None:
            return ""
        if isinstance(value, str):
            return value
        return json.dumps(value, ensure_ascii=False)

    def whole(self, name: str, default: int = 0) -> int:
        """A whole number; what is none counts as missing, as on the server (server source, get_integer_arg)."""
        try:
            return int(float(self.text(name)))
        except (ValueError, OverflowError):
            return default

    def flag(self, name: str) -> bool:
        """Server source, to_bool."""
        return self.text(name).strip().lower() in ("true", "yes", "1")

    def structure(self, name: str, what: str, kind: type) -> Any:
        """A JSON object or array; None when it is missing."""
        value = self.values.get(name)
        if value is None or value == "":
            return None
        if isinstance(value, str):
            try:
                value = json.loads(value)
            except ValueError as fault:
                raise bad(f"can't parse {what} JSON object") from fault
        if not isinstance(value, kind):
            raise bad(f"{'object' if kind is dict else 'array'} expected as {what}")
        return value

    def logged(self) -> dict[str, Any]:
        """For the log of calls: JSON inside of text is opened, files are told by name and size."""
        shown: dict[str, Any] = {}
        for name, value in self.values.items():
            shown[name] = value
            if isinstance(value, str) and value[:1] in ("{", "["):
                try:
                    shown[name] = json.loads(value)
                except ValueError:
                    shown[name] = value
        for name, upload in self.files.items():
            shown[name] = {"filename": upload.filename, "size": len(upload.content)}
        return shown


def read_form(request: Request) -> Form:
    form = Form(dict(parse_qsl(request.query, keep_blank_values=True)) if request.query else {})
    if not request.body:
        return form
    kind = request.headers.get("content-type", "")
    plain = kind.partition(";")[0].strip().lower()
    if plain == "application/x-www-form-urlencoded":
        form.values.update(parse_qsl(request.body.decode(), keep_blank_values=True))
    elif plain == "application/json":
        try:
            values = json.loads(request.body)
        except ValueError as fault:
            raise bad("can't parse JSON object") from fault
        if not isinstance(values, dict):
            raise bad("expected an Object")
        form.values.update(values)
    elif plain == "multipart/form-data":
        _read_parts(form, kind, request.body)
    else:
        raise bad(f"unsupported content type {plain!r}")
    return form


def _read_parts(form: Form, kind: str, body: bytes) -> None:
    found = re.search(r'boundary="?([^";]+)"?', kind)
    if found is None:
        raise bad("multipart without a boundary")
    edge = b"--" + found[1].encode()
    # The first boundary has no line break before it.
    for part in (b"\r\n" + body).split(b"\r\n" + edge)[1:]:
        if part.startswith(b"--"):
            return
        head, gap, content = part.partition(b"\r\n\r\n")
        if not gap:
            raise bad("a part without a head")
        headers = {}
        for line in head.decode().split("\r\n"):
            name, _, value = line.partition(":")
            headers[name.strip().lower()] = value.strip()
        disposition = headers.get("content-disposition", "")
        named = _NAME.search(disposition)
        if named is None:
            raise bad("a part without a name")
        filename = _FILENAME.search(disposition)
        coded = _FILENAME_CODED.search(disposition)
        if filename is None and coded is None:
            form.values[named[1]] = content.decode()
        else:
            title = unquote(coded[1]) if coded else filename[1] if filename else ""
            form.files[named[1]] = Upload(title, headers.get("content-type", ""), content)
    raise bad("multipart without an end")
