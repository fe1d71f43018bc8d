"""The pictures of the documents say what the bot says, are shown where they are named, and lead nobody anywhere."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "docs" / "pictures"))

from letters import Lettering, plain, runs_of

ROOT = Path(__file__).resolve().parents[2]
PICTURES = ROOT / "docs" / "pictures"
SCRIPT = PICTURES / "draw.py"
STORY = "scenes.json"
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
DRAWN = sorted(PICTURES.glob("*.png"))
_IMAGE = re.compile(r"<img\b([^>]*)>")
_SETTING = re.compile(r'(\w+)="([^"]*)"')
WIDTH, SHOWN_WIDTH, BYTES_AT_MOST = 780, "390", 60_000


def images(page: Path) -> list[dict[str, str]]:
    """The settings of every image of a page."""
    return [dict(_SETTING.findall(found[1])) for found in _IMAGE.finditer(page.read_text(encoding="utf-8"))]


def test_drawn_anew_they_say_the_same(tmp_path: Path) -> None:
    """Twice, in other time zones and orders of sets, so that nothing but the bot decides what they show."""
    runs = []
    for name, more in (
        ("one", {"TZ": "UTC", "PYTHONHASHSEED": "1"}),
        ("two", {"TZ": "Asia/Kathmandu", "PYTHONHASHSEED": "2"}),
    ):
        folder = tmp_path / name
        folder.mkdir()
        command = [sys.executable, str(SCRIPT), "--into", str(folder)]
        env = os.environ | more | {"BENCHBOT_DATABASE_URL": "sqlite:///nobody-may-write-here/record.sqlite"}
        runs.append((folder, subprocess.Popen(command, cwd=tmp_path, env=env, stderr=subprocess.PIPE, text=True)))
    for _, process in runs:
        _, told = process.communicate(timeout=300)
        assert process.returncode == 0, told
    (one, _), (two, _) = runs
    drawn = {file.name: file.read_bytes() for file in one.iterdir()}
    assert drawn == {file.name: file.read_bytes() for file in two.iterdir()}
    assert set(drawn) == {STORY, *(file.name for file in DRAWN)}
    assert drawn[STORY].decode() == (PICTURES / STORY).read_text(encoding="utf-8"), (
        "the bot says something else than the pictures do: run docs/pictures/draw.py, look at them, and mend the pages"
    )


def test_the_story_is_that_of_the_pictures() -> None:
    story = json.loads((PICTURES / STORY).read_text(encoding="utf-8"))
    assert {one["file"] for one in story["pictures"]} == {file.name for file in DRAWN}
    assert story["foot"] == "Invented demo data: use none of it on a vehicle."
    assert all(one["screen"] for one in story["pictures"])


@pytest.mark.parametrize("file", DRAWN, ids=lambda file: file.stem)
def test_each_is_as_wide_as_a_phone_and_small(file: Path) -> None:
    with Image.open(file) as picture:
        assert picture.width == WIDTH
    assert file.stat().st_size < BYTES_AT_MOST


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_image_of_a_page_is_there_and_told_in_words(page: Path) -> None:
    for image in images(page):
        assert (page.parent / image["src"]).is_file(), f"{page.name}: {image['src']}"
        assert image["width"] == SHOWN_WIDTH
        assert len(image["alt"]) > 20


def test_every_picture_is_shown_by_a_page() -> None:
    shown = {(page.parent / image["src"]).resolve() for page in PAGES for image in images(page)}
    assert set(DRAWN) == {path for path in shown if path.parent == PICTURES}


def test_the_code_on_the_wall_leads_nowhere() -> None:
    """RFC 2606, section 2: names under .example are never given to anybody."""
    codes = {file.name: [code.text for code in zxingcpp.read_barcodes(Image.open(file).convert("L"))] for file in DRAWN}
    assert {name: found for name, found in codes.items() if found} == {
        "second-3-wall.png": ["https://chat.example/examplebay_bot?start=EX4MP-C0DE2-DEM22"]
    }
    story = json.loads((PICTURES / STORY).read_text(encoding="utf-8"))
    links = set(re.findall(r"https?://[^/\"]+", json.dumps(story)))
    assert links == {"https://chat.example"}


@pytest.mark.parametrize("width", [60, 200, 632])
def test_no_line_is_wider_than_its_room_and_no_letter_is_lost(width: int) -> None:
    html = "<b>Front or rear?</b> then\n<i>https://chat.example/examplebay_bot?start=EX4MP</i> &amp; more"
    lettering = Lettering(32)
    lines = lettering.set(runs_of(html), width)
    assert max(line.width for line in lines) <= width
    written = "".join(run.text for line in lines for _, run in line.runs)
    assert written == "Frontorrear?thenhttps://chat.example/examplebay_bot?start=EX4MP&more"
    bold = "".join(run.text for line in lines for _, run in line.runs if run.bold)
    italic = "".join(run.text for line in lines for _, run in line.runs if run.italic)
    assert (bold, italic) == ("Frontorrear?", "https://chat.example/examplebay_bot?start=EX4MP")


def test_what_cannot_be_drawn_is_refused_and_not_left_out() -> None:
    with pytest.raises(ValueError, match="has no ☂"):
        Lettering(32).set(plain("wet ☂"), 600)
    with pytest.raises(ValueError, match="<u>"):
        runs_of("<u>under</u>")
