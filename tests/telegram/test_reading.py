"""Every kind of update becomes what a person did, or nothing: nothing is taken for a question that was none.

The shapes are those of the Bot API's reference (core.telegram.org/bots/api: Update, Message, MessageEntity,
CallbackQuery, InlineQuery); which accounts stand in for nobody is from the same page ("sender_chat") and from memory.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from telegram import Update
from updates import (
    CHANNEL,
    EDITED,
    FORUM,
    GROUP,
    ME,
    NOW,
    OURS,
    PHOTO,
    PRIVATE,
    SENT_AT,
    TECH,
    Json,
    mark,
    message,
    read,
    said,
    the,
    update,
)

from benchbot.channels.telegram.reading import incoming_of, migrated
from benchbot.desk.incoming import Incoming

FILE = {"file_id": "BQAC1", "file_unique_id": "Ag1"}
MEDIA: dict[str, Json] = {
    "photo": {"photo": PHOTO},
    "sticker": {
        "sticker": FILE | {"width": 512, "height": 512, "is_animated": False, "is_video": False, "type": "regular"}
    },
    "contact": {"contact": {"phone_number": "5550100", "first_name": "Bo"}},
    "poll": {
        "poll": {
            "id": "9", "question": "Lunch?", "options": [{"text": "yes", "voter_count": 0, "persistent_id": "1"}],
            "total_voter_count": 0, "is_closed": False, "is_anonymous": True, "type": "regular",
            "allows_multiple_answers": False, "allows_revoting": True, "members_only": False,
        }
    },
    "voice": {"voice": FILE | {"duration": 3, "mime_type": "audio/ogg"}},
    "location": {"location": {"latitude": 1.5, "longitude": 2.5}},
    "venue": {
        "venue": {"location": {"latitude": 1.5, "longitude": 2.5}, "title": "Yard", "address": "1 Lane"},
        "location": {"latitude": 1.5, "longitude": 2.5},
    },
    "document": {"document": FILE | {"file_name": "list.pdf"}},
    "animation": {"animation": FILE | {"width": 1, "height": 1, "duration": 1}, "document": FILE},
    "video": {"video": FILE | {"width": 1, "height": 1, "duration": 1}},
    "video_note": {"video_note": FILE | {"length": 240, "duration": 1}},
    "audio": {"audio": FILE | {"duration": 1}},
    "dice": {"dice": {"emoji": "🎲", "value": 3}},
}  # fmt: skip


def test_a_private_message() -> None:
    assert said(text="18 ondrel front bracket bolts") == Incoming(
        bot="501", number=8801, what="text", chat="71", private=True, person="telegram 71", name="Ilka Moor",
        at=SENT_AT, message="314", text="18 ondrel front bracket bolts",
    )  # fmt: skip


def test_an_edited_message_has_no_message() -> None:
    changed = update(edited_message=message(text="19 ondrel front bracket bolts", edit_date=EDITED))
    assert changed.message is None
    incoming = the(incoming_of(changed, ME, NOW))
    assert (incoming.what, incoming.message) == ("changed", "314")
    assert incoming.text == "19 ondrel front bracket bolts"
    assert incoming.at == datetime.fromtimestamp(EDITED, UTC)


def test_an_edited_caption_counts_and_an_edited_location_does_not() -> None:
    assert the(read(edited_message=message(photo=PHOTO, caption="rear", edit_date=EDITED))).what == "changed"
    assert read(edited_message=message(location={"latitude": 1.5, "longitude": 2.6}, edit_date=EDITED)) is None
    assert read(edited_message=message(photo=PHOTO, edit_date=EDITED)) is None


def test_a_caption_is_text() -> None:
    incoming = the(said(photo=PHOTO, caption="torque for this one? 18 ondrel"))
    assert (incoming.what, incoming.text, incoming.kind) == ("text", "torque for this one? 18 ondrel", "")


@pytest.mark.parametrize("kind", MEDIA)
def test_media_without_words(kind: str) -> None:
    incoming = the(said(**MEDIA[kind]))
    assert (incoming.what, incoming.kind, incoming.text) == ("media", kind, "")
    assert said(GROUP, **MEDIA[kind]) is None


def test_the_photos_of_an_album_share_it() -> None:
    first = the(said(photo=PHOTO, media_group_id="13001", caption="18 ondrel pads"))
    second = the(said(photo=PHOTO, media_group_id="13001"))
    assert (first.what, first.album) == ("text", "13001")
    assert (second.what, second.album) == ("media", "13001")
    assert the(said(text="pads")).album == ""


def test_a_channel_is_no_talk() -> None:
    post = message(CHANNEL, from_=None, sender_chat=CHANNEL, text="@BenchBot pads")
    assert read(channel_post=post) is None
    assert read(edited_channel_post=post | {"edit_date": EDITED}) is None
    assert read(message=post) is None


ANONYMOUS = {"id": 1087968824, "is_bot": True, "first_name": "Group", "username": "GroupAnonymousBot"}
CHANNEL_BOT = {"id": 136817688, "is_bot": True, "first_name": "Channel", "username": "Channel_Bot"}


@pytest.mark.parametrize(
    "author",
    [
        {"from_": ANONYMOUS, "sender_chat": FORUM},
        {"from_": CHANNEL_BOT, "sender_chat": CHANNEL},
        {"from_": ANONYMOUS},
        {"from_": TECH, "sender_chat": FORUM},
        {"from_": None},
    ],
)
def test_nobody_stands_behind_it(author: Json) -> None:
    text = "/ask 18 ondrel pads"
    incoming = the(said(FORUM, text=text, entities=[mark("bot_command", text, "/ask")], **author))
    assert (incoming.what, incoming.person, incoming.name, incoming.message) == ("nobody", "", "", "314")
    assert said(FORUM, text="18 ondrel pads", **author) is None
    again = message(FORUM, text=text, entities=[mark("bot_command", text, "/ask")], edit_date=EDITED, **author)
    assert read(edited_message=again) is None


def test_other_bots_and_our_own_inline_answers_are_not_read() -> None:
    other = {"id": 502, "is_bot": True, "first_name": "Other", "username": "otherbot"}
    text = "@BenchBot pads"
    marks = [mark("mention", text, "@BenchBot")]
    assert said(GROUP, from_=other, text=text, entities=marks) is None
    assert said(from_=OURS, text="pads") is None
    assert said(text="50 lb-ft", via_bot=OURS) is None
    assert the(said(text="pads", via_bot=other)).text == "pads"


@pytest.mark.parametrize(
    "service",
    [
        {"new_chat_members": [OURS]},
        {"left_chat_member": TECH},
        {"pinned_message": message(GROUP, text="pads")},
        {"forum_topic_created": {"name": "Bay 2", "icon_color": 7322096}},
        {"new_chat_title": "Bay crew 2"},
        {"new_chat_photo": PHOTO},
        {"group_chat_created": True},
        {"migrate_to_chat_id": -1009001},
        {"migrate_from_chat_id": -4011},
        {"write_access_allowed": {"from_request": True}},
        {"something_new": {"of": "next year"}},
    ],
)
def test_news_about_the_chat_is_no_message(service: Json) -> None:
    assert said(GROUP, **service) is None
    assert said(PRIVATE, **service) is None


def test_a_group_that_moved() -> None:
    assert migrated(update(message=message(GROUP, migrate_to_chat_id=-1009001))) == ("-4011", "-1009001")
    assert migrated(update(message=message(FORUM, migrate_from_chat_id=-4011))) == ("-4011", "-1009001")
    assert migrated(update(message=message(text="pads"))) is None
    assert migrated(update(edited_message=message(text="pads", edit_date=EDITED))) is None


def press(**more: Any) -> Json:
    return {"id": "4382", "from": TECH, "chat_instance": "-77", "data": "12:c1.2"} | more


def test_a_press() -> None:
    ours = message(FORUM, message_id=315, from_=OURS, text="Which engine?", message_thread_id=40, is_topic_message=True)
    assert read(callback_query=press(message=ours)) == Incoming(
        bot="501", number=8801, what="press", chat="-1009001", private=False, person="telegram 71", name="Ilka Moor",
        at=NOW, message="315", text="12:c1.2", topic="40", query="4382",
    )  # fmt: skip
    private = message(PRIVATE, message_id=315, from_=OURS, text="Which engine?")
    assert the(read(callback_query=press(message=private))).private


def test_a_press_under_a_message_too_old_to_see() -> None:
    old = {"chat": FORUM, "message_id": 12, "date": 0}
    incoming = the(read(callback_query=press(message=old)))
    assert (incoming.chat, incoming.message, incoming.topic, incoming.at) == ("-1009001", "12", "", NOW)


def test_a_press_under_an_inline_answer_has_no_chat() -> None:
    incoming = the(read(callback_query=press(inline_message_id="AAAx")))
    assert (incoming.what, incoming.chat, incoming.message, incoming.query) == ("press", "", "", "4382")
    assert incoming.lane == "telegram 71"


def test_a_press_without_a_code_is_none_of_ours() -> None:
    game = press(inline_message_id="AAAx", game_short_name="race")
    del game["data"]
    assert read(callback_query=game) is None


def test_a_result_that_was_sent() -> None:
    sent = {"result_id": "1", "from": TECH, "query": " 12 ondrel ", "inline_message_id": "AAAx"}
    assert read(chosen_inline_result=sent) == Incoming(
        bot="501", number=8801, what="chosen", chat="", private=False, person="telegram 71", name="Ilka Moor", at=NOW,
        message="1", text="12 ondrel",
    )  # fmt: skip


def test_an_inline_query() -> None:
    asked = {"id": "991", "from": TECH, "query": " 18 ondrel pads ", "offset": "", "chat_type": "group"}
    assert read(inline_query=asked) == Incoming(
        bot="501", number=8801, what="inline", chat="", private=False, person="telegram 71", name="Ilka Moor", at=NOW,
        text="18 ondrel pads", query="991",
    )  # fmt: skip


def test_what_is_forwarded_is_said_by_whoever_forwards_it() -> None:
    origin = {
        "type": "user",
        "date": SENT_AT.timestamp() - 500,
        "sender_user": {"id": 72, "is_bot": False, "first_name": "Bo"},
    }
    incoming = the(said(text="18 ondrel pads", forward_origin=origin))
    assert (incoming.person, incoming.name, incoming.text) == ("telegram 71", "Ilka Moor", "18 ondrel pads")


def test_a_very_long_text_is_cut_and_nothing_else_is_lost() -> None:
    incoming = the(said(text="pads " * 2000, message_id=317))
    assert incoming.text == ("pads " * 2000)[:4096]
    assert (incoming.message, incoming.what) == ("317", "text")
    asked = {"id": "991", "from": TECH, "query": "p" * 5000, "offset": ""}
    assert len(the(read(inline_query=asked)).text) == 4096


@pytest.mark.parametrize(
    ("first", "last", "shown"),
    [
        ("Ilka", "Moor", "Ilka Moor"),
        ("Ilka", None, "Ilka"),
        ("Il\u202eka\n\x07", "M\u200boor\u2066", "Ilka Moor"),
        ("x" * 64, "y" * 64, "x" * 64),
        ("x" * 63, "y", "x" * 63),
        ("\u2066\u2069", None, "telegram 71"),
        ("Ünsal", "王", "Ünsal 王"),
    ],
)
def test_names_are_made_safe_to_show(first: str, last: str | None, shown: str) -> None:
    person = {"id": 71, "is_bot": False, "first_name": first} | ({"last_name": last} if last else {})
    assert the(said(from_=person, text="pads")).name == shown


def test_broken_characters_do_not_keep_it_from_being_stored() -> None:
    incoming = the(said(text="pads \ud83d rear"))
    assert incoming.text == "pads \ufffd rear"
    assert Incoming.from_text(incoming.to_text()) == incoming
    incoming.to_text().encode()
    # A mark that ends in the middle of a character.
    text = "🔧 pads"
    half = [{"type": "bot_command", "offset": 0, "length": 1}]
    the(said(text=text, entities=half)).to_text().encode()


@pytest.mark.parametrize(
    "content",
    [
        {
            "my_chat_member": {
                "chat": PRIVATE, "from": TECH, "date": 1, "old_chat_member": {"user": OURS, "status": "member"},
                "new_chat_member": {"user": OURS, "status": "kicked", "until_date": 0},
            }
        },
        {"poll_answer": {"poll_id": "9", "user": TECH, "option_ids": [0], "option_persistent_ids": ["1"]}},
        {
            "message_reaction": {
                "chat": GROUP, "message_id": 3, "user": TECH, "date": 1, "old_reaction": [], "new_reaction": []
            }
        },
        {"business_message": message(text="pads", business_connection_id="b1")},
        {"something_new": {"of": "next year"}},
        {},
    ],
)  # fmt: skip
def test_anything_else_is_nothing(content: Json) -> None:
    made = update(**content)
    assert isinstance(made, Update)
    assert incoming_of(made, ME, NOW) is None
    assert migrated(made) is None


def test_every_incoming_comes_back_from_the_record_as_it_was() -> None:
    ours = message(FORUM, message_id=315, from_=OURS, text="?", message_thread_id=40, is_topic_message=True)
    for incoming in (said(text="18 “ondrel” 🔧"), said(**MEDIA["photo"]), read(callback_query=press(message=ours))):
        assert Incoming.from_text(the(incoming).to_text()) == incoming
