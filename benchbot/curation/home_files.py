"""The files of a home that its record speaks of: pages kept with rows, and pictures that wait to be sent."""

from __future__ import annotations

import hashlib
import json
import re
import sqlite3
from pathlib import Path

from benchbot.curation.evidence_files import FOLDER as PAGES
from benchbot.curation.evidence_files import LARGEST
from benchbot.places import Home

PICTURES = "pictures"
# Stands in the record before the name of a picture that was drawn and waits.
DRAWN = "png:"
# A page of each of so many rows; whoever has more keeps them with a tool for folders.
MOST = 20_000
_PAGE = re.compile(rf"{PAGES}/([0-9a-f]{{64}})\.(?:jpg|png|webp|pdf)")
_PICTURE = re.compile(rf"{PICTURES}/[A-Za-z0-9_-][A-Za-z0-9_.-]{{0,150}}\.png")
_KEPT = "SELECT DISTINCT digest, kind FROM evidence WHERE state = 'kept'"
_WAITING = """
SELECT body FROM sending WHERE state IN ('waiting', 'sending', 'unsure') AND body LIKE '{"do":"picture"%'
"""


def is_page(name: str) -> bool:
    """Whether a part of a backup is a page: its folder, its digest and its kind, and no way out of the folder."""
    return _PAGE.fullmatch(name) is not None


def is_picture(name: str) -> bool:
    return _PICTURE.fullmatch(name) is not None


def fits(name: str, content_digest: str, size: int) -> bool:
    """Whether a file of that digest and size can be the part: a page is named by its bytes."""
    page = _PAGE.fullmatch(name)
    return 0 < size <= LARGEST and (page is None or page[1] == content_digest)


def spoken_of(record: Path) -> tuple[str, ...]:
    """The names of the files, each with its folder, that a record file speaks of; it is only read.

    sqlite3.Error, ValueError, KeyError, TypeError: the record cannot be read, or speaks of a file by a name that none
    can have.
    """
    connection = sqlite3.connect(record.absolute().as_uri() + "?mode=ro&immutable=1", uri=True)
    try:
        connection.execute("PRAGMA trusted_schema = OFF")
        tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
        # a record of an older benchbot has neither
        kept = connection.execute(_KEPT).fetchall() if "evidence" in tables else []
        bodies = connection.execute(_WAITING).fetchall() if "sending" in tables else []
    finally:
        connection.close()
    pages = {f"{PAGES}/{digest}.{kind}" for digest, kind in kept}
    codes = [str(json.loads(body)["code"]) for (body,) in bodies]
    pictures = {f"{PICTURES}/{code.removeprefix(DRAWN)}" for code in codes if code.startswith(DRAWN)}
    wrong = [name for name in (*pages, *pictures) if not (is_page(name) or is_picture(name))]
    if wrong:
        raise ValueError(f"it speaks of a file {wrong[0][:120]!r}")
    return (*sorted(pages), *sorted(pictures))


def content_of(home: Home, name: str) -> bytes | None:
    """The bytes of a file of the home; None when it is gone, cannot be read or is not what it was."""
    file = home.folder / name
    try:
        if file.stat().st_size > LARGEST:
            return None
        content = file.read_bytes()
    except OSError:
        return None
    return content if fits(name, hashlib.sha256(content).hexdigest(), len(content)) else None
