"""An answer is one message: whole parts are left out and named, and no value parts from its unit or its cautions."""

from __future__ import annotations

import pytest
from bay import BOT, Bay, Message, Phone
from hypothesis import given
from hypothesis import strategies as st

from benchbot.desk.asker import Asker
from benchbot.desk.handling import Handling
from benchbot.desk.incoming import Incoming
from benchbot.desk.one_message import answer_in_one, in_one
from benchbot.desk.pages import length
from benchbot.desk.sheets import CAPTION_AT_MOST, SHOWN_AT_MOST, Button, Parcel, Sheet
from benchbot.desk.wording import ENGLISH, counted
from benchbot.people.terms import Location
from benchbot.records import outbox
from benchbot.reply.reply import Block

# Each of the eleven bolts and figures is a part of the answer; only "More" makes it too long for one message.
LONG = (
    "12 ondrel front rotor min, machine to, runout, thickness variation, nominal thickness, bracket bolt torque, "
    "slide pin bolt torque, banjo bolt torque, pad min, axle nut torque, strut to knuckle bolt torque, "
    "strut mount nut torque, lower control arm bolt torque, lug nut torque"
)
MORE_LEFT_OUT = "parts are left out, as one message holds no more. Ask for each by itself:"


@pytest.fixture
def north(bay: Bay) -> Location:
    return bay.location("North")


@pytest.fixture
def phone(bay: Bay, north: Location) -> Phone:
    return bay.phone("Ana", technician=north)


def size(shown: Message) -> int:
    return length(shown.sheet.blocks)


def values(shown: Message) -> list[str]:
    """The first line of each value with what it is of."""
    return [line for line in shown.text.splitlines() if line.startswith("FRONT") and "checked" not in line]


def test_a_view_too_long_is_cut_at_a_whole_part_and_stays_one_message(phone: Phone) -> None:
    shown = phone.say(LONG)
    main = shown.text
    assert 3800 < size(shown) <= SHOWN_AT_MOST and MORE_LEFT_OUT not in main
    for _ in range(3):
        phone.press("More")
        assert size(shown) <= SHOWN_AT_MOST and len(phone.shown) == 1
        assert MORE_LEFT_OUT in shown.text
        assert "FRONT caliper bracket bolt, torque: row D0001, revision 1" in shown.text
        phone.press("Less")
        assert (shown.text, len(phone.shown)) == (main, 1)


def test_the_parts_left_out_are_counted_and_named_and_nothing_of_them_is_shown(phone: Phone) -> None:
    shown = phone.say(LONG)
    whole = shown.sheet.blocks
    last = max(block.part for block in whole)
    phone.press("More")
    lines = shown.text.splitlines()
    at = next(number for number, line in enumerate(lines) if line.endswith(MORE_LEFT_OUT))
    count, names = int(lines[at].split()[0]), lines[at + 1].split("; ")
    kept = {block.part for block in shown.sheet.blocks} - {0}
    assert kept == set(range(1, last - count + 1)) and len(names) == count > 1
    assert [block for block in shown.sheet.blocks if block.part] == [
        block for block in whole if 0 < block.part <= max(kept)
    ]
    assert not any(line.startswith(f"{name}, ") for name in names for line in lines)
    for name in names:
        assert "Not right?" in phone.say(f"12 ondrel {name} torque").labels or "pad" in name


def test_how_it_was_read_is_cut_in_the_same_way(phone: Phone) -> None:
    shown = phone.say(LONG)
    phone.press("How I read that")
    assert size(shown) <= SHOWN_AT_MOST and MORE_LEFT_OUT in shown.text
    assert "Asked: front, wheel nut, torque." in shown.text
    assert len(phone.shown) == 1


def test_the_mark_of_a_doubted_answer_is_never_left_out(phone: Phone) -> None:
    shown = phone.say(LONG)
    phone.press("Not right?")
    phone.press("More", on=shown)
    assert "You marked this as not right." in shown.text and size(shown) <= SHOWN_AT_MOST


def test_in_spanish(bay: Bay) -> None:
    ana = bay.phone("Ana", technician=bay.location("Sur", "es"))
    shown = ana.say(LONG)
    ana.press("Más", on=shown)
    assert "piezas, porque en un mensaje no cabe más. Pregunte por cada una sola:" in shown.text
    assert size(shown) <= SHOWN_AT_MOST and len(ana.shown) == 1


PART = st.tuples(st.integers(1, 3), st.integers(0, 3), st.integers(1, 60))
FOOT = (Block("before", "You marked this."), Block("note", "The maker comes first."))


def blocks_of(part: int, made: tuple[int, int, int]) -> list[Block]:
    figures, cautions, wide = made
    blocks = []
    for figure in range(figures):
        blocks += [Block("label", f"bolt {part}.{figure}:", part), Block("value", f"{part}0 lb-ft", part, beside=True)]
    blocks.append(Block("subject", "2012 Brackwell Ondrel", part))
    return [*blocks, *(Block("caution", f"Caution: {part}.{number} {'x' * wide}", part) for number in range(cautions))]


