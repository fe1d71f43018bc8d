"""What the stand-in refuses of changes, answers to presses and inline queries, and menus.

Limits are those of https://core.telegram.org/bots/api; the wording of refusals is a value from memory.
"""

from __future__ import annotations

import pytest
from telegram import (
    BotCommand,
    BotCommandScope,
    BotCommandScopeAllGroupChats,
    BotCommandScopeChat,
    BotCommandScopeChatMember,
    ForceReply,
    InlineQueryResultArticle,
    InlineQueryResultsButton,
    InputTextMessageContent,
)

from .media import PIXEL
from .rig import ANN, BOB, SHOP, Rig, bad, keyboard

NOT_MODIFIED = (
    "message is not modified: specified new message content and reply markup are exactly the same as a current "
    "content and reply markup of the message"
)
OLD = "query is too old and response timeout expired or query ID is invalid"


def test_a_text_and_its_buttons_are_changed(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_message(ANN, "one", reply_markup=keyboard([("a", "1:a")]))).message_id
    rig.run(rig.bot.edit_message_text("two", ANN, sent))
    shown = rig.server.last(ANN)
    assert (shown.text, shown.buttons, shown.edits, shown.earlier) == ("two", (), 1, ("one",))
    changed = rig.run(rig.bot.edit_message_reply_markup(ANN, sent, reply_markup=keyboard([("b", "1:b")])))
    assert changed.edit_date is not None
    shown = rig.server.last(ANN)
    assert (shown.text, shown.data("b"), shown.edits, shown.earlier) == ("two", "1:b", 2, ("one",))


def test_a_change_that_changes_nothing_is_refused(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_message(ANN, "one", reply_markup=keyboard([("a", "1:a")]))).message_id
    same = rig.bot.edit_message_text("<b></b>one", ANN, sent, parse_mode="HTML", reply_markup=keyboard([("a", "1:a")]))
    assert rig.refusal(same) == bad(NOT_MODIFIED)
    assert rig.refusal(rig.bot.edit_message_reply_markup(ANN, sent, reply_markup=keyboard([("a", "1:a")]))) == bad(
        NOT_MODIFIED
    )
    bold = rig.bot.edit_message_text("<b>one</b>", ANN, sent, parse_mode="HTML", reply_markup=keyboard([("a", "1:a")]))
    assert rig.run(bold).text == "one"


def test_only_a_message_that_is_there_can_be_changed(rig: Rig) -> None:
    assert rig.refusal(rig.bot.edit_message_text("x", ANN, 777)) == bad("message to edit not found")
    sent = rig.run(rig.bot.send_message(ANN, "one")).message_id
    assert rig.refusal(rig.bot.edit_message_text("x", BOB, sent)) == bad("message to edit not found")
    rig.run(rig.bot.delete_message(ANN, sent))
    assert rig.refusal(rig.bot.edit_message_text("x", ANN, sent)) == bad("message to edit not found")
    assert rig.server.answers(ANN) == []
    assert rig.server.message(ANN, sent).deleted


def test_only_the_bots_own_messages_can_be_changed(rig: Rig) -> None:
    said = rig.server.say(ANN, "torque?").message
    assert rig.refusal(rig.bot.edit_message_text("x", ANN, said)) == bad("message can't be edited")
    forced = rig.run(rig.bot.send_message(ANN, "Value?", reply_markup=ForceReply())).message_id
    assert rig.refusal(rig.bot.edit_message_text("x", ANN, forced)) == bad("message can't be edited")


def test_a_change_is_checked_like_a_message(rig: Rig) -> None:
    sent = rig.run(rig.bot.send_message(ANN, "one")).message_id
    assert rig.refusal(rig.bot.edit_message_text(" ", ANN, sent)) == bad("message text is empty")
    assert rig.refusal(rig.bot.edit_message_text("x" * 4097, ANN, sent)) == bad("message is too long")
    refused = rig.refusal(rig.bot.edit_message_text("x", ANN, sent, reply_markup=keyboard([("x", "y" * 65)])))
    assert refused == bad("BUTTON_DATA_INVALID")
    forced = {"reply_markup": '{"force_reply": true}'}
    assert rig.refusal(rig.bot.edit_message_text("x", ANN, sent, api_kwargs=forced)) == bad("inline keyboard expected")
    assert rig.server.last(ANN).edits == 0


def test_a_caption_is_no_text_and_a_text_no_caption(rig: Rig) -> None:
    text = rig.run(rig.bot.send_message(ANN, "one")).message_id
    photo = rig.run(rig.bot.send_photo(ANN, PIXEL, caption="one")).message_id
    refused = rig.refusal(rig.bot.edit_message_text("x", ANN, photo))
    assert refused == bad("there is no text in the message to edit")
    refused = rig.refusal(rig.bot.edit_message_caption(ANN, text, caption="x"))
    assert refused == bad("there is no caption in the message to edit")
    rig.run(rig.bot.edit_message_caption(ANN, photo, caption="two"))
    assert (rig.server.last(ANN).text, rig.server.last(ANN).photo) == ("two", PIXEL)


