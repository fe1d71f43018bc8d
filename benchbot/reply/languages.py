"""The languages that replies are written in."""

from __future__ import annotations

from benchbot.reply.english import ENGLISH
from benchbot.reply.wording import Wording

LANGUAGES = ("en", "es")


def wording_of(language: str) -> Wording:
    """The wording of a language of LANGUAGES; ValueError for any other."""
    if language == "en":
        return ENGLISH
    if language == "es":
        # read when first spoken, so that an English answer does not wait for it
        from benchbot.reply.spanish import SPANISH

        return SPANISH
    raise ValueError(f"no replies are written in {language!r}; choose one of {', '.join(LANGUAGES)}")
