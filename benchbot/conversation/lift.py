"""A vehicle as it stands on the lift: what was said of it, so that a question can go on without naming it again."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from typing import Any

from benchbot.conversation.past import Past
from benchbot.vocabulary.terms import Stated

OFFERED = 4


@dataclass(frozen=True, slots=True)
class Lift:
    """Make, model, model years and what was stated of it, as engine or drive."""

    make: str
    model: str
    years: tuple[int, ...] = ()
    year_range: bool = False
    stated: tuple[Stated, ...] = ()
    excluded: tuple[Stated, ...] = ()

    @classmethod
    def of(cls, past: Past) -> Lift | None:
        """The vehicle that a chat remembers, when it is one vehicle and its year is known."""
        if past.state != "named" or len(past.vehicles) != 1 or not past.years:
            return None
        make, model = past.vehicles[0]
        return cls(make, model, past.years, past.year_range, past.stated, past.excluded)

    @property
    def label(self) -> str:
        """As a choice shows it."""
        span = str(self.years[0]) if len(self.years) == 1 else f"{self.years[0]}-{self.years[-1]}"
        return " ".join((span, self.make, self.model, *(one.value for one in self.stated)))

    @property
    def identity(self) -> tuple[str, str, tuple[int, ...]]:
        """What makes it another vehicle."""
        return self.make, self.model, self.years

    def to_past(self) -> Past:
        """The memory of a chat in which this vehicle was put on the lift and nothing was asked yet."""
        said = f"{self.make} {self.model}"
        return Past(
            ((self.make, self.model),), "named", said, self.years, self.year_range, self.stated, self.excluded,
            answered=True,
        )  # fmt: skip

    def to_plain(self) -> dict[str, Any]:
        return asdict(self)

    def to_text(self) -> str:
        return json.dumps(self.to_plain(), ensure_ascii=False, separators=(",", ":"), sort_keys=True)

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> Lift:
        return cls(
            plain["make"],
            plain["model"],
            tuple(plain["years"]),
            plain["year_range"],
            tuple(Stated(one["key"], one["value"], one["part"]) for one in plain["stated"]),
            tuple(Stated(one["key"], one["value"], one["part"]) for one in plain["excluded"]),
        )

    @classmethod
    def from_text(cls, text: str) -> Lift:
        return cls.from_plain(json.loads(text))
