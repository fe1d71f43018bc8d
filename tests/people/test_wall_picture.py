"""The page for the wall: its code is read back by another program's reader, its text keeps within the page."""

from __future__ import annotations

import subprocess
import sys
from io import BytesIO

import pytest
import zxingcpp
from PIL import Image, ImageChops

from benchbot.people.codes import deep_link, new_code
from benchbot.people.wall_picture import HEIGHT, MARGIN, WIDTH, wall_picture
from benchbot.pictures.lettering import Lettering, drawable, fitted, wrapped

LINK = "https://t.me/example_bot?start=K7QPM-2XWDH-9RTVA"
LINES = ["Scan to join the spec bot,", "or send this code to @example_bot:", "K7QPM-2XWDH-9RTVA", "Until 08 March 2026"]
LONG = "Northgate brake and undercar service, bay doors 4 to 11 east"
TITLES = [
    "Main shop",
    LONG,
    "W" * 60,
    "Taller Núñez, Fríos y Pingüinos",
    "🔧",
    "\u202e<b>x</b>\x00",
    "x" * 10_000,
    "Гараж",
]


def page_of(title: str, lines: list[str] = LINES, link: str = LINK) -> Image.Image:
    picture = Image.open(BytesIO(wall_picture(link, title, lines)))
    assert picture.format == "PNG"
    return picture.convert("L")


def ink(page: Image.Image) -> tuple[int, int, int, int]:
    box = ImageChops.invert(page).getbbox()
    assert box is not None
    return box


def reads(picture: Image.Image) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(picture)]


@pytest.mark.parametrize("title", TITLES, ids=lambda title: ascii(title[:12]))
def test_the_code_is_read_back_from_every_page(title: str) -> None:
    page = page_of(title)
    assert page.size == (WIDTH, HEIGHT)
    assert reads(page) == [LINK]
    left, top, right, bottom = ink(page)
    assert left >= MARGIN and right <= WIDTH - MARGIN
    assert top >= MARGIN and bottom <= HEIGHT - MARGIN + 10


@pytest.mark.parametrize("title", ["Main shop", LONG])
def test_the_code_is_read_from_a_small_crooked_photo(title: str) -> None:
    page = page_of(title)
    small = page.resize((400, round(400 * HEIGHT / WIDTH)), Image.Resampling.BILINEAR)
    assert reads(small) == [LINK]
    for degrees in (7, -7):
        turned = small.rotate(degrees, Image.Resampling.BILINEAR, expand=True, fillcolor=200)
        assert reads(turned) == [LINK]


def test_the_code_is_read_with_a_smear_on_it() -> None:
    page = page_of("Main shop")
    # A thumb's width over the middle of the code: level M stands 15% of damage (ISO/IEC 18004).
    page.paste(90, (570, 700, 670, 800))
    assert reads(page) == [LINK]


def test_the_code_is_large() -> None:
    found = zxingcpp.read_barcodes(page_of(LONG))[0].position
    assert found.top_right.x - found.top_left.x > WIDTH * 0.45
    found = zxingcpp.read_barcodes(page_of("Main shop"))[0].position
    assert found.top_right.x - found.top_left.x > WIDTH * 0.55


def test_every_made_code_and_name_fits_a_code() -> None:
    link = deep_link(f"https://t.me/{'a' * 32}", new_code())
    assert reads(page_of("Main shop", link=link)) == [link]


@pytest.mark.parametrize("lines", [[], [""], ["x" * 300], ["word " * 60] * 3, ["one line"] * 30, ["\x00🔧"]])
def test_lines_that_do_not_fit_never_cost_the_code(lines: list[str]) -> None:
    page = page_of(LONG, lines)
    assert reads(page) == [LINK]
    left, _, right, bottom = ink(page)
    assert left >= MARGIN and right <= WIDTH - MARGIN and bottom <= HEIGHT - MARGIN + 10


