"""What any cell of a table may hold: plain printable text, not too long, and shielded where a sheet would run it."""

from __future__ import annotations

import re

LONGEST = 2_000

# Sheets run a cell that starts so as a formula, and no value of a spec starts so.
_FORMULA = re.compile(r"\s*[=+\-@]|\t|\r")
# Starts that a sheet may run, by OWASP, "CSV Injection": = + - @ tab CR LF, and the full-width forms of the marks.
_RUN = re.compile(r"'*(?:\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|[\t\r\n])")
_PLAIN = re.compile(r"[ !-~\u00a0-\u00ac\u00ae-\u02ff\u0370-\u03ff\u2010-\u2027\u2030-\u205e\u2070-\u22ff]*")
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._:/#-]{0,63}")


def cell_fault(text: str) -> tuple[str, str] | None:
    """What is wrong with a cell and what would be right, or None."""
    if len(text) > LONGEST:
        return f"{len(text):,} characters in one cell", f"shorten it to {LONGEST:,} characters"
    if _FORMULA.match(text):
        return (
            f"starts with {text.strip()[:1] or text[:1]!r}, which a sheet may run as a formula",
            "write the text without it",
        )
    if not _PLAIN.fullmatch(text):
        return _unplain(text)
    return None


def shielded(text: str) -> str:
    """The text as an exported table writes it: with an apostrophe before it when a sheet would run it as a formula."""
    if not text or text[0].isalnum():
        return text
    return f"'{text}" if _RUN.match(text) else text


def unshielded(text: str) -> str:
    """The text that `shielded` was given, exactly; an apostrophe that shields nothing belongs to the text."""
    return text[1:] if text[:1] == "'" and _RUN.match(text, 1) else text


def id_fault(text: str) -> tuple[str, str] | None:
    """What is wrong with the id of a row, or None."""
    if _ID.fullmatch(text):
        return None
    if not text:
        return "is empty", "give the row an id that no other row has"
    wrong = cell_fault(text)
    return wrong or (f"{text[:80]!r} is no id", "use up to 64 letters, digits and . _ : / # - without spaces")


def _unplain(text: str) -> tuple[str, str] | None:
    for letter in text:
        code = ord(letter)
        if 0xDC80 <= code <= 0xDCFF:
            return (
                f"holds the byte {code - 0xDC00:#x}, which is not UTF-8",
                "save the file as CSV with the encoding UTF-8",
            )
        if letter == "\ufffd":
            return "holds U+FFFD, the mark of a letter already lost", "type the letter again and save as UTF-8"
        if letter in "\r\n\u2028\u2029\x85":
            return "holds a line break (is a quote left open?)", "write the cell on one line and close every quote"
        if code < 0x20 or 0x7F <= code < 0xA0:
            return f"holds the control character U+{code:04X}", "delete it"
        if not letter.isprintable() and letter != "\u3000" and not letter.isspace():
            return f"holds the invisible character U+{code:04X}", "delete it and type the text again"
    return None
