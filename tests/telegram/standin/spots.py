"""Commands and mentions in what a person writes, as the messenger marks them."""

from __future__ import annotations

import re
from typing import Any

from .markup import utf16

# Value from memory: at most 64 signs of a command, 32 of a name; neither stands inside of a word.
_COMMAND = re.compile(r"(?<![\w/@])/([A-Za-z0-9_]{1,64})(?:@([A-Za-z0-9_]{3,32}))?(?![\w@/])")
_MENTION = re.compile(r"(?<![\w/@])@([A-Za-z0-9_]{3,32})(?!\w)")


def entities_of(text: str) -> tuple[dict[str, Any], ...]:
    """Offsets and lengths in UTF-16 units."""
    found = [_entity("bot_command", text, one) for one in _COMMAND.finditer(text)]
    found += [_entity("mention", text, one) for one in _MENTION.finditer(text)]
    return tuple(sorted(found, key=lambda entity: entity["offset"]))


def _entity(kind: str, text: str, match: re.Match[str]) -> dict[str, Any]:
    return {"type": kind, "offset": utf16(text[: match.start()]), "length": utf16(match[0])}


def spot(text: str, entity: dict[str, Any]) -> str:
    """The part of the text that an entity marks."""
    coded = text.encode("utf-16-le")
    return coded[2 * entity["offset"] : 2 * (entity["offset"] + entity["length"])].decode("utf-16-le")
