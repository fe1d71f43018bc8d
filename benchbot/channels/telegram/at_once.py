"""Answers a press or an inline query: worth nothing a minute later, so tried once and never kept."""

from __future__ import annotations

import logging
from typing import Any

from telegram import InlineQueryResultsButton
from telegram.error import TelegramError
from telegram.ext import ExtBot

from benchbot.channels.telegram.calls import verdict
from benchbot.channels.telegram.logs import event, fault
from benchbot.channels.telegram.rendering import results
from benchbot.desk.sheets import AtOnce, Notice

# Bot API, answerCallbackQuery: 0-200 characters; InlineQueryResultsButton: a label, which has to fit a phone's line.
_NOTICE_AT_MOST = 200
_START = "invite"

_log = logging.getLogger(__name__)


async def answer(bot: ExtBot[Any], thing: AtOnce) -> None:
    """Errors are logged, not raised."""
    try:
        if isinstance(thing, Notice):
            text = thing.text[:_NOTICE_AT_MOST] or None
            await bot.answer_callback_query(thing.query, text)
        else:
            button = InlineQueryResultsButton(thing.refusal, start_parameter=_START) if thing.refusal else None
            await bot.answer_inline_query(thing.query, results(thing), cache_time=0, is_personal=True, button=button)
    except TelegramError as error:
        # The usual one: the press is older than the server keeps it.
        event(_log, "not answered in time", what=type(thing).__name__.lower(), why=verdict(error).why)
    except Exception:  # A fault of ours in one answer must not stop the others.
        fault(_log, "an answer could not be made")
