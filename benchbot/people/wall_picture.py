"""The page with an invite's QR code that is pinned on a shop's wall."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import TYPE_CHECKING

from benchbot.errors import SettingError
from benchbot.people.names import shown_name

if TYPE_CHECKING:
    from PIL import Image

    from benchbot.pictures.lettering import Block

# An A4 page at 150 dots an inch. Letters of 84 have capitals of about 10 mm, which are read from two metres
# (common practice: 5 mm of height for each metre; no source).
WIDTH, HEIGHT, DOTS_AN_INCH = 1240, 1754, 150
MARGIN, GAP = 80, 20
QR_AT_LEAST = 890
TITLE_AT_MOST = 120
TITLE_TRIES = [(size, 3) for size in range(116, 55, -4)]
# The first line says what to do, so it is the largest below the code, and is wrapped rather than made smaller.
LEAD_TRIES = [(size, 2 if size > 60 else 3) for size in range(96, 35, -4)]
# Another long line is rather made smaller than wrapped, and then wrapped rather than made much smaller.
LINE_TRIES = [(size, 1 if size > 52 else 2 if size > 40 else 3) for size in range(76, 27, -4)]


def wall_picture(link: str, title: str, lines: Sequence[str]) -> bytes:
    """A page as a PNG picture, black on white: the title, the link as a large QR code, the lines of text below it.

    The text is made as large as there is room for beside the code; what does not fit at all is left out from the end.
    A line with the link itself is left out too: the code holds it, and nobody types it from a wall.
    SettingError when the parts that draw are not installed.
    """
    try:
        from PIL import Image, ImageDraw

        code_rows = _modules(link)
    except ImportError as error:
        raise SettingError(
            f"a picture cannot be drawn here ({error}); install what it needs with: pip install 'benchbot[telegram]'"
        ) from error
    from benchbot.pictures.lettering import WHITE, fitted

    width = WIDTH - 2 * MARGIN
    heading = fitted(shown_name(title, TITLE_AT_MOST), TITLE_TRIES, width, heavy=True)
    room = HEIGHT - 2 * MARGIN - 2 * GAP - heading.height
    body = _body([line for line in lines if link not in line], width, room - QR_AT_LEAST)
    body_height = sum(block.height for block in body)
    code = _qr(code_rows, min(width, room - body_height))

    page = Image.new("L", (WIDTH, HEIGHT), WHITE)
    pen = ImageDraw.Draw(page)
    # What is left over is shared out above, between and below.
    spare = (room - body_height - code.height) / 4
    top = MARGIN + spare
    heading.draw(pen, WIDTH / 2, top)
    top += heading.height + GAP + spare
    page.paste(code, ((WIDTH - code.width) // 2, round(top)))
    top += code.height + GAP + spare
    for block in body:
        block.draw(pen, WIDTH / 2, top)
        top += block.height
    picture = BytesIO()
    page.save(picture, "PNG", optimize=True, dpi=(DOTS_AN_INCH, DOTS_AN_INCH))
    return picture.getvalue()


def _body(lines: Sequence[str], width: int, room: int) -> list[Block]:
    """The lines as large as they fit into the room, none larger than the first."""
    from benchbot.pictures.lettering import fitted

    blocks: list[Block] = []
    for smaller in range(len(LEAD_TRIES)):
        blocks = [fitted(line, LEAD_TRIES[smaller:], width, heavy=True) for line in lines[:1]]
        below = [one for one in LINE_TRIES[smaller:] if one[0] < blocks[0].lettering.size] if blocks else []
        blocks += [fitted(line, below or LINE_TRIES[-1:], width) for line in lines[1:]]
        if sum(block.height for block in blocks) <= room:
            break
    while sum(block.height for block in blocks) > room:
        blocks.pop()
    return blocks


def _modules(link: str) -> list[bytes]:
    """The rows of the QR code with its quiet zone, a byte a module, 0 for a dark one."""
    import segno

    # ISO/IEC 18004: four modules of quiet zone. Level M stands 15% of damage: a wall gets dirty.
    return [bytes(255 * (not dark) for dark in row) for row in segno.make_qr(link, error="m").matrix_iter(border=4)]


def _qr(rows: list[bytes], side: int) -> Image.Image:
    """The code as large as whole pixels a module allow in a square of that side."""
    from PIL import Image

    modules = len(rows)
    small = Image.frombytes("L", (modules, modules), b"".join(rows))
    across = modules * max(1, side // modules)
    return small.resize((across, across), Image.Resampling.NEAREST)
