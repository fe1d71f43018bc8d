"""Numbers in the codes of buttons, which anybody could make up."""

from __future__ import annotations


def number_in(code: str, prefix: str = "") -> int | None:
    """The number behind the prefix, in plain digits; None when that is not what the code is."""
    digits = code.removeprefix(prefix)
    fits = code.startswith(prefix) and digits.isascii() and digits.isdecimal() and len(digits) <= 15
    return int(digits) if fits else None
