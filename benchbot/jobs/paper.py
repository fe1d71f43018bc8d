"""What the papers of a job are set with: pages with their number and digest, tables, and letters that print."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from io import BytesIO
from pathlib import Path
from typing import Any, Literal
from xml.sax.saxutils import escape

from benchbot.errors import SettingError

PageSize = Literal["A4", "Letter"]
PAGE_SIZES: tuple[PageSize, ...] = ("A4", "Letter")

PLAIN, HEAVY = "Vera", "VeraBd"
MARGIN = 42.0
TEXT_SIZE, SMALL_SIZE = 9.0, 7.5
_LINE = 0.7
_SHADE = 0.9
# What the package keeps free around everything on a page, in points.
FRAME = 6


def installed() -> Any:
    """The package that sets pages, with its fonts known to it. SettingError when it is not installed."""
    try:
        import reportlab
        from reportlab.pdfbase import pdfmetrics
        from reportlab.pdfbase.ttfonts import TTFont
    except ImportError as error:
        raise SettingError(
            f"a PDF cannot be made here ({error}); install what it needs with: pip install 'benchbot[paper]'"
        ) from error
    folder = Path(reportlab.__file__).parent / "fonts"
    for name in (PLAIN, HEAVY):
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(name, str(folder / f"{name}.ttf")))
    return reportlab


def letters(text: str) -> str:
    """The text as markup that prints it exactly; a letter that the font lacks is printed by its number, never lost."""
    from reportlab.pdfbase import pdfmetrics

    font: Any = pdfmetrics.getFont(PLAIN)
    held = font.face.charToGlyph
    return escape("".join(one if one.isascii() or ord(one) in held else f"[U+{ord(one):04X}]" for one in text))


def cell(text: str, heavy: bool = False, size: float = TEXT_SIZE, centred: bool = False, struck: bool = False) -> Any:
    """A piece of text that wraps; whatever was entered in it is text and never markup. struck: with a line through."""
    from reportlab.lib.enums import TA_CENTER, TA_LEFT
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph

    style = ParagraphStyle(
        f"{heavy} {size} {centred}",
        fontName=HEAVY if heavy else PLAIN,
        fontSize=size,
        leading=size * 1.3,
        alignment=TA_CENTER if centred else TA_LEFT,
        splitLongWords=1,
    )
    marked = letters(text).replace("\n", "<br/>")
    return Paragraph(f"<strike>{marked}</strike>" if struck else marked, style)


def table(head: Sequence[str], rows: Sequence[Sequence[Any]], widths: Sequence[float], room: float) -> Any:
    """A ruled table whose head comes again on every page. widths: shares of the room, in points.

    A row is never cut: no entry is as long as a page.
    """
    from reportlab.lib import colors
    from reportlab.platypus import Table

    whole = sum(widths)
    cells = [[cell(one, heavy=True, size=SMALL_SIZE) for one in head]] if head else []
    cells += [[one if not isinstance(one, str) else cell(one) for one in row] for row in rows]
    made = Table(
        cells,
        colWidths=[room * width / whole for width in widths],
        repeatRows=1 if head else 0,
        hAlign="LEFT",
    )
    style: list[Any] = [
        ("GRID", (0, 0), (-1, -1), _LINE, colors.black),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 2.5),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 3.5),
        ("LEFTPADDING", (0, 0), (-1, -1), 4),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
    ]
    if head:
        style.append(("BACKGROUND", (0, 0), (-1, 0), colors.Color(_SHADE, _SHADE, _SHADE)))
    made.setStyle(style)
    return made


def set_pages(parts: Sequence[Any], size: tuple[float, float], margin: float, foot: Callable[[int, int], str]) -> bytes:
    """The parts as a PDF. foot: (page, pages) -> the lines below each page. The same parts give the same bytes."""
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.platypus import SimpleDocTemplate

    def numbered(*given: Any, **more: Any) -> Any:
        return _numbered(Canvas, foot, margin)(*given, **more)

    lines = foot(1, 1).count("\n") + 1
    file = BytesIO()
    document = SimpleDocTemplate(
        file,
        pagesize=size,
        leftMargin=margin,
        rightMargin=margin,
        topMargin=margin,
        bottomMargin=margin + lines * SMALL_SIZE * 1.4,
        invariant=1,
        title="",
        author="",
    )
    document.build(list(parts), canvasmaker=numbered)
    return file.getvalue()


def _numbered(canvas: Any, foot: Callable[[int, int], str], margin: float) -> Any:
    """A canvas that knows how many pages there are before it draws their feet."""

    class Numbered(canvas):  # type: ignore[misc]
        def __init__(self, *given: Any, **more: Any) -> None:
            super().__init__(*given, **more)
            self._pages: list[dict[str, Any]] = []

        def showPage(self) -> None:
            self._pages.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for number, page in enumerate(self._pages, 1):
                self.__dict__.update(page)
                self.setFont(PLAIN, SMALL_SIZE)
                for up, line in enumerate(reversed(foot(number, len(self._pages)).split("\n"))):
                    self.drawString(margin + FRAME, margin * 0.7 + up * SMALL_SIZE * 1.4, line)
                super().showPage()
            super().save()

    return Numbered
