"""benchbot restore: brings a backup back, or only looks it through."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from benchbot.commands.backup import contents
from benchbot.places import home


def add_parser(subparsers: Any) -> None:
    parser: argparse.ArgumentParser = subparsers.add_parser("restore", help="bring a backup back, or look it through")
    parser.add_argument("file", type=Path, metavar="FILE", help="a file written by: benchbot backup")
    parser.add_argument("--check", action="store_true", help="only look the backup through; change nothing")
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
    done = restore(shop, args.file, args.replace, datetime.now(UTC))
    print(f"restored in {shop.folder}: the backup of {done.manifest.made_at}")
    print("\n".join([*contents(done.manifest), *_counts(done.record.rows)]))
    if done.record.migration != done.manifest.record.migration:
        print(f"the record was brought to migration {done.record.migration}")
    for path in done.kept:
        print(f"kept aside: {path}")
    if done.waiting:
        print(
            f"{done.waiting:,} messages waited to be sent when the backup was made; the bot sends them when it starts"
        )
    print("Roles are those of that day: look them through with: benchbot people list")
    return 0


def _counts(rows: dict[str, int]) -> list[str]:
    return [f"  {name}: {count:,}" for name, count in rows.items()]
