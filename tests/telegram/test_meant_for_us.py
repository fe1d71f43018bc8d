"""Which messages are meant for us, and what is left of them without the command and without our own name.

The marks and their offsets are those of the Bot API's reference (core.telegram.org/bots/api#messageentity).
"""

from __future__ import annotations

from typing import Any

import pytest
from updates import EDITED, FORUM, GROUP, OURS, PHOTO, PRIVATE, TECH, Json, mark, message, read, said, the


@pytest.mark.parametrize(
    ("text", "word", "command", "rest"),
    [
        ("/ask@BenchBot 18 ondrel pads", "/ask@BenchBot", "ask", "18 ondrel pads"),
        ("/ask@benchBOT 18 ondrel", "/ask@benchBOT", "ask", "18 ondrel"),
        ("/ASK pads", "/ASK", "ask", "pads"),
        ("/lift", "/lift", "lift", ""),
        ("/start Kd7-x_Q", "/start", "start", "Kd7-x_Q"),
        ("/ask\n18 ondrel\npads", "/ask", "ask", "18 ondrel\npads"),
    ],
)
def test_commands(text: str, word: str, command: str, rest: str) -> None:
    for chat in (PRIVATE, GROUP):
        incoming = the(said(chat, text=text, entities=[mark("bot_command", text, word)]))
        assert (incoming.what, incoming.command, incoming.text) == ("text", command, rest)
        assert incoming.addressed == (chat is PRIVATE or "@" in word), "a bare command may be for another bot"
        assert incoming.private == (chat is PRIVATE)


def test_a_command_in_a_caption() -> None:
    text = "/ask@BenchBot this one"
    marks = [mark("bot_command", text, "/ask@BenchBot")]
    incoming = the(said(GROUP, photo=PHOTO, caption=text, caption_entities=marks))
    assert (incoming.what, incoming.command, incoming.text) == ("text", "ask", "this one")
    bare = the(said(GROUP, photo=PHOTO, caption="/lift", caption_entities=[mark("bot_command", "/lift", "/lift")]))
    assert (bare.what, bare.command, bare.kind) == ("text", "lift", "")


def test_a_command_of_another_bot_or_later_in_the_text_is_none_of_ours() -> None:
    text = "/ask@otherbot pads"
    for chat in (PRIVATE, GROUP):
        assert said(chat, text=text, entities=[mark("bot_command", text, "/ask@otherbot")]) is None
    later = "try /ask pads"
    assert said(GROUP, text=later, entities=[mark("bot_command", later, "/ask")]) is None
    incoming = the(said(text=later, entities=[mark("bot_command", later, "/ask")]))
    assert (incoming.command, incoming.text) == ("", later)
    assert the(said(text="/ask pads")).command == ""


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("@benchbot 18 ondrel pads", "18 ondrel pads"),
        ("18 ondrel @BenchBot pads", "18 ondrel pads"),
        ("18 ondrel pads @BENCHBOT", "18 ondrel pads"),
        ("@BenchBot, rear pads", "rear pads"),
        ("@BenchBot: rear pads", "rear pads"),
        ("@BenchBot ,5 in", ",5 in"),
        ("@BenchBot .5 in", ".5 in"),
        ("18 ondrel\n@BenchBot\npads", "18 ondrel\n\npads"),
        ("@BenchBot", ""),
        ("🔧🛠 ja @BenchBot 18 öndrel 🚗 pads", "🔧🛠 ja 18 öndrel 🚗 pads"),
    ],
)
def test_our_name_says_that_it_is_meant_for_us_and_is_taken_out(text: str, left: str) -> None:
    name = text[text.index("@") :][:9]
    incoming = the(said(GROUP, text=text, entities=[mark("mention", text, name)]))
    assert (incoming.what, incoming.text, incoming.command, incoming.addressed) == ("text", left, "", True)


def test_every_mention_and_the_command_go() -> None:
    text = "🔧 @BenchBot pads @otherbot and @benchbot rotors"
    marks = [
        mark("mention", text, "@BenchBot"), mark("mention", text, "@otherbot"), mark("mention", text, "@benchbot"),
    ]  # fmt: skip
    assert the(said(GROUP, text=text, entities=marks)).text == "🔧 pads @otherbot and rotors"
    text = "/ask 🚗 @BenchBot pads"
    marks = [mark("mention", text, "@BenchBot"), mark("bot_command", text, "/ask")]
    incoming = the(said(GROUP, text=text, entities=marks))
    assert (incoming.command, incoming.text) == ("ask", "🚗 pads")


