"""benchbot restore: brings a backup back, or only looks it through."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.commands.backup import contents
from benchbot.places import home

if TYPE_CHECKING:
    from benchbot.curation.restoring import Restored


def add_parser(subparsers: Any) -> None:
    parser: argparse.ArgumentParser = subparsers.add_parser("restore", help="bring a backup back, or look it through")
    parser.add_argument("file", type=Path, metavar="FILE", help="a file written by: benchbot backup")
    parser.add_argument("--check", action="store_true", help="only look the backup through; change nothing")
    parser.add_argument(
        "--moved", action="store_true",
        help="no bot ran after the backup was made: go on with what waited in it to be sent or answered",
    )  # fmt: skip
    parser.add_argument("--replace", action="store_true", help="also when this home has a record; it is kept aside")


def run(args: argparse.Namespace) -> int:
    """0: restored, or with --check sound. Anything else is an error, and nothing was changed."""
    from benchbot.curation.restoring import look_through, restore

    if args.check:
        manifest = look_through(args.file)
        print(f"{args.file}: whole; made {manifest.made_at} by benchbot {manifest.benchbot}; nothing was changed")
        print("\n".join([*contents(manifest), *_counts(manifest.record.rows)]))
        return 0
    shop = home()
    done = restore(shop, args.file, args.replace, datetime.now(UTC), go_on=args.moved)
    print(f"restored in {shop.folder}: the backup of {done.manifest.made_at}")
    print("\n".join([*contents(done.manifest), *_counts(done.record.rows)]))
    if done.record.migration != done.manifest.record.migration:
        print(f"the record was brought to migration {done.record.migration}")
    for path in done.kept:
        print(f"kept aside: {path}")
    if done.to_send or done.to_answer:
        print(_waited(done))
    print("Roles are those of that day: look them through with: benchbot people list")
    return 0


def _waited(done: Restored) -> str:
    waited = f"{done.to_send:,} to be sent, {done.to_answer:,} to be answered"
    if done.gone_on:
        return f"messages that waited when the backup was made: {waited}; the bot goes on with them when it starts"
    return f"messages set aside, because that may have been done after the backup was made: {waited}"


def _counts(rows: dict[str, int]) -> list[str]:
    return [f"  {name}: {count:,}" for name, count in rows.items()]
