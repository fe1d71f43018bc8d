"""Shop words and vehicle names that were taken back, and those that are in use again since; nothing is ever removed."""

from __future__ import annotations

from typing import Literal

from benchbot.records.record import Record, Store

Kind = Literal["word", "name"]
State = Literal["taken back", "in use"]
_TABLES: dict[Kind, str] = {"word": "shop_word", "name": "vehicle_alias"}


def in_use(kind: Kind, last: int | None = None) -> str:
    """The condition that an entry of the table of that kind was not taken back, as of the state entry `last`."""
    up_to = "" if last is None else f" AND {{}}.entry <= {int(last)}"
    return (
        f"NOT EXISTS (SELECT 1 FROM word_state WHERE word_state.kind = '{kind}'"
        f" AND word_state.word = {_TABLES[kind]}.entry AND word_state.state = 'taken back'{up_to.format('word_state')}"
        " AND NOT EXISTS (SELECT 1 FROM word_state AS later WHERE later.kind = word_state.kind"
        f" AND later.word = word_state.word AND later.entry > word_state.entry{up_to.format('later')}))"
    )


PUT = "INSERT INTO word_state (kind, word, state, change) VALUES (:kind, :word, :state, :change)"

WORD_ENTRY = "SELECT entry FROM shop_word WHERE term = :term AND said = :said"

NAME_ENTRY = "SELECT entry FROM vehicle_alias WHERE make = :make AND model = :model AND alias = :alias"

PUT_WORD = "INSERT INTO shop_word (term, said, change) VALUES (:term, :said, :change)"

PUT_NAME = "INSERT INTO vehicle_alias (make, model, alias, change) VALUES (:make, :model, :alias, :change)"

TAKEN_BACK_WORDS = f"SELECT term, said FROM shop_word WHERE NOT ({in_use('word')})"

TAKEN_BACK_NAMES = f"SELECT make, model, alias FROM vehicle_alias WHERE NOT ({in_use('name')})"

ALL = (PUT, WORD_ENTRY, NAME_ENTRY, PUT_WORD, PUT_NAME, TAKEN_BACK_WORDS, TAKEN_BACK_NAMES)


def put_word(store: Store, term: str, said: str, change: int) -> None:
    """The shop says it from now on, be it new or taken back before."""
    values = {"term": term, "said": said}
    held = store.row(WORD_ENTRY, values)
    if held is None:
        store.run(PUT_WORD, values | {"change": change})
    else:
        put(store, "word", int(held[0]), "in use", change)


def put_name(store: Store, make: str, model: str, alias: str, change: int) -> None:
    """The same for the name of a vehicle."""
    values = {"make": make, "model": model, "alias": alias}
    held = store.row(NAME_ENTRY, values)
    if held is None:
        store.run(PUT_NAME, values | {"change": change})
    else:
        put(store, "name", int(held[0]), "in use", change)


def put(store: Store, kind: Kind, word: int, state: State, change: int) -> None:
    """word: its entry in the table of its kind."""
    store.run(PUT, {"kind": kind, "word": word, "state": state, "change": change})


def taken_back_words(store: Record | Store) -> set[tuple[str, str]]:
    """(term, said) of the words that are not said any more."""
    return {(str(term), str(said)) for term, said in store.rows(TAKEN_BACK_WORDS, {})}


def taken_back_names(store: Record | Store) -> set[tuple[str, str, str]]:
    """(make, model, alias) of the names that are not said any more."""
    return {(str(make), str(model), str(alias)) for make, model, alias in store.rows(TAKEN_BACK_NAMES, {})}
