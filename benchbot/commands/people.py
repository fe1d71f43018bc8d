"""benchbot people: let the first owner in, and look after members where no owner can do it in the chat."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchbot.commands import hours
from benchbot.commands.asker import person as account
from benchbot.errors import BenchbotError
from benchbot.places import Home, home

if TYPE_CHECKING:
    from benchbot.people.register import People
    from benchbot.people.terms import Invite, Location, Member
    from benchbot.records.record import Record

# The rooms behind these commands load sqlite3: each is imported by the command that needs it.

FIRST_LOCATION = "Main shop"
AUTHOR = "command line"


def add_parser(subparsers: Any) -> None:
    """Adds `people` and its own commands."""
    from benchbot.people.terms import DAYS_AT_MOST, ROLES, USES_AT_MOST

    parser: argparse.ArgumentParser = subparsers.add_parser(
        "people", help="invite the first owner, see and remove members"
    )
    commands = parser.add_subparsers(dest="people_command", required=True, metavar="COMMAND")
    invite = commands.add_parser("invite", help="print a code that lets somebody in")
    invite.add_argument("--role", required=True, choices=ROLES, help="what they will be")
    invite.add_argument("--location", metavar="NAME", help="where; may be left out while there is only one")
    invite.add_argument(
        "--uses", type=_up_to(USES_AT_MOST), default=1, metavar="N", help="how many people it lets in (default: 1)"
    )
    invite.add_argument(
        "--days", type=_up_to(DAYS_AT_MOST), default=7, metavar="N", help="how many days it works (default: 7)"
    )
    invite.add_argument("--picture", type=Path, metavar="FILE.png", help="also draw a page for the wall")
    invite.add_argument("--bot", type=_username, metavar="NAME", help="the bot's username (default: the one last run)")
    members = commands.add_parser("list", help="who belongs to which location")
    members.add_argument("--json", action="store_true", help="for programs")
    commands.add_parser("locations", help="the locations, with their settings and counts")
    remove = commands.add_parser("remove", help="end somebody's membership, at once")
    remove.add_argument("person", metavar="PERSON", help="as the list shows it: “telegram 123”, 123, or the name")
    remove.add_argument("--location", required=True, metavar="NAME")
    one = commands.add_parser("one-person", help="whether rows answer that nobody but their author has checked")
    one.add_argument("what", nargs="?", choices=("allow", "forbid"), help="without it, says what is set")
    one.add_argument("--by", default="", metavar="NAME", help="who sets it, an owner (default: the user's name)")
    hours.add_commands(commands)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace, now: datetime | None = None) -> int:
    """0 done, 1 a problem was found and is told on standard error."""
    from benchbot.people.register import People
    from benchbot.records.record import open_record

    moment = now or datetime.now(UTC)
    try:
        place = home()
        with open_record(place) as record:
            people = People(record)
            if args.people_command == "invite":
                return _invite(place, record, people, args, moment)
            if args.people_command == "list":
                return _list(people, args.json)
            if args.people_command == "locations":
                return _locations(people)
            if args.people_command == "hours":
                location = _named(people.locations(), args.location)
                return _told(location) if isinstance(location, str) else hours.run(people, location, args)
            if args.people_command == "one-person":
                return _one_person(record, args.what, args.by, moment)
            return _remove(people, args, moment)
    except BenchbotError as error:
        print(error, file=sys.stderr)
        return 1


def _invite(place: Home, record: Record, people: People, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.people.codes import deep_link
    from benchbot.people.invites import make
    from benchbot.people.known_bot import link_base, load

    known = None if args.bot else load(place)
    bot = args.bot or (known.username if known else "")
    if args.picture and not bot:
        return _told("a picture needs a link to the bot; add --bot NAME, or run the bot once before")
    location = _place_of_invite(people, args.location, now)
    if isinstance(location, str):
        return _told(location)
    invite, code = make(record, location.number, args.role, args.uses, args.days, _author(), now)
    link = deep_link(link_base(bot), code) if bot else ""
    print(_invite_text(invite, code, location, link), flush=True)
    if args.picture:
        _draw(args.picture, location, link, bot, code, invite)
    return 0


def _place_of_invite(people: People, name: str | None, now: datetime) -> Location | str:
    """The location that is meant; made when there is none at all. A text says why there is no telling."""
    from benchbot.people.terms import Refused

    locations = people.locations()
    if locations:
        return _named(locations, name) if name else _only(locations)
    made = people.open_first(FIRST_LOCATION if name is None else name, now)
    if isinstance(made, Refused):
        return made.reason
    print(f"Location “{made.name}” made; its owner can rename it in the chat.")
    return made


def _only(locations: Sequence[Location]) -> Location | str:
    return locations[0] if len(locations) == 1 else f"say which one with --location: {_names(locations)}"


def _named(locations: Sequence[Location], name: str) -> Location | str:
    from benchbot.people.names import same_name

    found = [location for location in locations if same_name(location.name, name)]
    return found[0] if found else f"there is no location {name!r}; there are: {_names(locations) or 'none yet'}"


def _names(locations: Sequence[Location]) -> str:
    return ", ".join(location.name for location in locations)


def _invite_text(invite: Invite, code: str, location: Location, link: str) -> str:
    way = f"  {link}" if link else "  Open the bot and send it this code. (With --bot NAME there is a link, too.)"
    way += f"\n  At a terminal of this machine: benchbot chat --as NAME, and there: /start {code}"
    return f"""Invite for {_WHO[invite.role]} of {location.name}:

  {code}
{way}

