"""What a check has to say of a row."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Level = Literal["passed", "warning", "refused"]
Concern = Literal["two units", "bolt load", "outlier", "contradiction", "scope"]

CONCERNS: tuple[Concern, ...] = get_args(Concern)


@dataclass(frozen=True, slots=True)
class Found:
    """One verdict on a row; what could not be judged gives none.

    level: a warning needs a person's reason to pass, a refused row must be mended. told: one or two plain sentences
    with the numbers. mend: what would be right, "" when it passed.
    """

    concern: Concern
    level: Level
    told: str
    mend: str
