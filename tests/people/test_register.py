"""The register: locations and their defaults, memberships, where a person stands, and what can never be left."""

from __future__ import annotations

import sqlite3
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from benchbot.errors import RecordError
from benchbot.people.invites import make, open_invites, redeem
from benchbot.people.register import People
from benchbot.people.terms import Changed, Joined, Location, Member, Membership, Refused, Role
from benchbot.records.entry import moment
from benchbot.records.record import Record

OWNER, ANA, BO = "telegram 11", "telegram 22", "telegram 33"

Let = Callable[..., None]


def rows(path: Path, statement: str) -> list[tuple[Any, ...]]:
    connection = sqlite3.connect(path)
    try:
        return connection.execute(statement).fetchall()
    finally:
        connection.close()


def about(result: object) -> str:
    assert isinstance(result, Refused), result
    assert result.reason.endswith(".")
    return result.about


@pytest.fixture
def let_in(record: Record, now: datetime) -> Let:
    """Lets a person into a location in a role."""

    def let(person: str, location: Location, role: Role = "technician", name: str = "Ana Tolvane") -> None:
        _, code = make(record, location.number, role, 1, 1, OWNER, now)
        assert isinstance(redeem(record, code, person, name, now), Joined)

    return let


@pytest.fixture
def other(people: People, now: datetime, shop: Location) -> Location:
    made = people.add_location("East shop", OWNER, now)
    assert isinstance(made, Location)
    return made


def test_a_new_location_has_defaults_and_its_maker_for_an_owner(
    people: People, now: datetime, shop: Location, path: Path
) -> None:
    assert shop == Location(shop.number, "Main shop", "source", "en", 4)
    assert people.locations() == (shop,)
    assert people.location(shop.number) == shop
    assert people.location(shop.number + 1) is None
    assert people.members(shop.number) == (Member(OWNER, OWNER, "owner", now),)
    changes = rows(path, "SELECT person, location, role, author, at FROM membership_change")
    assert changes == [(OWNER, shop.number, "owner", OWNER, moment(now))]


def test_the_first_location_has_no_owner_and_is_made_once(people: People, now: datetime, path: Path) -> None:
    first = people.open_first("Main shop", now)
    assert isinstance(first, Location)
    assert people.members(first.number) == ()
    assert about(people.open_first("Second shop", now)) == "no first location"
    assert people.locations() == (first,)
    assert rows(path, "SELECT count(*) FROM membership_change") == [(0,)]


@pytest.mark.parametrize("name", ["Main shop", "MAIN SHOP", " main   shop ", "ＭＡＩＮ shop", "Main\u00a0shop"])
def test_a_name_is_given_once(people: People, now: datetime, shop: Location, name: str) -> None:
    assert about(people.add_location(name, OWNER, now)) == "name taken"
    assert people.locations() == (shop,)


def test_a_name_is_given_once_whatever_the_alphabet(people: People, now: datetime, shop: Location) -> None:
    # lower() of SQLite knows ASCII only.
    assert isinstance(people.rename(shop.number, "Taller Ñandú"), Location)
    assert about(people.add_location("TALLER ÑANDÚ", OWNER, now)) == "name taken"
    assert about(people.add_location("taller n\u0303andu\u0301", OWNER, now)) == "name taken"
    assert isinstance(people.add_location("Taller Nandu", OWNER, now), Location)


def test_a_refused_name_changes_nothing(people: People, now: datetime, shop: Location, path: Path) -> None:
    for name in ("", "   ", "x" * 61, "x" * 10_000, "a\x00b", "a\u202eb", "\u200b"):
        assert about(people.add_location(name, "telegram 99", now)) == "name unfit"
        assert about(people.rename(shop.number, name)) == "name unfit"
    assert people.locations() == (shop,)
    assert rows(path, "SELECT count(*) FROM person") == [(1,)]


def test_a_location_is_renamed(people: People, shop: Location, other: Location) -> None:
    assert people.rename(shop.number, "MAIN SHOP") == replace(shop, name="MAIN SHOP")
    assert about(people.rename(shop.number, "east SHOP")) == "name taken"
    assert about(people.rename(99, "West shop")) == "unknown location"
    assert people.rename(shop.number, "x" * 60) == replace(shop, name="x" * 60)
    assert [location.name for location in people.locations()] == ["East shop", "x" * 60]


