"""How many studs hold a wheel, as a question about the work says it."""

from __future__ import annotations

import re

from benchbot.pictures.tightening import STUDS
from benchbot.vocabulary.letters import fold

_SAID = {
    "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10,
    "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "ocho": 8, "diez": 10,
}  # fmt: skip
_HELD_BY = r"(?:lug ?nut|lug ?bolt|lug|stud|nut|bolt|hole|birlo|tuerca|perno|esparrago|tornillo|barreno)s?"
# No part of a larger figure ("10.9 studs", "3/4 stud"), and none of a thread ("M10 bolts").
_COUNT = re.compile(rf"(?<![\w./,])(?P<count>[0-9]{{1,2}}|{'|'.join(_SAID)})[ -]?(?:wheel )?{_HELD_BY}\b")


def studs_in(text: str) -> int:
    """The one count that there is an order for; 0 when there is none or more than one, as in "3 studs off my 5 lug"."""
    said = (found["count"] for found in _COUNT.finditer(fold(text)))
    counts = {int(one) if one.isdecimal() else _SAID[one] for one in said} & set(STUDS)
    return counts.pop() if len(counts) == 1 else 0