@given(st.lists(PART, min_size=1, max_size=7), st.lists(st.integers(0, 7), max_size=9), st.integers(180, 900))
def test_a_part_is_shown_whole_or_not_at_all(made: list[tuple[int, int, int]], about: list[int], most: int) -> None:
    parts = {part: blocks_of(part, one) for part, one in enumerate(made, 1)}
    names = [f"bolt {part}" for part in parts]
    further = [(min(part, len(made)), Block("note", f"row {number}")) for number, part in enumerate(about)]
    whole = tuple(block for blocks in parts.values() for block in blocks)
    shown = answer_in_one(whole, further, FOOT, names, ENGLISH, most)
    assert length(shown) <= most
    assert shown[-2:] == FOOT
    kept = [part for part in parts if any(block.part == part for block in shown)]
    assert [block for block in shown if block.part] == [block for part in kept for block in parts[part]]
    assert kept == list(range(1, len(kept) + 1))
    told = [block.text for block in shown if block.kind == "missing"]
    if not kept:
        assert told == [ENGLISH.left_out_whole]
    elif len(kept) < len(parts):
        assert told[0] == counted(len(parts) - len(kept), ENGLISH.left_out_one, ENGLISH.left_out_many)
        assert Block("echo", "; ".join(names[len(kept) :])) in shown
    rows = [block for part, block in further if part <= max(len(kept), 1)]
    if told[-1:] not in ([ENGLISH.left_out_rest], [ENGLISH.left_out_whole]):
        assert [block for block in shown if block.text.startswith("row ")] == rows
    if length((*whole, *(block for _, block in further), *FOOT)) <= most:
        assert told == []


def test_names_of_many_parts_do_not_take_the_room_of_the_answer() -> None:
    names = [f"bolt {part}" for part in range(1, 31)]
    whole = tuple(Block("value", f"{part} mm {'x' * 90}", part) for part in range(1, 31))
    shown = answer_in_one(whole, (), (), names, ENGLISH, 600)
    assert shown[-1] == Block("echo", "bolt 5; bolt 6; bolt 7; bolt 8; bolt 9; bolt 10; bolt 11; bolt 12; …")
    assert shown[-2].text.startswith("26 parts are left out")


def test_whatever_else_is_too_long_ends_with_a_line_that_says_so() -> None:
    button = (Button("Back", "l"),)
    fits = Sheet((Block("note", "x" * SHOWN_AT_MOST),), button)
    assert in_one(fits, ENGLISH) == fits
    lines = tuple(Block("note", f"{number} {'x' * 300}") for number in range(40))
    cut = in_one(Sheet(lines, button), ENGLISH)
    assert length(cut.blocks) <= SHOWN_AT_MOST and cut.buttons == button
    assert cut.blocks == (*lines[: len(cut.blocks) - 1], Block("missing", ENGLISH.left_out_rest))
    assert len(cut.blocks) == 14


def handled(bay: Bay, owner: Phone) -> Handling:
    incoming = Incoming(BOT.number, 1, "press", owner.chat, True, owner.person, owner.name, bay.clock())
    return Handling(BOT, bay.record, incoming, bay.clock(), Asker.of(owner.person, owner.name, bay.people))


def sent(bay: Bay) -> list[Parcel]:
    found: list[Parcel] = []
    while claimed := outbox.claim(bay.record, BOT.number, (), bay.clock(), 50):
        for one in claimed:
            found.append(Parcel.from_text(one.body))
            outbox.sent(bay.record, one.number, "7", bay.clock())
    return found


LINES = tuple(Block("note", f"{number} {'🔧' * 100}") for number in range(24))
REVOKE = (Button("Revoke", "iv.1.1"),)


def test_what_a_caption_has_no_room_for_follows_as_a_message(bay: Bay, north: Location) -> None:
    # Bot API, sendPhoto, caption: "0-1024 characters after entities parsing", counted in UTF-16 units.
    handling = handled(bay, bay.phone("Olga", owner=north))
    handling.picture(Sheet(LINES, REVOKE), handling.card("page", {"picture": True}), "link", "title")
    picture, *rest = sent(bay)
    assert (picture.do, picture.sheet.buttons, picture.code, picture.title) == ("picture", REVOKE, "link", "title")
    assert picture.card is not None
    assert [(one.do, one.sheet.buttons, one.card) for one in rest] == [("post", (), None)] * len(rest)
    assert all(length(one.sheet.blocks) <= CAPTION_AT_MOST for one in (picture, *rest))
    assert tuple(block for one in (picture, *rest) for block in one.sheet.blocks) == LINES


def test_a_changed_caption_is_cut(bay: Bay, north: Location) -> None:
    handling = handled(bay, bay.phone("Olga", owner=north))
    card = handling.card("page", {"picture": True})
    handling.change(Sheet(LINES, REVOKE), card, "7", picture=True)
    handling.change(Sheet(LINES, REVOKE), card, "7")
    caption, text = sent(bay)
    assert (caption.do, text.do) == ("caption", "change")
    assert length(caption.sheet.blocks) <= CAPTION_AT_MOST < length(text.sheet.blocks) <= SHOWN_AT_MOST
    assert caption.sheet.blocks[-1].text == text.sheet.blocks[-1].text == ENGLISH.left_out_rest
    assert caption.sheet.buttons == text.sheet.buttons == REVOKE
