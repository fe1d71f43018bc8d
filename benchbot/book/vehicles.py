"""The makes and models of a book, and every word by which a message can name them."""

from __future__ import annotations

from collections.abc import Iterator

from benchbot.vocabulary.letters import deletions, name_words, slips_allowed

MAKE, VEHICLE = "make", "vehicle"


class _Known(dict[tuple[str, str], int]):
    """Vehicle numbers by (make, model), given in the order met."""

    def __missing__(self, key: tuple[str, str]) -> int:
        self[key] = number = len(self) + 1
        return number


class VehicleWords:
    """Collects vehicles and aliases; then gives the rows of the tables that names are found by."""

    def __init__(self) -> None:
        self.known = _Known()
        self._aliases: dict[int, list[str]] = {}

    @property
    def makes(self) -> dict[str, int]:
        names = dict.fromkeys(make for make, _ in self.known)
        return {name: number for number, name in enumerate(names, 1)}

    def add_alias(self, make: str, model: str, alias: str) -> bool:
        """False when the book has no such vehicle: then nothing can be said of it."""
        if (make, model) not in self.known:
            return False
        self._aliases.setdefault(self.known[make, model], []).append(alias)
        return True

    def rows(self) -> Iterator[tuple[int, int, str]]:
        """(vehicle, make, model)."""
        makes = self.makes
        for (make, model), vehicle in self.known.items():
            yield vehicle, makes[make], model

    def words(self) -> Iterator[tuple[str, str, int, int, int]]:
        """(word, "make" or "vehicle", its number, form, how many words that form has). Form 0 is the name itself."""
        for name, make in self.makes.items():
            yield from _word_rows(MAKE, make, 0, name)
        for (_, model), vehicle in self.known.items():
            for form, name in enumerate((model, *self._aliases.get(vehicle, ()))):
                yield from _word_rows(VEHICLE, vehicle, form, name)

    def near_words(self) -> Iterator[tuple[str, str]]:
        """(a form with letters left out, the word): two words one slip apart share a form."""
        for word in {row[0] for row in self.words()}:
            most = slips_allowed(word)
            if most:
                yield from ((form, word) for form in deletions(word, most))


def _word_rows(of: str, number: int, form: int, name: str) -> Iterator[tuple[str, str, int, int, int]]:
    words = dict.fromkeys(name_words(name))
    for word in words:
        yield word, of, number, form, len(words)
