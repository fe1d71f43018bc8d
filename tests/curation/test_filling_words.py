"""The shop's own words and vehicle names: taken when they mean one thing, refused with the reason otherwise."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from desk import NOW

from benchbot.book.reader import Book
from benchbot.curation.words import Grown, NotTaken, add_vehicle_name, add_word, nearest_vehicles
from benchbot.places import Home
from benchbot.records import own_words, revisions
from benchbot.records.record import Record, open_record

WHO = "terminal cleo"


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    with open_record(home) as opened:
        yield opened


@pytest.fixture
def book(demo_shop: Home) -> Iterator[Book]:
    with Book.open(demo_shop.book) as opened:
        yield opened


def test_a_word_of_the_shop_is_taken(record: Record, book: Book) -> None:
    done = add_word(record, "caliper bracket bolt", "zorblatt bolt", WHO, NOW, book)
    assert done == Grown("zorblatt bolt", "caliper bracket bolt")
    assert revisions.shop_words(record) == [("caliper bracket bolt", "zorblatt bolt")]


@pytest.mark.parametrize(
    ("term", "said", "why", "told"),
    [
        ("caliper bracket bolt", "drain plug", "claimed", "already means"),
        ("caliper bracket bolt", "caliper bracket bolts", "known", "means caliper bracket bolt already"),
        ("caliper bracket bolt", "front", "everyday", "says no part"),
        ("caliper bracket bolt", "torque", "everyday", "says no part"),
        ("axle nut", "wheell nut", "near", "a slip of the finger away"),
        ("brake drum", "rotoor", "near", "a slip of the finger away"),
        ("caliper bracket bolt", "ondrel", "vehicle", "is a name of Brackwell Ondrel"),
        ("caliper bracket bolt", "", "unfit", "holds no word"),
        ("caliper bracket bolt", "x" * 81, "unfit", "are no name"),
        ("caliper bracket bolt", "=cmd|x", "unfit", "formula"),
        ("zorblatt", "weeper two", "no part", "is no component"),
    ],
)
def test_a_word_that_cannot_be_is_refused(
    record: Record, book: Book, term: str, said: str, why: str, told: str
) -> None:
    done = add_word(record, term, said, WHO, NOW, book)
    assert isinstance(done, NotTaken)
    assert (done.why, told in done.told) == (why, True), done.told
    assert revisions.shop_words(record) == []


def test_a_word_is_said_for_one_part(record: Record, book: Book) -> None:
    add_word(record, "caliper bracket bolt", "zorblatt bolt", WHO, NOW, book)
    done = add_word(record, "axle nut", "zorblatt bolt", WHO, NOW, book)
    assert isinstance(done, NotTaken)
    assert (done.why, done.other) == ("claimed", "caliper bracket bolt")
    done = add_word(record, "axle nut", "zorblat bolt", WHO, NOW, book)
    assert isinstance(done, NotTaken) and done.why == "near"


def test_a_name_of_a_vehicle_is_taken(record: Record, book: Book) -> None:
    done = add_vehicle_name(record, "Brackwell", "Ondrel", "zippy", WHO, NOW, book)
    assert done == Grown("zippy", "Brackwell Ondrel")
    assert own_words.names(record) == [("Brackwell", "Ondrel", "zippy")]
    again = add_vehicle_name(record, "Brackwell", "Ondrel", "Zippy", WHO, NOW, book)
    assert isinstance(again, NotTaken) and again.why == "known"


@pytest.mark.parametrize(
    ("alias", "why"),
    [
        ("Ondrel", "known"),
        ("Brackwell Ondrel", "known"),
        ("Vantry", "claimed"),
        ("Hollbrek", "claimed"),
        ("Vantri", "near"),
        ("drain plug", "claimed"),
        ("rear", "everyday"),
        ("  ", "unfit"),
        ("+1", "unfit"),
    ],
)
def test_a_name_that_cannot_be_is_refused(record: Record, book: Book, alias: str, why: str) -> None:
    done = add_vehicle_name(record, "Brackwell", "Ondrel", alias, WHO, NOW, book)
    assert isinstance(done, NotTaken)
    assert done.why == why, done.told
    assert own_words.names(record) == []


def test_a_vehicle_that_no_row_is_about_has_no_other_name(record: Record, book: Book) -> None:
    done = add_vehicle_name(record, "Brackwell", "Nowhere", "zippy", WHO, NOW, book)
    assert isinstance(done, NotTaken) and done.why == "no vehicle"


def test_names_differ_by_more_than_a_slip(record: Record, book: Book) -> None:
    add_vehicle_name(record, "Brackwell", "Ondrel", "zippyone", WHO, NOW, book)
    done = add_vehicle_name(record, "Hollbrek", "Vantry", "zipyone", WHO, NOW, book)
    assert isinstance(done, NotTaken) and (done.why, done.other) == ("near", "Brackwell Ondrel")


@pytest.mark.parametrize("text", ["ondrel", "brackwell ondral", "the old ondrel 12"])
def test_the_nearest_vehicles_are_offered(book: Book, text: str) -> None:
    assert nearest_vehicles(book, text)[0] == ("Brackwell", "Ondrel")
