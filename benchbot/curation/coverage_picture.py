"""Coverage as a picture for a phone: a line a vehicle, a column a part, what is asked most at the top left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchbot.curation.coverage import Cell, Coverage, Vehicle
from benchbot.curation.figure_wording import FigureWording, figure_wording
from benchbot.curation.fills import GRID, SHADE, Fill, draw_fill
from benchbot.curation.sheet_of_figures import MARGIN, SMALL, TEXT, WIDTH, FigureSheet
from benchbot.pictures.lettering import Lettering, fitted
from benchbot.reply.languages import wording_of

if TYPE_CHECKING:
    from PIL import Image

VEHICLES, COMPONENTS = 12, 8
STALE_MARK = "!"
_NAMES, _ACROSS, _DOWN, _HEAD = 376, 82, 82, 300
_BANDS = 46
_NAME_TRIES = [(TEXT, 2), (SMALL, 2), (22, 3)]
_PART_TRIES = [(TEXT, 2), (SMALL, 2), (20, 3)]


def coverage_picture(found: Coverage, language: str, place: str = "") -> bytes:
    """A PNG picture, 1080 pixels wide. place: the location whose questions these are, "" for all of them.

    What is asked less than the first 12 vehicles and 8 parts is left out, and a line says how much that is.
    SettingError when the parts that draw are not installed.
    """
    words = figure_wording(language)
    vehicles, components = found.vehicles[:VEHICLES], found.components[:COMPONENTS]
    sheet = FigureSheet.of(900 + _HEAD + len(vehicles) * _DOWN)
    title = words.coverage_title.format(since=found.since.date())
    sheet.title(f"{title}, {words.coverage_place.format(place=place)}" if place else title)
    if not found.cells:
        sheet.lines([words.nothing_asked.format(since=found.since.date())], TEXT)
    else:
        _heads(sheet, components, language)
        for number, vehicle in enumerate(vehicles):
            _row(sheet, number, vehicle, [found.cells.get((vehicle, part)) for part in components])
        sheet.line((MARGIN, sheet.top, WIDTH - MARGIN, sheet.top), GRID)
        sheet.top += 16
        samples: list[tuple[Fill, str, str]] = [
            ("full", "", words.filled), ("none", "", words.missing), ("part", STALE_MARK, words.stale),
        ]  # fmt: skip
        sheet.legend(samples)
    sheet.lines(coverage_notes(found, words))
    return sheet.png()


def coverage_notes(found: Coverage, words: FigureWording) -> list[str]:
    """What stands below the table: what the numbers are, what is held, and what is not shown."""
    lines = []
    if found.cells:
        lines.append(words.number_is)
        lines.append(words.coverage_sum.format(filled=f"{found.whole:,}", cells=f"{len(found.cells):,}"))
    vehicles, components = found.vehicles[:VEHICLES], found.components[:COMPONENTS]
    shown = sum(found.cells[key].asks for v in vehicles for c in components if (key := (v, c)) in found.cells)
    if shown < found.asks:
        lines.append(
            words.not_shown.format(
                vehicles=f"{len(found.vehicles) - len(vehicles):,}",
                components=f"{len(found.components) - len(components):,}",
                asks=f"{found.asks - shown:,}",
            )
        )
    if found.unplaced:
        lines.append(words.unplaced.format(asks=f"{found.unplaced:,}"))
    return lines


def _heads(sheet: FigureSheet, components: tuple[str, ...], language: str) -> None:
    """The parts, read from below upwards."""
    names = wording_of(language).names.parts
    for number, component in enumerate(components):
        standing = _standing(names.get(component, component))
        left = MARGIN + _NAMES + number * _ACROSS
        sheet.page.paste(standing, (left + (_ACROSS - standing.width) // 2, sheet.top))
    sheet.top += _HEAD


def _standing(text: str) -> Image.Image:
    from PIL import Image, ImageDraw

    block = fitted(text, _PART_TRIES, _HEAD - 12)
    flat = Image.new("RGB", (_HEAD - 6, block.height + 6), (255, 255, 255))
    pen = ImageDraw.Draw(flat)
    for number, line in enumerate(block.lines):
        lettering = block.lettering
        lettering.draw(pen, 4 + lettering.width(line) / 2, number * lettering.line_height, line)
    return flat.transpose(Image.Transpose.ROTATE_90)


def _row(sheet: FigureSheet, number: int, vehicle: Vehicle, cells: list[Cell | None]) -> None:
    top = sheet.top
    if number % 2 == 0:
        sheet.pen.rectangle((MARGIN + _NAMES, top, WIDTH - MARGIN, top + _DOWN - 1), fill=SHADE)
    sheet.line((MARGIN, top, WIDTH - MARGIN, top), GRID)
    block = fitted(vehicle.name if vehicle.known else f"“{vehicle.name}”", _NAME_TRIES, _NAMES - 16)
    under = top + (_DOWN - block.height) // 2
    for line in block.lines:
        sheet.left(block.lettering, MARGIN + 4, under, line)
        under += block.lettering.line_height
    for column, cell in enumerate(cells):
        if cell is not None:
            _cell(sheet, MARGIN + _NAMES + column * _ACROSS, top, cell)
    sheet.top += _DOWN


def _cell(sheet: FigureSheet, left: int, top: int, cell: Cell) -> None:
    """A band for each of what is held, missing and stale, and below them how often it was asked."""
    bands = fills_of(cell)
    start, wide = left + 5, (_ACROSS - 10) // len(bands)
    for number, fill in enumerate(bands):
        box = (start + number * wide, top + 4, start + (number + 1) * wide - 2, top + 4 + _BANDS)
        draw_fill(sheet.page, box, fill, STALE_MARK)
    Lettering(22).draw(sheet.pen, left + _ACROSS / 2, top + _BANDS + 4, f"{cell.asks:,}")


def fills_of(cell: Cell) -> list[Fill]:
    """What a cell shows, from the left; nothing held and nothing asked for any more is missing all the same."""
    states: list[tuple[int, Fill]] = [(cell.filled, "full"), (cell.missing, "none"), (cell.stale, "part")]
    return [fill for count, fill in states if count] or ["none"]
