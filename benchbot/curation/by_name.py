"""Who may do what at the machine itself, where people are known by the name that they give."""

from __future__ import annotations

from benchbot.curation.two_people import name_of
from benchbot.people.names import same_name
from benchbot.people.register import People
from benchbot.people.rights import RIGHTS, Action
from benchbot.people.terms import ROLES
from benchbot.records.record import Record


def refusal(record: Record, person: str, action: Action) -> str:
    """Why the person may not do it, in words for them; "" when they may.

    Before anybody is a member, whoever sits at the machine may. From then on the person must be a member whose role
    allows it at one location at least, by their id or by the name that they go by.
    """
    people = People(record)
    members = [member for place in people.locations() for member in people.members(place.number)]
    if not members:
        return ""
    roles, name = RIGHTS[action].roles, name_of(record, person)
    able = [member for member in members if member.role in roles]
    if any(member.person == person or (name and same_name(member.name, name)) for member in able):
        return ""
    needed = " or ".join(role for role in ROLES if role in roles)
    article = "an" if needed.startswith("owner") else "a"
    names = ", ".join(dict.fromkeys(member.name for member in able))
    do = f"give --by NAME of one of: {names}" if names else "let one in with: benchbot people invite"
    return f"{name or person} is not {article} {needed} of this shop; {do}"
