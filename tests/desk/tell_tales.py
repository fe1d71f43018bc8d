"""Words by which an English sentence of the desk is told from one in another language."""

from __future__ import annotations

import re

from bay import Message

# No Spanish sentence has these.
_ENGLISH_ONLY = re.compile(r"\b(the|you|your|is|are|of|and|that|what|which|it|ask|write|vehicle)\b", re.IGNORECASE)
# Commands and blanks are written as they are, in every language.
_AS_THEY_ARE = re.compile(r"/\w+|\{\w*\}")


def sounds_english(text: str) -> bool:
    return _ENGLISH_ONLY.search(_AS_THEY_ARE.sub("", text)) is not None


def english_in(message: Message) -> list[str]:
    """Texts and buttons that sound English; what comes from the book or from the person stays as it is."""
    kept = ("source", "subject", "value", "echo")
    texts = [block.text for block in message.sheet.blocks if block.kind not in kept]
    return [text for text in (*texts, *message.labels) if sounds_english(text)]
