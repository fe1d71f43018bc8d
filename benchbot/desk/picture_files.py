"""The pictures of a home that a messenger is to show: those drawn for it, which wait, and the pages kept with rows."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

from benchbot.curation.evidence_files import folder_of
from benchbot.curation.home_files import DRAWN, PICTURES
from benchbot.places import Home

FOLDER = PICTURES
# Stands in `Parcel.code` before the name of a page, as DRAWN does before that of a picture that was drawn and waits.
PAGE = "page:"
# As long as what was sent stays on record.
KEPT = timedelta(days=30)


def keep_picture(home: Home, name: str, content: bytes) -> str:
    """Puts a PNG picture into the home, whole or not at all; what a parcel calls it. OSError: it cannot be written."""
    folder = home.folder / FOLDER
    folder.mkdir(exist_ok=True)
    # the figures of a shop are for the owner of the home alone
    half = folder / f"{name}.half"
    half.touch(mode=0o600)
    half.write_bytes(content)
    half.replace(folder / name)
    return f"{DRAWN}{name}"


def page_code(file: str) -> str:
    """What a parcel calls a kept page; file: its name in the folder of evidence."""
    return f"{PAGE}{file}"


def picture_file(home: Home, code: str) -> Path | None:
    """Where the picture of a parcel lies; None for one that is drawn from its code when it is sent."""
    if code.startswith(PAGE):
        return folder_of(home) / Path(code.removeprefix(PAGE)).name
    if code.startswith(DRAWN):
        return home.folder / FOLDER / Path(code.removeprefix(DRAWN)).name
    return None


def forget_pictures(home: Home, now: datetime) -> None:
    """Removes the pictures that nobody can ask for any more."""
    before = (now - KEPT).timestamp()
    for file in (home.folder / FOLDER).glob("*.png*"):
        if file.stat().st_mtime < before:
            file.unlink(missing_ok=True)