def test_defaults_are_set_one_by_one(people: People, shop: Location) -> None:
    assert people.set_defaults(shop.number, units="US") == replace(shop, units="US")
    assert people.set_defaults(shop.number, language="es") == replace(shop, units="US", language="es")
    assert people.set_defaults(shop.number, vehicle_hours=24) == Location(shop.number, shop.name, "US", "es", 24)
    assert people.set_defaults(shop.number) == Location(shop.number, shop.name, "US", "es", 24)
    assert people.set_defaults(shop.number, units="source", vehicle_hours=1) == Location(
        shop.number, shop.name, "source", "es", 1
    )
    assert people.location(shop.number) == Location(shop.number, shop.name, "source", "es", 1)


@pytest.mark.parametrize(
    "wrong", [{"vehicle_hours": 0}, {"vehicle_hours": 25}, {"vehicle_hours": -1}, {"units": "SI"}, {"language": "fr"}]
)
def test_a_default_that_is_none_is_refused(people: People, shop: Location, wrong: dict[str, Any]) -> None:
    assert about(people.set_defaults(shop.number, **wrong)) == "setting unfit"
    assert people.location(shop.number) == shop
    assert about(people.set_defaults(99, units="US")) == "unknown location"


def test_an_outsider_has_no_place(people: People, shop: Location) -> None:
    assert people.memberships(ANA) == ()
    assert people.standing(ANA) is None
    assert people.role_at(ANA, shop.number) is None
    assert about(people.stand(ANA, shop.number)) == about(people.stand(ANA, 99)) == "not a member"
    assert people.stand(ANA, shop.number) == people.stand(ANA, 99)


def test_who_belongs_to_one_location_stands_there(people: People, shop: Location, let_in: Let) -> None:
    let_in(ANA, shop)
    assert people.memberships(ANA) == (Membership(shop, "technician"),)
    assert people.standing(ANA) == Membership(shop, "technician")
    assert people.role_at(ANA, shop.number) == "technician"


def test_who_belongs_to_two_locations_says_where(
    people: People, shop: Location, other: Location, let_in: Let, now: datetime
) -> None:
    let_in(ANA, shop, "curator")
    let_in(ANA, other)
    both = (Membership(other, "technician"), Membership(shop, "curator"))
    assert people.memberships(ANA) == both
    assert people.standing(ANA) is None
    assert people.stand(ANA, other.number) == both[0]
    assert people.standing(ANA) == both[0]
    assert people.stand(ANA, shop.number) == both[1]
    assert people.standing(ANA) == both[1]
    assert about(people.stand(ANA, 99)) == "not a member"
    assert people.standing(ANA) == both[1]


def test_who_is_removed_from_where_they_stood_stands_at_the_other(
    people: People, shop: Location, other: Location, let_in: Let, now: datetime
) -> None:
    let_in(ANA, shop)
    let_in(ANA, other)
    people.stand(ANA, shop.number)
    assert isinstance(people.remove(ANA, shop.number, OWNER, now), Changed)
    assert people.role_at(ANA, shop.number) is None
    assert people.standing(ANA) == Membership(other, "technician")
    assert isinstance(people.remove(ANA, other.number, OWNER, now), Changed)
    assert people.standing(ANA) is None


def test_who_comes_back_is_asked_again_where_they_stand(
    people: People, record: Record, shop: Location, other: Location, let_in: Let, now: datetime
) -> None:
    let_in(ANA, shop)
    let_in(ANA, other)
    people.stand(ANA, shop.number)
    people.remove(ANA, shop.number, OWNER, now)
    _, code = make(record, shop.number, "technician", 1, 1, OWNER, now + timedelta(hours=1))
    assert isinstance(redeem(record, code, ANA, "Ana", now + timedelta(hours=2)), Joined)
    assert len(people.memberships(ANA)) == 2
    assert people.standing(ANA) is None


