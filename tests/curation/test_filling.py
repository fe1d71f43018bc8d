"""Filling a row without any phone: what may be entered in each field, and the command that goes the same way."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from desk import NOW, TABLES, published

from benchbot.conversation.conversation import Conversation
from benchbot.curation import fill_flow, gaps
from benchbot.curation.approving import Denied, take_back, waiting
from benchbot.curation.fill_steps import Unfit, fields_of, next_field, read_field, ways_of
from benchbot.curation.filling import fill_from_command, fill_group
from benchbot.curation.language import shop_vocabulary
from benchbot.curation.submitting import NotOpen, Submitted, submit
from benchbot.errors import SettingError
from benchbot.outcomes import Subject
from benchbot.places import Home, demo_folder
from benchbot.records import fillings
from benchbot.records.fillings import Fields
from benchbot.records.record import open_record
from benchbot.vocabulary.terms import Vocabulary

TODAY = date(2026, 11, 25)
BRACKET = {"component": "caliper bracket bolt", "property": "torque", "position": "front"}


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    return shop_vocabulary(())


@pytest.mark.parametrize(
    ("field", "text", "read"),
    [
        ("years", "2012", {"year_from": "2012", "year_to": "2012"}),
        ("years", "2012 - 2015", {"year_from": "2012", "year_to": "2015"}),
        ("years", "2012..2015", {"year_from": "2012", "year_to": "2015"}),
        ("only_if", "drive = 4WD ; engine=1.6", {"only_if": "engine=1.6; drive=4WD"}),
        ("only_if", "all", {"only_if": ""}),
        ("component", "caliper bracket bolts", {"component": "caliper bracket bolt"}),
        ("position", "Left, FRONT", {"position": "front left"}),
        ("property", "Torque", {"property": "torque"}),
        ("value", "108 N·m", {"value": "108 N·m"}),
        ("value", "30 N·m + 90 deg", {"value": "30 N·m + 90 deg"}),
        ("second_value", "-", {"second_value": ""}),
        ("thread", "none", {"thread": ""}),
        ("source", "  Invented   sheet 3 ", {"source": "Invented sheet 3"}),
        ("review_by", "2027-03-31", {"review_by": "2027-03-31"}),
    ],
)
def test_what_a_field_takes(vocabulary: Vocabulary, field: str, text: str, read: dict[str, str]) -> None:
    assert read_field(field, text, BRACKET | {"value": "108 N·m"}, vocabulary, TODAY) == read


@pytest.mark.parametrize(
    ("field", "text", "wrong"),
    [
        ("years", "12", "is no model year"),
        ("years", "2015-2012", "is no span"),
        ("years", "since 2012", "is no model year"),
        ("only_if", "4WD", "has no '='"),
        ("component", "zorblatt", "is no component"),
        ("position", "none", "sits on both axles"),
        ("position", "middle", "is no position"),
        ("property", "colour", "is no property"),
        ("value", "108 mm", "measures length"),
        ("value", "tight", "does not start with a figure"),
        ("second_value", "800 lb-ft", "10 times"),
        ("thread", "thick", "is no thread"),
        ("source", "", "nothing was written"),
        ("source", "x" * 201, "too many"),
        ("source", "=1+1", "formula"),
        ("source_ref", "p.\u202e9", "invisible"),
        ("review_by", "2026-11-25", "is over"),
        ("review_by", "tomorrow", "is no date"),
        ("cautions", "beware", "is no caution"),
    ],
)
def test_what_a_field_does_not_take(vocabulary: Vocabulary, field: str, text: str, wrong: str) -> None:
    unfit = read_field(field, text, BRACKET | {"value": "108 N·m"}, vocabulary, TODAY)
    assert isinstance(unfit, Unfit)
    assert wrong in unfit.wrong


def test_the_nearest_parts_are_offered(vocabulary: Vocabulary) -> None:
    unfit = read_field("component", "calipr brackit bolt", {}, vocabulary, TODAY)
    assert isinstance(unfit, Unfit)
    assert unfit.ways[0].text == "caliper bracket bolt"


def test_a_figure_without_its_unit_waits_for_it(vocabulary: Vocabulary) -> None:
    unfit = read_field("value", "108", BRACKET, vocabulary, TODAY)
    assert isinstance(unfit, Unfit)
    assert (unfit.half, [way.text for way in unfit.ways]) == ("108", ["N·m", "lb-ft", "lb-in"])


def test_the_reading_gives_what_is_sure_and_the_scope_is_asked(vocabulary: Vocabulary) -> None:
    subject = Subject("Brackwell", "Ondrel", (2012,), (("drive", "4WD"),), "caliper bracket bolt", "front", "torque")
    fields = fields_of(subject, vocabulary)
    assert fields.cells == {"make": "Brackwell", "model": "Ondrel"} | BRACKET
    assert next_field(fields, vocabulary) == "years"
    assert [way.text for way in ways_of("years", fields, vocabulary, (), (), TODAY)] == ["2012"]


def test_no_way_is_wider_than_what_was_asked(vocabulary: Vocabulary) -> None:
    fields = Fields(BRACKET, asked_years=(2012, 2012), asked_only_if="drive=4WD")
    known = ("engine=1.6", "engine=1.6; drive=4WD", "drive=2WD", "drive=4WD")
    offered = [way.text for way in ways_of("only_if", fields, vocabulary, known, (), TODAY)]
    assert offered == ["drive=4WD", "engine=1.6; drive=4WD"]


def test_what_was_entered_comes_back_as_it_was() -> None:
    fields = Fields(BRACKET, {"value": "108"}, {"scope": "so it is"}, (2012, 2013), "drive=4WD")
    assert Fields.from_text(fields.to_text()) == fields


@pytest.fixture
def asked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[Home, int]]:
    """A home with the demo book where somebody asked for a bolt in vain, and the number of the gap."""
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    home = published(tmp_path, *(demo_folder() / name for name in TABLES))
    with Conversation.open(home, lambda: NOW) as talk:
        talk.say("chat", "terminal ana", "12 ondrel head bolt torque")
    with open_record(home) as record:
        yield home, gaps.groups(record, NOW)[0].number


CELLS = {
    "years": "2012", "only_if": "-", "value": "108 N·m", "second_value": "80 lb-ft", "thread": "M12x1.5",
    "class": "10.9", "source": "Invented Brackwell sheet 12-1", "source_ref": "p. 12",
}  # fmt: skip


def test_the_command_fills_a_row_at_once(asked: tuple[Home, int]) -> None:
    home, number = asked
    told, code = fill_from_command(home, number, CELLS, "terminal cleo", NOW)
    assert (code, "waits for approval" in told[-1]) == (0, True)
    with open_record(home) as record:
        draft = waiting(record)[-1]
        assert (draft.cells["value"], draft.cells["component"], draft.author) == (
            "108 N·m",
            "cylinder head bolt",
            "terminal cleo",
        )
        group = gaps.group(record, number)
        assert group is not None and group.state == "being filled"


def test_the_command_keeps_what_was_entered_and_goes_on(asked: tuple[Home, int]) -> None:
    home, number = asked
    told, code = fill_from_command(home, number, {"years": "2012", "value": "108 N·m"}, "terminal cleo", NOW)
    assert (code, told[0]) == (1, "only_if: not filled in yet")
    typed = iter(["-", "80 lb-ft", "M12x1.5", "10.9", "Invented Brackwell sheet 12-1", "p. 12"])
    asked_for: list[str] = []

    def ask(question: str) -> str:
        asked_for.append(question)
        return next(typed)

    told, code = fill_from_command(home, number, {}, "terminal cleo", NOW, ask)
    assert code == 0, told
    assert [one.partition(" ")[0].rstrip(":") for one in asked_for] == [
        "only_if", "second_value", "thread", "class", "source", "source_ref",
    ]  # fmt: skip


def test_whoever_stops_typing_loses_nothing(asked: tuple[Home, int]) -> None:
    home, number = asked

    def ask(question: str) -> str:
        raise EOFError

    told, code = fill_from_command(home, number, {"years": "2012"}, "terminal cleo", NOW, ask)
    assert code == 1
    assert "what was entered is kept" in told[-1]
    with open_record(home) as record:
        assert fillings.open_of(record, "terminal cleo")[0].fields.cells["year_from"] == "2012"


def test_a_warning_is_asked_a_reason_for(asked: tuple[Home, int]) -> None:
    home, number = asked
    questions: list[str] = []

    def ask(question: str) -> str:
        questions.append(question)
        return "the sheet is headed 2011 to 2013"

    told, code = fill_from_command(home, number, CELLS | {"years": "2011-2013"}, "terminal cleo", NOW, ask)
    assert code == 0, told
    assert len(questions) == 1
    assert "the row would answer for 2011 to 2013" in questions[0]


def test_one_row_of_one_gap(asked: tuple[Home, int]) -> None:
    home, number = asked
    fill_from_command(home, number, {"years": "2012"}, "terminal cleo", NOW)
    told, code = fill_from_command(home, number, CELLS, "terminal dan", NOW)
    assert (code, told[0].startswith("cleo is filling this gap already")) == (1, True)
    fill_from_command(home, number, CELLS, "terminal cleo", NOW)
    assert fill_group(home, number, CELLS, "terminal dan", NOW).state == "handed in"
    assert fill_group(home, 9999, CELLS, "terminal dan", NOW).state == "unknown"


def test_whoever_was_taken_over_from_writes_nothing_more(asked: tuple[Home, int], vocabulary: Vocabulary) -> None:
    home, number = asked
    with open_record(home) as record:
        group = gaps.group(record, number)
        assert group is not None
        stale = fill_flow.begin(record, group, vocabulary, "terminal cleo", None, NOW)
        assert isinstance(stale, fillings.Filling)
        for field, text in CELLS.items():
            put = fill_flow.put(record, stale, field, text, vocabulary, NOW)
            assert isinstance(put, fillings.Filling)
            stale = put
        taken = fill_flow.take_over(record, stale.number, "terminal dan", None, NOW)
        assert isinstance(taken, fillings.Filling)
        steps: list[object] = [
            fill_flow.put(record, stale, "value", "120 N·m", vocabulary, NOW),
            fill_flow.give_reason(record, stale, "scope", "so it is printed", NOW),
            fill_flow.hand_in(record, stale, "", vocabulary, None, NOW),
            fill_flow.drop(record, stale, "terminal cleo", NOW),
        ]
        assert all(isinstance(one, fill_flow.Refused) and one.why == "not yours" for one in steps), steps
        held = fillings.one(record, stale.number)
        assert held is not None
        assert (held.state, held.fields) == ("open", taken.fields)


def test_what_is_handed_in_is_what_is_on_record_and_once(asked: tuple[Home, int], vocabulary: Vocabulary) -> None:
    home, number = asked
    with open_record(home) as record:
        group = gaps.group(record, number)
        assert group is not None
        held = fill_flow.begin(record, group, vocabulary, "terminal cleo", None, NOW)
        assert isinstance(held, fillings.Filling)
        for field, text in CELLS.items():
            put = fill_flow.put(record, held, field, text, vocabulary, NOW)
            assert isinstance(put, fillings.Filling)
            held = put
        # the same person entered something more elsewhere
        assert isinstance(fill_flow.put(record, held, "source_ref", "p. 13", vocabulary, NOW), fillings.Filling)
        before = len(waiting(record))
        done = fill_flow.hand_in(record, held, "", vocabulary, None, NOW)
        assert isinstance(done, Submitted), done
        draft = waiting(record)[-1]
        assert (draft.spec, draft.cells["source_ref"]) == (done.spec, "p. 13")
        again = fill_flow.hand_in(record, held, "", vocabulary, None, NOW)
        assert isinstance(again, fill_flow.Refused) and again.why == "closed"
        assert submit(record, draft.cells, "terminal cleo", "", NOW, {}, held.number) == NotOpen()
        assert len(waiting(record)) == before + 1


def test_a_keyboard_that_was_left_behind_hears_who_has_it(asked: tuple[Home, int]) -> None:
    home, number = asked

    def ask(question: str) -> str:
        with open_record(home) as record:
            (there,) = fillings.open_of(record, "terminal cleo")
            fill_flow.take_over(record, there.number, "terminal dan", None, NOW)
        return "-"

    told, code = fill_from_command(home, number, {"years": "2012"}, "terminal cleo", NOW, ask)
    assert (code, told) == (1, ["dan is filling this gap already; ask them, or take it over in the chat (/gaps)"])


def test_a_gap_whose_row_was_dropped_is_filled_anew(asked: tuple[Home, int]) -> None:
    home, number = asked
    first = fill_group(home, number, CELLS, "terminal cleo", NOW)
    assert first.state == "submitted"
    with open_record(home) as record:
        assert not isinstance(take_back(record, first.spec, 1, "terminal cleo", "wrong sheet", NOW), Denied)
    assert fill_group(home, number, CELLS, "terminal dan", NOW).state == "submitted"


def test_a_name_that_is_no_field_is_told(asked: tuple[Home, int]) -> None:
    home, number = asked
    with pytest.raises(SettingError, match="colour: no field of a row"):
        fill_from_command(home, number, {"colour": "red"}, "terminal cleo", NOW)


def test_two_steps_at_the_same_time_are_each_whole(asked: tuple[Home, int], vocabulary: Vocabulary) -> None:
    """What is put on record is what the step was given, whoever else has the record open."""
    home, number = asked
    with open_record(home) as one, open_record(home) as other:
        group = gaps.group(one, number)
        assert group is not None
        begun = fill_flow.begin(one, group, vocabulary, "terminal cleo", None, NOW)
        again = fill_flow.begin(other, group, vocabulary, "terminal cleo", None, NOW)
        assert isinstance(begun, fillings.Filling) and isinstance(again, fillings.Filling)
        assert begun.number == again.number
