"""What a phone shows: the value first and bold, nothing that anybody wrote as a mark, buttons that fit a thumb."""

from __future__ import annotations

import re
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st
from telegram.constants import ParseMode

from benchbot.channels.telegram.rendering import html, keyboard, results
from benchbot.desk.pages import length
from benchbot.desk.sheets import Button, Offer, Offers, Sheet
from benchbot.reply.reply import Block, Kind, lines_of

VALUE = (
    Block("condition", "dry, wheels on the ground:", 1),
    Block("value", "50 lb-ft", 1, beside=True),
    Block("converted", "= 68 N·m (converted)", 1, beside=True),
)
SUBJECT = Block("subject", "2018 Brackwell Ondrel, engine 1.6, FRONT caliper bracket bolt, torque", 1)
REST = (
    Block("before", "First: Clean the threads.", 1),
    Block("caution", "Caution: Brake dust is harmful.", 1),
    Block("source", "Source: Brackwell sheet 4 & 5; checked by Ilka on 2026-02-03.", 1),
)
KINDS: tuple[Kind, ...] = (
    "said", "label", "condition", "value", "converted", "subject", "before", "caution", "source", "missing", "question",
    "calculation", "echo", "note",
)  # fmt: skip
LOOKED_FOR = {"condition", "value", "calculation", "question", "missing"}

# What stands in the Bot API's reference (core.telegram.org/bots/api#html-style): these named entities and no others,
# every numeric one, and of the tags those that we use.
PIECE = re.compile(r"<(?P<tag>/?(?:b|i))>|&(?:lt|gt|amp|quot|#\d+|#x[0-9a-f]+);|[^<>&]", re.DOTALL)


def read_strictly(markup: str) -> tuple[str, list[tuple[str, str]]]:
    """(text, marked pieces as (tag, text)) of markup that Telegram takes; fails on any other."""
    text, marked, at = "", [], 0
    opened: tuple[str, int] | None = None
    while at < len(markup):
        piece = PIECE.match(markup, at)
        assert piece, f"refused at {at}: {markup[at : at + 20]!r}"
        tag = piece["tag"]
        if tag is None:
            text += unescape(piece[0]) if piece[0].startswith("&") else piece[0]
        elif tag.startswith("/"):
            assert opened
            assert opened[0] == tag[1:]
            marked.append((opened[0], text[opened[1] :]))
            opened = None
        else:
            assert opened is None
            opened = (tag, len(text))
        at = piece.end()
    assert opened is None
    return text, marked


def test_an_answer_on_a_phone() -> None:
    assert html(Sheet((*VALUE, SUBJECT, *REST))) == (
        "<b>dry, wheels on the ground:</b> <b>50 lb-ft</b> = 68 N·m (converted)\n"
        "2018 Brackwell Ondrel, engine 1.6, FRONT caliper bracket bolt, torque\n"
        "\n"
        "<i>First: Clean the threads.</i>\n"
        "Caution: Brake dust is harmful.\n"
        "<i>Source: Brackwell sheet 4 &amp; 5; checked by Ilka on 2026-02-03.</i>"
    )


def test_the_value_is_the_first_thing() -> None:
    shown = html(Sheet((Block("value", "50 lb-ft", 1), VALUE[2], SUBJECT)))
    assert shown.startswith("<b>50 lb-ft</b> = 68 N·m (converted)\n2018 Brackwell")


def test_parts_stand_apart() -> None:
    blocks = (
        Block("label", "FRONT:", 1), Block("value", "5 mm", 1, True), Block("source", "Source: one.", 1),
        Block("label", "REAR:", 2), Block("value", "6 mm", 2, True), Block("source", "Source: two.", 2),
        Block("missing", "Not in our book: a thing."), Block("missing", "Logged as no. 4."),
        Block("note", "The maker first."),
    )  # fmt: skip
    assert html(Sheet(blocks)) == (
        "FRONT: <b>5 mm</b>\n<i>Source: one.</i>\n\nREAR: <b>6 mm</b>\n<i>Source: two.</i>\n\n"
        "<b>Not in our book: a thing.</b>\n<b>Logged as no. 4.</b>\nThe maker first."
    )


def test_a_question_with_its_subject() -> None:
    blocks = (Block("question", "Which engine?"), Block("subject", "2018 Brackwell Ondrel"))
    assert html(Sheet(blocks)) == "<b>Which engine?</b>\n2018 Brackwell Ondrel"
    more = (*blocks, Block("note", "The maker first."))
    assert html(Sheet(more)).endswith("2018 Brackwell Ondrel\n\nThe maker first.")


def test_what_was_written_is_never_a_mark() -> None:
    text = """<b>5</b> & "6" <a href='x'>&lt;"""
    shown = html(Sheet((Block("note", text), Block("value", text))))
    assert read_strictly(shown) == (f"{text}\n{text}", [("b", text)])


def test_nothing_to_show() -> None:
    assert html(Sheet(())) == ""
    assert html(Sheet((Block("value", " "),))) == " "


BLOCKS = st.lists(
    st.builds(
        Block,
        st.sampled_from(KINDS),
        st.one_of(st.text(), st.text("<>&\"'/bi#;xlt \n", max_size=30)),
        st.integers(0, 2),
        st.booleans(),
    ),
    max_size=8,
)


