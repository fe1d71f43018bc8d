"""What people do reaches the bot as the Bot API tells it, and in groups only what privacy mode lets through."""

from __future__ import annotations

import pytest

from .client import NotSeenError
from .media import PIXEL
from .ordering import StandInError
from .rig import ANN, BOB, FORUM, OTHER_BOT, SHOP, SMALL, Rig, keyboard


def test_a_message_comes_with_its_commands_and_mentions(rig: Rig) -> None:
    made = rig.server.say(ANN, " /spec@StandInBot \U0001f527 15 corvel @standinbot a@b.c /x/y ")
    message = rig.one().message
    assert message.text == "/spec@StandInBot \U0001f527 15 corvel @standinbot a@b.c /x/y"
    assert (message.message_id, message.from_user.id, message.chat.type.value) == (made.message, ANN, "private")
    found = {(one.type.value, one.offset, message.parse_entity(one)) for one in message.entities}
    assert found == {("bot_command", 0, "/spec@StandInBot"), ("mention", 30, "@standinbot")}


def test_ids_are_shared_by_small_chats_and_counted_in_each_large_one(rig: Rig) -> None:
    small = [rig.server.say(chat, "x", ANN).message for chat in (ANN, SMALL, ANN)]
    assert small == [small[0], small[0] + 1, small[0] + 2]
    assert rig.server.say(SHOP, "x", ANN).message == rig.server.say(FORUM, "x", ANN).message


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("torque?", False),
        ("torque? @ann_bay", False),
        ("torque? @StandInBotty", False),
        ("torque? @STANDINBOT", True),
        ("/spec 15 corvel", True),
        ("/spec@StandInBot 15 corvel", True),
        ("/spec@OtherBot 15 corvel", False),
        ("see /spec", False),
    ],
)
def test_privacy_mode_hides_what_is_not_meant_for_the_bot(rig: Rig, text: str, heard: bool) -> None:
    made = rig.server.say(SHOP, text, ANN)
    assert (made.update is not None) == heard
    assert len(rig.updates()) == heard
    changed = rig.server.edit(SHOP, made.message, f"{text} please")
    assert (changed.update is not None) == heard


def test_privacy_mode_lets_replies_and_service_messages_through(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_message(SHOP, "Which axle?")).message_id
    other = rig.server.say(SHOP, "hm", BOB).message
    assert rig.server.say(SHOP, "hm", ANN, reply_to=other).update is None
    rig.server.say(SHOP, "front", ANN, reply_to=sent)
    rig.server.leave(SHOP, BOB)
    rig.server.join(SHOP, BOB)
    rig.server.say_via_bot(SHOP, "100 N·m", BOB)
    answer, left, joined, via = (update.message for update in rig.updates())
    assert answer.reply_to_message.text == "Which axle?"
    assert left.left_chat_member.id == BOB
    assert joined.new_chat_members[0].id == BOB
    assert via.via_bot.id == rig.bot.id


def test_a_mention_without_a_username_is_heard(rig: Rig) -> None:
    mention = {"type": "text_mention", "offset": 0, "length": 3, "user": {"id": rig.bot.id}}
    assert rig.server.say(SHOP, "bot torque?", ANN, entities=[mention]).update is not None
    other = mention | {"user": {"id": BOB}}
    assert rig.server.say(SHOP, "bob torque?", ANN, entities=[other]).update is None


@pytest.mark.parametrize("how", ["privacy off in the group", "administrator", "privacy off"])
def test_without_privacy_mode_everything_is_heard(rig: Rig, how: str) -> None:
    rig.server.group(-7001, (ANN,), privacy=how != "privacy off in the group")
    if how == "administrator":
        rig.server.stand(-7001, ANN, "administrator")
    rig.server.settings(privacy=how != "privacy off")
    assert rig.run(rig.bot.get_me()).can_read_all_group_messages == (how == "privacy off")
    rig.server.say(-7001, "torque?", ANN)
    assert rig.updates()[-1].message.text == "torque?"


def test_a_group_that_the_bot_left_is_not_heard(rig: Rig) -> None:
    rig.server.stand(SHOP, ANN, "kicked")
    assert rig.server.say(SHOP, "/spec", ANN).update is None
    rig.server.stand(SHOP, ANN, "member")
    assert rig.server.say(SHOP, "/spec", ANN).update is not None
    standing = [one.my_chat_member for one in rig.updates() if one.my_chat_member]
    assert [(one.old_chat_member.status, one.new_chat_member.status) for one in standing] == [
        ("member", "kicked"),
        ("kicked", "member"),
    ]