def test_members_stand_by_role_and_name(people: People, shop: Location, let_in: Let, now: datetime) -> None:
    let_in("telegram 1", shop, "technician", "zoe")
    let_in("telegram 2", shop, "technician", "Abel")
    let_in("telegram 3", shop, "curator", "Mika")
    assert [member.person for member in people.members(shop.number)] == [
        OWNER,
        "telegram 3",
        "telegram 2",
        "telegram 1",
    ]
    assert people.counts() == {shop.number: {"technician": 2, "curator": 1, "owner": 1}}
    chosen = people.people_with(("curator", "owner"), shop.number)
    assert [member.person for member in chosen] == [OWNER, "telegram 3"]
    assert people.people_with((), shop.number) == ()
    assert people.members(99) == ()


def test_counts_leave_out_a_location_without_members(people: People, now: datetime) -> None:
    people.open_first("Main shop", now)
    assert people.counts() == {}


def test_a_role_is_changed_and_on_record(
    people: People, shop: Location, let_in: Let, now: datetime, path: Path
) -> None:
    let_in(ANA, shop)
    later = now + timedelta(days=2)
    changed = people.change_role(ANA, shop.number, "curator", OWNER, later)
    assert changed == Changed(ANA, "Ana Tolvane", shop, "technician", "curator")
    assert people.role_at(ANA, shop.number) == "curator"
    # They came in when they came in.
    assert people.people_with(("curator",), shop.number)[0].since == now
    last = rows(path, "SELECT person, location, role, author, at FROM membership_change ORDER BY entry DESC LIMIT 1")
    assert last == [(ANA, shop.number, "curator", OWNER, moment(later))]


def test_the_same_role_again_is_no_change(people: People, shop: Location, now: datetime, path: Path) -> None:
    before = rows(path, "SELECT count(*) FROM membership_change")
    same = people.change_role(OWNER, shop.number, "owner", OWNER, now)
    assert same == Changed(OWNER, OWNER, shop, "owner", "owner")
    assert rows(path, "SELECT count(*) FROM membership_change") == before


def test_a_removal_takes_effect_at_once_and_is_on_record(
    people: People, shop: Location, let_in: Let, now: datetime, path: Path
) -> None:
    let_in(ANA, shop)
    done = people.remove(ANA, shop.number, OWNER, now)
    assert done == Changed(ANA, "Ana Tolvane", shop, "technician", None)
    assert people.memberships(ANA) == ()
    assert ANA not in [member.person for member in people.members(shop.number)]
    last = rows(path, "SELECT person, role, author FROM membership_change ORDER BY entry DESC LIMIT 1")
    assert last == [(ANA, "", OWNER)]
    assert about(people.remove(ANA, shop.number, OWNER, now)) == "not a member"


def test_only_members_of_the_location_can_be_changed(
    people: People, shop: Location, other: Location, let_in: Let, now: datetime
) -> None:
    let_in(ANA, shop)
    assert about(people.change_role(ANA, other.number, "owner", OWNER, now)) == "not a member"
    assert about(people.remove(ANA, other.number, OWNER, now)) == "not a member"
    assert about(people.change_role(ANA, 99, "owner", OWNER, now)) == "unknown location"
    assert about(people.remove(ANA, 99, OWNER, now)) == "unknown location"
    assert people.memberships(ANA) == (Membership(shop, "technician"),)


def test_the_last_owner_stays_owner(
    people: People, shop: Location, other: Location, let_in: Let, now: datetime, path: Path
) -> None:
    let_in(ANA, shop, "curator")
    before = rows(path, "SELECT * FROM membership_change")
    for result in (
        people.remove(OWNER, shop.number, OWNER, now),
        people.change_role(OWNER, shop.number, "curator", OWNER, now),
        people.change_role(OWNER, shop.number, "technician", ANA, now),
    ):
        assert about(result) == "last owner"
    assert people.role_at(OWNER, shop.number) == "owner"
    assert rows(path, "SELECT * FROM membership_change") == before
    # That the other location has an owner, or that this one has a curator, is no help; a second owner here is.
    assert isinstance(people.change_role(ANA, shop.number, "owner", OWNER, now), Changed)
    assert isinstance(people.change_role(OWNER, shop.number, "technician", ANA, now), Changed)
    assert about(people.remove(ANA, shop.number, OWNER, now)) == "last owner"
    assert isinstance(people.remove(OWNER, shop.number, ANA, now), Changed)
    assert people.role_at(OWNER, other.number) == "owner"


