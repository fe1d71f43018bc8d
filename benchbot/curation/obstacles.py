"""What stands in the way of copying or replacing the record of a home."""

from __future__ import annotations

import os
import time
from pathlib import Path

from benchbot.errors import RecordError, SettingError
from benchbot.places import Home
from benchbot.records.lock import held
from benchbot.records.sqlite import sqlite_path

# A running bot writes this file at least so often, unless the messenger is out of its reach.
ALIVE, ALIVE_SECONDS = "telegram.alive", 60.0
# A running bot holds one of these.
BOT_LOCKS = "telegram-*.lock"
_POSTGRESQL = ("pg_dump", "pg_restore")
_TOOLS = {"postgresql": _POSTGRESQL, "postgres": _POSTGRESQL}


def record_file(home: Home, restoring: bool) -> Path:
    """The file of the home's record. RecordError when a database server keeps it: servers have tools of their own."""
    path = sqlite_path(home.record_url)
    if path is not None:
        return path
    server = home.record_url.partition(":")[0].partition("+")[0]
    tool = _TOOLS.get(server, ("tool for backups", "tool for restoring"))[restoring]
    raise RecordError(
        f"the record is kept on a database server ({server}), as BENCHBOT_DATABASE_URL says: use the server's own "
        f"{tool} for it. The book is made again from the record with: benchbot specs publish"
    )


def refuse_foreign_account(home: Home) -> None:
    """SettingError when the all-powerful account works on a home of another: the bot could not use its files."""
    if os.name == "nt" or os.geteuid() != 0:
        return
    owner = home.folder.stat().st_uid
    if owner != 0:
        name = _account(owner)
        raise SettingError(
            f"{home.folder} belongs to the account {name}, which could not use files of root; run this as that "
            f"account: sudo -u {name} benchbot ..."
        )


def refuse_running_bot(home: Home) -> None:
    """RecordError when a bot runs on this home, or has polled on it within the last minute."""
    for lock in sorted(home.folder.glob(BOT_LOCKS)):
        with held(lock, 0, "a bot runs on this home; stop it and try again"):
            pass
    # A bot in a container, or one that shares the folder from another machine, may keep its lock out of our sight.
    alive = home.folder / ALIVE
    try:
        age = time.time() - alive.stat().st_mtime
    except FileNotFoundError:
        return
    if age < ALIVE_SECONDS:
        raise RecordError(
            f"{alive}: a bot was at work on this home {max(age, 0):.0f} s ago; stop it, and try again (when it did not "
            "end by itself: after a minute)"
        )


def _account(number: int) -> str:
    import pwd

    try:
        return pwd.getpwuid(number).pw_name
    except KeyError:
        return f"#{number}"
