"""The pictures of figures: told apart without colour, cut where a phone ends, and saying how much was cut."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from io import BytesIO
from itertools import pairwise

import pytest
from PIL import Image

from benchbot.curation.coverage import Cell, Coverage, Vehicle
from benchbot.curation.coverage_picture import COMPONENTS, VEHICLES, coverage_notes, coverage_picture, fills_of
from benchbot.curation.digest import Digest, Tally
from benchbot.curation.figure_wording import figure_wording
from benchbot.curation.fills import Fill, draw_fill
from benchbot.curation.week_chart import PLACES, week_chart
from benchbot.curation.weeks import Week

SINCE, UNTIL = datetime(2026, 8, 1, tzinfo=UTC), datetime(2026, 11, 1, tzinfo=UTC)
HELD = Cell(2, 1, 0, 0)


def opened(content: bytes) -> Image.Image:
    picture = Image.open(BytesIO(content))
    assert picture.format == "PNG"
    return picture.convert("RGB")


def grey(fill: Fill, mark: str = "!") -> Image.Image:
    page = Image.new("RGB", (60, 46), (255, 255, 255))
    draw_fill(page, (0, 0, 60, 46), fill, mark)
    return page.convert("L")


def dark(picture: Image.Image, row: int) -> list[bool]:
    return [picture.getpixel((x, row)) < 160 for x in range(picture.width)]


def test_the_fills_are_told_apart_in_black_and_white() -> None:
    # the uppermost tenth has no mark in it: pattern alone; then the whole, with its mark
    rows = {fill: dark(grey(fill), 5) for fill in ("full", "part", "none")}
    assert all(rows["full"])
    assert sum(one != other for one, other in pairwise(rows["part"])) >= 6, "stripes"
    assert sum(rows["none"]) <= 6, "nothing but its edges"
    light = {fill: sum(map(bool, dark(grey(fill), 23))) for fill in rows}
    assert all(one != other for one, other in pairwise(light.values()))


@pytest.mark.parametrize(
    ("cell", "fills"),
    [
        (Cell(1, 3, 0, 0), ["full"]), (Cell(1, 0, 2, 0), ["none"]), (Cell(1, 0, 0, 1), ["part"]),
        (Cell(1, 1, 1, 1), ["full", "none", "part"]), (Cell(4, 1, 0, 2), ["full", "part"]),
        (Cell(1, 0, 0, 0), ["none"]),
    ],
)  # fmt: skip
def test_what_a_cell_shows(cell: Cell, fills: list[Fill]) -> None:
    assert fills_of(cell) == fills


def table(vehicles: int, components: int) -> Coverage:
    """Each vehicle asked twice about each part; all held."""
    seen = tuple(Vehicle("Brackwell", f"Ondrel {n}") for n in range(vehicles))
    parts = tuple(f"invented part {n}" for n in range(components))
    return Coverage(SINCE, UNTIL, seen, parts, {(v, c): HELD for v in seen for c in parts}, 0)


def test_a_big_table_is_cut_and_says_by_how_much() -> None:
    words = figure_wording("en")
    assert coverage_notes(table(VEHICLES, COMPONENTS), words)[1:] == ["96 of 96 fields held in full"]
    # 2 × (40 × 20 − 12 × 8) questions are on none of the 12 lines and 8 columns
    assert coverage_notes(table(40, 20), words)[1:] == [
        "800 of 800 fields held in full",
        "Not shown: 28 more vehicles, 12 more parts, 1,408 questions.",
    ]


@pytest.mark.parametrize("language", ["en", "es"])
def test_however_much_was_asked_it_is_a_page_for_a_phone(language: str) -> None:
    for vehicles, components in ((0, 0), (1, 1), (40, 20)):
        picture = opened(coverage_picture(table(vehicles, components), language, "Taller Peñón"))
        assert picture.width == 1080 and picture.height <= 1.7 * picture.width


def test_an_accent_leaves_no_stain() -> None:
    """Only what is missing or stale is coloured otherwise than green and grey."""
    found = Coverage(SINCE, UNTIL, (Vehicle("Brackwell", "Zíngaro"),), ("rótula",), {}, 3)
    found.cells[found.vehicles[0], "rótula"] = HELD
    picture = opened(coverage_picture(found, "es"))
    above = picture.crop((0, 0, picture.width, picture.height - 300))
    colours = above.getcolors(1 << 20)
    assert colours and not [rgb for _, rgb in colours if rgb[0] > rgb[1] + 40]  # type: ignore[index,operator]


def week(*tallies: Tally) -> Digest:
    return Digest(Week(2026, 47), None, False, tallies, (), (), 0, 0, 0, timedelta(0), 0, 0)


def test_bars_are_as_long_as_what_they_stand_for() -> None:
    places = [Tally("Main", 400, 0, 0, 0), Tally("South", 200, 0, 0, 0), Tally("North", 100, 0, 0, 0)]
    picture = opened(week_chart(week(*places), "en"))
    # along the upper edge of a bar, where no number stands in it
    runs = [
        sum(picture.getpixel((x, row)) == (20, 95, 55) for x in range(274, picture.width))
        for row in range(picture.height)
    ]
    starts = [run for before, run in pairwise(runs) if run > 100 and before < 20]
    whole, half, quarter = starts
    # a number takes as much room in each of them
    assert whole > 600 and abs((whole - half) - 2 * (half - quarter)) <= 3


def test_more_places_than_there_is_room_for_are_told() -> None:
    many = [Tally(f"Shop {n}", 10, 0, 2, 1) for n in range(PLACES + 3)]
    few, cut = (opened(week_chart(week(*many[:count]), "en")).height for count in (PLACES, PLACES + 3))
    # one line of text more, and no bar
    assert 20 < cut - few < 60
