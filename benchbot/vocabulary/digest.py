"""The fingerprint of the knowledge files, taken without reading what they say."""

from __future__ import annotations

import hashlib
from pathlib import Path


def knowledge_files(folder: Path) -> list[Path]:
    """Every knowledge file of the folder, in a fixed order."""
    return sorted(
        (path for path in folder.rglob("*") if path.suffix in (".yaml", ".txt") and path.is_file()),
        key=lambda path: path.relative_to(folder).as_posix(),
    )


def digest_of(folder: Path) -> str:
    """SHA-256 over the names and bytes of the knowledge files: it changes when any of them does."""
    total = hashlib.sha256()
    for path in knowledge_files(folder):
        content = path.read_bytes()
        total.update(f"{path.relative_to(folder).as_posix()}\0{len(content)}\0".encode())
        total.update(content)
    return total.hexdigest()
