"""One parcel becomes the Bot API calls that show it."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Sequence
from pathlib import PurePath
from typing import Any

from telegram import (
    BotCommand,
    BotCommandScopeChat,
    File,
    LinkPreviewOptions,
    ReplyParameters,
)
from telegram.constants import ParseMode
from telegram.error import BadRequest, InvalidToken
from telegram.ext import ExtBot

from benchbot.channels.telegram.calls import garbled_told
from benchbot.channels.telegram.logs import event
from benchbot.channels.telegram.rendering import html, keyboard
from benchbot.desk.sheets import Parcel
from benchbot.errors import BenchbotError
from benchbot.reply.reply import lines_of

Draw = Callable[[str, str, Sequence[str]], bytes]
# None for a file that the server will never give
Keep = Callable[[Parcel, bytes | None], Awaitable[None]]

FILE_AT_MOST = 10 * 1024 * 1024

# The server's wording, from memory; the case of its letters has changed over time.
_SAME = ("message is not modified",)
_NOT_THERE = (
    "message to edit not found", "message can't be edited", "message_id_invalid", "there is no text in the message",
    "there is no caption in the message",
)  # fmt: skip
_NO_TOPIC = ("message thread not found", "topic_closed", "topic_deleted", "topic_id_invalid", "chat not found")
# A page too long or too wide for a photo, or of a kind that the server shows as a file only.
_NO_PHOTO = ("photo_invalid_dimensions", "image_process_failed", "photo_ext_invalid")
_PDF = b"%PDF-"
_MARKUP = ("can't parse entities",)
_NO_PREVIEW = LinkPreviewOptions(is_disabled=True)

_log = logging.getLogger(__name__)


class Sender:
    """Makes the calls. draw: a picture, from a parcel's code, a title and lines of text.

    keep: takes the files that are fetched.
    """

    def __init__(self, bot: ExtBot[Any], draw: Draw, keep: Keep | None = None) -> None:
        self._bot = bot
        self._draw = draw
        self._keep = keep

    async def send(self, parcel: Parcel, chat: str, card_message: str) -> str:
        """The id of the message that now shows it, empty when there is none. TelegramError: what the server said.

        chat: where to, which may be newer than what the parcel says. card_message: what its card stands on.
        """
        if parcel.do == "menu":
            await self._menu(parcel, int(chat))
            return ""
        if parcel.do == "fetch":
            await self._fetch(parcel)
            return ""
        if parcel.do in ("change", "caption"):
            message = parcel.message or card_message
            # The message that was to be changed never came to be, or is gone: then its text is news.
            if message and await self._changed(parcel, int(chat), int(message)):
                return message
        return await self._new(parcel, int(chat))

    async def _menu(self, parcel: Parcel, chat: int) -> None:
        scope = BotCommandScopeChat(chat)
        commands = [BotCommand(code, label) for code, label in zip(parcel.codes, parcel.labels, strict=True)]
        with garbled_told():
            if commands:
                await self._bot.set_my_commands(commands, scope)
            else:
                await self._bot.delete_my_commands(scope)

    async def _fetch(self, parcel: Parcel) -> None:
        """Gets a file and hands it on, whole or not at all."""
        if self._keep is None:
            raise BenchbotError("nobody here keeps files; a bot that was started as a service does")
        content: bytes | None = None
        try:
            with garbled_told():
                file = await self._bot.get_file(parcel.title)
                if (file.file_size or 0) <= FILE_AT_MOST and file.file_path:
                    content = await _downloaded(file)
        except BadRequest as error:
            # "wrong file_id", "file is too big": asking again will not change that
            event(_log, "a page cannot be fetched", logging.WARNING, why=str(error), evidence=parcel.code)
        await self._keep(parcel, content)

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
        with garbled_told():
            if parcel.do == "caption":
                await self._bot.edit_message_caption(chat, message, caption=text, parse_mode=mode, reply_markup=markup)
            else:
                await self._bot.edit_message_text(
                    text, chat, message, parse_mode=mode, reply_markup=markup, link_preview_options=_NO_PREVIEW
                )

    async def _new(self, parcel: Parcel, chat: int) -> str:
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

    async def _post(self, parcel: Parcel, chat: int, topic: int | None, formatted: bool) -> str:
        text, mode = _text(parcel, formatted)
        quote = ReplyParameters(int(parcel.quote), allow_sending_without_reply=True) if parcel.quote else None
        markup = keyboard(parcel.sheet, parcel.card)
        if parcel.do == "document":
            content = await asyncio.to_thread(self._draw, parcel.code, parcel.title, ())
            with garbled_told():
                message = await self._bot.send_document(
                    chat, content, text, parse_mode=mode, reply_markup=markup, reply_parameters=quote,
                    message_thread_id=topic, filename=parcel.title, disable_content_type_detection=True,
                )  # fmt: skip
                return str(int(message.message_id))
        if parcel.do == "picture":
            picture = await asyncio.to_thread(self._draw, parcel.code, parcel.title, lines_of(parcel.sheet.blocks))
            with garbled_told():
                if not picture.startswith(_PDF):
                    try:
                        message = await self._bot.send_photo(
                            chat, picture, text, parse_mode=mode, reply_markup=markup, reply_parameters=quote,
                            message_thread_id=topic, filename="picture.png",
                        )  # fmt: skip
                        return str(int(message.message_id))
                    except BadRequest as error:
                        if not _says(error, _NO_PHOTO):
                            raise
                message = await self._bot.send_document(
                    chat, picture, text, parse_mode=mode, reply_markup=markup, reply_parameters=quote,
                    message_thread_id=topic, filename=f"page{PurePath(parcel.code).suffix}",
                )  # fmt: skip
                return str(int(message.message_id))
        with garbled_told():
            message = await self._bot.send_message(
                chat, text, parse_mode=mode, reply_markup=markup, reply_parameters=quote, message_thread_id=topic,
                link_preview_options=_NO_PREVIEW,
            )  # fmt: skip
            return str(int(message.message_id))


async def _downloaded(file: File) -> bytes | None:
    """None when the server has the file no more."""
    try:
        return bytes(await file.download_as_bytearray())
    except InvalidToken:
        # The library takes every 404 for a wrong token, and the token was good a moment ago.
        return None


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
