"""Reads a table's lines without ever holding more of the file than a block and one line."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from benchbot.errors import Fault, TableError

BLOCK = 1 << 20
LONGEST_LINE = 100_000
_STRANGE_STARTS = {
    b"PK\x03\x04": "a zip file or a spreadsheet",
    b"\x1f\x8b": "a gzip file",
    b"%PDF": "a PDF",
    b"SQLite format 3\x00": "a database",
    b"\xff\xfe": "UTF-16 text",
    b"\xfe\xff": "UTF-16 text",
    b"\xd0\xcf\x11\xe0": "an old spreadsheet",
    b"\x89PNG": "a picture",
}


def lines_of(path: Path) -> Iterator[str]:
    """Every line with its end. Bytes that are not UTF-8 come as lone surrogates, so that the cell can be named.

    TableError: the file is missing, empty, no plain file, no text at all, or has a line of over 100,000 bytes.
    """
    with opened(path) as file:
        try:
            yield from _decoded(path.name, file)
        except OSError as error:
            raise refused(path.name, "file", f"cannot be read ({error.strerror})", "check its disk") from error


def opened(path: Path) -> BinaryIO:
    """A plain file, open to be read. TableError when it is none: a pipe or a device may never come to an end."""
    try:
        # Without O_NONBLOCK the opening of a pipe waits for a writer.
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0) | getattr(os, "O_NONBLOCK", 0))
    except FileNotFoundError:
        raise refused(path.name, "file", "there is no such file", "check the path") from None
    except (OSError, ValueError) as error:
        if path.is_dir():
            raise _folder(path) from None
        if getattr(error, "errno", None) == errno.ELOOP:
            raise refused(path.name, "file", "this link leads back to itself", "name the file itself") from None
        told = getattr(error, "strerror", None) or error
        raise refused(path.name, "file", f"cannot be read ({told})", "check its permissions") from error
    kind = os.fstat(handle).st_mode
    if stat.S_ISREG(kind):
        return os.fdopen(handle, "rb")
    os.close(handle)
    if stat.S_ISDIR(kind):
        raise _folder(path)
    raise refused(path.name, "file", "this is no plain file but a pipe or a device", "save it as a file and name that")


def _folder(path: Path) -> TableError:
    return refused(path.name, "file", "this is a folder", "name the CSV file in it")


def refused(name: str, where: str, wrong: str, mend: str) -> TableError:
    return TableError(name, [Fault(where, "", wrong, mend)])


def _decoded(name: str, file: BinaryIO) -> Iterator[str]:
    block = file.read(BLOCK)
    if not block.strip(b"\xef\xbb\xbf \t\r\n,"):
        raise refused(name, "line 1", "the file is empty", "save the table with its header and rows")
    for start, what in _STRANGE_STARTS.items():
        if block.startswith(start):
            raise refused(name, "line 1", f"this is {what}, not CSV text", "save the table as CSV (UTF-8)")
    if block[:4096].count(0) > 8:
        raise refused(name, "line 1", "this is no text", "save the table as CSV (UTF-8)")
    rest = block.removeprefix(b"\xef\xbb\xbf")
    line = 0
    while block:
        # A file of an older machine may end its lines with a lone CR: csv cannot read that, so it is refused below.
        cut = rest.rfind(b"\n") + 1
        if cut:
            yield from (lines := _split(name, rest[:cut], line))
            line += len(lines)
            rest = rest[cut:]
        if len(rest) > LONGEST_LINE:
            raise refused(
                name, f"line {line + 1}", f"over {LONGEST_LINE:,} bytes in one line", "break the table into rows"
            )
        block = file.read(BLOCK)
        rest += block
    if rest:
        yield from _split(name, rest, line)


def _split(name: str, block: bytes, before: int) -> list[str]:
    lines = block.decode("utf-8", "surrogateescape").split("\n")
    last = lines.pop()
    whole = [line + "\n" for line in lines]
    if last:
        whole.append(last)
    if len(max(whole, key=len)) > LONGEST_LINE:
        at = next(i for i, text in enumerate(whole) if len(text) > LONGEST_LINE)
        raise refused(
            name, f"line {before + at + 1}", f"over {LONGEST_LINE:,} bytes in one line", "break the table into rows"
        )
    return whole
