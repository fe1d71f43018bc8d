"""Groups over HTTP: what of their talk reaches the bot, topics, whose buttons are whose, and who is nobody."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from running_bot import SECONDS
from shop import Phone, Shop, opened

from benchbot.places import Home

OUTSIDE = "Ask your shop for an invite."
NOBODY = "I cannot see who asks. Write as yourself, not in the name of the group."
TEXT_ONLY = "I read text only. Write year, make and model, the part, front or rear."
QUESTION = "12 ondrel frt cal brkt bolt tq"
ASKED, NAMED = f"/ask {QUESTION}", f"@StandInBot {QUESTION}"
ANSWER = "50 lb-ft = 68 N·m (converted)"
MOVED = "Bad Request: group chat was upgraded to a supergroup chat"
CHANNEL = -1_009_000


@pytest.fixture(scope="module")
def _shop(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    with opened(demo_shop, tmp_path_factory.mktemp("groups")) as shop:
        shop.start()
        yield shop


@pytest.fixture
def shop(_shop: Shop) -> Iterator[Shop]:
    with _shop.looked_after():
        yield _shop


@pytest.fixture
def ana(shop: Shop) -> Phone:
    return shop.phone("Ana", technician="North bay")


@pytest.fixture
def ben(shop: Shop) -> Phone:
    return shop.phone("Ben", technician="North bay")


def hears_and_stays_silent(phone: Phone) -> None:
    """Whatever was said before: only this gets an answer, and chats are served in order."""
    said = phone.count
    assert phone.say("/ask").text.startswith("Write the question behind it")
    assert phone.count == said + 1, [one.text for one in phone.shown]


@pytest.mark.parametrize("text", [ASKED, f"/ask@StandInBot {QUESTION}", NAMED, f"{QUESTION} @standinbot"])
def test_what_is_meant_for_the_bot_is_answered_below_the_question(shop: Shop, ana: Phone, text: str) -> None:
    crew = ana.in_group(shop.group(ana))
    shown = crew.say(text)
    assert shown.text.splitlines()[0] == ANSWER
    assert (shown.reply_to, shown.topic) == (crew.said, False)


@pytest.mark.parametrize(
    "text",
    [
        QUESTION,
        f"hey all: {QUESTION}",
        f"/ask@OtherBot {QUESTION}",
        f"@StandInBotTwo {QUESTION}",
        f"bay@StandInBot {QUESTION}",
    ],
)
@pytest.mark.parametrize("privacy", [True, False])
def test_the_talk_of_a_group_is_none_of_the_bots_business(shop: Shop, ana: Phone, text: str, privacy: bool) -> None:
    """With privacy mode on the messenger keeps it from the bot, without it does not (Bot features, privacy mode)."""
    crew = ana.in_group(shop.group(ana, privacy=privacy))
    assert (crew.write(text).update is None) == privacy
    assert (crew.show("photo", text).update is None) == privacy
    assert (crew.show("sticker").update is None) == privacy
    assert (shop.server.edit(crew.chat, crew.write(text).message, f"{text} please").update is None) == privacy
    hears_and_stays_silent(crew)


def test_an_administrator_hears_all_and_answers_what_is_meant_for_it(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana, bot="administrator"))
    assert crew.write(QUESTION).update is not None
    assert crew.say(NAMED).text.startswith(ANSWER)
    assert crew.count == 1


def test_a_reply_to_the_bot_is_meant_for_it(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana))
    shown = crew.say(ASKED)
    reply = crew.say("socket?", reply_to=shown.id)
    assert reply.text.startswith("16 mm")
    assert reply.reply_to == crew.said
    hers = crew.write("to the crew")
    assert crew.write("socket?", reply_to=hers.message).update is None
    hears_and_stays_silent(crew)


def test_captions_and_pictures_in_a_group(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana))
    crew.show("photo", NAMED)
    shown = crew.answer(1)
    assert (shown.text.splitlines()[0], shown.reply_to) == (ANSWER, crew.said)
    crew.show("photo", "", reply_to=shown.id)
    assert crew.answer(2).text == TEXT_ONLY
    assert crew.show("photo").update is None
    hears_and_stays_silent(crew)


def test_a_change_in_a_group_changes_the_answer(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana))
    shown = crew.say("@StandInBot 12 ondrel rear bleeder socket")
    changed = crew.change(NAMED)
    assert (changed.id, changed.text.splitlines()[0]) == (shown.id, ANSWER)
    # Talk that is changed into a question is none: it was not asked.
    crew.write("lunch?")
    assert shop.server.edit(crew.chat, crew.said, NAMED).update is not None
    hears_and_stays_silent(crew)


def test_the_answer_stands_in_the_topic_of_the_question(shop: Shop, ana: Phone, ben: Phone) -> None:
    forum = shop.group(ana, ben, forum=True)
    bays = [shop.server.topic(forum, name, ana.person) for name in ("Bay 1", "Bay 2")]
    for bay, who in zip(bays, (ana, ben), strict=True):
        crew = who.in_group(forum, bay)
        asked = crew.say("/ask 12 ondrel bracket bolt torque")
        assert (asked.thread, asked.topic, asked.reply_to) == (bay, True, crew.said)
        assert crew.press("front", asked).text.splitlines()[0] == ANSWER
        assert shop.server.message(forum, asked.id).thread == bay
    general = ben.in_group(forum)
    shown = general.say(ASKED)
    assert (shown.topic, shown.reply_to) == (False, general.said)
    # In a topic every message hangs on the one that opened it, which is no reply to the bot.
    assert ana.in_group(forum, bays[0]).write("lunch?").update is None


def test_a_topic_that_is_gone_when_the_answer_comes(shop: Shop, ana: Phone) -> None:
    forum = shop.group(ana, forum=True)
    crew = ana.in_group(forum, shop.server.topic(forum, "Bay 1", ana.person))
    assert crew.topic is not None
    shop.server.limit("sendMessage", retry_after=1, chat=forum)
    crew.write(ASKED)
    shop.log.wait("not sent, tried again", chat=str(forum))
    shop.server.close_topic(forum, crew.topic)
    shown = crew.answer(1)
    assert (shown.text.splitlines()[0], shown.topic, shown.reply_to) == (ANSWER, False, None)
    assert shop.refusals() == ["sendmessage: Bad Request: message thread not found"]


def test_a_choice_belongs_to_whoever_asked(shop: Shop, ana: Phone, ben: Phone) -> None:
    zoe, zed = shop.phone("Zoe", technician="South bay"), shop.newcomer("Zed")
    group = shop.group(ana, ben, zoe, zed)
    crew = ana.in_group(group)
    asked = crew.say("/ask 12 ondrel bracket bolt torque")
    assert ben.in_group(group).press_only("front", asked) == "That is Ana's. Ask your own."
    assert zoe.in_group(group).press_only("front", asked) == "That belongs to somebody else. Ask your own."
    assert zed.in_group(group).press_only("front", asked) == OUTSIDE
    assert shop.server.message(group, asked.id) == asked
    assert crew.press("front").text.splitlines()[0] == ANSWER


def test_each_member_has_a_vehicle_of_their_own(shop: Shop, ana: Phone, ben: Phone) -> None:
    group = shop.group(ana, ben)
    one, other = ana.in_group(group), ben.in_group(group)
    one.say("/vehicle 12 ondrel")
    other.say("/vehicle 16 wendla")
    assert "2012 Brackwell Ondrel" in one.say("/ask front bracket bolt torque").text
    assert "2016 Pelbrook Wendla" in other.say("/ask front bracket bolt torque").text
    assert ana.say("front bracket bolt torque").text.startswith("Which vehicle"), "the private chat is another one"


def test_a_stranger_in_the_group_gets_one_line_and_nothing_by_a_code(shop: Shop, ana: Phone) -> None:
    zed = shop.newcomer("Zed")
    crew = zed.in_group(shop.group(ana, zed))
    assert crew.say(ASKED).text == OUTSIDE
    code = shop.code(shop.location("North bay"))
    assert crew.say(f"/start@StandInBot {code}").text == OUTSIDE
    # It was read by everybody there, but the bot did not take it: its owner can still come in.
    assert ana.in_group(crew.chat).say(ASKED).text.startswith(ANSWER)
    assert zed.say(f"/start {code}").text.startswith("You are in: technician")


@pytest.mark.parametrize("command", ["/people", "/invite", "/locations"])
def test_an_owner_is_sent_to_the_private_chat(shop: Shop, command: str) -> None:
    olga = shop.phone("Olga", owner="North bay")
    shown = olga.in_group(shop.group(olga)).say(command)
    assert (shown.text, shown.labels) == ("Do that in a private chat with me.", [])


def test_behind_an_anonymous_administrator_stands_nobody(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana))
    shop.server.say_anonymously(crew.chat, ASKED)
    crew.say(NAMED)
    assert crew.count == 1, "who is nobody is told nothing before a member has written there"
    shop.server.say_anonymously(crew.chat, ASKED)
    assert crew.answer(2).text == NOBODY
    shop.server.say_anonymously(crew.chat, NAMED)
    assert shop.server.say_anonymously(crew.chat, QUESTION).update is None
    hears_and_stays_silent(crew)
    asked = shop.rows("SELECT count(*) FROM answer WHERE chat LIKE :chat", chat=f"%{crew.chat}%")
    assert asked == [(1,)]


def test_behind_a_channel_stands_nobody(shop: Shop, ana: Phone) -> None:
    shop.server.channel(CHANNEL, "Shop news")
    # Posts of channels are not among the kinds of updates that the bot asks for.
    assert shop.server.post(CHANNEL, NAMED).update is None
    assert shop.server.answers(CHANNEL) == []
    # As it comes into the group that the channel is linked with (Bot API, Message: sender_chat).
    crew = ana.in_group(shop.group(ana))
    crew.say(ASKED)
    post = {
        "message_id": 900,
        "date": int(shop.now().timestamp()),
        "chat": {"id": crew.chat, "type": "supergroup", "title": "Bays"},
        "from": {"id": 777000, "is_bot": False, "first_name": "Telegram"},
        "sender_chat": {"id": CHANNEL, "type": "channel", "title": "Shop news"},
        "is_automatic_forward": True,
        "text": NAMED,
        "entities": [{"type": "mention", "offset": 0, "length": 11}],
    }
    shop.server.raw_update("message", post)
    shown = crew.answer(2)
    assert (shown.text, shown.reply_to) == (NOBODY, None)


def test_commands_that_may_be_for_another_bot_are_not_answered(shop: Shop, ana: Phone) -> None:
    zed = shop.newcomer("Zed")
    group = shop.group(ana, zed, privacy=False)
    for who in (ana, zed):
        assert who.in_group(group).write("/deploy now").update is not None
    hears_and_stays_silent(ana.in_group(group))
    assert ana.in_group(group).say("/deploy@StandInBot").text.startswith("I do not know /deploy.")


def test_other_bots_are_not_answered(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana, privacy=False))
    shop.server.person(660, "Other", "OtherBot", is_bot=True)
    shop.server.join(crew.chat, 660)
    assert shop.server.say(crew.chat, NAMED, 660).update is not None
    hears_and_stays_silent(crew)


def test_news_about_the_group_is_no_message(shop: Shop, ana: Phone, ben: Phone) -> None:
    crew = ana.in_group(shop.group(ana))
    shop.server.join(crew.chat, ben.person)
    shop.server.leave(crew.chat, ben.person)
    shop.server.stand(crew.chat, ana.person, "left")
    shop.server.stand(crew.chat, ana.person, "member")
    shop.server.stand(crew.chat, ana.person, "administrator")
    hears_and_stays_silent(crew)


def test_a_group_that_put_the_bot_out_does_not_stop_the_others(shop: Shop, ana: Phone) -> None:
    crew = ana.in_group(shop.group(ana))
    shop.server.limit("sendMessage", retry_after=1, chat=crew.chat)
    crew.write(ASKED)
    shop.log.wait("not sent, tried again", chat=str(crew.chat))
    shop.server.stand(crew.chat, ana.person, "kicked")
    assert ana.say(QUESTION).text.startswith(ANSWER)
    shop.settle()
    assert shop.refusals() == ["sendmessage: Forbidden: bot was kicked from the supergroup chat"]
    assert shop.server.answers(crew.chat) == []


def test_a_group_that_becomes_a_supergroup_gets_what_waited_for_it(shop: Shop, ana: Phone, ben: Phone) -> None:
    small, large = shop.group(ana, ben, supergroup=False), -1_007_001
    crew = ana.in_group(small)
    assert crew.say(ASKED).text.startswith(ANSWER)
    shop.server.limit("sendMessage", retry_after=1, chat=small)
    crew.write("/ask 12 ondrel rear bleeder socket")
    shop.log.wait("not sent, tried again", chat=str(small))
    ben.in_group(small).write(ASKED)
    shop.server.migrate(small, large)
    crew = ana.in_group(large)
    shown = shop.server.wait_for_answer(large, 2, SECONDS)
    assert [one.text.split(" ")[0] for one in crew.shown] == ["11", "50"]
    assert shown.reply_to is None, "what it answers stands in the old chat"
    assert crew.say(ASKED).text.startswith(ANSWER)
    # What was made for the old chat after the news of its move is sent there first, and moved by the refusal.
    assert set(shop.refusals()) <= {f"sendmessage: {MOVED}"}


def test_a_server_that_tells_first_that_the_group_moved(shop: Shop, ana: Phone) -> None:
    """The answer is on its way before the update about it comes."""
    small, large = shop.group(ana, supergroup=False), -1_007_002
    crew = ana.in_group(small)
    shop.server.fail("sendMessage", 400, chat=small, description=MOVED, parameters={"migrate_to_chat_id": large})
    shop.server.fail("sendMessage", 500, chat=large)
    crew.write(ASKED)
    shop.log.wait("not sent, tried again", chat=str(small))
    shop.server.migrate(small, large)
    assert ana.in_group(large).answer(1).text.startswith(ANSWER)
