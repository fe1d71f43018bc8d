"""The page for the wall as an owner gets it: what to do is its largest line, and no link stands on it."""

from __future__ import annotations

from io import BytesIO
from itertools import groupby

import pytest
import zxingcpp
from bay import Bay, Message
from PIL import Image

from benchbot.people.terms import Language
from benchbot.people.wall_picture import DOTS_AN_INCH, WIDTH, wall_picture
from benchbot.reply.reply import lines_of

LONG = "Northgate brake and undercar service, bay doors 4 to 11 east"
PRESSES: dict[Language, tuple[str, str]] = {
    "en": ("technician", "On the wall: 20 people, 30 days"),
    "es": ("técnico", "En la pared: 20 personas, 30 días"),
}


def invite(bay: Bay, name: str, language: Language) -> Message:
    owner = bay.phone("Olga", owner=bay.location(name, language))
    page = owner.say("/invite")
    for label in PRESSES[language]:
        owner.press(label, on=page)
    return owner.last


def heights(page: Image.Image) -> list[int]:
    """How high the ink of each line below the code is, in dots."""
    [code] = zxingcpp.read_barcodes(page)
    top = max(code.position.bottom_left.y, code.position.bottom_right.y) + 30
    below = page.crop((0, top, WIDTH, page.height))
    dark = [below.crop((0, row, WIDTH, row + 1)).getextrema()[0] < 128 for row in range(below.height)]
    return [len(list(rows)) for ink, rows in groupby(dark) if ink]


@pytest.mark.parametrize(
    ("name", "language", "wraps"), [("South bay", "en", 2), ("Sur", "es", 2), (LONG, "en", 3), (LONG[:-9], "es", 2)]
)
def test_what_to_do_is_the_largest_line(bay: Bay, name: str, language: Language, wraps: int) -> None:
    picture = invite(bay, name, language)
    lines = lines_of(picture.sheet.blocks)
    drawn = wall_picture(picture.picture, f"Benchbot {name}", lines)
    page = Image.open(BytesIO(drawn)).convert("L")
    found = heights(page)
    assert lines[0].startswith(("Scan to join", "Escanee para entrar"))
    assert len(found) > wraps
    lead, others = found[:wraps], found[wraps:]
    assert min(lead) > max(others)
    # 5 mm of height for each metre (common practice, no source): to be read from one metre at least
    assert min(lead) / DOTS_AN_INCH * 25.4 > 5


def test_the_link_stands_in_the_message_and_not_on_the_page(bay: Bay) -> None:
    picture = invite(bay, "South bay", "en")
    lines = lines_of(picture.sheet.blocks)
    assert lines[1] == f"Or open {picture.picture}"
    without = [line for line in lines if "://" not in line]
    assert len(without) == len(lines) - 1 == 3
    drawn = [wall_picture(picture.picture, "Benchbot at South bay", one) for one in (lines, without, without[:1])]
    assert drawn[0] == drawn[1] != drawn[2]
