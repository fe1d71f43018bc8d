"""Who counts as another person: by id, by name, by the name of before; and what the owner can allow."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from two_person_shop import ANA, BEN, NOW, named

from benchbot.curation.two_people import (
    allow_one_person,
    name_of,
    one_person_allowed,
    safety_relevant,
    same_person,
)
from benchbot.people.names import NO_NAME
from benchbot.places import Home
from benchbot.records import settings
from benchbot.records.record import Record, open_record
from benchbot.specs.properties import PROPERTIES


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    with open_record(home) as opened:
        named(opened, ANA, "Ana Orlik")
        named(opened, BEN, "Ben Tarrow")
        yield opened


def test_every_property_but_the_socket_is_safety_relevant() -> None:
    assert [name for name in PROPERTIES if not safety_relevant(name)] == ["socket"]


@pytest.mark.parametrize(
    ("person", "name"),
    [
        (ANA, "Ana Orlik"),
        ("telegram 99", ""),
        ("terminal ana orlik", "ana orlik"),
        ("command line, root", "root"),
        ("Ana Orlik", "Ana Orlik"),
    ],
)
def test_the_name_that_a_person_goes_by(record: Record, person: str, name: str) -> None:
    assert name_of(record, person) == name


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (ANA, ANA, True),
        (ANA, BEN, False),
        (ANA, "terminal ana orlik", True),
        (ANA, "ANA  Orlik", True),
        ("ana orlik", "terminal Ana Orlik", True),
        ("telegram 98", "telegram 99", False),
        (ANA, "telegram 99", False),
        ("", "", True),
    ],
)
def test_the_same_person(record: Record, one: str, other: str, same: bool) -> None:
    assert same_person(record, one, other) is same
    assert same_person(record, other, one) is same


def test_two_without_a_name_are_two(record: Record) -> None:
    named(record, "telegram 98", NO_NAME)
    named(record, "telegram 99", NO_NAME)
    assert not same_person(record, "telegram 98", "telegram 99")


def test_a_name_of_before_counts_too(record: Record) -> None:
    named(record, ANA, "Cleo Orlik")
    assert not same_person(record, ANA, "terminal ana orlik")
    assert same_person(record, ANA, "terminal ana orlik", ("Ana Orlik",))


def test_one_person_is_allowed_by_the_newest_setting(record: Record) -> None:
    assert not one_person_allowed(record)
    allow_one_person(record, True, ANA, NOW)
    assert one_person_allowed(record)
    allow_one_person(record, False, BEN, NOW)
    assert not one_person_allowed(record)
    setting = settings.setting(record, "one person")
    assert setting is not None and (setting.value, setting.author) == ("forbidden", BEN)
    assert record.row("SELECT count(*) FROM shop_setting", {}) == (2,)
