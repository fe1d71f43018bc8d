"""benchbot backup: the record and the book of this home in one file, while the bot runs."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.places import home

if TYPE_CHECKING:
    from benchbot.curation.manifest import Manifest


def add_parser(subparsers: Any) -> None:
    parser: argparse.ArgumentParser = subparsers.add_parser("backup", help="write record and book into one file")
    parser.add_argument("file", type=Path, metavar="FILE", help="the file to write")
    parser.add_argument("--replace", action="store_true", help="replace FILE when it is there already")


def run(args: argparse.Namespace) -> int:
    """0: the file is written and was read back. Anything else is an error."""
    from benchbot.curation.backup import back_up

    manifest = back_up(home(), args.file, args.replace, datetime.now(UTC))
    print(f"backup written: {args.file} ({args.file.stat().st_size:,} bytes, readable by this account only)")
    print("\n".join(contents(manifest)))
    return 0


def contents(manifest: Manifest) -> list[str]:
    """What a backup holds, a line each for the record, the book and the source pages, if there are any."""
    record, book = manifest.record, manifest.book
    lines = [
        f"record: {record.all_rows:,} rows in {len(record.rows)} tables, migration {record.migration}",
        f"book {book.version}: {book.rows:,} specs, digest {book.digest[:12]}" if book else "book: none was published",
    ]
    further = (*manifest.pages, *manifest.pictures)
    if further:
        size = sum(part.size for part in further)
        waiting = f", and {len(manifest.pictures):,} pictures that wait to be sent" if manifest.pictures else ""
        lines.append(f"source pages: {len(manifest.pages):,}{waiting}, {size:,} bytes")
    lines += [f"NOT in it, for the home has it no more: {name}" for name in manifest.lost]
    return lines
