"""The codes of invites: made, read from what a person typed, digested, and put into a link."""

from __future__ import annotations

import hashlib
import re
import secrets

# No I, L, O or U: a 1, a 0 and a V are read for them from a wall, and no word comes of it.
LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
GROUPS, GROUP = 3, 5
LENGTH = GROUPS * GROUP
SHOWN = 3

_MISREAD = str.maketrans("ILO", "110")
# Phones turn two dashes into one long one, and paste spaces and marks that nobody sees.
_BETWEEN = re.compile(r"[\s_\u00ad\u2010-\u2015\u2212\u200b-\u200f\u2060\ufeff-]+")
_AS_MADE = re.compile(rf"(?=[0-9A-Z]*[2-9])(?=[0-9A-Z]*[A-Z])[0-9A-Z]{{{GROUP}}}")
_START = re.compile(r"[A-Za-z0-9_-]{1,64}")


def new_code() -> str:
    """A new code, such as "K7QPM-2XWDH-9RTVA": over 70 bits by chance.

    Each group has a letter and a digit above 1, so that no words of a question look like a code.
    """
    return "-".join(_new_group() for _ in range(GROUPS))


def looks_like_code(text: str) -> bool:
    """Whether a message is nothing but a code, with or without its dashes, in any case."""
    if len(text) > 4 * LENGTH or "U" in (letters := _letters(text)):
        return False
    groups = [letters[at : at + GROUP] for at in range(0, len(letters), GROUP)]
    return len(groups) == GROUPS and all(map(_AS_MADE.fullmatch, groups)) and _parted_well(text)


def plain_code(text: str) -> str | None:
    """The fifteen letters and digits of what was typed as a code, or None when it cannot be one."""
    code = _letters(text).translate(_MISREAD) if len(text) <= 4 * LENGTH else ""
    return code if len(code) == LENGTH and set(code) <= set(LETTERS) else None


def digest(plain: str) -> str:
    """What is kept of a code: the SHA-256 of its plain letters, in hexadecimal."""
    return hashlib.sha256(plain.encode("ascii")).hexdigest()


def deep_link(link_base: str, code: str) -> str:
    """The link that opens a chat with the bot and hands it the code. link_base: such as "https://t.me/NAME"."""
    if not _START.fullmatch(code):
        # Bot API, "Deep linking": A-Z, a-z, 0-9, _ and -, at most 64.
        raise ValueError("a link carries 1 to 64 letters, digits, dashes and underscores; this is no code of ours")
    return f"{link_base}?start={code}"


def _new_group() -> str:
    while True:
        group = "".join(secrets.choice(LETTERS) for _ in range(GROUP))
        if _AS_MADE.fullmatch(group):
            return group


def _letters(text: str) -> str:
    between_left_out = _BETWEEN.sub("", text)
    return between_left_out.upper() if between_left_out.isascii() else ""


def _parted_well(text: str) -> bool:
    """Whether the code is written in one, or parted where it is parted when it is shown."""
    return [len(part) for part in _BETWEEN.split(text.strip()) if part] in ([LENGTH], [GROUP] * GROUPS)
