"""Where things lie: the home folder of a shop, the knowledge files and the demo specs."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from pathlib import Path

from benchbot.errors import SettingError

_PACKAGE = Path(__file__).resolve().parent


def _shipped(name: str) -> Path:
    """A folder shipped with the program: inside the installed package, or beside it in a checkout."""
    for folder in (_PACKAGE / name, _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise SettingError(f"the folder {name}/ that belongs to benchbot is missing; install benchbot again")


def knowledge_folder() -> Path:
    """The shipped knowledge files (vocabulary, cautions, noise words)."""
    return _shipped("knowledge")


def demo_folder() -> Path:
    """The shipped demo specs; every make, model and value in them is invented."""
    return _shipped("demo_specs")


@dataclass(frozen=True, slots=True)
class Home:
    """The folder that holds one shop's book and record."""

    folder: Path

    @property
    def book(self) -> Path:
        return self.folder / "book.sqlite"

    @property
    def record(self) -> Path:
        return self.folder / "record.sqlite"

    @property
    def record_url(self) -> str:
        """The database of the record: BENCHBOT_DATABASE_URL, or SQLite in the home."""
        return os.environ.get("BENCHBOT_DATABASE_URL") or f"sqlite:///{self.record}"

    @property
    def chat_history(self) -> Path:
        return self.folder / "chat_history.txt"


def home() -> Home:
    """The shop's home: BENCHBOT_HOME, or the platform's user data folder. The folder is made when missing."""
    named = os.environ.get("BENCHBOT_HOME")
    folder = Path(named).expanduser() if named else _user_data_folder() / "benchbot"
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise SettingError(
            f"the home folder {folder} cannot be made ({error}); set BENCHBOT_HOME to one that can"
        ) from error
    return Home(folder)


def _user_data_folder() -> Path:
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share")
