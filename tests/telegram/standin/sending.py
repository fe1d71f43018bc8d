"""The methods that send: sendMessage, sendPhoto, sendDocument, sendChatAction."""

from __future__ import annotations

import mimetypes
from pathlib import PurePath
from typing import Any

from . import keyboards, pictures
from .chats import GENERAL, Chat, Message
from .exchange import Exchange, StoredFile
from .forms import Form, Upload
from .markup import Marked
from .refusals import bad
from .texts import caption_of, text_of

DOCUMENT_AT_MOST = 50 * 1024 * 1024  # https://core.telegram.org/bots/api#senddocument
ACTIONS = {
    "typing", "upload_photo", "record_video", "upload_video", "record_voice", "upload_voice", "upload_document",
    "choose_sticker", "find_location", "record_video_note", "upload_video_note",
}  # fmt: skip


def send_message(exchange: Exchange, form: Form) -> dict[str, Any]:
    return _send(exchange, form, "text", text_of(form))


def send_photo(exchange: Exchange, form: Form) -> dict[str, Any]:
    upload = _uploaded(exchange, form, "photo")
    caption = caption_of(form)
    if isinstance(upload, StoredFile):
        stored, size = upload, pictures.size_of(upload.content)
    else:
        size = pictures.size_of(upload.content)
        stored = exchange.keep_file(upload.content, "photos", PurePath(upload.filename).suffix or ".jpg")
    return _send(exchange, form, "photo", caption, {"photo": photo_sizes(exchange, stored, size)}, stored)


def send_document(exchange: Exchange, form: Form) -> dict[str, Any]:
    upload = _uploaded(exchange, form, "document")
    caption = caption_of(form)
    if isinstance(upload, StoredFile):
        stored, filename = upload, PurePath(upload.path).name
    else:
        if not upload.content:
            raise bad("file must be non-empty")
        if len(upload.content) > DOCUMENT_AT_MOST:
            raise bad("file is too big")
        filename = upload.filename
        stored = exchange.keep_file(upload.content, "documents", PurePath(filename).suffix)
    return _send(exchange, form, "document", caption, {"document": document(stored, filename)}, stored)


def send_chat_action(exchange: Exchange, form: Form) -> bool:
    if form.text("action") not in ACTIONS:
        raise bad("wrong parameter action in request")
    chat = exchange.writable(form.text("chat_id"))
    _thread(chat, form)
    return True


def photo_sizes(exchange: Exchange, stored: StoredFile, size: tuple[int, int]) -> list[dict[str, Any]]:
    """Each size is a file of its own, the smallest first. https://core.telegram.org/bots/api#photosize"""
    small = exchange.keep_file(pictures.PIXEL, "thumbnails", ".png")
    return [
        {
            "file_id": one.id,
            "file_unique_id": f"unique{one.id[-6:]}",
            "width": max(1, size[0] // part),
            "height": max(1, size[1] // part),
            "file_size": len(one.content),
        }
        for one, part in ((small, 4), (stored, 1))
    ]


def document(stored: StoredFile, filename: str) -> dict[str, Any]:
    """The type is what the sender's program says, and nobody looks whether that is so."""
    found = {"file_id": stored.id, "file_unique_id": f"unique{stored.id[-6:]}", "file_size": len(stored.content)}
    kind = mimetypes.guess_type(filename)[0]
    return found | {"file_name": filename} | ({"mime_type": kind} if kind else {})


def _uploaded(exchange: Exchange, form: Form, name: str) -> Upload | StoredFile:
    """A file of the call, or one that the server already has. Wording: value from memory."""
    if name in form.files:
        return form.files[name]
    value = form.text(name)
    if not value:
        raise bad(f"there is no {name} in the request")
    if value.startswith("attach://"):
        attached = form.files.get(value.removeprefix("attach://"))
        if attached is None:
            raise bad(f"there is no {name} in the request")
        return attached
    if value.startswith(("http://", "https://")):
        raise bad("failed to get HTTP URL content")  # nothing outside is fetched
    stored = exchange.files.get(value)
    if stored is None:
        raise bad("wrong file identifier/HTTP URL specified")
    return stored


def _send(
    exchange: Exchange,
    form: Form,
    kind: str,
    text: Marked,
    content: dict[str, Any] | None = None,
    stored: StoredFile | None = None,
) -> dict[str, Any]:
    markup = keyboards.read_markup(form)
    chat = exchange.writable(form.text("chat_id"))
    topic = _thread(chat, form)
    reply_to = _replied(exchange, chat, form)
    keyboards.check_place(markup, chat.kind)
    exchange.limits.take(chat.id, chat.kind in ("group", "supergroup"))
    message = Message(0, chat, exchange.now(), kind, ours=True, text=text, captioned=kind != "text")
    message.content = content or {}
    message.reply_to = reply_to
    message.file = stored.id if stored else ""
    message.keyboard = keyboards.keyboard_only(markup)
    message.asked = None if message.keyboard else markup
    if chat.kind == "channel":
        message.sender_chat = chat.shown()
    else:
        message.sender = exchange.bot
    set_thread(message, topic)
    return exchange.add_message(chat, message).shown()


def _thread(chat: Chat, form: Form) -> int | None:
    """Only the topics of a forum can be named, and of them not the general one (tdlib/telegram-bot-api, issue 447).

    Replies outside of topics carry a message_thread_id too, which no call may use.
    """
    if "message_thread_id" not in form:
        return None
    thread = form.whole("message_thread_id")
    if not chat.forum or thread == GENERAL or thread not in chat.topics:
        raise bad("message thread not found")
    return thread


def _replied(exchange: Exchange, chat: Chat, form: Form) -> Message | None:
    wanted = form.structure("reply_parameters", "reply parameters", dict)
    if wanted is None:
        number, lenient = form.whole("reply_to_message_id"), form.flag("allow_sending_without_reply")
    else:
        number, lenient = wanted.get("message_id", 0), bool(wanted.get("allow_sending_without_reply"))
        other = wanted.get("chat_id", chat.id)
        if str(other) != str(chat.id):
            chat = exchange.known_chat(str(other))
            lenient = False
    if number <= 0:
        return None
    found = chat.standing(number)
    if found is None and not lenient:
        raise bad("message to be replied not found")
    return found


def set_thread(message: Message, topic: int | None) -> None:
    """Where the message stands: in the topic named, in that of what it answers, or in the thread of answers."""
    chat, answered = message.chat, message.reply_to
    if topic is None and answered is not None and answered.chat is chat and answered.topic:
        topic = answered.thread
    if topic is not None:
        message.thread, message.topic = topic, True
        if answered is None:
            # What stands in a topic answers the message that made the topic. Value from memory.
            message.reply_to = chat.standing(topic)
    elif chat.kind == "supergroup" and answered is not None and answered.chat is chat:
        message.thread = answered.thread or answered.id