def test_deleting_needs_a_message_that_may_be_deleted(rig: Rig) -> None:
    assert rig.refusal(rig.bot.delete_message(ANN, 777)) == bad("message to delete not found")
    said = rig.server.say(SHOP, "torque?", BOB).message
    assert rig.refusal(rig.bot.delete_message(SHOP, said)) == bad("message can't be deleted")
    sent = rig.run(rig.bot.send_message(SHOP, "one"))
    rig.server.settings(clock=int(sent.date.timestamp()) + 48 * 3600 + 1)
    assert rig.refusal(rig.bot.delete_message(SHOP, sent.message_id)) == bad("message can't be deleted")


# Presses


def pressed(rig: Rig) -> str:
    sent = rig.run(rig.bot.send_message(ANN, "one", reply_markup=keyboard([("a", "1:a")]))).message_id
    return rig.server.press(ANN, sent, "a").query


def test_a_press_is_answered_with_a_notice(rig: Rig) -> None:
    query = pressed(rig)
    assert rig.run(rig.bot.answer_callback_query(query, "Sent", show_alert=True))
    notice = rig.server.wait_for_notice(query)
    assert (notice.text, notice.alert, notice.person) == ("Sent", True, ANN)


def test_a_press_that_is_unknown_cannot_be_answered(rig: Rig) -> None:
    assert rig.refusal(rig.bot.answer_callback_query("77")) == bad(OLD)
    assert rig.refusal(rig.bot.answer_callback_query(rig.server.inline(ANN).query)) == bad(OLD)


def test_a_press_that_is_old_cannot_be_answered(rig: Rig) -> None:
    query = pressed(rig)
    rig.server.expire_queries()
    assert rig.refusal(rig.bot.answer_callback_query(query)) == bad(OLD)
    rig.server.settings(query_seconds=0)
    assert rig.refusal(rig.bot.answer_callback_query(pressed(rig))) == bad(OLD)


def test_a_notice_may_have_200_characters(rig: Rig) -> None:
    query = pressed(rig)
    assert rig.refusal(rig.bot.answer_callback_query(query, "x" * 201)) == bad("MESSAGE_TOO_LONG")
    rig.run(rig.bot.answer_callback_query(query, "x" * 200))


# Inline queries


def article(number: str = "1", title: str = "Bolt", text: str = "<b>100 N·m</b>") -> InlineQueryResultArticle:
    return InlineQueryResultArticle(number, title, InputTextMessageContent(text, "HTML"), description="front")


def test_an_inline_query_is_answered_and_a_result_chosen(rig: Rig) -> None:
    query = rig.server.inline(ANN, "bolt").query
    assert rig.one().inline_query.query == "bolt"
    button = InlineQueryResultsButton("Open the chat", start_parameter="open")
    rig.run(rig.bot.answer_inline_query(query, [article()], cache_time=0, is_personal=True, button=button))
    answer = rig.server.wait_for_inline(query)
    assert [(one.title, one.text) for one in answer.results] == [("Bolt", "100 N·m")]
    assert (answer.cache_time, answer.personal, answer.button) == (
        0,
        True,
        {"text": "Open the chat", "start_parameter": "open"},
    )
    rig.server.choose(query, "1", SHOP)
    chosen, sent = rig.updates()
    assert (chosen.chosen_inline_result.result_id, chosen.chosen_inline_result.query) == ("1", "bolt")
    assert (sent.message.via_bot.username, sent.message.text) == ("StandInBot", "100 N·m")
    assert rig.refusal(rig.bot.answer_inline_query(query, [article()])) == bad(OLD)


def test_a_message_chosen_inline_has_an_id_of_its_own(rig: Rig) -> None:
    query = rig.server.inline(ANN, "bolt").query
    result = InlineQueryResultArticle("1", "Bolt", InputTextMessageContent("one"), keyboard([("a", "1:a")]))
    rig.run(rig.bot.answer_inline_query(query, [result]))
    rig.updates()
    message = rig.server.choose(query, "1", SHOP).message
    rig.server.press(SHOP, message, "a", person=BOB)
    press = rig.updates()[-1].callback_query
    assert press.message is None
    assert rig.run(rig.bot.edit_message_text("two", inline_message_id=press.inline_message_id))
    assert rig.server.message(SHOP, message).text == "two"
    refused = rig.refusal(rig.bot.edit_message_text("two", inline_message_id="inline77"))
    assert refused == bad("MESSAGE_ID_INVALID")


