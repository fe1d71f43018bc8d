"""Who may do what: a table of actions, and the one decision that is taken by it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from benchbot.people.terms import Decision, Role

Action = Literal[
    "see help",
    "ask",
    "say what is not right",
    "choose location",
    "set vehicle",
    "job",
    "override step",
    "see members",
    "invite technician",
    "invite curator",
    "invite owner",
    "see invites",
    "revoke invite",
    "change role",
    "remove member",
    "add location",
    "rename location",
    "set defaults",
    "see gaps",
    "fill gap",
    "approve",
]


@dataclass(frozen=True, slots=True)
class Right:
    """Who may do an action, and whether others may read along."""

    roles: frozenset[Role]
    private_only: bool


_MEMBER = Right(frozenset({"technician", "curator", "owner"}), private_only=False)
_CURATOR = Right(frozenset({"curator", "owner"}), private_only=True)
_OWNER = Right(frozenset({"owner"}), private_only=True)

RIGHTS: Mapping[Action, Right] = {
    "see help": _MEMBER,
    "ask": _MEMBER,
    "say what is not right": _MEMBER,
    "choose location": _MEMBER,
    "set vehicle": _MEMBER,
    "job": _MEMBER,
    "override step": _CURATOR,
    "see gaps": _CURATOR,
    "fill gap": _CURATOR,
    "approve": _CURATOR,
    "see members": _OWNER,
    "invite technician": _OWNER,
    "invite curator": _OWNER,
    "invite owner": _OWNER,
    "see invites": _OWNER,
    "revoke invite": _OWNER,
    "change role": _OWNER,
    "remove member": _OWNER,
    "add location": _OWNER,
    "rename location": _OWNER,
    "set defaults": _OWNER,
}

INVITE: Mapping[Role, Action] = {
    "technician": "invite technician",
    "curator": "invite curator",
    "owner": "invite owner",
}

ASK_FOR_AN_INVITE = "Ask your shop for an invite."
OWNERS_ONLY = "Only an owner of this location can do that."
CURATORS_ONLY = "Only a curator or an owner of this location can do that."
IN_PRIVATE = "Do that in a private chat with me."
NOT_DONE_HERE = "That is nothing I can do."


def decide(action: Action, role: Role | None, private: bool) -> Decision:
    """Whether whoever has that role may do the action; whatever the table does not allow is denied.

    role: the one at the location that the action concerns, None for whoever is no member there: a role at another
    location gives nothing. private: nobody else reads the chat.
    """
    if role is None:
        # Outsiders are not even told which actions there are.
        return Decision(False, ASK_FOR_AN_INVITE)
    right = RIGHTS.get(action)
    if right is None:
        return Decision(False, NOT_DONE_HERE)
    if role not in right.roles:
        return Decision(False, CURATORS_ONLY if "curator" in right.roles else OWNERS_ONLY)
    if right.private_only and not private:
        return Decision(False, IN_PRIVATE)
    return Decision(True)
