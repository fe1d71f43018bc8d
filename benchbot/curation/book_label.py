"""The label of a book to exchange: when and by which shop it was made, and the digests that tell whether it is whole.

A digest vouches that nothing was lost or altered on the way; it does not vouch for who made the book.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

FORMAT = "benchbot book 2"
TABLES = ("specs", "vehicle names", "words")
_MOST_ROWS = 50_000_000
_LONGEST_SHOP = 200


@dataclass(frozen=True, slots=True)
class Counted:
    """Rows and digest of one table of a book; the digest is in lower-case hexadecimal."""

    rows: int
    digest: str


@dataclass(frozen=True, slots=True)
class Label:
    """made_on: the moment, in ISO 8601; shop: free text; tables: one Counted for each of TABLES, in their order."""

    made_on: str
    shop: str
    tables: tuple[Counted, Counted, Counted]

    def pairs(self) -> list[tuple[str, str]]:
        """The label as it is written: names and values, the last of them the digest of all before it."""
        told = [("format", FORMAT), ("made_on", self.made_on), ("shop", self.shop)]
        for name, counted in zip(TABLES, self.tables, strict=True):
            told += [(f"{name} rows", str(counted.rows)), (f"{name} digest", counted.digest)]
        return [*told, ("digest", _digest(told))]

    @classmethod
    def of_pairs(cls, pairs: Sequence[tuple[str, str]]) -> Label:
        """ValueError says what is wrong with it."""
        told = dict(pairs)
        names = [name for name, _ in pairs]
        if told.get("format") != FORMAT:
            raise ValueError(f"it is no {FORMAT!r}: it says {told.get('format', 'nothing')[:40]!r}")
        wanted = [name for name, _ in cls("", "", (Counted(0, ""),) * 3).pairs()]
        for name in wanted:
            if name not in told:
                raise ValueError(f"its label does not tell {name!r}: it was cut off or altered")
        if sorted(names) != sorted(wanted):
            raise ValueError("its label tells more than it should: it was altered")
        if told["digest"] != _digest([(name, told[name]) for name in wanted[:-1]]):
            raise ValueError("its label was altered: it does not have the digest that it tells")
        tables = [Counted(_rows(told[f"{name} rows"]), told[f"{name} digest"]) for name in TABLES]
        if datetime.fromisoformat(told["made_on"]).tzinfo is None or len(told["shop"]) > _LONGEST_SHOP:
            raise ValueError("its label names no moment, or a shop of too many letters")
        return cls(told["made_on"], told["shop"], (tables[0], tables[1], tables[2]))

    @property
    def origin(self) -> str:
        """When and by whom, fit to be printed wherever the label came from."""
        shop = "".join(letter if letter.isprintable() else "?" for letter in self.shop).strip()
        return f"made {self.made_on[:16]}" + (f" by {shop}" if shop else "")


class Tally:
    """Counts rows of texts and adds their digests up, so that the order of the rows does not matter.

    Digest: the SHA-256 of the cells with U+001F between, each as a number, summed modulo 2**256.
    """

    def __init__(self) -> None:
        self.rows = 0
        self._sum = 0

    def watch(self, rows: Iterable[Sequence[str]]) -> Iterator[Sequence[str]]:
        """The same rows, counted as they go by."""
        sha, number, total = hashlib.sha256, int.from_bytes, 0
        try:
            for row in rows:
                self.rows += 1
                total += number(sha("\x1f".join(row).encode("utf-8", "surrogatepass")).digest(), "big")
                yield row
        finally:
            self._sum = (self._sum + total) % (1 << 256)

    @property
    def counted(self) -> Counted:
        return Counted(self.rows, f"{self._sum:064x}")


def _digest(pairs: Sequence[tuple[str, str]]) -> str:
    text = "\n".join(f"{name}: {value}" for name, value in pairs)
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _rows(text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) <= 9 and int(text) <= _MOST_ROWS):
        raise ValueError(f"its label tells {text[:20]!r} as a number of rows")
    return int(text)