@pytest.mark.parametrize(
    ("results", "fault"),
    [
        ([article(str(n)) for n in range(51)], "RESULTS_TOO_MUCH"),
        ([article("x" * 65)], "RESULT_ID_INVALID"),
        ([article("")], "RESULT_ID_INVALID"),
        ([article(), article()], "RESULT_ID_DUPLICATE"),
        ([article(title=" ")], "ARTICLE_TITLE_EMPTY"),
        ([article(text=" ")], "message text is empty"),
        ([article(text="<b>")], "can't parse entities: Can't find end tag corresponding to start tag \"b\""),
    ],
)
def test_inline_results_with_a_fault_are_refused(rig: Rig, results: list[InlineQueryResultArticle], fault: str) -> None:
    query = rig.server.inline(ANN).query
    assert rig.refusal(rig.bot.answer_inline_query(query, results)) == bad(fault)
    rig.run(rig.bot.answer_inline_query(query, [article(str(n)) for n in range(50)]))


@pytest.mark.parametrize(
    ("button", "fault"),
    [
        (InlineQueryResultsButton(" ", start_parameter="x"), "inline query results button text must be non-empty"),
        (
            InlineQueryResultsButton("x"),
            "inline query results button must have exactly one of web_app and start_parameter",
        ),
        (InlineQueryResultsButton("x", start_parameter="two words"), "START_PARAM_INVALID"),
        (InlineQueryResultsButton("x", start_parameter="x" * 65), "START_PARAM_INVALID"),
    ],
)
def test_an_inline_button_with_a_fault_is_refused(rig: Rig, button: InlineQueryResultsButton, fault: str) -> None:
    query = rig.server.inline(ANN).query
    assert rig.refusal(rig.bot.answer_inline_query(query, [], button=button)) == bad(fault)


def test_an_inline_query_that_is_old_cannot_be_answered(rig: Rig) -> None:
    query = rig.server.inline(ANN).query
    rig.server.expire_queries()
    assert rig.refusal(rig.bot.answer_inline_query(query, [])) == bad(OLD)
    refused = rig.refusal(rig.bot.answer_inline_query(rig.server.inline(ANN).query, [], next_offset="ü" * 33))
    assert refused == bad("NEXT_OFFSET_INVALID")


# Menus


def test_menus_are_kept_by_scope_and_language(rig: Rig) -> None:
    async def set_all() -> None:
        await rig.bot.set_my_commands([("help", "What I can do")])
        await rig.bot.set_my_commands([("hilfe", "Was ich kann")], language_code="de")
        await rig.bot.set_my_commands([("gaps", "Open gaps")], scope=BotCommandScopeChat(ANN))
        await rig.bot.set_my_commands([("lift", "Which lift")], scope=BotCommandScopeChatMember(SHOP, BOB))

    rig.run(set_all())
    found = {(one.scope, one.chat, one.person, one.language): one.commands for one in rig.server.menus()}
    assert found == {
        ("default", 0, 0, ""): (("help", "What I can do"),),
        ("default", 0, 0, "de"): (("hilfe", "Was ich kann"),),
        ("chat", ANN, 0, ""): (("gaps", "Open gaps"),),
        ("chat_member", SHOP, BOB, ""): (("lift", "Which lift"),),
    }
    assert rig.run(rig.bot.get_my_commands(scope=BotCommandScopeChat(ANN))) == (BotCommand("gaps", "Open gaps"),)
    assert rig.run(rig.bot.get_my_commands(scope=BotCommandScopeAllGroupChats())) == ()
    rig.run(rig.bot.delete_my_commands(scope=BotCommandScopeChat(ANN)))
    assert rig.run(rig.bot.get_my_commands(scope=BotCommandScopeChat(ANN))) == ()


@pytest.mark.parametrize(
    ("commands", "fault"),
    [
        ([], "BOT_COMMANDS_EMPTY"),
        ([(f"c{n}", "x") for n in range(101)], "BOT_COMMANDS_TOO_MUCH"),
        ([("Help", "x")], "BOT_COMMAND_INVALID"),
        ([("h" * 33, "x")], "BOT_COMMAND_INVALID"),
        ([("hélp", "x")], "BOT_COMMAND_INVALID"),
        ([("help", " ")], "BOT_COMMAND_DESCRIPTION_INVALID"),
        ([("help", "x" * 257)], "BOT_COMMAND_DESCRIPTION_INVALID"),
        ([("help", "x"), ("help", "y")], "BOT_COMMAND_DUPLICATE"),
    ],
)
def test_commands_with_a_fault_are_refused(rig: Rig, commands: list[tuple[str, str]], fault: str) -> None:
    assert rig.refusal(rig.bot.set_my_commands(commands)) == bad(fault)
    assert rig.server.menus() == []
    rig.run(rig.bot.set_my_commands([(f"{'c' * 30}{n:02}", "x" * 256) for n in range(100)]))


@pytest.mark.parametrize(
    ("scope", "fault"),
    [
        (BotCommandScopeChat(999), "chat not found"),
        (BotCommandScopeChatMember(SHOP, 999), "user not found"),
        (BotCommandScope("everywhere"), "can't parse BotCommandScope: Unsupported type specified"),
    ],
)
def test_a_scope_has_to_be_known(rig: Rig, scope: BotCommandScope, fault: str) -> None:
    assert rig.refusal(rig.bot.set_my_commands([("help", "x")], scope=scope)) == bad(fault)
