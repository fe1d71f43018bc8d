"""The pictures: black, white and grey, as wide as told, small, the same again, and readable where it matters."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import fields, replace
from decimal import Decimal
from io import BytesIO

import pytest
from PIL import Image

from benchbot.pictures.lettering import Lettering
from benchbot.pictures.rotor import rotor_picture
from benchbot.pictures.sheet import WIDTH
from benchbot.pictures.tightening import STUDS, tightening_picture
from benchbot.pictures.wear import Limit, Reading, wear_picture
from benchbot.pictures.wording import ENGLISH, SPANISH, picture_words

DISCARD = Limit("discard", Decimal("21.5"))
LIMITS = [Limit("new", Decimal("24.0")), Limit("machine to", Decimal("22.0"))]


def wear(*values: str, worn: str = "down", discard: Limit = DISCARD, **more: object) -> bytes:
    readings = [Reading(f"202{n}-03", Decimal(value)) for n, value in enumerate(values)]
    return wear_picture("Rotor, front left", "mm", readings, LIMITS, discard, worn, **more)  # type: ignore[arg-type]


DRAW: dict[str, Callable[[], bytes]] = {
    **{f"{studs} studs": lambda studs=studs: tightening_picture(studs) for studs in STUDS},  # type: ignore[misc]
    **{f"{n} birlos": lambda n=n: tightening_picture(n, SPANISH) for n in STUDS},  # type: ignore[misc]
    "rotor": rotor_picture,
    "disco": lambda: rotor_picture(SPANISH),
    "desgaste": lambda: wear("23.8", "23.1", words=SPANISH),
    "desgaste al límite": lambda: wear("23.8", "21.2", words=SPANISH),
    "invented wear": lambda: wear("23.8", "23.1", note="Invented demo data"),
    "wear": lambda: wear("23.8", "23.1", "22.4"),
    "wear of one visit": lambda: wear("23.8"),
    "wear past discard": lambda: wear("23.8", "21.2"),
    "a drum": lambda: wear("22.1", "23.0", "24.5", worn="up", discard=Limit("discard", Decimal("25.0"))),
}


@pytest.mark.parametrize("name", DRAW)
def test_each_is_small_grey_and_the_same_again(name: str) -> None:
    drawn = DRAW[name]()
    assert drawn == DRAW[name]()
    assert len(drawn) < 80_000
    with Image.open(BytesIO(drawn)) as picture:
        assert picture.width == WIDTH
        colours = picture.convert("RGB").getcolors(100_000)
    assert colours is not None
    assert all(red == green == blue for _, (red, green, blue) in colours)
    assert {0, 255} <= {red for _, (red, _, _) in colours}


@pytest.mark.parametrize("name", DRAW)
def test_nothing_touches_the_edge_of_the_sheet(name: str) -> None:
    with Image.open(BytesIO(DRAW[name]())) as picture:
        grey = picture.convert("L")
        wide, high = grey.size
        edges = [
            grey.crop(box)
            for box in ((0, 0, wide, 8), (0, high - 8, wide, high), (0, 0, 8, high), (wide - 8, 0, wide, high))
        ]
    assert all(edge.getextrema()[0] == 255 for edge in edges)


def test_wear_without_a_reading_is_refused() -> None:
    with pytest.raises(ValueError, match="no reading"):
        wear()


def test_only_the_last_visits_are_shown() -> None:
    assert wear(*["23.9"] * 9, "23.0") != wear("23.0")
    six = [Reading(str(n), Decimal("23.0")) for n in range(6)]
    more = [Reading("old", Decimal("23.9")), *six]
    assert wear_picture("a", "mm", more, LIMITS, DISCARD) == wear_picture("a", "mm", six, LIMITS, DISCARD)


def test_each_language_has_words_of_its_own() -> None:
    assert (picture_words("en"), picture_words("es"), picture_words("fr")) == (ENGLISH, SPANISH, ENGLISH)
    for one in fields(ENGLISH):
        english, spanish = getattr(ENGLISH, one.name), getattr(SPANISH, one.name)
        assert english != spanish, one.name
        for text, other in zip(_lines(english), _lines(spanish), strict=True):
            assert sorted(re.findall(r"{\w+}", text)) == sorted(re.findall(r"{\w+}", other))


def _lines(words: str | tuple[str, ...]) -> tuple[str, ...]:
    return (words,) if isinstance(words, str) else words


def test_words_are_drawn_with_their_accents() -> None:
    assert rotor_picture(SPANISH) != rotor_picture(replace(SPANISH, rotor="Donde medir un disco"))
    # the font draws one box for every letter that it lacks, which would be as wide as another one
    assert Lettering(40).width("Dónde") == Lettering(40).width("Donde")


def test_only_what_is_asked_for_says_that_it_is_invented() -> None:
    assert wear("23.8", "23.1", note="Invented demo data") != wear("23.8", "23.1")