def test_a_page_is_black_on_white_and_to_print_on_a4() -> None:
    picture = Image.open(BytesIO(wall_picture(LINK, "Main shop", LINES)))
    across, down = (pixels / dots * 25.4 for pixels, dots in zip(picture.size, picture.info["dpi"], strict=True))
    # ISO 216: A4 is 210 mm by 297 mm.
    assert (round(across), round(down)) == (210, 297)
    grey = picture.convert("L")
    assert grey.getpixel((0, 0)) == 255
    assert grey.getextrema() == (0, 255)


def test_text_is_drawn_where_the_lines_stand() -> None:
    without, page = page_of("Main shop", []), page_of("Main shop")
    code = zxingcpp.read_barcodes(page)[0].position
    below = page.crop((0, code.bottom_left.y + 40, WIDTH, HEIGHT))
    assert ImageChops.invert(below).getbbox() is not None
    end = zxingcpp.read_barcodes(without)[0].position.bottom_left.y
    assert ImageChops.invert(without.crop((0, end + 40, WIDTH, HEIGHT))).getbbox() is None


@pytest.mark.parametrize(
    ("text", "drawn"),
    [
        ("Main shop", "Main shop"),
        ("Núñez Àâü", "Núñez Àâü"),
        ("Façade Šíp", "Facade Síp"),
        ("Гараж 4", "4"),
        ("🔧 Bay\x00 \u202e9", "Bay 9"),
        ("¿Qué?", "Qué?"),
        ("", ""),
        ("\u0301a", "a"),
        ("a\u0301\u0303", "á"),
    ],
)
def test_what_the_font_can_draw(text: str, drawn: str) -> None:
    assert drawable(text) == drawn


def drawn(text: str, heavy: bool) -> Image.Image:
    from PIL import ImageDraw

    page = Image.new("L", (300, 200), 255)
    Lettering(100, heavy).draw(ImageDraw.Draw(page), 150, 40, text)
    return page


@pytest.mark.parametrize("heavy", [True, False])
@pytest.mark.parametrize("pair", ["áa", "ñn", "üu", "ÉE", "ÑN", "íi", "èe", "ôo"])
def test_an_accent_is_drawn_above_its_letter(pair: str, heavy: bool) -> None:
    accented, plain = drawn(pair[0], heavy), drawn(pair[1], heavy)
    mark = ink(Image.eval(ImageChops.difference(accented, plain), lambda grey: 255 - grey))
    letter = ink(drawn("x" if pair[0].islower() else "E", heavy))
    assert mark[3] <= letter[1] + 4, "the letter itself is as it was"
    assert mark[1] < letter[1] - 5
    middle = (ink(plain)[0] + ink(plain)[2]) / 2
    assert abs((mark[0] + mark[2]) / 2 - middle) < 12


def test_lines_are_wrapped_between_words_and_cut_only_when_a_word_is_too_wide() -> None:
    lettering = Lettering(40)
    lines = wrapped("the quick grey lift rises slowly", lettering, 300)
    assert " ".join(lines) == "the quick grey lift rises slowly"
    assert len(lines) > 1
    cut = wrapped("a " + "x" * 90, lettering, 300)
    assert cut[0] == "a"
    assert "".join(cut[1:]) == "x" * 90
    assert all(lettering.width(line) <= 300 for line in [*lines, *cut])
    assert wrapped("xx", lettering, 1) == ["x", "x"]


def test_the_largest_size_that_fits_is_taken() -> None:
    tries = [(100, 1), (60, 2), (20, 3)]
    assert fitted("short", tries, 400).lettering.size == 100
    assert fitted("rather long text", tries, 400).lettering.size == 60
    long = fitted("a much longer text that goes on and on and does not end", tries, 400)
    assert (long.lettering.size, len(long.lines)) == (20, 2)
    assert len(fitted("word " * 200, tries, 400).lines) == 3
    assert fitted("", tries, 400).height == 0


@pytest.mark.parametrize("missing", ["PIL", "segno"])
def test_without_what_draws_it_says_what_to_install(missing: str) -> None:
    code = f"""
import sys
sys.modules["{missing}"] = None
from benchbot.errors import SettingError
from benchbot.people.wall_picture import wall_picture
try:
    wall_picture("x", "y", [])
except SettingError as error:
    print(error)
"""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert "pip install 'benchbot[telegram]'" in done.stdout
