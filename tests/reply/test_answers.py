"""Answers, word for word: the value first, nothing that changes it left behind. All rows are invented."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchbot.outcomes import Answer, Finding, Missing, Subject
from benchbot.reply.compose import compose
from benchbot.reply.reply import Reply
from benchbot.understanding.reading import Reading, VehicleRead, WordNote
from benchbot.vocabulary.terms import Vocabulary

Make = Callable[..., Finding]


def said(answer: Answer, vocabulary: Vocabulary, reading: Reading | None = None, gap: int | None = None) -> Reply:
    return compose(answer, reading or Reading(), gap, vocabulary, first=False)


def test_a_plain_torque(finding: Make, vocabulary: Vocabulary) -> None:
    reply = said(Answer((finding(),)), vocabulary)
    assert reply.text() == (
        "88 lb-ft = 119 N·m (converted)\n"
        "2018 Brackwell Ondrel, engine 1.6, FRONT caliper bracket bolt, torque\n"
        "First: Often a one-time fastener.\n"
        "Caution: The hose never carries the caliper.\n"
        "Source: Invented sheet 14-8, p. 168; checked by demo lead on 2026-01-05."
    )
    assert reply.outcome == "answer"
    assert reply.specs == ("T0001",)
    assert reply.choices == ()
    assert reply.short == (
        "88 lb-ft (119 N·m converted) - 2018 Brackwell Ondrel, engine 1.6, FRONT caliper bracket bolt, torque"
    )


def test_what_changes_the_doing_stands_before_the_value(finding: Make, vocabulary: Vocabulary) -> None:
    one = finding(reuse="replace", condition="dry", order="1-3-5-2-4", component="axle nut", cautions=("hot parts",))
    lines = said(Answer((one,)), vocabulary).text().splitlines()
    assert lines[0] == "fit new, dry: 88 lb-ft = 119 N·m (converted)"
    assert lines[2:5] == [
        "Tightening order: 1-3-5-2-4.",
        "First: Hot parts burn.",
        "First: Often a one-time fastener.",
    ]


@pytest.mark.parametrize(
    ("reuse", "condition", "line"),
    [
        ("", "", "88 lb-ft = 119 N·m (converted)"),
        ("replace", "", "fit new: 88 lb-ft = 119 N·m (converted)"),
        ("", "oiled", "oiled: 88 lb-ft = 119 N·m (converted)"),
        ("", "at ride height", "at ride height: 88 lb-ft = 119 N·m (converted)"),
        ("reuse with new washers", "", "reuse with new washers: 88 lb-ft = 119 N·m (converted)"),
        ("reuse", "dry", "dry: 88 lb-ft = 119 N·m (converted)"),
    ],
)
def test_reuse_and_condition(finding: Make, vocabulary: Vocabulary, reuse: str, condition: str, line: str) -> None:
    reply = said(Answer((finding(reuse=reuse, condition=condition),)), vocabulary)
    assert reply.text().splitlines()[0] == line
    assert ("Fastener: may be reused." in reply.text()) == (reuse == "reuse")
    assert reply.short.startswith(line.partition(" = ")[0])


def test_the_asked_unit_comes_first_among_the_conversions(finding: Make, vocabulary: Vocabulary) -> None:
    lines = said(Answer((finding(),), unit="lb-in"), vocabulary).text().splitlines()
    assert lines[0] == "88 lb-ft = 1056 lb-in, 119 N·m (converted)"


def test_asking_for_the_unit_of_the_source_changes_nothing(finding: Make, vocabulary: Vocabulary) -> None:
    assert said(Answer((finding(),), unit="lb-ft"), vocabulary) == said(Answer((finding(),)), vocabulary)


def test_a_second_printed_value_is_no_conversion(finding: Make, vocabulary: Vocabulary) -> None:
    one = finding(value="9 N·m", second_value="80 lb-in")
    lines = said(Answer((one,), unit="lb-in"), vocabulary).text().splitlines()
    assert lines[0] == "9 N·m (80 lb-in, as the source prints it too) = 6.6 lb-ft (converted)"


def test_stages_are_never_split(finding: Make, vocabulary: Vocabulary) -> None:
    one = finding(component="axle nut", value="70 N·m + 60 deg")
    reply = said(Answer((one,)), vocabulary)
    assert reply.text().splitlines()[0] == "70 N·m + 60 deg = 52 lb-ft + 60 deg (converted)"
    assert "All stages belong together, in this order." in reply.text()
    turned = said(Answer((finding(component="axle nut", value="132 lb-ft; rotate; 263 lb-ft"),)), vocabulary)
    assert turned.text().splitlines()[0] == "132 lb-ft; rotate; 263 lb-ft = 179 N·m; rotate; 357 N·m (converted)"
    assert "All stages" in turned.text()


@pytest.mark.parametrize("value", ["100 ± 5 N·m", "100 +/- 5 N·m", "95..105 N·m"])
def test_a_tolerance_is_no_stage(finding: Make, vocabulary: Vocabulary, value: str) -> None:
    reply = said(Answer((finding(value=value),)), vocabulary)
    assert reply.text().startswith(value)
    assert "All stages" not in reply.text()


def test_a_wear_limit_says_which_limit_it_is(finding: Make, vocabulary: Vocabulary) -> None:
    one = finding(component="brake rotor", property="minimum thickness", value="22.0 mm", only_if="", source_ref="")
    assert said(Answer((one,)), vocabulary).text() == (
        "22.0 mm = 0.866 in (converted)\n"
        "2018 Brackwell Ondrel, FRONT brake rotor, minimum thickness\n"
        "Caution: Brake dust: wet it.\n"
        "Source: Invented sheet 14-8; checked by demo lead on 2026-01-05."
    )


def test_a_socket_is_never_converted(finding: Make, vocabulary: Vocabulary) -> None:
    assert said(Answer((finding(property="socket", value="16 mm"),)), vocabulary).text().splitlines()[0] == "16 mm"


def test_two_properties_of_one_fastener_share_their_subject(finding: Make, vocabulary: Vocabulary) -> None:
    both = Answer((finding(reuse="replace"), finding(spec="T0002", property="socket", value="16 mm")))
    reply = said(both, vocabulary)
    assert reply.text() == (
        "torque: fit new: 88 lb-ft = 119 N·m (converted)\n"
        "socket: 16 mm\n"
        "2018 Brackwell Ondrel, engine 1.6, FRONT caliper bracket bolt\n"
        "First: Often a one-time fastener.\n"
        "Caution: The hose never carries the caliper.\n"
        "Source: Invented sheet 14-8, p. 168; checked by demo lead on 2026-01-05."
    )
    assert reply.specs == ("T0001", "T0002")
    assert {block.part for block in reply.blocks} == {1}


def test_two_sources_are_told_apart(finding: Make, vocabulary: Vocabulary) -> None:
    other = finding(spec="T0002", property="socket", value="16 mm", source="Invented sheet 15", source_ref="")
    lines = said(Answer((finding(), other)), vocabulary).text().splitlines()
    assert lines[-2:] == [
        "Source of torque: Invented sheet 14-8, p. 168; checked by demo lead on 2026-01-05.",
        "Source of socket: Invented sheet 15; checked by demo lead on 2026-01-05.",
    ]


def test_front_and_rear_are_each_labelled(finding: Make, vocabulary: Vocabulary) -> None:
    rear = finding(spec="T0003", component="caliper slide pin bolt", position="rear", value="30 N·m", reuse="replace")
    reply = said(Answer((finding(), rear)), vocabulary)
    assert reply.text() == (
        "FRONT caliper bracket bolt, torque: 88 lb-ft = 119 N·m (converted)\n"
        "2018 Brackwell Ondrel, engine 1.6\n"
        "First: Often a one-time fastener.\n"
        "Caution: The hose never carries the caliper.\n"
        "Source: Invented sheet 14-8, p. 168; checked by demo lead on 2026-01-05.\n"
        "REAR caliper slide pin bolt, torque: fit new: 30 N·m = 22.1 lb-ft (converted)\n"
        "2018 Brackwell Ondrel, engine 1.6\n"
        "Caution: Brake dust: wet it.\n"
        "Source: Invented sheet 14-8, p. 168; checked by demo lead on 2026-01-05."
    )
    assert [block.part for block in reply.blocks if block.kind == "value"] == [1, 2]


def test_cautions_that_change_the_doing_stand_at_every_value(finding: Make, vocabulary: Vocabulary) -> None:
    reply = said(Answer((finding(), finding(spec="T0004", position="rear", value="60 lb-ft"))), vocabulary)
    for part in (1, 2):
        texts = [block.text for block in reply.blocks if block.part == part]
        assert "First: Often a one-time fastener." in texts
    assert reply.text().count("The hose never carries the caliper.") == 1


def test_a_stated_value_gets_the_value_of_the_book_and_never_a_yes(finding: Make, vocabulary: Vocabulary) -> None:
    for stated in ("80", "88 lb-ft"):
        reply = said(Answer((finding(),), said_values=(stated,)), vocabulary)
        first = reply.text().splitlines()[0]
        assert first == f"You said {stated}. The book says: 88 lb-ft = 119 N·m (converted)"
        assert "yes" not in reply.text().casefold()


def test_stated_values_before_several(finding: Make, vocabulary: Vocabulary) -> None:
    both = (finding(), finding(spec="T0002", property="socket", value="16 mm"))
    lines = said(Answer(both, said_values=("80", "18")), vocabulary).text().splitlines()
    assert lines[:2] == ["You said 80 and 18. The book says:", "torque: 88 lb-ft = 119 N·m (converted)"]


def test_what_is_missing_beside_an_answer_is_a_gap_of_its_own(finding: Make, vocabulary: Vocabulary) -> None:
    subject = Subject("Brackwell", "Ondrel", (2018,), (), "caliper bracket bolt", "rear", "torque")
    answer = Answer((finding(),), (Missing("position not held", "", subject),))
    reply = said(answer, vocabulary, gap=12)
    assert reply.text().endswith(
        "Not in our book: 2018 Brackwell Ondrel, REAR caliper bracket bolt, torque. "
        "No checked row is for that position.\n"
        "Logged as no. 12 for the curator. I will not estimate."
    )
    assert reply.specs == ("T0001",)


def test_more_holds_units_thread_and_where_the_row_holds(finding: Make, vocabulary: Vocabulary) -> None:
    one = finding(thread="M12x1.5", strength_class="10.9", review_by="2030-01-31")
    assert said(Answer((one,)), vocabulary).more_text() == (
        "Also 1056 lb-in, 12.2 kgf·m (converted).\n"
        "Thread M12x1.5.\n"
        "Class 10.9.\n"
        "Row T0001, revision 2, holds for 2014-2020.\n"
        "To be checked again by 2030-01-31."
    )


def test_more_is_labelled_where_there_are_several(finding: Make, vocabulary: Vocabulary) -> None:
    both = (finding(), finding(spec="T0002", property="socket", value="16 mm", year_from=2018, year_to=2018))
    assert said(Answer(both), vocabulary).more_text() == (
        "Torque: also 1056 lb-in, 12.2 kgf·m (converted).\n"
        "Torque: row T0001, revision 2, holds for 2014-2020.\n"
        "Socket: row T0002, revision 2, holds for 2018."
    )


def test_rescued_spellings_are_echoed(finding: Make, vocabulary: Vocabulary) -> None:
    reading = Reading(
        vehicle=VehicleRead("named", (1,), rescued=True),
        notes=(
            WordNote("ondrell", "vehicle", "ondrell", "spelling"),
            WordNote("calipr", "component", "caliper bracket bolt", "spelling"),
            WordNote("brkt", "component", "caliper bracket bolt", "spelling"),
            WordNote("tork", "property", "torque", "heard"),
            WordNote("frt", "position", "front", "short"),
            WordNote("plese", "noise", "", "spelling"),
        ),
    )
    lines = said(Answer((finding(),)), vocabulary, reading).text().splitlines()
    assert lines[-3:] == [
        "Read “ondrell” as Brackwell Ondrel.",
        "Read “calipr brkt” as caliper bracket bolt.",
        "Read “tork” as torque.",
    ]


def test_the_maker_comes_first_is_said_once_a_chat(finding: Make, vocabulary: Vocabulary) -> None:
    answer = Answer((finding(),))
    first = compose(answer, Reading(), None, vocabulary, first=True).text()
    later = compose(answer, Reading(), None, vocabulary, first=False).text()
    assert first == later + "\nThe maker's own sheet comes first."


@pytest.mark.parametrize(
    ("only_if", "words"),
    [
        ("build=..2016-05", "built up to 2016-05"),
        ("build=2016-06..", "built from 2016-06"),
        ("build=2016-06..2017-01", "built 2016-06 to 2017-01"),
        ("axle=DRW; drive=4WD", "axle DRW, drive 4WD"),
    ],
)
def test_qualifiers_are_echoed(finding: Make, vocabulary: Vocabulary, only_if: str, words: str) -> None:
    lines = said(Answer((finding(only_if=only_if),)), vocabulary).text().splitlines()
    assert lines[1] == f"2018 Brackwell Ondrel, {words}, FRONT caliper bracket bolt, torque"


def test_every_value_shares_its_part_with_unit_subject_caution_and_source(
    finding: Make, vocabulary: Vocabulary
) -> None:
    places = ("front", "rear", "front upper", "front lower")
    answer = Answer(tuple(finding(spec=f"T{n}", position=place, order="crisscross") for n, place in enumerate(places)))
    blocks = said(answer, vocabulary).blocks
    for value in (block for block in blocks if block.kind == "value"):
        assert value.text.endswith("lb-ft")
        kinds = {block.kind for block in blocks if block.part == value.part}
        assert {"converted", "subject", "before", "source"} <= kinds
