"""Who asks from this machine, and in which chat."""

from __future__ import annotations

import getpass
import os


def person() -> str:
    """The name of the account that runs benchbot, as it goes on record."""
    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):
        # Containers run under numbers that have no name.
        return f"account {os.getuid()}" if hasattr(os, "getuid") else "unnamed account"


def fresh_chat(kind: str) -> str:
    """A chat that no run before or after shares."""
    return f"{kind} {os.urandom(8).hex()}"


def printable(text: str) -> str:
    """The text without halves of characters, which no file and no database takes."""
    return text.encode("utf-8", "replace").decode("utf-8")
