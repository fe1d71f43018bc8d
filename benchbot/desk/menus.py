"""The commands of each role, in the words of the trade, as the messenger's menu shows them."""

from __future__ import annotations

from collections.abc import Collection

from benchbot.desk.asker import Asker
from benchbot.desk.sheets import Parcel
from benchbot.desk.wording import Wording
from benchbot.people.channels import name_there
from benchbot.people.terms import Membership

OWNER_COMMANDS = ("people", "invite", "locations")
CURATOR_COMMANDS = ("gaps", "book")
GROUP_COMMANDS = ("ask", "vehicle", "job", "help")


def commands_of(memberships: Collection[Membership]) -> tuple[str, ...]:
    """Example: ("vehicle", "help"); more with each role, `start` alone for whoever is no member."""
    if not memberships:
        return ("start",)
    several = ("location",) if len(memberships) > 1 else ()
    curator = CURATOR_COMMANDS if any(one.role in ("curator", "owner") for one in memberships) else ()
    owner = OWNER_COMMANDS if any(one.role == "owner" for one in memberships) else ()
    return ("vehicle", "job", *several, *curator, *owner, "help")


def is_ours(command: str) -> bool:
    """Whether it is a command of this bot, whoever may give it."""
    return command in {"start", "ask", "vehicle", "job", "location", *CURATOR_COMMANDS, *OWNER_COMMANDS, "help"}


def meaning(command: str, words: Wording) -> str:
    """What a command does, in a few words."""
    return {
        "ask": words.menu_ask,
        "vehicle": words.menu_vehicle,
        "job": words.menu_job,
        "location": words.menu_location,
        "gaps": words.menu_gaps,
        "book": words.menu_book,
        "people": words.menu_people,
        "invite": words.menu_invite,
        "locations": words.menu_locations,
        "help": words.menu_help,
        "start": words.menu_start,
    }[command]


def menu(asker: Asker) -> Parcel:
    """The menu of a person's private chat with the bot, in the language of where they stand."""
    commands = commands_of(asker.memberships)
    labels = tuple(meaning(command, asker.words) for command in commands)
    return Parcel("menu", name_there(asker.person), codes=commands, labels=labels, twice=True)