It works {_uses(invite)}, until {_until(invite)}.
It is shown this once only, and whoever has it gets in."""


def _draw(file: Path, location: Location, link: str, bot: str, code: str, invite: Invite) -> None:
    from benchbot.people.wall_picture import wall_picture

    lines = ["Scan to join the spec bot,", f"or send this code to @{bot}:", code, f"Until {_until(invite)}"]
    file.write_bytes(wall_picture(link, location.name, lines))
    print(f"\nThe page for the wall is in {file}")


def _list(people: People, as_json: bool) -> int:
    held = [(location, people.members(location.number)) for location in people.locations()]
    if as_json:
        rows = [_row(location, member) for location, members in held for member in members]
        print(json.dumps(rows, ensure_ascii=False, indent=2))
        return 0
    if not any(members for _, members in held):
        return _told("nobody is a member yet; let the first owner in with: benchbot people invite --role owner")
    for location, members in held:
        print(f"{location.name}:" if members else f"{location.name}: nobody yet")
        for member in members:
            print(f"  {member.role:<10}  {member.name} ({member.person}), since {member.since:%Y-%m-%d}")
    return 0


def _row(location: Location, member: Member) -> dict[str, str]:
    return {
        "location": location.name,
        "person": member.person,
        "name": member.name,
        "role": member.role,
        "since": member.since.isoformat(),
    }


def _locations(people: People) -> int:
    locations, counts = people.locations(), people.counts()
    for location in locations:
        here = counts.get(location.number, {})
        who = ", ".join(f"{count} {role if count == 1 else f'{role}s'}" for role, count in here.items() if count)
        kept = f"{location.vehicle_hours} h on the lift"
        print(f"{location.name}: {who or 'nobody yet'}; units {location.units}, language {location.language}, {kept}")
    if not locations:
        return _told("no location yet; the first comes with its owner: benchbot people invite --role owner")
    return 0


def _remove(people: People, args: argparse.Namespace, now: datetime) -> int:
    from benchbot.people.terms import Refused

    location = _named(people.locations(), args.location)
    if isinstance(location, str):
        return _told(location)
    found = _meant(people.members(location.number), args.person)
    if len(found) != 1:
        wrong = f"{len(found)} members are called {args.person!r}" if found else f"no member is called {args.person!r}"
        who = ", ".join(f"{one.name} ({one.person})" for one in found or people.members(location.number))
        return _told(f"{location.name}: {wrong}; give the number of one of: {who or 'nobody'}")
    done = people.remove(found[0].person, location.number, _author(), now)
    if isinstance(done, Refused):
        return _told(f"{location.name}, {found[0].name}: {done.reason}")
    ended = f"; their open invites ended: {done.invites_ended}" if done.invites_ended else ""
    print(f"{done.name} ({done.person}) is no member of {location.name} any more{ended}")
    return 0


def _one_person(record: Record, what: str | None, by: str, now: datetime) -> int:
    from benchbot.curation.by_name import refusal
    from benchbot.curation.two_people import allow_one_person, one_person_allowed
    from benchbot.people.channels import at_terminal

    if what is not None:
        person = at_terminal(by or account())
        why_not = refusal(record, person, "set defaults")
        if why_not:
            return _told(f"one-person: {why_not}")
        allow_one_person(record, what == "allow", person, now)
    if one_person_allowed(record):
        print("One person may approve their own rows; every such answer says “checked by one person”.")
    else:
        print("A safety-relevant row needs a second person before it answers.")
    return 0


def _meant(members: Sequence[Member], said: str) -> list[Member]:
    """The members meant by their id, by the number in it, or by their name; a name alone may fit several."""
    from benchbot.people.names import same_name

    by_id = [one for one in members if said in (one.person, one.person.rpartition(" ")[2])]
    return by_id or [one for one in members if same_name(one.name, said)]


_WHO = {"technician": "a technician", "curator": "a curator", "owner": "an owner"}


def _uses(invite: Invite) -> str:
    return "once" if invite.uses_left == 1 else f"for {invite.uses_left} people"


def _until(invite: Invite) -> str:
    """In the time of this machine, which is that of the shop or at least says which it is."""
    return f"{invite.expires_at.astimezone():%d %B %Y, %H:%M %Z}"


def _author() -> str:
    return f"{AUTHOR}, {account()}"


def _told(problem: str) -> int:
    print(problem, file=sys.stderr)
    return 1


def _up_to(most: int) -> Callable[[str], int]:
    def whole(text: str) -> int:
        if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= most:
            raise argparse.ArgumentTypeError(f"{text!r} is no whole number from 1 to {most}")
        return int(text)

    return whole


def _username(text: str) -> str:
    from benchbot.people.known_bot import is_username

    name = text.removeprefix("https://t.me/").removeprefix("@")
    if not is_username(name):
        raise argparse.ArgumentTypeError(f"{text!r} is no bot's username, such as example_bot")
    return name
