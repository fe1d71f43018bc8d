"""The stand-in refuses what the Bot API refuses: each check, through the calls of a real python-telegram-bot Bot.

Limits are those of https://core.telegram.org/bots/api; the wording of refusals is a value from memory unless the
module that words it names a source.
"""

from __future__ import annotations

import json
import struct
import urllib.request
import zlib
from collections.abc import Iterator
from typing import Any

import pytest
from standin.rig import ANN, BOB, FORUM, SHOP, SMALL, Refused, Rig, bad, keyboard
from telegram import (
    ForceReply,
    ReplyParameters,
)
from telegram.error import ChatMigrated, Forbidden, InvalidToken

HTML = "HTML"


@pytest.fixture(scope="module")
def _rig() -> Iterator[Rig]:
    with Rig() as rig:
        yield rig


@pytest.fixture
def rig(_rig: Rig) -> Rig:
    return _rig.people()


def png(width: int, height: int) -> bytes:
    """A grey picture; PNG specification, 5.3 and 11.2."""

    def chunk(name: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + name + content + struct.pack(">I", zlib.crc32(name + content))

    rows = zlib.compress((b"\0" + b"\x80" * width) * height)
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


# Who may be written to


def test_an_unknown_token_is_refused(rig: Rig) -> None:
    async def call() -> None:
        async with rig.new_bot("123:unknown") as bot:
            await bot.get_me()

    assert rig.refusal(call()).kind is InvalidToken


def test_an_unknown_method_is_refused(rig: Rig) -> None:
    with pytest.raises(urllib.error.HTTPError) as refused:
        urllib.request.urlopen(f"{rig.server.api_url}{rig.server.token}/sendTelepathy")
    with refused.value as answer:
        assert answer.code == 404


def test_an_unknown_chat_is_not_found(rig: Rig) -> None:
    assert rig.refusal(rig.bot.send_message(999, "hello")) == bad("chat not found")


def test_a_person_who_never_started_the_bot_cannot_be_written_to(rig: Rig) -> None:
    rig.server.person(503, "Cid", opened=False)
    text = "Forbidden: bot can't initiate conversation with a user"
    assert rig.refusal(rig.bot.send_message(503, "hello")) == Refused(Forbidden, text)
    rig.server.say(503, "/start")
    rig.run(rig.bot.send_message(503, "hello"))


def test_a_person_who_blocked_the_bot_cannot_be_written_to(rig: Rig) -> None:
    rig.server.block(ANN)
    text = "Forbidden: bot was blocked by the user"
    assert rig.refusal(rig.bot.send_message(ANN, "hello")) == Refused(Forbidden, text)
    rig.server.unblock(ANN)
    rig.run(rig.bot.send_message(ANN, "hello"))


@pytest.mark.parametrize(
    ("status", "text"),
    [
        ("kicked", "Forbidden: bot was kicked from the supergroup chat"),
        ("left", "Forbidden: bot is not a member of the supergroup chat"),
    ],
)
def test_a_group_without_the_bot_cannot_be_written_to(rig: Rig, status: str, text: str) -> None:
    rig.server.stand(SHOP, ANN, status)
    assert rig.refusal(rig.bot.send_message(SHOP, "hello")) == Refused(Forbidden, text)


def test_a_bot_cannot_be_written_to(rig: Rig) -> None:
    text = "Forbidden: bots can't send messages to bots"
    assert rig.refusal(rig.bot.send_message(601, "hello")) == Refused(Forbidden, text)


def test_a_group_that_became_a_supergroup_tells_its_new_id(rig: Rig) -> None:
    rig.server.migrate(SMALL, -100401)
    with pytest.raises(ChatMigrated) as refused:
        rig.run(rig.bot.send_message(SMALL, "hello"))
    assert refused.value.new_chat_id == -100401
    rig.run(rig.bot.send_message(-100401, "hello"))


# Text


@pytest.mark.parametrize("text", [" ", "\n\n", "<b> </b>", "\u200b\u2060"])
def test_an_empty_text_is_refused(rig: Rig, text: str) -> None:
    assert rig.refusal(rig.bot.send_message(ANN, text, parse_mode=HTML)) == bad("message text is empty")


def test_text_is_counted_in_utf16_units_after_parsing(rig: Rig) -> None:
    wrench = "\U0001f527"  # two units
    rig.run(rig.bot.send_message(ANN, f"<b>{wrench * 2048}</b>", parse_mode=HTML))
    assert rig.refusal(rig.bot.send_message(ANN, wrench * 2048 + "x")) == bad("message is too long")
    rig.run(rig.bot.send_message(ANN, "&lt;" * 4096, parse_mode=HTML))


def test_an_unknown_parse_mode_is_refused(rig: Rig) -> None:
    assert rig.refusal(rig.bot.send_message(ANN, "x", parse_mode="wiki")) == bad("unsupported parse_mode")


# What hangs below a message


@pytest.mark.parametrize(
    ("button", "fault"),
    [
        ({"text": "x", "callback_data": "ü" * 33}, "BUTTON_DATA_INVALID"),
        (
            {"text": "x", "callback_data": ""},
            "can't parse inline keyboard button: Text buttons are unallowed in the inline keyboard",
        ),
        ({"text": " ", "callback_data": "x"}, "can't parse inline keyboard button: Button text must be non-empty"),
        (
            {"text": "x", "url": "not an address"},
            "inline keyboard button URL 'not an address' is invalid: Wrong HTTP URL",
        ),
        ({"text": "x", "copy_text": {"text": ""}}, "BUTTON_COPY_TEXT_INVALID"),
        (
            {"text": "x", "url": "x.example", "callback_data": "x"},
            "can't parse inline keyboard button: more than one of the optional fields is used: url, callback_data",
        ),
        (
            {"callback_data": "x"},
            'can\'t parse inline keyboard button: Field "text" must be of type String',
        ),
    ],
)
def test_a_button_with_a_fault_is_refused(rig: Rig, button: dict[str, Any], fault: str) -> None:
    markup = {"inline_keyboard": [[button]]}
    refused = rig.refusal(rig.bot.send_message(ANN, "x", api_kwargs={"reply_markup": json.dumps(markup)}))
    assert refused == bad(fault)


def test_data_of_64_bytes_is_taken(rig: Rig) -> None:
    rig.run(rig.bot.send_message(ANN, "x", reply_markup=keyboard([("x", "ü" * 32)])))


@pytest.mark.parametrize(
    ("rows", "fault"),
    [([8] * 12 + [5], "REPLY_MARKUP_TOO_LONG"), ([9], "REPLY_MARKUP_INVALID")],
)
def test_too_many_buttons_are_refused(rig: Rig, rows: list[int], fault: str) -> None:
    markup = keyboard(*([("x", "1")] * count for count in rows))
    assert rig.refusal(rig.bot.send_message(ANN, "x", reply_markup=markup)) == bad(fault)
    fewer = keyboard(*([("x", "1")] * 8 for _ in range(12)), [("x", "1")] * 4)
    rig.run(rig.bot.send_message(ANN, "x", reply_markup=fewer))


def test_a_web_app_button_hangs_in_private_chats_only(rig: Rig) -> None:
    button = {"text": "x", "web_app": {"url": "https://x.example"}}
    markup = json.dumps({"inline_keyboard": [[button]]})
    rig.run(rig.bot.send_message(ANN, "x", api_kwargs={"reply_markup": markup}))
    refused = rig.refusal(rig.bot.send_message(SHOP, "x", api_kwargs={"reply_markup": markup}))
    assert refused == bad("BUTTON_TYPE_INVALID")


def test_a_markup_that_is_none_is_refused(rig: Rig) -> None:
    refused = rig.refusal(rig.bot.send_message(ANN, "x", api_kwargs={"reply_markup": "{}"}))
    assert refused == bad("can't parse reply keyboard markup JSON object")


def test_a_forced_reply_is_shown_and_its_placeholder_checked(rig: Rig) -> None:
    rig.run(rig.bot.send_message(ANN, "Value?", reply_markup=ForceReply(input_field_placeholder="100 N·m")))
    assert rig.server.last(ANN).asked == {"force_reply": True, "input_field_placeholder": "100 N·m"}
    long = ForceReply(input_field_placeholder="x" * 65)
    refused = rig.refusal(rig.bot.send_message(ANN, "Value?", reply_markup=long))
    assert refused == bad("input field placeholder must be of 1-64 characters")


# Where a message goes


def test_a_reply_to_no_message_is_refused_unless_it_may_go_without(rig: Rig) -> None:
    wrong = ReplyParameters(77)
    assert rig.refusal(rig.bot.send_message(ANN, "x", reply_parameters=wrong)) == bad("message to be replied not found")
    lenient = ReplyParameters(77, allow_sending_without_reply=True)
    assert rig.run(rig.bot.send_message(ANN, "x", reply_parameters=lenient)).reply_to_message is None
    asked = rig.server.say(ANN, "torque?")
    sent = rig.run(rig.bot.send_message(ANN, "x", reply_parameters=ReplyParameters(asked.message)))
    assert sent.reply_to_message.text == "torque?"
    rig.server.retract(ANN, asked.message)
    gone = ReplyParameters(asked.message)
    assert rig.refusal(rig.bot.send_message(ANN, "x", reply_parameters=gone)) == bad("message to be replied not found")


def test_a_topic_has_to_be_one_of_the_forum(rig: Rig) -> None:
    topic = rig.server.topic(FORUM, "Bay 1", ANN)
    sent = rig.run(rig.bot.send_message(FORUM, "x", message_thread_id=topic))
    assert (sent.message_thread_id, sent.is_topic_message) == (topic, True)
    fault = bad("message thread not found")
    assert rig.refusal(rig.bot.send_message(FORUM, "x", message_thread_id=topic + 50)) == fault
    # tdlib/telegram-bot-api, issues 447 and 798: the general topic cannot be named.
    assert rig.refusal(rig.bot.send_message(FORUM, "x", message_thread_id=1)) == fault
    assert rig.refusal(rig.bot.send_message(SHOP, "x", message_thread_id=topic)) == fault
    rig.server.close_topic(FORUM, topic)
    assert rig.refusal(rig.bot.send_message(FORUM, "x", message_thread_id=topic)) == fault
    assert rig.refusal(rig.bot.send_chat_action(FORUM, "typing", message_thread_id=topic)) == fault


def test_a_chat_action_has_to_be_one(rig: Rig) -> None:
    assert rig.run(rig.bot.send_chat_action(ANN, "typing"))
    assert rig.refusal(rig.bot.send_chat_action(ANN, "yawning")) == bad("wrong parameter action in request")


# Pictures and files


def test_a_picture_is_kept_with_its_caption(rig: Rig) -> None:
    picture = png(40, 30)
    sent = rig.run(rig.bot.send_photo(ANN, picture, caption="<b>Invite</b>", parse_mode=HTML))
    assert (sent.photo[-1].width, sent.photo[-1].height, sent.caption) == (40, 30, "Invite")
    last = rig.server.last(ANN)
    assert (last.photo, last.text, last.html, last.kind) == (picture, "Invite", "<b>Invite</b>", "photo")

    async def fetched() -> bytes:
        return bytes(await (await rig.bot.get_file(sent.photo[-1].file_id)).download_as_bytearray())

    assert rig.run(fetched()) == picture
    again = rig.run(rig.bot.send_photo(BOB, sent.photo[-1].file_id))
    assert rig.server.message(BOB, again.message_id).photo == picture


@pytest.mark.parametrize(
    ("content", "fault"),
    [
        (b"", "file must be non-empty"),
        (b"no picture at all", "IMAGE_PROCESS_FAILED"),
        (png(1, 21), "PHOTO_INVALID_DIMENSIONS"),
        (b"\xff\xd8\xff\xc0\x00\x11\x08\x27\x10\x27\x10" + b"\0" * 20, "PHOTO_INVALID_DIMENSIONS"),
    ],
)
def test_what_is_no_picture_is_refused(rig: Rig, content: bytes, fault: str) -> None:
    assert rig.refusal(rig.bot.send_photo(ANN, content)) == bad(fault)


def test_a_caption_may_have_1024_units(rig: Rig) -> None:
    rig.run(rig.bot.send_photo(ANN, png(4, 4), caption="x" * 1024))
    assert rig.refusal(rig.bot.send_photo(ANN, png(4, 4), caption="x" * 1025)) == bad("message caption is too long")


def test_a_document_is_kept_with_its_name(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_document(ANN, b"id,make\n", filename="größe.csv"))
    assert sent.document.file_name == "größe.csv"
    assert rig.server.last(ANN).file == b"id,make\n"


def test_a_file_that_nobody_knows_is_refused(rig: Rig) -> None:
    assert rig.refusal(rig.bot.send_photo(ANN, "AgNone")) == bad("wrong file identifier/HTTP URL specified")
    assert rig.refusal(rig.bot.get_file("AgNone")) == bad("wrong file_id or the file is temporarily unavailable")
