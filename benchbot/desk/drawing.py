"""Draws the picture of an outcome or of a step, in the words of the shop's language."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from hashlib import sha256

from benchbot.desk.wording import Wording
from benchbot.outcomes import Picture
from benchbot.pictures.rotor import rotor_picture
from benchbot.pictures.tightening import STUDS, tightening_order, tightening_picture
from benchbot.pictures.wear import Limit, Reading, wear_picture
from benchbot.pictures.wording import picture_words


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture as it is sent. name: of its file, the same for the same picture; content: a PNG; caption: a line."""

    name: str
    content: bytes
    caption: str


def is_open(picture: Picture, studs: int) -> bool:
    """Whether it must be asked first how many studs there are. studs: how many were chosen, 0 for none."""
    return picture.kind == "tightening order" and (studs or picture.studs) not in STUDS


def drawn(picture: Picture, studs: int, words: Wording) -> Drawn:
    """studs: how many were chosen; 0 where the picture names them. ValueError where they are open; SettingError when
    what draws is not installed.
    """
    inside = picture_words(words.language)
    if picture.kind == "tightening order":
        count = studs or picture.studs
        order = "-".join(map(str, tightening_order(count)))
        content = tightening_picture(count, inside)
        return Drawn(_name("studs", content), content, words.picture_order.format(studs=count, order=order))
    if picture.kind == "rotor points":
        content = rotor_picture(inside)
        return Drawn(_name("rotor", content), content, words.picture_rotor)
    title = words.picture_wear[picture.part]
    *before, last = picture.readings
    readings = [Reading(at or words.picture_was, Decimal(value)) for at, value in before]
    readings.append(Reading(last[0] or words.picture_now, Decimal(last[1])))
    limit = Limit(words.picture_limit, Decimal(picture.limit))
    content = wear_picture(title, picture.unit, readings, (), limit, words=inside)
    return Drawn(_name("wear", content), content, title)


def _name(of: str, content: bytes) -> str:
    return f"{of}-{sha256(content).hexdigest()[:16]}.png"
