"""Over random fleets: an answer agrees with everything said, and nothing unsaid is ever taken for granted."""

from __future__ import annotations

import os
from dataclasses import replace
from itertools import permutations

from bay_messages import Slots, Style, allowed, any_slots, held, message, of_row, slip, slipped, styles
from fleets import HELD, lexicon, offered, say, shown
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from benchbot.conversation.conversation import Turn
from benchbot.outcomes import Answer, Calculation, Choose, Gap, Other

EXAMPLES = int(os.environ.get("BENCHBOT_EXAMPLES", "150"))
FLEETS = max(12, EXAMPLES // 100)

checked = settings(max_examples=EXAMPLES, deadline=None, derandomize=True)


def check(slots: Slots, text: str, turn: Turn) -> None:
    """The answer, if there is one, holds no row but those that everything said singles out."""
    if not isinstance(turn.outcome, Answer):
        return
    rows = allowed(slots)
    assert rows is not None, f"{text!r} leaves something open, shown was {sorted(shown(turn))}"
    assert shown(turn) <= {row.spec for row in rows}, f"{text!r} ({slots})"


def is_plain(slots: Slots) -> bool:
    """Whether the model's name is one word of letters, which nothing else in a message can be taken for."""
    return slots.model.isalpha() and not lexicon().is_known(slots.model.lower())


@checked
@given(any_slots(FLEETS), styles)
def test_an_answer_agrees_with_everything_said(slots: Slots, style: Style) -> None:
    text = message(slots, style)
    check(slots, text, say(slots.there, text))


@checked
@given(any_slots(FLEETS), slipped)
def test_an_answer_to_misspelt_words_agrees_with_what_was_meant(slots: Slots, style: Style) -> None:
    text = message(slots, style)
    check(slots, text, say(slots.there, text))


@checked
@given(held(FLEETS).filter(is_plain), styles)
def test_a_whole_question_is_answered_with_just_its_row(slots: Slots, style: Style) -> None:
    rows = allowed(slots)
    assume(rows)
    text = message(slots, replace(style, year_form=style.year_form if style.order[0] == 0 else 0))
    turn = say(slots.there, text)
    assert rows is not None
    asked_for = {row.spec for row in rows if row.property == slots.property}
    assert asked_for <= (shown(turn) or offered(turn)), f"{text!r} ({slots}) came to {turn.outcome}"


@checked
@given(held(FLEETS), slipped, st.sampled_from(("year", "axle", "stated")))
def test_with_a_deciding_word_left_out_nothing_is_shown(slots: Slots, style: Style, left_out: str) -> None:
    if left_out == "axle":
        assume(slots.axle and slots.component != "lower ball joint nut")
        less = replace(slots, axle="")
    elif left_out == "stated":
        assume(slots.stated)
        less = replace(slots, stated=())
    else:
        less = replace(slots, year=None)
    text = message(less, style)
    turn = say(slots.there, text)
    assert not shown(turn), f"{text!r} without its {left_out}"


@checked
@given(held(FLEETS), styles, st.sampled_from((str.upper, str.title, str.swapcase)), st.sampled_from(("  ", "\t", "\n")))
def test_case_and_spacing_do_not_change_the_rows(slots: Slots, style: Style, case: type[str.upper], gap: str) -> None:
    text = message(slots, style)
    turn, other = say(slots.there, text), say(slots.there, gap + case(text).replace(" ", gap) + gap)
    assert type(turn.outcome) is type(other.outcome)
    assert (shown(turn), offered(turn)) == (shown(other), offered(other))


@checked
@given(any_slots(FLEETS), styles)
def test_the_order_of_the_blocks_never_leads_to_other_rows(slots: Slots, style: Style) -> None:
    texts = [message(slots, replace(style, order=order, year_form=0)) for order in permutations((0, 1, 2))]
    turns = [say(slots.there, text) for text in texts]
    answers = {frozenset(shown(turn)) for turn in turns if shown(turn)}
    assert len(answers) <= 1, texts
    if is_plain(slots) and style.phrase == 0:
        assert len({(type(t.outcome), frozenset(shown(t)), frozenset(offered(t))) for t in turns}) == 1, texts


@checked
@given(held(FLEETS), styles, st.integers(0, 6), st.integers(0, 12), st.integers(0, 3))
def test_a_sibling_never_answers_for_its_sibling(slots: Slots, style: Style, n: int, at: int, kind: int) -> None:
    """Every model of the fleet is asked for what another holds; its name is typed well, and with a slip."""
    other = replace(slots, vehicle=1 + (slots.vehicle or 0 + n) % len(slots.there.named))
    check(other, message(other, style), say(slots.there, message(other, style)))
    words = other.model.split(" ")
    which = n % len(words)
    assume(len(words[which]) > 3 and words[which].isalpha())
    typed = slip(words[which].lower(), at, kind)
    assume(not slots.there.conversation.book.words(typed) and not lexicon().is_known(typed))
    text = message(other, replace(style, make=True)).replace(words[which], typed)
    check(other, text, say(slots.there, text))


@checked
@given(held(FLEETS), styles, st.integers(1, 6))
def test_two_vehicles_in_one_message_are_never_answered(slots: Slots, style: Style, n: int) -> None:
    make, model = slots.there.named[((slots.vehicle or 1) - 1 + n) % len(slots.there.named)]
    # "2014 Dravoq Sarnel ... and Dravoq 14" may as well say the year twice
    assume(model not in (str(slots.year), f"{(slots.year or 0) % 100:02}"))
    assume(not set(model.lower().split()) & set(slots.model.lower().split()))
    text = f"{message(slots, style)} and {make} {model}"
    turn = say(slots.there, text)
    assert not shown(turn), text


@checked
@given(held(FLEETS), styles, st.integers(1, 30))
def test_two_years_are_never_answered_from_one_of_them(slots: Slots, style: Style, n: int) -> None:
    year = 2000 + ((slots.year or 0) - 2000 + n) % 24
    text = f"{message(slots, replace(style, year_form=0))} {year}"
    turn = say(slots.there, text)
    if isinstance(turn.outcome, Answer):
        assert all(row.year_from <= year <= row.year_to for row in (f.row for f in turn.outcome.findings)), text


@checked
@given(held(FLEETS), styles, st.text("zxqvkjw", min_size=5, max_size=9), st.integers(0, 20))
def test_a_word_that_nobody_knows_blocks_the_answer(slots: Slots, style: Style, unknown: str, at: int) -> None:
    words = message(slots, style).split(" ")
    words.insert(at % (len(words) + 1), unknown)
    text = " ".join(words)
    turn = say(slots.there, text)
    assert not shown(turn), text


@checked
@given(held(FLEETS), st.integers(0, 10_000), st.integers(0, 9), styles, st.booleans())
def test_another_vehicle_in_a_chat_takes_nothing_over(slots: Slots, n: int, y: int, style: Style, year: bool) -> None:
    """Year and qualifiers of the vehicle before do not count for the next one."""
    then = of_row(slots.shop, n, y)
    assume(then.vehicle != slots.vehicle and is_plain(then))
    then = then if year else replace(then, year=None)
    text = message(then, style)
    turn = say(slots.there, message(slots), text)
    check(then, f"{message(slots)} / {text}", turn)


@checked
@given(held(FLEETS), styles, st.sampled_from(sorted(HELD)), st.sampled_from(("", "front", "rear")))
def test_the_next_question_of_a_chat_keeps_the_vehicle(slots: Slots, style: Style, component: str, axle: str) -> None:
    """Vehicle, year and qualifiers carry over; the axle only as long as the component stays the same."""
    first = say(slots.there, message(slots))
    assume(shown(first))
    then = replace(slots, component=component, axle=axle, property=HELD[component][1][0])
    text = message(replace(then, vehicle=None, year=None, stated=()), style)
    turn = say(slots.there, message(slots), text)
    if component == slots.component and not axle:
        then = replace(then, axle=slots.axle)
    check(then, f"{message(slots)} / {text}", turn)


@checked
@given(held(FLEETS), st.one_of(st.text(), st.text(st.characters(exclude_categories=("Cs",)), max_size=40)))
def test_any_text_comes_to_one_outcome(slots: Slots, text: str) -> None:
    whole = say(slots.there, text)
    assert isinstance(whole.outcome, (Answer, Choose, Gap, Other, Calculation))
    assert not shown(whole)
    after = say(slots.there, message(slots), text)
    assert {row.vehicle for row in slots.there.rows if row.spec in shown(after)} <= {slots.vehicle}
    assert whole.reply.text
    assert after.reply.text
