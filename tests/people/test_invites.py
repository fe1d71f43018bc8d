"""Invites: made, redeemed, raced for, run out, revoked; the code itself is nowhere to be found."""

from __future__ import annotations

import logging
import multiprocessing
import sqlite3
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from benchbot.people.codes import digest, new_code
from benchbot.people.invites import NO_WAY_IN, find, make, open_invites, redeem, revoke
from benchbot.people.register import People
from benchbot.people.terms import Invite, Joined, Location, Membership, Refused, Role
from benchbot.records.entry import moment
from benchbot.records.record import Record, open_record

OWNER, ANA, BO = "telegram 11", "telegram 22", "telegram 33"
SECOND = timedelta(seconds=1)


def rows(path: Path, statement: str) -> list[tuple[Any, ...]]:
    connection = sqlite3.connect(path)
    try:
        return connection.execute(statement).fetchall()
    finally:
        connection.close()


def about(result: object) -> str:
    """What a refused code is about; whoever sent it is told one and the same."""
    assert isinstance(result, Refused), result
    assert result.reason == NO_WAY_IN == "This code does not work. Ask your shop for a new invite."
    return result.about


def test_an_invite_is_made(record: Record, shop: Location, now: datetime, path: Path) -> None:
    invite, code = make(record, shop.number, "technician", 3, 7, OWNER, now)
    assert invite == Invite(1, code[:3], shop.number, "technician", 3, now + timedelta(days=7))
    assert find(record, 1) == invite
    assert find(record, 2) is None
    assert open_invites(record, shop.number, now) == (invite,)
    assert rows(path, "SELECT digest, author, at FROM invite") == [(digest(code.replace("-", "")), OWNER, moment(now))]


@pytest.mark.parametrize(("uses", "days"), [(0, 1), (101, 1), (-1, 1), (1, 0), (1, 366)])
def test_an_invite_has_bounds(record: Record, shop: Location, now: datetime, uses: int, days: int) -> None:
    with pytest.raises(ValueError, match="1 to 100 uses"):
        make(record, shop.number, "technician", uses, days, OWNER, now)
    assert open_invites(record, shop.number, now) == ()


def test_a_code_lets_a_person_in_and_is_used_up(
    record: Record, people: People, shop: Location, now: datetime, path: Path
) -> None:
    invite, code = make(record, shop.number, "technician", 1, 7, OWNER, now)
    later = now + SECOND
    assert redeem(record, code, ANA, "Ana Tolvane", later) == Joined(shop, "technician", "joined")
    assert people.standing(ANA) == Membership(shop, "technician")
    member = people.people_with(("technician",), shop.number)[0]
    assert (member.name, member.since) == ("Ana Tolvane", later)
    assert about(redeem(record, code, BO, "Bo", later)) == "code used up"
    assert people.memberships(BO) == ()
    assert open_invites(record, shop.number, later) == ()
    assert find(record, invite.number) == replace(invite, uses_left=0)
    last = rows(path, "SELECT person, location, role, author, at FROM membership_change ORDER BY entry DESC LIMIT 1")
    assert last == [(ANA, shop.number, "technician", f"invite {invite.number}", moment(later))]


def test_a_code_for_three_lets_three_in(record: Record, shop: Location, now: datetime) -> None:
    _, code = make(record, shop.number, "technician", 3, 7, OWNER, now)
    came = [redeem(record, code, f"telegram {number}", "x", now) for number in range(100, 105)]
    assert [isinstance(one, Joined) for one in came] == [True, True, True, False, False]


@pytest.mark.parametrize("change", [str.lower, lambda code: code.replace("-", ""), lambda code: f" {code}\n"])
def test_a_code_works_however_it_is_typed(record: Record, shop: Location, now: datetime, change: Any) -> None:
    _, code = make(record, shop.number, "technician", 1, 7, OWNER, now)
    assert isinstance(redeem(record, change(code), ANA, "Ana", now), Joined)


@pytest.mark.parametrize(
    "code", ["", "?", "x" * 10_000, "\x00", "\ud800" * 15, "' OR 1=1 --", "K7QPM-2XWDH-9RTVA", "K7QPM", "%" * 15]
)
def test_what_is_no_code_of_ours_is_unknown(record: Record, shop: Location, now: datetime, code: str) -> None:
    make(record, shop.number, "technician", 1, 7, OWNER, now)
    assert about(redeem(record, code, ANA, "Ana", now)) == "code unknown"


