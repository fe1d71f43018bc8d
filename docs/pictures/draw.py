"""Plays the scenes and draws them: writes the pictures beside itself, and what they say into scenes.json."""

from __future__ import annotations

import argparse
import json
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from scenes import SCENES
from screen import FOOT, png
from shop import Shop, example_codes
from story import Picture

from benchbot.commands.demo import demo_home
from benchbot.places import Home

HERE = Path(__file__).resolve().parent
STORY = "scenes.json"


def played() -> Iterator[Picture]:
    """The pictures of all scenes, each scene in a new home with the same demo book."""
    with demo_home() as demo:
        for scene in SCENES:
            with tempfile.TemporaryDirectory(prefix="benchbot-picture-") as folder, example_codes():
                home = Home(Path(folder))
                shutil.copy(demo.book, home.book)
                shop = Shop(home)
                try:
                    yield from scene(shop)
                finally:
                    shop.close()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=HERE, metavar="FOLDER", help="where to (default: beside this)")
    into: Path = parser.parse_args().into
    pictures = list(played())
    for picture in pictures:
        (into / f"{picture.name}.png").write_bytes(png(picture))
    plain = {"foot": FOOT, "pictures": [picture.to_plain() for picture in pictures]}
    story = json.dumps(plain, ensure_ascii=False, indent=1)
    (into / STORY).write_text(f"{story}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
