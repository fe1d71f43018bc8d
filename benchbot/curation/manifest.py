"""The list of contents of a backup: what was copied, when, by which benchbot, and how to tell that it is whole."""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from benchbot.curation.home_files import fits, is_page, is_picture
from benchbot.records.copying import Holdings

FORMAT = "benchbot backup"
# Counts up when an older benchbot could no longer read the file.
LAYOUT = 2
RECORD, BOOK, MANIFEST = "record.sqlite", "book.sqlite", "manifest.json"
_DIGEST = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class Part:
    """One file of a backup: its size in bytes and the SHA-256 digest of it, unpacked."""

    file: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True)
class BookHeld:
    """The book of a backup: version and digest as the book states them, and the number of its specs."""

    version: int
    digest: str
    rows: int


@dataclass(frozen=True, slots=True)
class Manifest:
    """parts: of the record, of the book when there is one, then pages and pictures.

    made_at: an aware ISO time; benchbot: a version. lost: pages and pictures that the record speaks of and that the
    home did not have any more.
    """

    made_at: str
    benchbot: str
    parts: tuple[Part, ...]
    record: Holdings
    book: BookHeld | None
    lost: tuple[str, ...] = ()

    @property
    def files(self) -> tuple[str, ...]:
        return tuple(part.file for part in self.parts)

    @property
    def pages(self) -> tuple[Part, ...]:
        return tuple(part for part in self.parts if is_page(part.file))

    @property
    def pictures(self) -> tuple[Part, ...]:
        return tuple(part for part in self.parts if is_picture(part.file))

    def part(self, file: str) -> Part:
        """KeyError when the backup has no such part."""
        return next(part for part in self.parts if part.file == file)

    def to_text(self) -> str:
        return json.dumps({"format": FORMAT, "layout": LAYOUT, **asdict(self)}, indent=1)

    @classmethod
    def from_text(cls, text: str) -> Manifest:
        """ValueError says what is wrong with the text, which may come from anywhere."""
        try:
            plain = json.loads(text)
        except RecursionError as error:
            raise ValueError("its JSON is nested too deep") from error
        if not isinstance(plain, dict) or plain.get("format") != FORMAT:
            raise ValueError(f"it does not call itself a {FORMAT}")
        layout = _number(plain, "layout")
        if layout > LAYOUT:
            raise ValueError(f"it has layout {layout}, this benchbot knows {LAYOUT}; install the newer benchbot")
        record, book = _of(plain, "record", dict), _of(plain, "book", (dict, type(None)))
        rows = _of(record, "rows", dict)
        manifest = cls(
            made_at=datetime.fromisoformat(_of(plain, "made_at", str)).isoformat(),
            benchbot=_of(plain, "benchbot", str)[:40],
            parts=tuple(_part(part) for part in _of(plain, "parts", list)),
            record=Holdings(_of(record, "migration", str), {name: _number(rows, name) for name in rows}),
            book=None
            if book is None
            else BookHeld(_number(book, "version"), _digest(book, "digest"), _number(book, "rows")),
            lost=_lost(plain) if layout > 1 else (),
        )
        _check_parts(manifest)
        return manifest


def _check_parts(manifest: Manifest) -> None:
    """ValueError: a part has a name that none can have, is there twice, or is a page of another digest."""
    first = (RECORD, BOOK) if manifest.book else (RECORD,)
    files = manifest.files
    if files[: len(first)] != first:
        raise ValueError(f"its parts are not {' and '.join(first)}")
    for part in manifest.parts[len(first) :]:
        if not (is_page(part.file) or is_picture(part.file)) or not fits(part.file, part.sha256, part.size):
            raise ValueError(f"its parts are not {' and '.join(first)} and pages: {part.file[:120]!r}")
    if len(set(files)) < len(files):
        raise ValueError("one of its parts is named twice")


def _lost(plain: dict[str, Any]) -> tuple[str, ...]:
    lost = _of(plain, "lost", list)
    if not all(isinstance(name, str) and (is_page(name) or is_picture(name)) for name in lost):
        raise ValueError("what it calls lost is no page")
    return tuple(lost)


def _part(plain: Any) -> Part:
    if not isinstance(plain, dict):
        raise ValueError("a part of it is no object")
    return Part(_of(plain, "file", str), _number(plain, "size"), _digest(plain, "sha256"))


def _of(plain: dict[str, Any], key: str, kind: type | tuple[type, ...]) -> Any:
    value = plain.get(key)
    if not isinstance(value, kind):
        raise ValueError(f"its {key!r} is missing or of the wrong kind")
    return value


def _number(plain: dict[str, Any], key: str) -> int:
    value = plain.get(key)
    if type(value) is not int or not 0 <= value < 1 << 62:
        raise ValueError(f"its {key[:60]!r} is no count")
    return value


def _digest(plain: dict[str, Any], key: str) -> str:
    value = plain.get(key)
    if not isinstance(value, str) or not _DIGEST.fullmatch(value):
        raise ValueError(f"its {key!r} is no SHA-256 digest")
    return value
