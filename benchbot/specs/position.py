"""Where on the vehicle a component sits, in one order: axle, height, side, depth."""

from __future__ import annotations

import re

ORDER = ("front", "rear", "upper", "lower", "left", "right", "inner", "outer")
_PAIRS = (("front", "rear"), ("upper", "lower"), ("left", "right"), ("inner", "outer"))
_BREAK = re.compile(r"[\s,;/+&-]+")


def read_position(text: str) -> str:
    """Example: "Left, FRONT" -> "front left"; "" stays "". ValueError says what is wrong and what would be right."""
    words = [word for word in _BREAK.split(text.casefold()) if word]
    for word in words:
        if word not in ORDER:
            raise ValueError(
                f"{word!r} is no position",
                "write front, rear, left, right, upper, lower, inner, outer or a combination",
            )
    for one, other in _PAIRS:
        if one in words and other in words:
            raise ValueError(f"{one} and {other} in one row", f"write one row for {one} and one for {other}")
    return " ".join(word for word in ORDER if word in words)
