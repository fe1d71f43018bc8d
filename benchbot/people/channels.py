"""The channel that a person is reached through, as it stands in their id: "telegram 123", "terminal ana"."""

from __future__ import annotations

TELEGRAM, TERMINAL = "telegram", "terminal"
_CHANNELS = (TELEGRAM, TERMINAL)


def channel_of(person: str) -> str:
    """Empty for whoever cannot be written to, such as the command line's own "command line, ana"."""
    channel, _, name = person.partition(" ")
    return channel if name and channel in _CHANNELS else ""


def name_there(person: str) -> str:
    """What the channel itself calls the person, and their private chat with the bot."""
    channel = channel_of(person)
    return person.removeprefix(f"{channel} ") if channel else person


def at_terminal(name: str) -> str:
    """The id of whoever goes by that name at this shop's terminals; capitals and blanks make no difference."""
    return f"{TERMINAL} {' '.join(name.split()).casefold()}"
