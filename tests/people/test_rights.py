"""Every cell of the table of rights, against a table written out by hand."""

from __future__ import annotations

from datetime import datetime
from typing import get_args

import pytest

from benchbot.people.register import People
from benchbot.people.rights import INVITE, RIGHTS, Action, decide
from benchbot.people.terms import ROLES, Decision, Location, Role

ROLE_OF: dict[str, Role | None] = {"none": None, "technician": "technician", "curator": "curator", "owner": "owner"}
REASON = {
    "ok": "",
    "out": "Ask your shop for an invite.",
    "own": "Only an owner of this location can do that.",
    "cur": "Only a curator or an owner of this location can do that.",
    "prv": "Do that in a private chat with me.",
}

# Each action: in private for nobody of ours, a technician, a curator, an owner; then the same in a group.
TABLE = """
see help               out ok  ok  ok   out ok  ok  ok
ask                    out ok  ok  ok   out ok  ok  ok
say what is not right  out ok  ok  ok   out ok  ok  ok
choose location        out ok  ok  ok   out ok  ok  ok
set vehicle            out ok  ok  ok   out ok  ok  ok
job                    out ok  ok  ok   out ok  ok  ok
override step          out cur ok  ok   out cur prv prv
see gaps               out cur ok  ok   out cur prv prv
fill gap               out cur ok  ok   out cur prv prv
approve                out cur ok  ok   out cur prv prv
see members            out own own ok   out own own prv
invite technician      out own own ok   out own own prv
invite curator         out own own ok   out own own prv
invite owner           out own own ok   out own own prv
see invites            out own own ok   out own own prv
revoke invite          out own own ok   out own own prv
change role            out own own ok   out own own prv
remove member          out own own ok   out own own prv
add location           out own own ok   out own own prv
rename location        out own own ok   out own own prv
set defaults           out own own ok   out own own prv
"""
LINES = [(line[:23].strip(), line[23:].split()) for line in TABLE.strip().splitlines()]
CELLS = [
    (action, role, where, told)
    for action, cells in LINES
    for (where, role), told in zip(
        [(where, role) for where in ("private", "group") for role in ROLE_OF], cells, strict=True
    )
]


@pytest.mark.parametrize(("action", "role", "where", "told"), CELLS)
def test_a_cell_of_the_table(action: Action, role: str, where: str, told: str) -> None:
    assert decide(action, ROLE_OF[role], where == "private") == Decision(told == "ok", REASON[told])


def test_the_table_is_whole() -> None:
    assert {action for action, _ in LINES} == set(get_args(Action)) == set(RIGHTS)
    assert len(CELLS) == len(RIGHTS) * 4 * 2
    assert [INVITE[role] for role in ROLES] == ["invite technician", "invite curator", "invite owner"]


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("private", [True, False])
@pytest.mark.parametrize("action", ["", "ASK", "ask ", "delete book", "owner"])
def test_what_the_table_does_not_hold_is_denied(action: Action, role: Role, private: bool) -> None:
    denied = decide(action, role, private)
    assert not denied.allowed
    assert denied.reason == "That is nothing I can do."


def test_an_outsider_is_told_the_same_of_every_action_even_of_none() -> None:
    actions: list[Action] = [*RIGHTS, "no such action"]  # type: ignore[list-item]
    told = {decide(action, None, private).reason for action in actions for private in (True, False)}
    assert told == {"Ask your shop for an invite."}


@pytest.mark.parametrize("role", ["Owner", "OWNER", "admin", ""])
def test_a_role_that_is_none_of_ours_may_nothing(role: Role) -> None:
    assert not any(decide(action, role, True).allowed for action in RIGHTS)


def test_an_owner_of_one_location_is_nothing_at_another(people: People, now: datetime) -> None:
    here = people.add_location("North shop", "telegram 1", now)
    there = people.add_location("South shop", "telegram 2", now)
    assert isinstance(here, Location) and isinstance(there, Location)
    for action in RIGHTS:
        assert decide(action, people.role_at("telegram 1", here.number), True).allowed
        assert not decide(action, people.role_at("telegram 1", there.number), True).allowed
