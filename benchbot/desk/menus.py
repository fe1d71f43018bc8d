"""The commands of each role, in the words of the trade, as the messenger's menu shows them."""

from __future__ import annotations

from collections.abc import Collection

from benchbot.desk.asker import Asker
from benchbot.desk.sheets import Parcel
from benchbot.desk.wording import Wording
from benchbot.people.terms import Membership

OWNER_COMMANDS = ("people", "invite", "locations")
GROUP_COMMANDS = ("ask", "vehicle", "help")


def commands_of(memberships: Collection[Membership]) -> tuple[str, ...]:
    """Example: ("vehicle", "help"); more with each role, `start` alone for whoever is no member."""
    if not memberships:
        return ("start",)
    several = ("location",) if len(memberships) > 1 else ()
    owner = OWNER_COMMANDS if any(one.role == "owner" for one in memberships) else ()
    return ("vehicle", *several, *owner, "help")


def meaning(command: str, words: Wording) -> str:
    """What a command does, in a few words."""
    return {
        "ask": words.menu_ask,
        "vehicle": words.menu_vehicle,
        "location": words.menu_location,
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
    chat = asker.person.removeprefix("telegram ")
    return Parcel("menu", chat, codes=commands, labels=labels, twice=True)
