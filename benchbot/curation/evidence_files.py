"""Pictures of source pages as files in a home: told by their content, kept under the digest of their bytes."""

from __future__ import annotations

import hashlib
import os
import tempfile
import warnings
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Literal

from benchbot.places import Home

FOLDER = "evidence"
LARGEST = 10 * 1024 * 1024
_FORMATS = {"JPEG": "jpg", "PNG": "png", "WEBP": "webp"}
Kind = Literal["jpg", "png", "webp", "pdf"]


@dataclass(frozen=True, slots=True)
class KeptFile:
    """digest: SHA-256 of the bytes in hex; the file lies in the folder of evidence as digest.kind."""

    digest: str
    kind: str
    size: int


def folder_of(home: Home) -> Path:
    return home.folder / FOLDER


def kind_of(content: bytes) -> str | None:
    """jpg, png, webp or pdf by what the bytes are; None for anything else, and for a picture that is torn."""
    if not 0 < len(content) <= LARGEST:
        return None
    if content[:5] == b"%PDF-":
        # ISO 32000-1, 7.5.5: a file ends with this mark, and readers look for it in the last 1024 bytes.
        return "pdf" if b"%%EOF" in content[-1024:] else None
    # slow to load, and most shops send no pictures
    from PIL import Image

    try:
        with warnings.catch_warnings():
            # a picture of more pixels than any page needs is made to burst memory
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(content), formats=tuple(_FORMATS)) as picture:
                found = picture.format
                picture.verify()
    except (OSError, SyntaxError, ValueError, Image.DecompressionBombError, Image.DecompressionBombWarning):
        return None
    return _FORMATS.get(found or "")


def keep_file(home: Home, content: bytes) -> KeptFile | None:
    """Writes the bytes where only the owner of the home can read them; None when they are no picture of a page.

    The same bytes are kept once. OSError: the disk takes nothing.
    """
    kind = kind_of(content)
    if kind is None:
        return None
    digest = hashlib.sha256(content).hexdigest()
    folder = folder_of(home)
    folder.mkdir(mode=0o700, exist_ok=True)
    file = folder / f"{digest}.{kind}"
    if not file.is_file():
        # mkstemp makes it for its owner alone (0600); a killed process leaves no half a picture under the name
        handle, name = tempfile.mkstemp(dir=folder, prefix=".new")
        try:
            with os.fdopen(handle, "wb") as out:
                out.write(content)
                out.flush()
                os.fsync(out.fileno())
            Path(name).replace(file)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    return KeptFile(digest, kind, len(content))