def test_a_mention_by_name_is_a_mention() -> None:
    text = "hey Bench Bot pads"
    incoming = the(said(GROUP, text=text, entities=[mark("text_mention", text, "Bench Bot", user=OURS)]))
    assert incoming.text == "hey pads"
    assert said(GROUP, text=text, entities=[mark("text_mention", text, "Bench Bot", user=TECH)]) is None


def test_what_only_looks_like_our_name_is_not() -> None:
    longer = "@benchbot_two pads"
    assert said(GROUP, text=longer, entities=[mark("mention", longer, "@benchbot_two")]) is None
    mail = "bay@benchbot.example pads"
    assert said(GROUP, text=mail, entities=[mark("email", mail, "bay@benchbot.example")]) is None
    code = "@BenchBot pads"
    assert said(GROUP, text=code, entities=[mark("code", code, "@BenchBot")]) is None
    private = the(said(text=longer, entities=[mark("mention", longer, "@benchbot_two")]))
    assert private.text == longer


def test_a_photo_that_names_us_alone_has_no_words() -> None:
    marks = [mark("mention", "@BenchBot", "@BenchBot")]
    incoming = the(said(GROUP, photo=PHOTO, caption="@BenchBot", caption_entities=marks))
    assert (incoming.what, incoming.kind, incoming.text) == ("media", "photo", "")


def reply_to(author: Json, **more: Any) -> Json:
    return message(GROUP, message_id=300, from_=author, text="50 lb-ft") | more


def test_a_reply_to_us_is_meant_for_us() -> None:
    incoming = the(said(GROUP, text="and the rear?", reply_to_message=reply_to(OURS)))
    assert (incoming.addressed, incoming.answers, incoming.answers_us) == (True, "300", True)
    photo = the(said(GROUP, photo=PHOTO, reply_to_message=reply_to(OURS)))
    assert (photo.what, photo.kind) == ("media", "photo")


def test_a_reply_to_somebody_else_is_not() -> None:
    assert said(GROUP, text="and the rear?", reply_to_message=reply_to(TECH)) is None
    # Sent through an inline query of ours, but by a person.
    assert said(GROUP, text="and the rear?", reply_to_message=reply_to(TECH, via_bot=OURS)) is None
    text = "@BenchBot and the rear?"
    marks = [mark("mention", text, "@BenchBot")]
    incoming = the(said(GROUP, text=text, entities=marks, reply_to_message=reply_to(TECH)))
    assert (incoming.answers, incoming.answers_us) == ("300", False)
    private = the(said(text="rear?", reply_to_message=message(message_id=300, from_=OURS, text="50 lb-ft")))
    assert (private.answers, private.answers_us) == ("300", True)


def test_talk_among_others_in_a_group_is_not_ours() -> None:
    assert said(GROUP, text="18 ondrel front pads") is None
    assert said(FORUM, text="18 ondrel front pads") is None
    assert said(GROUP, photo=PHOTO, caption="18 ondrel front pads") is None
    assert read(edited_message=message(GROUP, text="18 ondrel front pads", edit_date=EDITED)) is None


def test_a_topic_is_one_only_where_telegram_says_so() -> None:
    text = "@BenchBot pads"
    marks = [mark("mention", text, "@BenchBot")]
    more: Json = {"text": text, "entities": marks, "message_thread_id": 40}
    assert the(said(FORUM, is_topic_message=True, **more)).topic == "40"
    assert the(said(FORUM, **more)).topic == ""
    assert the(said(GROUP, text=text, entities=marks)).topic == ""


def test_a_message_in_a_topic_that_we_opened_is_no_reply_to_us() -> None:
    opened = message(FORUM, message_id=40, from_=OURS, forum_topic_created={"name": "Bay 2", "icon_color": 7322096})
    in_topic: Json = {"message_thread_id": 40, "is_topic_message": True}
    assert said(FORUM, text="lunch?", reply_to_message=opened, **in_topic) is None
    bare = message(FORUM, message_id=40, from_=OURS, text="Bay 2")
    assert said(FORUM, text="lunch?", reply_to_message=bare, **in_topic) is None
    text = "@BenchBot pads"
    marks = [mark("mention", text, "@BenchBot")]
    incoming = the(said(FORUM, text=text, entities=marks, reply_to_message=opened, **in_topic))
    assert (incoming.topic, incoming.answers, incoming.answers_us) == ("40", "", False)
    real = message(FORUM, message_id=55, from_=OURS, text="50 lb-ft", **in_topic)
    incoming = the(said(FORUM, text="and the rear?", reply_to_message=real, **in_topic))
    assert (incoming.topic, incoming.answers, incoming.answers_us) == ("40", "55", True)
