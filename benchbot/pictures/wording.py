"""Every word that stands in a picture, as plain data: the rest of the room only draws."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PictureWords:
    """The words in one language; the defaults are English. Each is as short as its place in the picture."""

    # the order of tightening
    order: str = "{studs} studs: follow 1 to {studs}"
    start_at: str = "start at"
    black: str = "black"
    across: str = "All by hand first. Half, then full, same order."
    around: str = "All by hand first. In turn, a little each."
    clockwise: str = "Small numbers, clockwise:"

    # where a rotor is measured
    rotor: str = "Where to measure a rotor"
    points: str = "{points} points around, {least} at least (black)"
    lowest: str = "The lowest counts"
    micrometer: str = "micrometer"
    lip: tuple[str, str] = ("lip: not", "over this")
    cut: str = "rotor, cut"
    finger: str = "a finger's breadth"
    from_edge: str = "from edge"
    stamped: str = "The limit stamped on the part wins."

    # wear over visits
    unit: str = "unit: {unit}"
    left: str = "{left} {unit} left to {limit}"
    past: str = "AT OR PAST {limit}: replace"


ENGLISH = PictureWords()
# As North American shops speak it: common practice, no source.
SPANISH = PictureWords(
    order="{studs} birlos: siga 1 a {studs}",
    start_at="empiece en",
    black="el negro",
    across="Todos a mano. Mitad, luego todo, mismo orden.",
    around="Todos a mano. Luego por turno, poco a poco.",
    clockwise="Números chicos, como el reloj:",
    rotor="Dónde medir un disco",
    points="{points} puntos alrededor, al menos {least} (negros)",
    lowest="Cuenta el más bajo",
    micrometer="micrómetro",
    lip=("reborde:", "aquí no"),
    cut="disco, corte",
    finger="a un dedo",
    from_edge="del borde",
    stamped="Manda el límite grabado en la pieza.",
    unit="unidad: {unit}",
    left="Quedan {left} {unit} al {limit}",
    past="LLEGÓ AL {limit}: cambie",
)


def picture_words(language: str) -> PictureWords:
    """The words of a language; English where it is none of ours."""
    return SPANISH if language == "es" else ENGLISH