def test_topics_and_answers_carry_their_thread(rig: Rig) -> None:
    topic = rig.server.topic(FORUM, "Bay 1", ANN)
    assert rig.one().message.forum_topic_created.name == "Bay 1"
    rig.server.say(FORUM, "/spec", ANN, topic=topic)
    in_topic = rig.one().message
    assert (in_topic.message_thread_id, in_topic.is_topic_message) == (topic, True)
    assert in_topic.reply_to_message.forum_topic_created is not None
    rig.server.say(FORUM, "/spec", ANN)
    general = rig.one().message
    assert (general.message_thread_id, general.is_topic_message) == (None, None)
    rig.server.say(FORUM, "/spec", ANN, reply_to=general.message_id)
    answer = rig.one().message
    # tdlib/telegram-bot-api, issue 447: an answer outside of a topic has a thread all the same.
    assert (answer.message_thread_id, answer.is_topic_message) == (general.message_id, None)
    sent = rig.run(rig.bot.send_message(FORUM, "x", reply_to_message_id=in_topic.message_id))
    assert (sent.message_thread_id, sent.is_topic_message) == (topic, True)


def test_a_changed_message_comes_as_such(rig: Rig) -> None:
    made = rig.server.say(ANN, "15 corvel")
    rig.server.edit(ANN, made.message, "16 corvel")
    first, second = rig.updates()
    assert (first.message.text, first.edited_message) == ("15 corvel", None)
    assert (second.message, second.edited_message.text) == (None, "16 corvel")
    assert second.edited_message.edit_date is not None
    assert rig.server.transcript(ANN)[0].earlier == ("15 corvel",)


@pytest.mark.parametrize("kind", ["photo", "document", "voice", "video", "sticker", "contact", "location", "poll"])
def test_every_kind_of_media_can_be_read(rig: Rig, kind: str) -> None:
    rig.server.send(ANN, kind)
    message = rig.one().message
    assert getattr(message, kind)
    assert (message.text, message.caption) == (None, None)


def test_a_caption_comes_with_its_photo(rig: Rig) -> None:
    rig.server.send(SHOP, "photo", ANN, "torque? @StandInBot", PIXEL)
    message = rig.one().message
    assert (message.text, message.caption) == (None, "torque? @StandInBot")
    assert [message.parse_caption_entity(one) for one in message.caption_entities] == ["@StandInBot"]
    assert rig.server.transcript(SHOP)[0].photo == PIXEL


def test_an_album_is_many_messages_of_one_group(rig: Rig) -> None:
    made = rig.server.album(ANN, ["worn?", "", ""])
    messages = [one.message for one in rig.updates()]
    assert [one.message_id for one in messages] == [one.message for one in made]
    assert [one.caption for one in messages] == ["worn?", None, None]
    assert len({one.media_group_id for one in messages}) == 1
    rig.server.album(ANN, [""])
    assert rig.one().message.media_group_id != messages[0].media_group_id


def test_a_message_behind_which_no_person_stands(rig: Rig) -> None:
    rig.server.channel(-100900, "News")
    rig.server.say_anonymously(SHOP, "/spec")
    rig.server.say(SHOP, "/spec", OTHER_BOT)
    rig.server.post(-100900, "torque?")
    hidden, bot, post = rig.updates()
    assert (hidden.message.from_user.id, hidden.message.sender_chat.id) == (1087968824, SHOP)
    assert bot.message.from_user.is_bot
    assert (post.message, post.channel_post.from_user, post.channel_post.sender_chat.id) == (None, None, -100900)


def test_a_press_comes_with_the_message_that_has_the_button(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_message(SHOP, "Axle?", reply_markup=keyboard([("front", "1:f"), ("rear", "1:r")])))
    asked = rig.server.press(SHOP, sent.message_id, "rear", person=BOB)
    press = rig.one().callback_query
    assert (press.id, press.data, press.from_user.id) == (asked.query, "1:r", BOB)
    assert (press.message.text, press.message.reply_markup) == ("Axle?", sent.reply_markup)
    rig.server.press(SHOP, sent.message_id, data="1:f", person=ANN)
    assert rig.one().callback_query.chat_instance == press.chat_instance


def test_only_a_button_that_is_there_can_be_pressed_unless_the_screen_is_stale(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_message(ANN, "Axle?", reply_markup=keyboard([("front", "1:f"), ("rear", "1:r")])))
    with pytest.raises(StandInError, match="has 0 such buttons"):
        rig.server.press(ANN, sent.message_id, "left")
    with pytest.raises(StandInError, match="has 2 such buttons"):
        rig.server.press(ANN, sent.message_id)
    with pytest.raises(StandInError, match="does not see"):
        rig.server.press(ANN, sent.message_id, "front", person=BOB)
    rig.run(rig.bot.edit_message_text("Done", ANN, sent.message_id))
    with pytest.raises(StandInError, match="such buttons"):
        rig.server.press(ANN, sent.message_id, "front")
    rig.server.press(ANN, sent.message_id, data="1:f", stale=True)
    assert rig.one().callback_query.message.text == "Done"
    rig.run(rig.bot.delete_message(ANN, sent.message_id))
    rig.server.press(ANN, sent.message_id, data="1:f", stale=True)
    press = rig.one().callback_query
    assert (press.data, press.message.is_accessible, press.message.message_id) == ("1:f", False, sent.message_id)


