"""One poller of one token on a machine: two would take each other's messages."""

from __future__ import annotations

import hashlib
import os
import stat
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from benchbot.errors import RecordError, SettingError
from benchbot.records.lock import held

_BUSY = "another poller has it"


@contextmanager
def only_poller(token: str, *folders: Path) -> Iterator[None]:
    """Holds the token's lock in every folder; a killed process lets go by itself. SettingError names who has it."""
    name = "telegram-" + hashlib.sha256(token.encode()).hexdigest()[:16]
    with ExitStack() as locks:
        files = [folder / name for folder in folders]
        for file in files:
            _take(locks, file)
        for file in files:
            _note_of(file).write_text(f"{os.getpid()}\n", encoding="utf-8")
        yield


def own_folder() -> Path:
    """A folder for the locks of this account, the same whatever home is set. SettingError when it is not ours."""
    if not hasattr(os, "getuid"):
        folder = Path(tempfile.gettempdir()) / "benchbot"
        folder.mkdir(exist_ok=True)
        return folder
    folder = Path(tempfile.gettempdir()) / f"benchbot-{os.getuid()}"
    folder.mkdir(mode=0o700, exist_ok=True)
    about = folder.lstat()
    if not stat.S_ISDIR(about.st_mode) or about.st_uid != os.getuid():
        # The name can be guessed: whoever made it first could keep this bot from ever starting.
        raise SettingError(f"{folder}: it belongs to another account; remove it, or set TMPDIR to another folder")
    return folder


def _take(locks: ExitStack, file: Path) -> None:
    try:
        locks.enter_context(held(file.with_suffix(".lock"), 0, _BUSY))
    except RecordError as error:
        if "locked" not in str(error):
            raise
        raise SettingError(
            f"another benchbot{_who(file)} polls this bot on this machine already; stop that one, or leave it be"
        ) from error


def _who(file: Path) -> str:
    try:
        return f" (process {int(_note_of(file).read_text(encoding='utf-8'))})"
    except (OSError, ValueError):
        # It may have the lock and not have written its number yet.
        return ""


def _note_of(file: Path) -> Path:
    return file.with_suffix(".pid")