def test_trying_codes_does_not_keep_writers_waiting(record: Record, shop: Location, now: datetime, path: Path) -> None:
    blocker = sqlite3.connect(path, isolation_level=None)
    blocker.execute("BEGIN IMMEDIATE")
    begun = time.monotonic()
    assert about(redeem(record, new_code(), ANA, "Ana", now)) == "code unknown"
    assert time.monotonic() - begun < 1
    blocker.close()


def test_an_outsider_leaves_no_trace(record: Record, shop: Location, now: datetime, path: Path) -> None:
    invite, code = make(record, shop.number, "technician", 1, 7, OWNER, now)
    revoke(record, invite.number, now)
    redeem(record, code, ANA, "Ana", now)
    redeem(record, new_code(), ANA, "Ana", now)
    assert rows(path, "SELECT person FROM person") == [(OWNER,)]


def test_a_code_ends_at_the_very_moment(record: Record, shop: Location, now: datetime) -> None:
    invite, code = make(record, shop.number, "technician", 3, 1, OWNER, now)
    end = now + timedelta(hours=24)
    assert invite.expires_at == end
    just_before = end - timedelta(microseconds=1)
    assert open_invites(record, shop.number, just_before) == (invite,)
    assert isinstance(redeem(record, code, ANA, "Ana", just_before), Joined)
    assert about(redeem(record, code, BO, "Bo", end)) == "code expired"
    assert about(redeem(record, code, BO, "Bo", end + timedelta(days=400))) == "code expired"
    assert open_invites(record, shop.number, end) == ()


def test_zones_make_no_difference(record: Record, shop: Location, now: datetime) -> None:
    east, west = timezone(timedelta(hours=9)), timezone(timedelta(hours=-10))
    invite, code = make(record, shop.number, "technician", 2, 1, OWNER, now.astimezone(east))
    assert invite.expires_at == now + timedelta(days=1)
    assert invite.expires_at.utcoffset() == timedelta(0)
    end = invite.expires_at
    assert isinstance(redeem(record, code, ANA, "Ana", (end - SECOND).astimezone(west)), Joined)
    assert about(redeem(record, code, BO, "Bo", end.astimezone(west))) == "code expired"
    assert open_invites(record, shop.number, end.astimezone(east)) == ()
    with pytest.raises(ValueError, match="no time zone"):
        redeem(record, make(record, shop.number, "owner", 1, 1, OWNER, now)[1], BO, "Bo", now.replace(tzinfo=None))


def test_a_revoked_invite_ends_at_once(record: Record, people: People, shop: Location, now: datetime) -> None:
    invite, code = make(record, shop.number, "curator", 3, 7, OWNER, now)
    assert isinstance(redeem(record, code, ANA, "Ana", now), Joined)
    assert revoke(record, invite.number, now) == replace(invite, uses_left=2, revoked=True)
    assert about(redeem(record, code, BO, "Bo", now)) == "code revoked"
    assert open_invites(record, shop.number, now) == ()
    assert people.role_at(ANA, shop.number) == "curator"
    again, unknown = revoke(record, invite.number, now), revoke(record, 99, now)
    assert isinstance(again, Refused) and isinstance(unknown, Refused)
    assert (again.about, unknown.about) == ("already revoked", "unknown invite")


def test_open_invites_are_those_of_the_location(record: Record, people: People, shop: Location, now: datetime) -> None:
    other = people.add_location("East shop", OWNER, now)
    assert isinstance(other, Location)
    first, _ = make(record, shop.number, "technician", 1, 1, OWNER, now)
    there, _ = make(record, other.number, "owner", 5, 7, OWNER, now)
    second, _ = make(record, shop.number, "curator", 2, 2, OWNER, now)
    assert open_invites(record, shop.number, now) == (first, second)
    assert open_invites(record, other.number, now) == (there,)
    assert open_invites(record, shop.number, now + timedelta(days=1)) == (second,)


HIGHER: list[tuple[Role, Role]] = [("technician", "curator"), ("technician", "owner"), ("curator", "owner")]
NOT_HIGHER: list[tuple[Role, Role]] = [
    ("technician", "technician"),
    ("curator", "technician"),
    ("curator", "curator"),
    ("owner", "technician"),
    ("owner", "curator"),
    ("owner", "owner"),
]


@pytest.fixture
def member(record: Record, shop: Location, now: datetime, request: pytest.FixtureRequest) -> Iterator[Role]:
    """Ana, let in with the role that the test asks for."""
    _, code = make(record, shop.number, request.param, 1, 1, OWNER, now)
    assert redeem(record, code, ANA, "Ana", now) == Joined(shop, request.param, "joined")
    yield request.param


