"""One parcel becomes the Bot API calls that show it."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable, Sequence
from typing import Any

from telegram import (
    BotCommand,
    BotCommandScopeChat,
    ForceReply,
    InlineKeyboardMarkup,
    LinkPreviewOptions,
    Message,
    ReplyParameters,
)
from telegram.constants import ParseMode
from telegram.error import BadRequest
from telegram.ext import ExtBot

from benchbot.channels.telegram.logs import event
from benchbot.channels.telegram.rendering import html, keyboard
from benchbot.desk.sheets import Parcel
from benchbot.reply.reply import lines_of

Draw = Callable[[str, str, Sequence[str]], bytes]

# The server's wording, from memory; the case of its letters has changed over time.
_SAME = ("message is not modified",)
_NOT_THERE = (
    "message to edit not found", "message can't be edited", "message_id_invalid", "there is no text in the message",
    "there is no caption in the message",
)  # fmt: skip
_NO_TOPIC = ("message thread not found", "topic_closed", "topic_deleted", "topic_id_invalid", "chat not found")
_MARKUP = ("can't parse entities",)
_NO_PREVIEW = LinkPreviewOptions(is_disabled=True)

_log = logging.getLogger(__name__)


class Sender:
    """Makes the calls. draw: the picture of an invite, from its link, a title and lines of text."""

    def __init__(self, bot: ExtBot[Any], draw: Draw) -> None:
        self._bot = bot
        self._draw = draw

    async def send(self, parcel: Parcel, chat: str, card_message: str) -> str:
        """The id of the message that now shows it, empty when there is none. TelegramError: what the server said.

        chat: where to, which may be newer than what the parcel says. card_message: what its card stands on.
        """
        if parcel.do == "menu":
            await self._menu(parcel, int(chat))
            return ""
        if parcel.do in ("change", "caption"):
            message = parcel.message or card_message
            # The message that was to be changed never came to be, or is gone: then its text is news.
            if message and await self._changed(parcel, int(chat), int(message)):
                return message
        return str((await self._new(parcel, int(chat))).message_id)

    async def _menu(self, parcel: Parcel, chat: int) -> None:
        scope = BotCommandScopeChat(chat)
        commands = [BotCommand(code, label) for code, label in zip(parcel.codes, parcel.labels, strict=True)]
        if commands:
            await self._bot.set_my_commands(commands, scope)
        else:
            await self._bot.delete_my_commands(scope)

    async def _changed(self, parcel: Parcel, chat: int, message: int) -> bool:
        """False when there is no such message any more."""
        try:
            try:
                await self._edit(parcel, chat, message, formatted=True)
            except BadRequest as error:
                if not _says(error, _MARKUP):
                    raise
                _our_fault(parcel, error)
                await self._edit(parcel, chat, message, formatted=False)
        except BadRequest as error:
            if _says(error, _NOT_THERE):
                return False
            if not _says(error, _SAME):
                raise
        return True

    async def _edit(self, parcel: Parcel, chat: int, message: int, formatted: bool) -> None:
        text, mode = _text(parcel, formatted)
        markup = keyboard(parcel.sheet, parcel.card)
        if parcel.do == "caption":
            await self._bot.edit_message_caption(chat, message, caption=text, parse_mode=mode, reply_markup=markup)
        else:
            await self._bot.edit_message_text(
                text, chat, message, parse_mode=mode, reply_markup=markup, link_preview_options=_NO_PREVIEW
            )

    async def _new(self, parcel: Parcel, chat: int) -> Message:
        topic = int(parcel.topic) if parcel.topic else None
        formatted = True
        # Each way out is taken once: a topic that is gone, and markup that the server does not take.
        while True:
            try:
                return await self._post(parcel, chat, topic, formatted)
            except BadRequest as error:
                if topic is not None and _says(error, _NO_TOPIC):
                    topic = None
                elif formatted and _says(error, _MARKUP):
                    formatted = False
                    _our_fault(parcel, error)
                else:
                    raise

    async def _post(self, parcel: Parcel, chat: int, topic: int | None, formatted: bool) -> Message:
        text, mode = _text(parcel, formatted)
        quote = ReplyParameters(int(parcel.quote), allow_sending_without_reply=True) if parcel.quote else None
        markup: InlineKeyboardMarkup | ForceReply | None = keyboard(parcel.sheet, parcel.card)
        if markup is None and parcel.asks:
            # In a group only the person who is asked shall find the answer begun.
            markup = ForceReply(selective=quote is not None)
        if parcel.do == "picture":
            picture = await asyncio.to_thread(self._draw, parcel.code, parcel.title, lines_of(parcel.sheet.blocks))
            return await self._bot.send_photo(
                chat, picture, text, parse_mode=mode, reply_markup=markup, reply_parameters=quote,
                message_thread_id=topic, filename="invite.png",
            )  # fmt: skip
        return await self._bot.send_message(
            chat, text, parse_mode=mode, reply_markup=markup, reply_parameters=quote, message_thread_id=topic,
            link_preview_options=_NO_PREVIEW,
        )  # fmt: skip


def _text(parcel: Parcel, formatted: bool) -> tuple[str, str | None]:
    """The text, and the mode in which the server is to read it."""
    if formatted:
        return html(parcel.sheet), ParseMode.HTML
    return "\n".join(lines_of(parcel.sheet.blocks)), None


def _says(error: BadRequest, wordings: Sequence[str]) -> bool:
    said = str(error).lower()
    return any(wording in said for wording in wordings)


def _our_fault(parcel: Parcel, error: BadRequest) -> None:
    event(_log, "markup of ours was refused, sent as plain text", logging.ERROR, do=parcel.do, why=str(error))
