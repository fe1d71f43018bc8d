"""Turns an update of Telegram into what came in, or into nothing when it is not for us."""

from __future__ import annotations

import unicodedata
from dataclasses import replace
from datetime import UTC, datetime

from telegram import CallbackQuery, ChosenInlineResult, Document, InlineQuery, Message, PhotoSize, Update, User
from telegram.constants import ChatID, ChatType

from benchbot.channels.telegram.said import Said, said_in
from benchbot.desk.incoming import Incoming

TEXT_AT_MOST = 4096
NAME_AT_MOST = 64
FILE_AT_MOST = 10 * 1024 * 1024

_TALKS = frozenset({ChatType.PRIVATE, ChatType.GROUP, ChatType.SUPERGROUP})
# Accounts of Telegram that stand in for whoever writes as a group or as a channel.
_STANDING_IN = frozenset({ChatID.ANONYMOUS_ADMIN, ChatID.FAKE_CHANNEL, ChatID.SERVICE_CHAT})
# An animation comes with a document, and a venue with a location: the first that is there says what it is.
_KINDS = (
    "photo", "animation", "video", "video_note", "voice", "audio", "document", "sticker", "contact", "venue",
    "location", "poll", "dice", "game", "story", "checklist", "paid_media", "live_photo",
)  # fmt: skip
_PAGES = frozenset({"image/jpeg", "image/png", "image/webp", "application/pdf"})
# Control signs, signs that turn the direction of writing, halves of characters, breaks of lines and paragraphs.
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})


def incoming_of(update: Update, me: User, now: datetime) -> Incoming | None:
    """What a person did, for the bot `me`; None for everything that is not for it or that no chat is made of."""
    if update.callback_query is not None:
        return _press(update.update_id, update.callback_query, me, now)
    if update.inline_query is not None:
        return _inline(update.update_id, update.inline_query, me, now)
    if update.chosen_inline_result is not None:
        return _chosen(update.update_id, update.chosen_inline_result, me, now)
    if update.message is not None:
        return _message(update.update_id, update.message, me)
    if update.edited_message is not None:
        return _changed(update.update_id, update.edited_message, me)
    return None


def migrated(update: Update) -> tuple[str, str] | None:
    """(old, new) chat when the update says that a group became a supergroup; both chats say it."""
    message = update.message
    if message is None:
        return None
    if message.migrate_to_chat_id is not None:
        return str(message.chat.id), str(message.migrate_to_chat_id)
    if message.migrate_from_chat_id is not None:
        return str(message.migrate_from_chat_id), str(message.chat.id)
    return None


def _message(number: int, message: Message, me: User) -> Incoming | None:
    kind = next((kind for kind in _KINDS if getattr(message, kind)), "")
    has_words = message.text is not None or message.caption is not None
    ours = message.via_bot is not None and message.via_bot.id == me.id
    if message.chat.type not in _TALKS or ours or not (has_words or kind):
        return None
    said = said_in(message, me)
    if said is None:
        return None
    answered = _answered(message)
    answers_us = answered is not None and answered.from_user is not None and answered.from_user.id == me.id
    private = message.chat.type == ChatType.PRIVATE
    if not (private or said.command or said.named or answers_us):
        return None
    incoming = Incoming(
        bot=str(me.id),
        number=number,
        what="text",
        chat=str(message.chat.id),
        private=private,
        person="",
        name="",
        at=message.date.astimezone(UTC),
        message=str(message.message_id),
        text=said.text[:TEXT_AT_MOST],
        command=said.command,
        topic=_topic(message),
        addressed=private or said.named or answers_us,
        answers="" if answered is None else str(answered.message_id),
        answers_us=answers_us,
        album=message.media_group_id or "",
        file=_file(message),
    )
    return _by(incoming, message, said, kind)


def _file(message: Message) -> str:
    """What the server calls a photo, or a document that is a page, of a size that is kept; empty for all else."""
    document = message.document
    page: PhotoSize | Document | None = message.photo[-1] if message.photo else None
    if page is None and document is not None and document.mime_type in _PAGES:
        page = document
    if page is None or (page.file_size or 0) > FILE_AT_MOST:
        return ""
    return str(page.file_id)


def _by(incoming: Incoming, message: Message, said: Said, kind: str) -> Incoming | None:
    """The same with its author: a person, nobody, or None for a bot."""
    author = message.from_user
    if message.sender_chat is not None or author is None or author.id in _STANDING_IN:
        return replace(incoming, what="nobody")
    if author.is_bot:
        return None
    incoming = replace(incoming, person=_person(author), name=_name(author))
    if kind and not said.text and not said.command:
        return replace(incoming, what="media", kind=kind)
    return incoming


def _changed(number: int, message: Message, me: User) -> Incoming | None:
    """Only changed words count: a live location changes all the time, and nobody asks anything by it."""
    incoming = _message(number, message, me)
    if incoming is None or incoming.what != "text":
        return None
    return replace(incoming, what="changed", at=(message.edit_date or message.date).astimezone(UTC))


def _press(number: int, query: CallbackQuery, me: User, now: datetime) -> Incoming | None:
    if query.data is None:
        return None
    # A message sent through an inline query is not known to us, and one that is too old is known by its id alone.
    stands = query.message
    return Incoming(
        bot=str(me.id),
        number=number,
        what="press",
        chat="" if stands is None else str(stands.chat.id),
        private=stands is not None and stands.chat.type == ChatType.PRIVATE,
        person=_person(query.from_user),
        name=_name(query.from_user),
        at=now.astimezone(UTC),
        message="" if stands is None else str(stands.message_id),
        text=query.data,
        topic=_topic(stands) if isinstance(stands, Message) else "",
        query=query.id,
    )


def _inline(number: int, query: InlineQuery, me: User, now: datetime) -> Incoming:
    return Incoming(
        bot=str(me.id),
        number=number,
        what="inline",
        chat="",
        private=False,
        person=_person(query.from_user),
        name=_name(query.from_user),
        at=now.astimezone(UTC),
        text=query.query.strip()[:TEXT_AT_MOST],
        query=query.id,
    )


def _chosen(number: int, result: ChosenInlineResult, me: User, now: datetime) -> Incoming:
    return Incoming(
        bot=str(me.id),
        number=number,
        what="chosen",
        chat="",
        private=False,
        person=_person(result.from_user),
        name=_name(result.from_user),
        at=now.astimezone(UTC),
        message=result.result_id,
        text=result.query.strip()[:TEXT_AT_MOST],
    )


def _answered(message: Message) -> Message | None:
    """What the message replies to; in a topic every message hangs on the one that opened it, which is no reply."""
    answered = message.reply_to_message
    if answered is None or answered.forum_topic_created is not None:
        return None
    opened_topic = message.is_topic_message and answered.message_id == message.message_thread_id
    return None if opened_topic else answered


def _topic(message: Message) -> str:
    """Outside of topics a thread number only says which message is replied to."""
    return str(message.message_thread_id) if message.is_topic_message and message.message_thread_id else ""


def _person(user: User) -> str:
    return f"telegram {user.id}"


def _name(user: User) -> str:
    seen = "".join(" " if letter.isspace() else letter for letter in user.full_name if _is_seen(letter))
    return " ".join(seen.split())[:NAME_AT_MOST].rstrip() or _person(user)


def _is_seen(letter: str) -> bool:
    return letter.isspace() or unicodedata.category(letter) not in _UNSEEN
