"""The second person: who may approve what, what was changed since, two at once; sent back, withdrawn, taken back."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from two_person_shop import ANA, BEN, CHECKED, NOW, REAR, ROW, begin, bring, named

from benchbot.curation.approving import (
    Approved,
    Denied,
    SentBack,
    Withdrawn,
    approve,
    send_back,
    take_back,
    waiting,
    waiting_one,
    withdraw,
)
from benchbot.curation.history import history
from benchbot.curation.publishing import publish
from benchbot.curation.submitting import Submitted, submit
from benchbot.curation.two_people import allow_one_person
from benchbot.places import Home
from benchbot.records import fillings, reviews, revisions
from benchbot.records.fillings import Fields
from benchbot.records.record import Record, open_record

LATER = NOW + timedelta(days=1)


@pytest.fixture
def record(home: Home) -> Iterator[Record]:
    begin(home)
    with open_record(home) as opened:
        named(opened, ANA, "Ana Orlik")
        named(opened, BEN, "Ben Tarrow")
        yield opened


def handed_in(record: Record, author: str = ANA, **changes: str) -> Submitted:
    done = submit(record, {**REAR, **changes}, author, "asked for", NOW, {})
    assert isinstance(done, Submitted), done
    return done


def denied(done: object) -> str:
    assert isinstance(done, Denied), done
    return done.about


def test_what_waits_is_shown_with_what_it_changes(record: Record) -> None:
    new, changed = handed_in(record), handed_in(record, id="A1", position="front", value="110 N·m")
    found = waiting(record)
    assert [(one.spec, one.revision, one.name, one.why) for one in found] == [
        (new.spec, 1, "Ana Orlik", "asked for"),
        ("A1", 2, "Ana Orlik", "asked for"),
    ]
    assert found[0].before is None and ("value", "", "98 N·m") in found[0].changes
    assert found[1].changes == (
        ("value", "105 N·m", "110 N·m"),
        ("source_ref", "p. 12", "p. 13"),
        ("checked_by", "lead", ""),
        ("checked_on", "2026-02-03", ""),
        ("status", "verified", "draft"),
    )
    assert waiting_one(record, "A1") == found[1]
    assert changed.revision == 2 and waiting_one(record, "A9") is None


def test_a_second_person_approves_it(home: Home, record: Record) -> None:
    draft = handed_in(record)
    done = approve(record, draft.spec, 1, BEN, "Ben Tarrow", LATER)
    assert done == Approved(draft.spec, 2, False, ())
    held = revisions.newest(record, draft.spec)
    assert held is not None
    assert (held.status, held.author) == ("verified", BEN)
    assert (held.cells["checked_by"], held.cells["checked_on"]) == ("Ben Tarrow", "2026-05-05")
    first = revisions.of_spec(record, draft.spec)[0]
    assert (first.status, first.cells["checked_by"]) == ("draft", "")
    assert waiting(record) == []
    assert publish(home, LATER).rows == 2


@pytest.mark.parametrize("person", [ANA, "terminal ana orlik"])
def test_nobody_approves_their_own(record: Record, person: str) -> None:
    draft = handed_in(record)
    assert denied(approve(record, draft.spec, 1, person, "whoever", LATER)) == "own row"
    assert len(waiting(record)) == 1


def test_nobody_approves_their_own_under_the_name_they_give(record: Record) -> None:
    draft = handed_in(record)
    assert denied(approve(record, draft.spec, 1, "terminal dora", "Ana Orlik", LATER)) == "own row"


@pytest.mark.parametrize(
    ("person", "name", "may"),
    [
        (BEN, "Ben Tarrow", False),
        (BEN, "Benny", False),
        ("terminal ben tarrow", "BEN  Tarrow", False),
        (ANA, "Ana Orlik", True),
    ],
)
def test_whoever_a_draft_names_as_its_checker_does_not_approve_it(
    home: Home, record: Record, person: str, name: str, may: bool
) -> None:
    bring(home, REAR | CHECKED | {"id": "D1", "status": "draft", "checked_by": "Ben Tarrow"}, name="drafts.csv")
    done = approve(record, "D1", 1, person, name, NOW)
    if may:
        assert done == Approved("D1", 2, False, ())
        return
    assert denied(done) == "own check" and "The row says that you, Ben Tarrow, checked it" in str(done)
    allow_one_person(record, True, "terminal root", NOW)
    assert approve(record, "D1", 1, person, name, NOW) == Approved("D1", 2, True, ())


def test_two_accounts_of_one_name_are_told_what_stands_in_the_way(record: Record) -> None:
    named(record, "telegram 33", "ana ORLIK")
    draft = handed_in(record)
    refused = approve(record, draft.spec, 1, "telegram 33", "ana ORLIK", LATER)
    assert denied(refused) == "same name" and len(waiting(record)) == 1
    assert isinstance(refused, Denied)
    assert "both go by the name ana ORLIK" in refused.reason and "an owner can tell you apart" in refused.reason
    named(record, "telegram 33", "Anna Orlik")
    assert isinstance(approve(record, draft.spec, 1, "telegram 33", "Anna Orlik", LATER), Approved)


def test_an_author_who_was_renamed_since_is_still_the_author(record: Record) -> None:
    draft = handed_in(record)
    named(record, ANA, "Cleo Orlik")
    assert denied(approve(record, draft.spec, 1, ANA, "Cleo Orlik", LATER)) == "own row"
    assert denied(approve(record, draft.spec, 1, "terminal ana orlik", "ana orlik", LATER)) == "own row"
    assert denied(approve(record, draft.spec, 1, "terminal cleo orlik", "cleo orlik", LATER)) == "own row"
    assert isinstance(approve(record, draft.spec, 1, BEN, "Ben Tarrow", LATER), Approved)


def test_a_socket_needs_nobody_else(record: Record) -> None:
    draft = handed_in(record, property="socket", value="18 mm")
    assert approve(record, draft.spec, 1, ANA, "Ana Orlik", LATER) == Approved(draft.spec, 2, False, ())


def test_a_shop_of_one_person_is_marked_as_such(record: Record) -> None:
    draft = handed_in(record)
    allow_one_person(record, True, BEN, NOW)
    assert approve(record, draft.spec, 1, ANA, "Ana Orlik", LATER) == Approved(draft.spec, 2, True, ())
    assert reviews.sole(record, draft.spec) == {2}
    other = handed_in(record, model="Ondrel 4")
    assert approve(record, other.spec, 1, BEN, "Ben Tarrow", LATER) == Approved(other.spec, 2, False, ())


def test_what_was_changed_since_is_not_approved(record: Record) -> None:
    draft = handed_in(record)
    handed_in(record, id=draft.spec, value="99 N·m")
    refused = approve(record, draft.spec, 1, BEN, "Ben Tarrow", LATER)
    assert denied(refused) == "changed since"
    assert isinstance(refused, Denied) and "revision 2 (draft), you looked at 1" in refused.reason
    assert isinstance(approve(record, draft.spec, 2, BEN, "Ben Tarrow", LATER), Approved)
    held = revisions.newest(record, draft.spec)
    assert held is not None and held.cells["value"] == "99 N·m"


def test_what_an_import_replaced_is_not_approved(home: Home, record: Record) -> None:
    handed_in(record, id="A1", position="front", value="110 N·m")
    bring(home, ROW | CHECKED | {"id": "A1", "value": "107 N·m", "checked_on": "2026-04-01"}, name="later.csv")
    assert denied(approve(record, "A1", 2, BEN, "Ben Tarrow", LATER)) == "changed since"
    assert waiting(record) == []


def test_the_same_table_once_more_leaves_what_waits(home: Home, record: Record) -> None:
    handed_in(record, id="A1", position="front", value="110 N·m")
    begin(home)
    assert [one.spec for one in waiting(record)] == ["A1"]


def test_of_two_who_approve_at_once_one_does(home: Home, record: Record) -> None:
    named(record, "telegram 33", "Cleo Vann")
    drafts = [handed_in(record, model=f"Ondrel {n}") for n in range(6)]
    done: list[object] = []
    gate = threading.Barrier(2)

    def go(person: str, name: str) -> None:
        with open_record(home) as own:
            for draft in drafts:
                gate.wait(30)
                done.append(approve(own, draft.spec, 1, person, name, LATER))

    both = [threading.Thread(target=go, args=who) for who in ((BEN, "Ben Tarrow"), ("telegram 33", "Cleo Vann"))]
    for one in both:
        one.start()
    for one in both:
        one.join(60)
    assert sorted(type(one).__name__ for one in done) == ["Approved"] * 6 + ["Denied"] * 6
    assert {one.about for one in done if isinstance(one, Denied)} == {"changed since"}
    assert [len(revisions.of_spec(record, draft.spec)) for draft in drafts] == [2] * 6


def test_two_drafts_that_contradict_each_other_are_not_both_approved(record: Record) -> None:
    one, other = handed_in(record), handed_in(record, BEN, value="150 N·m")
    named(record, "telegram 33", "Cleo Vann")
    assert isinstance(approve(record, one.spec, 1, BEN, "Ben Tarrow", LATER), Approved)
    refused = approve(record, other.spec, 1, "telegram 33", "Cleo Vann", LATER)
    assert denied(refused) == "refused"
    assert isinstance(refused, Denied) and refused.found[0].concern == "contradiction"


def test_a_draft_of_a_table_may_need_a_reason_to_be_approved(home: Home, record: Record) -> None:
    bring(home, REAR | {"id": "D1", "status": "draft", "second_value": "75 lb-ft"}, by="Ana Orlik", name="drafts.csv")
    assert denied(approve(record, "D1", 1, ANA, "Ana Orlik", LATER)) == "own row"
    refused = approve(record, "D1", 1, BEN, "Ben Tarrow", LATER)
    assert denied(refused) == "warnings"
    done = approve(record, "D1", 1, BEN, "Ben Tarrow", LATER, {"two units": "printed so"})
    assert isinstance(done, Approved)
    assert [(one.revision, one.reason, one.person) for one in reviews.passed(record, "D1")] == [(2, "printed so", BEN)]


def test_a_reason_of_the_author_is_not_asked_for_again(record: Record) -> None:
    done = submit(record, {**REAR, "second_value": "75 lb-ft"}, ANA, "", NOW, {"two units": "printed so"})
    assert isinstance(done, Submitted)
    assert isinstance(approve(record, done.spec, 1, BEN, "Ben Tarrow", LATER), Approved)


def test_a_draft_that_is_not_whole_is_not_approved(home: Home, record: Record) -> None:
    bring(home, {**REAR, "id": "D1", "status": "draft", "source_ref": ""}, name="drafts.csv")
    refused = approve(record, "D1", 1, BEN, "Ben Tarrow", LATER)
    assert denied(refused) == "faults"
    assert isinstance(refused, Denied) and "source_ref: is empty" in refused.reason


@pytest.mark.parametrize("name", ["=cmd", "-Ben", "@ben", "Bén 🔧", "山田"])
def test_a_name_may_begin_as_a_sheet_would_not_like(record: Record, name: str) -> None:
    draft = handed_in(record)
    assert isinstance(approve(record, draft.spec, 1, BEN, name, LATER), Approved)
    held = revisions.newest(record, draft.spec)
    assert held is not None and held.cells["checked_by"] == name


def test_an_approval_needs_a_name(record: Record) -> None:
    assert denied(approve(record, handed_in(record).spec, 1, BEN, "  ", LATER)) == "no name"


def test_what_there_is_not(record: Record) -> None:
    assert denied(approve(record, "Z9", 1, BEN, "Ben Tarrow", LATER)) == "unknown row"
    assert denied(approve(record, "A1", 1, BEN, "Ben Tarrow", LATER)) == "nothing waits"
    assert denied(send_back(record, "A1", 1, BEN, "look again", LATER)) == "nothing waits"
    assert denied(withdraw(record, "Z9", BEN, "gone", LATER)) == "unknown row"


def test_sent_back_what_was_filled_in_is_open_again(record: Record) -> None:
    filling = fillings.put(record, None, "", ANA, None, Fields(REAR), NOW)
    draft = submit(record, REAR, ANA, "", NOW, {}, filling.number)
    assert isinstance(draft, Submitted)
    assert denied(send_back(record, draft.spec, 1, BEN, " ", LATER)) == "no comment"
    done = send_back(record, draft.spec, 1, BEN, "page 13 says 89", LATER)
    assert done == SentBack(draft.spec, 1, ANA, filling.number)
    held = fillings.one(record, filling.number)
    assert held is not None
    assert (held.state, held.fields.cells["value"]) == ("open", "98 N·m")
    assert waiting(record) == []
    assert denied(approve(record, draft.spec, 1, BEN, "Ben Tarrow", LATER)) == "nothing waits"
    again = submit(record, {**REAR, "value": "89 N·m"}, ANA, "", LATER, {}, filling.number)
    assert isinstance(again, Submitted) and (again.spec, again.revision) == (draft.spec, 2)
    assert isinstance(approve(record, draft.spec, 2, BEN, "Ben Tarrow", LATER), Approved)


def test_a_draft_of_a_table_is_sent_back_without_a_filling(home: Home, record: Record) -> None:
    bring(home, REAR | {"id": "D1", "status": "draft"}, name="drafts.csv")
    assert send_back(record, "D1", 1, BEN, "which page?", LATER) == SentBack("D1", 1, "office", None)


def test_a_withdrawn_row_is_silent(home: Home, record: Record) -> None:
    handed_in(record, id="A1", position="front", value="110 N·m")
    assert denied(withdraw(record, "A1", BEN, "", LATER)) == "no comment"
    assert withdraw(record, "A1", BEN, "the sheet was recalled", LATER) == Withdrawn("A1", 3)
    held = revisions.newest(record, "A1")
    # what was shown is withdrawn, not what waited
    assert held is not None and (held.status, held.cells["value"]) == ("withdrawn", "105 N·m")
    assert waiting(record) == []
    assert denied(withdraw(record, "A1", BEN, "again", LATER)) == "withdrawn already"
    assert publish(home, LATER).rows == 0


def test_what_was_changed_since_is_not_withdrawn(record: Record) -> None:
    handed_in(record, id="A1", position="front", value="110 N·m")
    assert denied(withdraw(record, "A1", BEN, "the sheet was recalled", LATER, 1)) == "changed since"
    assert withdraw(record, "A1", BEN, "the sheet was recalled", LATER, 2) == Withdrawn("A1", 3)


def test_what_came_in_a_table_is_told_from_what_was_handed_in(home: Home, record: Record) -> None:
    draft = handed_in(record)
    bring(home, REAR | {"id": "D1", "model": "Ondrel 4", "status": "draft"}, name="drafts.csv")
    assert {one.spec: one.imported for one in waiting(record)} == {draft.spec: False, "D1": True}


def test_a_row_stands_as_it_waits_or_else_as_it_answers(record: Record) -> None:
    def value(spec: str) -> str:
        return (fillings.standing_cells(record, spec) or {})["value"]

    handed_in(record, id="A1", position="front", value="110 N·m")
    assert value("A1") == "110 N·m"
    handed_in(record, id="A1", position="front", value="112 N·m")
    assert value("A1") == "112 N·m"
    send_back(record, "A1", 3, BEN, "page 12 says 105", LATER)
    # neither what was sent back nor what it took the place of
    assert value("A1") == "105 N·m"
    handed_in(record, id="A1", position="front", value="111 N·m")
    take_back(record, "A1", 4, ANA, "wrong vehicle", LATER)
    assert value("A1") == "105 N·m"
    new = handed_in(record)
    send_back(record, new.spec, 1, BEN, "look again", LATER)
    assert value(new.spec) == "98 N·m"
    assert fillings.standing_cells(record, "Z9") is None


def test_a_change_that_is_taken_back_leaves_the_row_answering(home: Home, record: Record) -> None:
    handed_in(record, id="A1", position="front", value="110 N·m")
    assert take_back(record, "A1", 2, ANA, "wrong vehicle", LATER) == Withdrawn("A1", 2)
    assert waiting(record) == []
    assert publish(home, LATER).rows == 1
    assert denied(take_back(record, "A1", 2, ANA, "wrong vehicle", LATER)) == "nothing waits"


def test_nothing_is_ever_overwritten(home: Home, record: Record, dump: Callable[[Path], list[str]]) -> None:
    def kept(start: str) -> set[str]:
        return {line for line in dump(home.record) if line.startswith(f'INSERT INTO "{start}"')}

    tables = ("spec_revision", "change", "review", "passed_warning", "sole_check")
    before = {table: kept(table) for table in tables}
    draft = handed_in(record)
    steps: list[Callable[[], object]] = [
        lambda: send_back(record, draft.spec, 1, BEN, "look again", LATER),
        lambda: handed_in(record, id=draft.spec, value="97 N·m"),
        lambda: approve(record, draft.spec, 2, BEN, "Ben Tarrow", LATER),
        lambda: withdraw(record, draft.spec, ANA, "no", LATER),
        lambda: handed_in(record, id=draft.spec, value="96 N·m"),
        lambda: take_back(record, draft.spec, 5, ANA, "no", LATER),
    ]
    for step in steps:
        assert not isinstance(step(), Denied)
        after = {table: kept(table) for table in tables}
        assert all(before[table] <= after[table] for table in tables)
        before = after
    assert [step.status for step in history(record, draft.spec)] == ["draft", "draft", "verified", "withdrawn", "draft"]


def test_the_history_tells_who_when_what_and_why(record: Record) -> None:
    done = submit(record, {**REAR, "second_value": "75 lb-ft"}, ANA, "asked twice", NOW, {"two units": "printed so"})
    assert isinstance(done, Submitted)
    approve(record, done.spec, 1, BEN, "Ben Tarrow", LATER)
    first, second = history(record, done.spec)
    assert (first.revision, first.name, first.at[:16], first.why) == (1, "Ana Orlik", "2026-05-04T07:30", "asked twice")
    assert ("value", "", "98 N·m") in first.changes
    assert [(one.did, one.person, one.said) for one in first.reviews] == [
        ("submitted", ANA, "Ana Orlik"),
        ("approved", BEN, "Ben Tarrow"),
    ]
    assert [one.reason for one in first.passed] == ["printed so"]
    assert second.changes == (
        ("checked_by", "", "Ben Tarrow"),
        ("checked_on", "", "2026-05-05"),
        ("status", "draft", "verified"),
    )
    assert (second.name, second.why, second.one_person) == ("Ben Tarrow", "approved revision 1", False)
    assert history(record, "Z9") == []