@pytest.mark.parametrize("role", [None, "technician", "curator"])
def test_who_is_owner_no_longer_leaves_no_open_invites(
    people: People, record: Record, shop: Location, other: Location, let_in: Let, now: datetime, role: Role | None
) -> None:
    let_in(BO, shop, "owner")
    let_in(BO, other, "owner")
    make(record, shop.number, "owner", 1, 7, BO, now)
    make(record, shop.number, "technician", 20, 7, BO, now)
    make(record, shop.number, "technician", 20, 1, BO, now - timedelta(days=1))
    kept = [
        make(record, other.number, "owner", 1, 7, BO, now)[0],
        make(record, shop.number, "owner", 1, 7, OWNER, now)[0],
    ]
    if role is None:
        done = people.remove(BO, shop.number, OWNER, now)
    else:
        done = people.change_role(BO, shop.number, role, OWNER, now)
    assert isinstance(done, Changed)
    assert done.invites_ended == 2
    assert list(open_invites(record, other.number, now) + open_invites(record, shop.number, now)) == kept


def test_a_new_name_is_noted(people: People, shop: Location, let_in: Let, path: Path) -> None:
    let_in(ANA, shop)
    assert not people.rename_person(ANA, "Ana Tolvane")
    assert people.rename_person(ANA, "Ana T. <b>\x00")
    assert not people.rename_person(ANA, "Ana T. <b>")
    assert [member.name for member in people.people_with(("technician",), shop.number)] == ["Ana T. <b>"]


def test_the_name_of_an_outsider_is_not_kept(people: People, shop: Location, path: Path) -> None:
    assert not people.rename_person(ANA, "Ana Tolvane")
    assert rows(path, "SELECT person FROM person") == [(OWNER,)]


def test_an_unchanged_name_does_not_wait_for_a_writer(people: People, shop: Location, path: Path) -> None:
    blocker = sqlite3.connect(path, isolation_level=None)
    blocker.execute("BEGIN IMMEDIATE")
    begun = time.monotonic()
    assert not people.rename_person(OWNER, OWNER)
    assert people.standing(OWNER) == Membership(shop, "owner")
    assert time.monotonic() - begun < 1
    blocker.close()


def test_every_message_costs_one_statement(people: People, shop: Location, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    plain = people._record.rows

    def counted(statement: str, values: Any) -> Any:
        asked.append(statement)
        return plain(statement, values)

    monkeypatch.setattr(people._record, "rows", counted)
    monkeypatch.setattr(people._record, "row", None)
    people.standing(OWNER)
    people.memberships(OWNER)
    assert len(asked) == 2


def test_a_change_is_whole_or_not_at_all(
    people: People, shop: Location, let_in: Let, now: datetime, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    let_in(ANA, shop)
    monkeypatch.setattr("benchbot.people.statements.PUT_CHANGE", "INSERT INTO nowhere VALUES (1)")
    for change in (
        lambda: people.remove(ANA, shop.number, OWNER, now),
        lambda: people.change_role(ANA, shop.number, "owner", OWNER, now),
        lambda: people.add_location("West shop", ANA, now),
    ):
        with pytest.raises(RecordError, match="no such table"):
            change()
    assert people.memberships(ANA) == (Membership(shop, "technician"),)
    assert people.locations() == (shop,)


def test_changes_are_part_of_the_transaction_around_them(
    people: People, record: Record, shop: Location, let_in: Let, now: datetime
) -> None:
    let_in(ANA, shop)
    with pytest.raises(RuntimeError, match="stop"), record.writing():
        people.remove(ANA, shop.number, OWNER, now)
        people.rename(shop.number, "Gone shop")
        raise RuntimeError("stop")
    assert people.standing(ANA) == Membership(shop, "technician")


def test_since_is_the_same_moment_whatever_the_zone(people: People, now: datetime) -> None:
    east = timezone(timedelta(hours=9))
    made = people.add_location("Main shop", OWNER, now.astimezone(east))
    assert isinstance(made, Location)
    since = people.members(made.number)[0].since
    assert since == now
    assert since.utcoffset() == timedelta(0)
    assert since.tzinfo == UTC
