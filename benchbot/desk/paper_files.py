"""The papers of a home that a messenger is to send: the records of finished jobs and their slips."""

from __future__ import annotations

from pathlib import Path

from benchbot.places import Home

FOLDER = "papers"
# Stands in `Parcel.code` before the name of a file.
PAPER = "paper:"


def keep_paper(home: Home, name: str, content: bytes) -> str:
    """Puts a file into the home, whole or not at all; what a parcel calls it. OSError: it cannot be written."""
    folder = home.folder / FOLDER
    folder.mkdir(mode=0o700, exist_ok=True)
    half = folder / f"{name}.half"
    half.touch(mode=0o600)
    half.write_bytes(content)
    half.replace(folder / name)
    return f"{PAPER}{name}"


def paper_file(home: Home, code: str) -> Path | None:
    """Where the file of a parcel lies; None for one that is no paper."""
    return home.folder / FOLDER / Path(code.removeprefix(PAPER)).name if code.startswith(PAPER) else None