@given(blocks=BLOCKS)
def test_any_text_is_shown_as_it_is(blocks: list[Block]) -> None:
    text, marked = read_strictly(html(Sheet(tuple(blocks))))
    # Only empty lines are ours.
    assert written(text) == written("\n".join(lines_of(blocks)))
    assert len(text.encode("utf-16-le")) // 2 == length(blocks)
    bold = [block.text for block in blocks if block.kind in LOOKED_FOR and block.text.strip()]
    assert [one for tag, one in marked if tag == "b"] == bold


def written(text: str) -> list[str]:
    return [line for line in text.split("\n") if line]


def rows(*buttons: Button, card: int | None = 12) -> list[list[str]]:
    made = keyboard(Sheet((), buttons), card)
    assert made is not None
    return [[button.text for button in row] for row in made.inline_keyboard]


def test_no_buttons_no_keyboard() -> None:
    assert keyboard(Sheet((Block("note", "Bye."),)), 12) is None


def test_short_buttons_go_in_pairs() -> None:
    four = [Button(label, f"c{n}") for n, label in enumerate(("1.6", "2.0", "2.0T", "diesel"))]
    assert rows(*four) == [["1.6", "2.0"], ["2.0T", "diesel"]]
    assert rows(*four[:3]) == [["1.6", "2.0"], ["2.0T"]]


def test_a_wide_or_long_button_stands_alone() -> None:
    short, other = Button("18 letters, no more", "a"), Button("Rear", "b")
    assert len(short.label) == 19
    assert rows(other, short, other) == [["Rear"], ["18 letters, no more"], ["Rear"]]
    assert rows(Button("18 letters exactly", "a"), other) == [["18 letters exactly", "Rear"]]
    assert rows(other, Button("Done", "d", wide=True), other, other) == [["Rear"], ["Done"], ["Rear", "Rear"]]


def test_a_press_comes_back_with_its_card() -> None:
    for card, data in ((12, "12:c1.2"), (None, "0:c1.2")):
        made = keyboard(Sheet((), (Button("2.0", "c1.2"),)), card)
        assert made is not None
        assert made.inline_keyboard[0][0].callback_data == data


def test_a_code_that_telegram_would_refuse_is_our_fault() -> None:
    # 64 bytes: the Bot API's reference, InlineKeyboardButton.callback_data.
    assert rows(Button("2.0", "c" * 61))
    for code in ("c" * 62, "é" * 31):
        with pytest.raises(ValueError, match=re.escape(repr(code))):
            rows(Button("2.0", code))


def test_a_long_label_loses_its_middle() -> None:
    label = "2018 Brackwell Ondrel Estate, engine 1.6, drive AWD, built up to 2018-05"
    [[shown]] = rows(Button(label, "a"))
    assert shown == "2018 Brackwell Ondrel Estate,…rive AWD, built up to 2018-05"
    assert len(shown) <= 60
    assert rows(Button("x" * 60, "a")) == [["x" * 60]]


def test_labels_that_would_read_alike_stay_whole() -> None:
    start, end = "2018 Brackwell Ondrel Estate, brakes ", ", drive AWD, built up to 2018-05"
    one, two = f"{start}320 mm{end}", f"{start}345 mm{end}"
    other = f"Another label that is long enough to be cut {end}"
    shown = [row[0] for row in rows(Button(one, "a"), Button(two, "b"), Button(other, "c"))]
    assert shown[:2] == [one, two]
    assert len(shown[2]) <= 60


@given(st.lists(st.text(min_size=1, max_size=90), unique=True, max_size=12))
def test_labels_that_differ_are_shown_different(labels: list[str]) -> None:
    if labels:
        shown = [label for row in rows(*(Button(label, f"c{n}") for n, label in enumerate(labels))) for label in row]
        assert len(set(shown)) == len(labels)


def test_the_results_of_an_inline_query() -> None:
    sheet = Sheet((*VALUE, SUBJECT), (Button("How read", "why"),))
    made = results(
        Offers("991", (Offer("50 lb-ft", "Brackwell Ondrel", sheet, "1"), Offer("50 lb-ft", "", Sheet(VALUE), "2")))
    )
    assert [one.id for one in made] == ["1", "2"]
    assert [(one.title, one.description) for one in made] == [("50 lb-ft", "Brackwell Ondrel"), ("50 lb-ft", None)]
    content = made[0].input_message_content.to_dict()
    assert (content["message_text"], content["parse_mode"]) == (html(sheet), ParseMode.HTML)
    assert content["link_preview_options"] == {"is_disabled": True}
    assert made[0].reply_markup is not None
    assert made[0].reply_markup.inline_keyboard[0][0].callback_data == "0:why"
    assert made[1].reply_markup is None
    assert results(Offers("991")) == []


def test_an_offer_that_is_no_single_message_is_our_fault() -> None:
    with pytest.raises(ValueError, match="“All of it” is 5000 long"):
        results(Offers("991", (Offer("All of it", "", Sheet((Block("note", "x" * 5000),)), "1"),)))
