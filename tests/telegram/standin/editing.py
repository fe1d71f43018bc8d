"""The methods that change what was sent: editMessageText, ...Caption, ...ReplyMarkup, deleteMessage."""

from __future__ import annotations

from typing import Any

from . import keyboards
from .chats import Message
from .exchange import Exchange
from .forms import Form
from .markup import Marked
from .refusals import bad
from .texts import caption_of, text_of

DELETABLE_SECONDS = 48 * 3600  # https://core.telegram.org/bots/api#deletemessage
_NOT_MODIFIED = (
    "message is not modified: specified new message content and reply markup are exactly the same as a current "
    "content and reply markup of the message"
)


def edit_message_text(exchange: Exchange, form: Form) -> Any:
    text = text_of(form)
    message = _mine(exchange, form)
    if message.kind != "text":
        raise bad("there is no text in the message to edit")
    return _edit(exchange, form, message, text)


def edit_message_caption(exchange: Exchange, form: Form) -> Any:
    caption = caption_of(form)
    message = _mine(exchange, form)
    if not message.captioned:
        raise bad("there is no caption in the message to edit")
    return _edit(exchange, form, message, caption)


def edit_message_reply_markup(exchange: Exchange, form: Form) -> Any:
    message = _mine(exchange, form)
    return _edit(exchange, form, message, message.text)


def _mine(exchange: Exchange, form: Form) -> Message:
    if "inline_message_id" in form:
        inline = exchange.inline_messages.get(form.text("inline_message_id"))
        if inline is None or inline.deleted:
            raise bad("MESSAGE_ID_INVALID")
        return inline
    chat = exchange.writable(form.text("chat_id"))
    if "message_id" not in form:
        raise bad("message identifier is not specified")
    message = chat.standing(form.whole("message_id"))
    if message is None:
        raise bad("message to edit not found")
    if not message.ours:
        raise bad("message can't be edited")
    return message


def _edit(exchange: Exchange, form: Form, message: Message, text: Marked | None) -> Any:
    """A call without a markup takes the buttons away."""
    if message.asked is not None:
        # A message that came with a reply keyboard cannot be changed. Value from memory.
        raise bad("message can't be edited")
    keyboard = keyboards.only_inline(keyboards.read_markup(form))
    keyboards.check_place(keyboard, message.chat.kind)
    before = message.text
    same = text is before or (
        text is not None and before is not None and (text.plain, text.entities) == (before.plain, before.entities)
    )
    if same and keyboard == message.keyboard:
        raise bad(_NOT_MODIFIED)
    if text is not before and before is not None:
        message.earlier.append(before.source)
    message.text = text
    message.keyboard = keyboard
    message.edits += 1
    message.edit_date = exchange.now()
    exchange.changed()
    return True if message.inline_id else message.shown()


def delete_message(exchange: Exchange, form: Form) -> bool:
    chat = exchange.writable(form.text("chat_id"))
    message = chat.standing(form.whole("message_id"))
    if message is None:
        raise bad("message to delete not found")
    others = not message.ours and chat.kind != "private" and chat.bot != "administrator"
    if others or (message.ours and exchange.now() - message.date > DELETABLE_SECONDS):
        raise bad("message can't be deleted")
    message.deleted = True
    exchange.changed()
    return True