@pytest.mark.parametrize(("member", "invited"), HIGHER, indirect=["member"])
def test_a_higher_invite_raises_the_role(
    record: Record, people: People, shop: Location, now: datetime, member: Role, invited: Role
) -> None:
    invite, code = make(record, shop.number, invited, 2, 7, OWNER, now)
    assert redeem(record, code, ANA, "Ana", now + SECOND) == Joined(shop, invited, "raised")
    assert people.memberships(ANA) == (Membership(shop, invited),)
    assert people.people_with((invited,), shop.number)[-1].since == now
    assert find(record, invite.number) == replace(invite, uses_left=1)


@pytest.mark.parametrize(("member", "invited"), NOT_HIGHER, indirect=["member"])
def test_an_invite_that_gives_nothing_new_is_not_used_up(
    record: Record, people: People, shop: Location, now: datetime, member: Role, invited: Role, path: Path
) -> None:
    invite, code = make(record, shop.number, invited, 1, 7, OWNER, now)
    before = rows(path, "SELECT count(*) FROM membership_change")
    assert redeem(record, code, ANA, "Ana", now) == Joined(shop, member, "already")
    assert find(record, invite.number) == invite
    assert people.memberships(ANA) == (Membership(shop, member),)
    assert rows(path, "SELECT count(*) FROM membership_change") == before


@pytest.mark.parametrize("member", ["technician"], indirect=True)
def test_a_member_who_taps_an_old_link_is_told_that_they_are_in(
    record: Record, shop: Location, now: datetime, member: Role
) -> None:
    invite, code = make(record, shop.number, "technician", 1, 1, OWNER, now)
    revoke(record, invite.number, now)
    assert redeem(record, code, ANA, "Ana", now + timedelta(days=9)) == Joined(shop, "technician", "already")


def test_a_membership_elsewhere_is_no_membership_here(
    record: Record, people: People, shop: Location, now: datetime
) -> None:
    other = people.add_location("East shop", ANA, now)
    assert isinstance(other, Location)
    _, code = make(record, shop.number, "technician", 1, 1, OWNER, now)
    assert redeem(record, code, ANA, "Ana", now) == Joined(shop, "technician", "joined")
    assert {place.location.name: place.role for place in people.memberships(ANA)} == {
        "East shop": "owner",
        "Main shop": "technician",
    }


def test_who_was_removed_comes_back_by_a_newer_invite_only(
    record: Record, people: People, shop: Location, now: datetime
) -> None:
    _, old = make(record, shop.number, "technician", 20, 30, OWNER, now)
    assert isinstance(redeem(record, old, ANA, "Ana", now), Joined)
    people.remove(ANA, shop.number, OWNER, now + SECOND)
    assert about(redeem(record, old, ANA, "Ana", now + 2 * SECOND)) == "code overruled"
    _, same_moment = make(record, shop.number, "owner", 1, 1, OWNER, now + SECOND)
    assert about(redeem(record, same_moment, ANA, "Ana", now + 2 * SECOND)) == "code overruled"
    assert people.memberships(ANA) == ()
    # For everyone else the one on the wall still works.
    assert isinstance(redeem(record, old, BO, "Bo", now + 2 * SECOND), Joined)
    _, new = make(record, shop.number, "technician", 1, 1, OWNER, now + 2 * SECOND)
    assert isinstance(redeem(record, new, ANA, "Ana", now + 3 * SECOND), Joined)


def test_an_older_invite_does_not_undo_a_lowered_role(
    record: Record, people: People, shop: Location, now: datetime
) -> None:
    _, old = make(record, shop.number, "curator", 5, 30, OWNER, now)
    assert isinstance(redeem(record, old, ANA, "Ana", now), Joined)
    people.change_role(ANA, shop.number, "technician", OWNER, now + SECOND)
    assert about(redeem(record, old, ANA, "Ana", now + 2 * SECOND)) == "code overruled"
    assert people.role_at(ANA, shop.number) == "technician"


