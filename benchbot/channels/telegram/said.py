"""Takes the command and our own name out of what a person wrote, by the marks that Telegram puts on a message."""

from __future__ import annotations

import re
from dataclasses import dataclass

from telegram import Message, MessageEntity, User

# "@benchbot, rear pads" and "@benchbot: rear pads", but not the comma of a figure.
_AFTER_A_NAME = re.compile(r"[,:](?=\s|$)")


@dataclass(frozen=True, slots=True)
class Said:
    """What was written.

    command: in lower case, without the slash, or empty. named: our name stood in it, perhaps behind the command.
    """

    text: str
    command: str = ""
    named: bool = False


def said_in(message: Message, me: User) -> Said | None:
    """The text or the caption of a message; None when it is a command for another bot."""
    text = message.text if message.text is not None else message.caption or ""
    marks = message.entities if message.text is not None else message.caption_entities
    # Telegram counts in UTF-16 units. Half a character would keep the text from being stored, so it is replaced.
    units = text.encode("utf-16-le", "surrogatepass")
    ours = (me.username or "").casefold()
    command, named = "", False
    kept, at = [], 0
    for mark in sorted(marks, key=lambda one: one.offset):
        start, end = 2 * mark.offset, 2 * (mark.offset + mark.length)
        marked = units[start:end].decode("utf-16-le", "replace")
        if mark.type == MessageEntity.BOT_COMMAND and start == 0:
            word, _, bot = marked.removeprefix("/").partition("@")
            if bot and bot.casefold() != ours:
                return None
            command, named = word.lower(), named or bool(bot)
        elif _is_our_name(mark, marked, me, ours):
            named = True
        else:
            continue
        kept.append(units[at:start])
        at = end
    kept.append(units[at:])
    return Said(_joined([piece.decode("utf-16-le", "replace") for piece in kept]), command, named)


def _is_our_name(mark: MessageEntity, marked: str, me: User, ours: str) -> bool:
    if mark.type == MessageEntity.TEXT_MENTION:
        return mark.user is not None and mark.user.id == me.id
    return mark.type == MessageEntity.MENTION and bool(ours) and marked.casefold() == f"@{ours}"


def _joined(pieces: list[str]) -> str:
    """What is left where something was taken out: one blank there, or the line break that was there."""
    text = pieces[0]
    for piece in pieces[1:]:
        text = text.rstrip(" ")
        rest = _AFTER_A_NAME.sub("", piece, count=1) if _AFTER_A_NAME.match(piece) else piece
        rest = rest.lstrip(" ")
        glue = "" if not text or not rest or text.endswith("\n") or rest.startswith("\n") else " "
        text = f"{text}{glue}{rest}"
    return text.strip()
