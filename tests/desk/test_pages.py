"""A sheet too long for one message becomes several, all of it in order, and no value parts from what it is for."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchbot.desk.pages import laid_out, length, pages
from benchbot.desk.sheets import SHOWN_AT_MOST, Button, Sheet
from benchbot.reply.reply import Block, Kind

BUTTONS = (Button("How read", "why"), Button("Not right", "wrong"))
KINDS: tuple[Kind, ...] = (
    "said", "label", "condition", "value", "converted", "subject", "before", "caution", "source", "missing", "question",
    "calculation", "echo", "note",
)  # fmt: skip
TEXTS = st.text("abc 🔧\n.", min_size=1, max_size=25)


def answer(part: int, caution: str = "Caution: dust.") -> tuple[Block, ...]:
    """What is shown of one bolt, as a reply has it."""
    return (
        Block("label", "FRONT:", part),
        Block("condition", "dry:", part, beside=True),
        Block("value", f"{part}0 lb-ft", part, beside=True),
        Block("converted", "= 68 N·m (converted)", part, beside=True),
        Block("subject", "2018 Brackwell Ondrel, caliper bracket bolt", part),
        Block("before", "All stages belong together, in this order.", part),
        Block("before", "First: Clean the threads.", part),
        Block("caution", caution, part),
        Block("source", "Source: Brackwell sheet 4; checked by Ilka on 2026-02-03.", part),
    )


def blocks_of(made: list[Sheet]) -> list[Block]:
    return [block for page in made for block in page.blocks]


def test_what_fits_is_left_as_it_is() -> None:
    sheet = Sheet(answer(1), BUTTONS)
    assert pages(sheet) == [sheet]
    assert pages(Sheet(())) == [Sheet(())]
    full = Sheet((Block("note", "x" * SHOWN_AT_MOST),))
    assert pages(full) == [full]


def test_it_is_counted_as_messengers_count() -> None:
    # "Maximum length ... in UTF-16 code units": how Telegram counts text and entities, core.telegram.org/api/entities.
    half = Block("note", "🔧" * (SHOWN_AT_MOST // 2))
    assert length((half,)) == SHOWN_AT_MOST
    assert len(pages(Sheet((half,)))) == 1
    assert len(pages(Sheet((half, Block("note", "x"))))) == 2
    assert length((Block("label", "a"), Block("value", "b", beside=True), Block("subject", "c"))) == len("a b\nc")
    assert length((Block("subject", "c"), Block("note", "d"))) == len("c\n\nd")


def test_lines_stand_apart_below_a_subject_and_between_parts() -> None:
    blocks = (*answer(1)[2:6], *answer(2)[:4], Block("missing", "Not in our book: a thing."))
    assert [" ".join(block.text for block in line) for line in laid_out(blocks)] == [
        "10 lb-ft = 68 N·m (converted)",
        "2018 Brackwell Ondrel, caliper bracket bolt",
        "",
        "All stages belong together, in this order.",
        "",
        "FRONT: dry: 20 lb-ft = 68 N·m (converted)",
        "",
        "Not in our book: a thing.",
    ]


def test_it_is_cut_between_parts_and_the_buttons_come_last() -> None:
    parts = [answer(part) for part in range(1, 6)]
    sheet = Sheet(tuple(block for part in parts for block in part), BUTTONS)
    most = length((*parts[0], *parts[1]))
    made = pages(sheet, most)
    assert [{block.part for block in page.blocks} for page in made] == [{1, 2}, {3, 4}, {5}]
    assert blocks_of(made) == list(sheet.blocks)
    assert [page.buttons for page in made] == [(), (), BUTTONS]


def test_a_long_part_is_cut_below_what_belongs_to_the_value() -> None:
    long = answer(1, "Caution: " + "hot " * 900)
    first, second = pages(Sheet((*long, Block("caution", "x" * 900, 1))))
    assert first.blocks == long
    assert second.blocks == (Block("caution", "x" * 900, 1),)
    most = length(long[:7])
    assert pages(Sheet(long[:7] + long[8:]), most)[0].blocks == long[:7]


def test_several_values_of_one_vehicle_stay_with_it() -> None:
    values = [Block("value", f"{number} mm", 1) for number in range(12)]
    subject, source = answer(1)[4], answer(1)[8]
    sheet = Sheet((*values, subject, source))
    made = pages(sheet, length((*values, subject)))
    assert [page.blocks for page in made] == [(*values, subject), (source,)]


def test_values_without_a_part_stay_with_their_own_subject() -> None:
    pairs = [(Block("value", f"{number} mm"), Block("subject", f"bolt {number}")) for number in range(4)]
    made = pages(Sheet(tuple(block for pair in pairs for block in pair)), 2 * len("0 mm\nbolt 0") + 2)
    assert [page.blocks for page in made] == [(*pairs[0], *pairs[1]), (*pairs[2], *pairs[3])]
    assert [page.blocks for page in pages(Sheet((*pairs[0], *pairs[1])), 13)] == list(pairs[:2])


def test_lines_are_not_cut_while_they_fit() -> None:
    line = answer(1)[:4]
    made = pages(Sheet((*line, *answer(1)[4:7])), length(line) + 5)
    assert made[0].blocks == line


def test_one_block_too_long_is_torn_at_a_blank() -> None:
    text = "Tighten in three stages. " * 400
    made = pages(Sheet((Block("note", "Before."), Block("caution", text, 3, beside=True), Block("note", "After."))))
    pieces = [block for block in blocks_of(made) if block.kind == "caution"]
    assert "".join(piece.text for piece in pieces) == text
    assert all(piece.text.endswith(" ") for piece in pieces)
    assert [piece.beside for piece in pieces] == [True, False, False]
    assert {piece.part for piece in pieces} == {3}
    assert all(length(page.blocks) <= SHOWN_AT_MOST for page in made)


def test_a_text_without_blanks_is_torn_between_characters() -> None:
    text = "x" + "🔧" * 5000
    made = pages(Sheet((Block("note", text),)))
    assert "".join(block.text for block in blocks_of(made)) == text
    assert [length(page.blocks) for page in made] == [4095, 4096, 1810]


ANY_BLOCKS = st.lists(st.builds(Block, st.sampled_from(KINDS), TEXTS, st.integers(0, 3), st.booleans()), max_size=25)


@given(blocks=ANY_BLOCKS, most=st.integers(4, 120))
def test_every_block_is_kept_once_and_in_order(blocks: list[Block], most: int) -> None:
    made = pages(Sheet(tuple(blocks), BUTTONS), most)
    pieces = iter(blocks_of(made))
    for block in blocks:
        piece = next(pieces)
        if length((block,)) <= most:
            assert piece == block
            continue
        whole = piece
        while len(whole.text) < len(block.text):
            whole = replace(whole, text=whole.text + next(pieces).text)
        assert whole == block
    assert list(pieces) == []
    assert all(length(page.blocks) <= most for page in made)
    assert all(page.blocks for page in made) or not blocks
    assert [page.buttons for page in made] == [()] * (len(made) - 1) + [BUTTONS]


@given(
    counts=st.lists(st.tuples(st.integers(1, 3), st.integers(0, 2), st.integers(0, 3)), min_size=1, max_size=6),
    most=st.integers(260, 700),
)
def test_no_value_parts_from_what_it_is_for(counts: list[tuple[int, int, int]], most: int) -> None:
    blocks: list[Block] = []
    for part, (values, befores, cautions) in enumerate(counts, 1):
        for number in range(values):
            blocks.append(Block("condition", "fit new:", part))
            blocks.append(Block("value", f"{number} lb-ft", part, beside=True))
        blocks.append(Block("subject", f"2018 Brackwell Ondrel, bolt {part}", part))
        blocks += [Block("before", f"First: this and that, {number}.", part) for number in range(befores)]
        blocks += [Block("caution", f"Caution: {'x' * 70} {number}.", part) for number in range(cautions)]
    made = pages(Sheet(tuple(blocks)), most)
    for part in range(1, len(counts) + 1):
        belonging = [
            [block for block in page.blocks if block.part == part and block.kind != "caution"] for page in made
        ]
        assert len([one for one in belonging if one]) == 1
        whole = [block for block in blocks if block.part == part]
        if length(whole) <= most:
            assert any(set(whole) <= set(page.blocks) for page in made)


@pytest.mark.parametrize("most", [4, 9, 40, 400])
def test_cutting_again_changes_nothing(most: int) -> None:
    made = pages(Sheet((*answer(1), *answer(2))), most)
    assert [page for one in made for page in pages(one, most)] == made