def test_two_invites_in_turn_do_not_overrule_each_other(
    record: Record, people: People, shop: Location, now: datetime
) -> None:
    _, higher = make(record, shop.number, "curator", 1, 30, OWNER, now)
    _, lower = make(record, shop.number, "technician", 1, 30, OWNER, now)
    assert isinstance(redeem(record, lower, ANA, "Ana", now + SECOND), Joined)
    assert redeem(record, higher, ANA, "Ana", now + 2 * SECOND) == Joined(shop, "curator", "raised")


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("🔧 Ana", "🔧 Ana"),
        ("\u202eanA", "anA"),
        ("x" * 10_000, "x" * 59 + "…"),
        ("A\x00\x1b[2Jna", "A [2Jna"),
        ("<script>alert(1)</script>", "<script>alert(1)</script>"),
        ("'); DELETE FROM person; --", "'); DELETE FROM person; --"),
        ("", "(no name)"),
        ("Ana\ud83d", "Ana"),
    ],
)
def test_hostile_names_come_in_tame(
    record: Record, people: People, shop: Location, now: datetime, name: str, kept: str
) -> None:
    _, code = make(record, shop.number, "technician", 1, 1, OWNER, now)
    assert isinstance(redeem(record, code, ANA, name, now), Joined)
    assert [member.name for member in people.people_with(("technician",), shop.number)] == [kept]


def test_the_code_is_nowhere_in_the_files_and_in_no_log(
    record: Record, people: People, shop: Location, now: datetime, path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    codes = []
    for role in ("technician", "curator", "owner"):
        invite, code = make(record, shop.number, role, 2, 1, OWNER, now)
        codes.append(code)
        redeem(record, code, ANA, "Ana", now)
        redeem(record, code, BO, "Bo", now + timedelta(days=3))
    revoke(record, invite.number, now)
    files = [file for file in path.parent.iterdir() if file.is_file()]
    assert path in files
    held = b"".join(file.read_bytes() for file in files)
    for code in codes:
        plain = code.replace("-", "")
        # Its digest is there: what was written is in these files.
        assert digest(plain).encode() in held
        for part in (code, plain, code[6:], plain[5:], code[4:10]):
            assert part.encode() not in held
            assert part.lower().encode() not in held
            assert part not in caplog.text


def _race(path: Path, code: str, person: str, gate: Any, won: Any, now: datetime) -> None:
    with open_record(f"sqlite:///{path}") as mine:
        gate.wait()
        result = redeem(mine, code, person, "x", now)
        won.put((person, result.how if isinstance(result, Joined) else result.about))


@pytest.mark.parametrize(("racers", "uses"), [(2, 1), (6, 2)])
def test_of_those_who_race_for_the_last_use_only_so_many_win(
    record: Record, people: People, shop: Location, now: datetime, path: Path, racers: int, uses: int
) -> None:
    for _ in range(3):
        invite, code = make(record, shop.number, "technician", uses, 1, OWNER, now)
        context = multiprocessing.get_context("fork")
        gate, won = context.Barrier(racers), context.Queue()
        names = [f"telegram {invite.number}0{number}" for number in range(racers)]
        running = [context.Process(target=_race, args=(path, code, name, gate, won, now)) for name in names]
        for one in running:
            one.start()
        told = dict(won.get(timeout=30) for _ in running)
        for one in running:
            one.join()
        assert sorted(told.values()) == ["code used up"] * (racers - uses) + ["joined"] * uses
        assert {name for name in names if people.memberships(name)} == {
            name for name, how in told.items() if how == "joined"
        }
        assert find(record, invite.number) == replace(invite, uses_left=0)


def test_one_person_twice_at_once_is_one_member(
    record: Record, people: People, shop: Location, now: datetime, path: Path
) -> None:
    invite, code = make(record, shop.number, "technician", 5, 1, OWNER, now)
    context = multiprocessing.get_context("fork")
    gate, won = context.Barrier(2), context.Queue()
    running = [context.Process(target=_race, args=(path, code, ANA, gate, won, now)) for _ in range(2)]
    for one in running:
        one.start()
    told = sorted(won.get(timeout=30)[1] for _ in running)
    for one in running:
        one.join()
    assert told == ["already", "joined"]
    assert find(record, invite.number) == replace(invite, uses_left=4)


def test_a_code_that_is_redeemed_inside_a_failed_transaction_is_not_used_up(
    record: Record, people: People, shop: Location, now: datetime
) -> None:
    invite, code = make(record, shop.number, "technician", 1, 1, OWNER, now)
    with pytest.raises(RuntimeError, match="stop"), record.writing():
        assert isinstance(redeem(record, code, ANA, "Ana", now), Joined)
        raise RuntimeError("stop")
    assert people.memberships(ANA) == ()
    assert find(record, invite.number) == invite
    assert isinstance(redeem(record, code, ANA, "Ana", now), Joined)
