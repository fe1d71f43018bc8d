"""Which action of the table of rights each thing is that a member can do at the desk."""

from __future__ import annotations

from collections.abc import Mapping

from benchbot.desk.incoming import Incoming
from benchbot.desk.showing import WRONG
from benchbot.people.rights import Action

_COMMANDS: Mapping[str, Action] = {
    "ask": "ask",
    "vehicle": "set vehicle",
    "location": "choose location",
    # decided once more for the location of the job
    "job": "job",
    # decided once more for the location that is picked
    "locations": "see members",
    "people": "see members",
    "invite": "see members",
    # decided once more for each thing that a page does
    "gaps": "see gaps",
    "book": "see gaps",
}

_CARDS: Mapping[str, Action] = {
    "question": "ask",
    "answer": "ask",
    "said": "ask",
    "lift": "set vehicle",
    "standing": "choose location",
    "page": "see members",
    "note": "say what is not right",
    # whether it is one for the location is decided where it is given to it
    "name": "ask",
    "work": "see gaps",
    "job": "job",
}

# Owners see to all of their locations from wherever they stand, and the book is the same for all locations.
ANYWHERE: frozenset[Action] = frozenset({"see members", "see gaps", "fill gap", "approve"})


def action_of(incoming: Incoming) -> Action:
    """For whatever is no press: text, pictures and queries are asking; a command that is none of ours asks for help."""
    return _COMMANDS.get(incoming.command, "see help") if incoming.command else "ask"


def action_of_press(kind: str, code: str) -> Action:
    """kind: that of the card, empty for a button that belongs to none."""
    return "say what is not right" if is_wrong(code) else _CARDS.get(kind, "ask")


def is_wrong(code: str) -> bool:
    """Whether it is the code of "Not right?" on an answer or on a step of the work."""
    return code.partition(".")[0] == WRONG