def test_a_group_that_becomes_a_supergroup_tells_both_chats(rig: Rig) -> None:
    rig.server.migrate(SMALL, -100402)
    old, new = (one.message for one in rig.updates())
    assert (old.chat.id, old.migrate_to_chat_id) == (SMALL, -100402)
    assert (new.chat.id, new.migrate_from_chat_id, new.chat.type.value) == (-100402, SMALL, "supergroup")
    with pytest.raises(StandInError, match="became"):
        rig.server.say(SMALL, "x", ANN)
    assert rig.server.say(-100402, "/spec", ANN).update is not None


def test_blocking_and_starting_anew_are_told(rig: Rig) -> None:
    rig.server.block(ANN)
    rig.server.unblock(ANN)
    found = [one.my_chat_member for one in rig.updates()]
    assert [one.new_chat_member.status for one in found] == ["kicked", "member"]
    rig.server.block(ANN)
    with pytest.raises(StandInError, match="cannot write"):
        rig.server.say(ANN, "x")


@pytest.mark.parametrize(
    ("act", "fault"),
    [
        (lambda server: server.say(SHOP, "x", 999), "there is no person 999"),
        (lambda server: server.say(-999, "x", ANN), "there is no chat -999"),
        (lambda server: server.say(ANN, "x" * 4097), "empty or too long"),
        (lambda server: server.say(ANN, "x", reply_to=777), "has no message 777"),
        (lambda server: server.say(FORUM, "x", ANN, topic=777), "has no topic 777"),
        (lambda server: server.send(ANN, "sticker", caption="x"), "has no caption"),
        (lambda server: server.send(ANN, "smell"), "no kind 'smell' of media"),
        (lambda server: server.topic(SHOP, "Bay 1", ANN), "is no forum"),
        (lambda server: server.group(SHOP), "there is a chat -100200 already"),
        (lambda server: server.order("sing", song="x"), "no order 'sing'"),
        (lambda server: server.order("say", song="x"), "say: "),
        (lambda server: server.wait_for(weather="fair"), "weather"),
        (lambda server: server.settings(weather="fair"), "no such setting: weather"),
        (lambda server: server.settings(limits={"weather": 1}), "no such limit: weather"),
    ],
)
def test_an_order_that_cannot_be_is_refused(rig: Rig, act: object, fault: str) -> None:
    with pytest.raises(StandInError, match=fault):
        act(rig.server)  # type: ignore[operator]


def test_waiting_ends_when_the_condition_holds_or_tells_what_there_is(rig: Rig) -> None:
    rig.run(rig.bot.send_message(ANN, "100 N·m"))
    assert rig.server.wait_for_answer(ANN, 1).text == "100 N·m"
    rig.server.wait_for(ANN, text="100", gone="90", edits=0, method="sendMessage", calls=1, from_bot=1, pending=0)
    for unmet in ({"messages": 2}, {"text": "90"}, {"gone": "100"}, {"edits": 1}, {"from_bot": 2}, {"menus": 1}):
        with pytest.raises(NotSeenError, match="100 N·m"):
            rig.server.wait_for(ANN, 0.0, **unmet)
    with pytest.raises(NotSeenError):
        rig.server.wait_for(None, 0.0, method="sendMessage", calls=2)
    with pytest.raises(NotSeenError, match="not within 0"):
        rig.server.wait_for_notice("77", 0.0)

    async def later() -> None:
        waiting = rig.aside(rig.server.wait_for, ANN, messages=2, text="200")
        task = rig.runner.get_loop().create_task(waiting)
        await rig.bot.send_message(ANN, "200 N·m")
        await task

    rig.run(later())


def test_the_log_tells_every_call(rig: Rig) -> None:
    rig.run(rig.bot.send_message(ANN, "x", reply_markup=keyboard([("a", "1:a")])))
    rig.refusal(rig.bot.send_message(999, "y"))
    rig.run(rig.bot.send_photo(ANN, PIXEL))
    sent, refused, photo = [call for call in rig.server.calls() if call.method.startswith("send")]
    assert (sent.status, sent.chat, sent.params["text"]) == (200, ANN, "x")
    assert sent.params["reply_markup"]["inline_keyboard"][0][0]["callback_data"] == "1:a"
    assert (refused.status, refused.description) == (400, "Bad Request: chat not found")
    assert photo.params["photo"]["size"] == len(PIXEL)
    assert rig.server.refused() == [refused]
    assert rig.server.calls("sendMessage", 999) == [refused]
    assert rig.server.state()["counts"]["sendmessage"] == 2


def test_many_orders_in_one(rig: Rig) -> None:
    told = rig.server.batch([("say", {"chat": ANN, "person": ANN, "text": str(n)}) for n in range(3)])
    assert [update.message.text for update in rig.updates()] == ["0", "1", "2"]
    assert [one["message"] for one in told] == [one.id for one in rig.server.transcript(ANN)]


def test_beginning_anew_forgets_all_but_the_numbers(rig: Rig) -> None:
    before = rig.server.say(ANN, "x")
    rig.server.reset()
    assert rig.run(rig.bot.get_updates()) == ()
    rig.server.person(ANN)
    after = rig.server.say(ANN, "x")
    assert after.message == before.message + 1
    assert before.update is not None
    assert after.update == before.update + 1
