"""Gaps: grouped by what was meant, ranked by who waits, set from state to state, and back when asked again."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.dialects import postgresql

from benchbot.conversation.conversation import Conversation, Turn
from benchbot.conversation.manner import Aside, Manner
from benchbot.curation import gaps
from benchbot.curation.gaps import STATES, Group
from benchbot.outcomes import Choose, Gap
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records import meanings, statements
from benchbot.records.record import Entry, GapEntry, GapPart, Record, open_record

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)


@dataclass(slots=True)
class Clock:
    moment: datetime = NOW

    def __call__(self) -> datetime:
        return self.moment


class Bench:
    """The demo book with a record of its own; every message comes a minute after the one before."""

    def __init__(self, talk: Conversation, record: Record, clock: Clock) -> None:
        self.talk, self.record, self._clock = talk, record, clock
        self.now, talk.record = NOW, record
        made = [People(self.record).add_location(name, "telegram 1", NOW) for name in ("North bay", "South bay")]
        self.places = [one.number for one in made if isinstance(one, Location)]

    @property
    def now(self) -> datetime:
        return self._clock.moment

    @now.setter
    def now(self, moment: datetime) -> None:
        self._clock.moment = moment

    def ask(self, message: str, person: str = "telegram 1", chat: str = "", place: int | None = None) -> Turn:
        self.now += timedelta(minutes=1)
        manner = Manner(location=None if place is None else self.places[place])
        return self.talk.say(chat or f"{person} {self.now}", person, message, manner=manner)

    def groups(self) -> list[Group]:
        return gaps.groups(self.record, self.now, STATES)

    def only(self) -> Group:
        (found,) = self.groups()
        return found


@pytest.fixture(scope="module")
def talk(demo_shop: Home, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Conversation, Clock, Path]]:
    """A conversation on the demo book, and an empty record to copy: each test has one of its own."""
    home, clock = Home(tmp_path_factory.mktemp("bench")), Clock()
    shutil.copy(demo_shop.book, home.book)
    with Conversation.open(home, clock) as made:
        yield made, clock, home.record


@pytest.fixture
def record(talk: tuple[Conversation, Clock, Path], tmp_path: Path) -> Iterator[Record]:
    with open_record(f"sqlite:///{shutil.copy(talk[2], tmp_path / 'record.sqlite')}") as opened:
        yield opened


@pytest.fixture
def bench(talk: tuple[Conversation, Clock, Path], record: Record) -> Bench:
    return Bench(talk[0], record, talk[1])


def meant(one: Group) -> tuple[object, ...]:
    about = one.subject
    return (one.kind, about.make, about.model, about.years, about.component, about.position, about.property, one.words)


HEAD_BOLT = ("row", "Brackwell", "Ondrel", (2012,), "cylinder head bolt", "", "torque", "")


def test_wordings_of_one_thing_are_one_group(bench: Bench) -> None:
    for message in (
        "12 ondrel head bolts",
        "head bolt torque 2012 Ondrel?",
        "2012 brackwell ondrel cyl head bolt tq pls",
    ):
        assert isinstance(bench.ask(message).outcome, Gap), message
    assert meant(bench.only()) == HEAD_BOLT
    assert bench.only().asks == 3


@pytest.mark.parametrize(
    "other",
    [
        "13 ondrel head bolts",  # another year
        "12 ondrel sport head bolts",  # a sibling
        "12 ondrela head bolts",
        "12 ondrel rear trailing arm bolt torque",
        "12 ondrel front trailing arm bolt torque",
        "12 ondrel 1.6 head bolts",  # an engine that the others did not say
    ],
)
def test_things_that_differ_are_groups_of_their_own(bench: Bench, other: str) -> None:
    bench.ask("12 ondrel head bolts")
    bench.ask("12 ondrel left trailing arm bolt torque")
    assert isinstance(bench.ask(other).outcome, Gap)
    assert [one.asks for one in bench.groups()] == [1, 1, 1]


def test_one_message_can_ask_for_several_things(bench: Bench) -> None:
    turn = bench.ask("12 ondrel front and rear trailing arm bolt torque")
    assert sorted(one.subject.position for one in bench.groups()) == ["front", "rear"]
    assert {gap for one in bench.groups() for gap in one.gaps} == {turn.gap}
    assert len(meanings.of_gap(bench.record, turn.gap or 0)) == 2


def test_a_place_that_the_name_says_already_says_nothing_more(bench: Bench) -> None:
    bench.ask("12 ondrel upper ball joint nut torque")
    assert bench.only().subject.position == ""


def test_the_most_wanted_stand_first(bench: Bench) -> None:
    for person in ("telegram 1", "telegram 2", "telegram 3"):
        bench.ask("12 ondrel head bolts", person, place=0 if person != "telegram 3" else 1)
    for _ in range(4):
        bench.ask("12 ondrel flywheel bolts", "telegram 4", place=1)
    bench.ask("12 ondrel seat bolt torque")
    bench.ask("12 ondrel conrod bolt torque")
    found = bench.groups()
    assert [(one.subject.component, one.people, one.asks) for one in found] == [
        ("cylinder head bolt", 3, 3),
        ("flywheel bolt", 1, 4),
        ("connecting rod bolt", 1, 1),
        ("seat bolt", 1, 1),
    ]
    north, south = bench.places
    assert found[0].locations == ((north, 2), (south, 1))
    assert found[0].last_at - found[0].first_at == timedelta(minutes=2)
    assert gaps.groups(bench.record, NOW, STATES) == []


def test_who_needs_it_no_more_waits_no_more(bench: Bench) -> None:
    turn = bench.ask("12 ondrel head bolts", "telegram 1")
    bench.ask("12 ondrel head bolts", "telegram 2")
    assert turn.gap is not None
    assert not gaps.stop_waiting(bench.record, turn.gap, "telegram 2")
    assert bench.only().people == 2
    assert gaps.stop_waiting(bench.record, turn.gap, "telegram 1")
    assert not gaps.stop_waiting(bench.record, turn.gap, "telegram 1")
    assert (bench.only().people, bench.only().asks) == (1, 2)
    assert [one.waits for one in gaps.asked(bench.record, bench.only())] == [True, False]


def test_a_question_that_was_changed_does_not_count(bench: Bench) -> None:
    turn = bench.ask("12 ondrel head bolts")
    bench.talk.say("c", "telegram 1", "12 ondrel flywheel bolts", aside=Aside(instead_of=turn.answer))
    assert [one.subject.component for one in bench.groups()] == ["flywheel bolt"]
    assert gaps.group(bench.record, 1) is None


def test_the_states_and_their_history(bench: Bench) -> None:
    bench.ask("12 ondrel head bolts")
    for state, why in (
        ("being filled", ""),
        ("waiting", "sheet is\nordered"),
        ("set aside", "not ours"),
        ("open", ""),
    ):
        gaps.set_state(bench.record, bench.only(), state, why, "terminal ana", bench.now)  # type: ignore[arg-type]
        assert (bench.only().state, bench.only().why) == (state, why.replace("\n", " "))
        bench.now += timedelta(minutes=1)
    told = gaps.history(bench.record, bench.only())
    assert [(one.state, one.why, one.author) for one in told] == [
        ("being filled", "", "terminal ana"),
        ("waiting", "sheet is ordered", "terminal ana"),
        ("set aside", "not ours", "terminal ana"),
        ("open", "", "terminal ana"),
    ]
    assert [one.state for one in gaps.groups(bench.record, bench.now)] == ["open"]


@pytest.mark.parametrize("state", ["waiting", "set aside"])
def test_a_reason_is_required_where_nobody_could_guess_it(bench: Bench, state: str) -> None:
    bench.ask("12 ondrel head bolts")
    with pytest.raises(ValueError, match=f"not {state} without a reason"):
        gaps.set_state(bench.record, bench.only(), state, " \n ", "terminal ana", bench.now)  # type: ignore[arg-type]
    assert bench.only().state == "open"
    assert gaps.history(bench.record, bench.only()) == []


def test_a_filled_gap_that_is_asked_again_is_open_again(bench: Bench) -> None:
    bench.ask("12 ondrel head bolts")
    gaps.set_state(bench.record, bench.only(), "filled", "", "terminal ana", bench.now)
    assert gaps.groups(bench.record, bench.now) == []
    bench.ask("2012 ondrel head bolt torque", "telegram 7")
    assert bench.only().state == "open"
    last = gaps.history(bench.record, bench.only())[-1]
    assert (last.state, last.why, last.author) == ("open", "asked again", "telegram 7")


def test_what_was_set_aside_stays_so_when_it_is_asked_again(bench: Bench) -> None:
    bench.ask("12 ondrel dronask clip bolt torque")
    gaps.set_state(bench.record, bench.only(), "set aside", "no such part", "terminal ana", bench.now)
    bench.ask("12 ondrel drnoask clip bolt torque")
    assert (bench.only().state, bench.only().asks) == ("set aside", 2)
    assert bench.only().why == "no such part"


def test_a_misspelt_word_that_was_filled_opens_it_again(bench: Bench) -> None:
    bench.ask("12 ondrel dronask clip bolt torque")
    gaps.set_state(bench.record, bench.only(), "filled", "", "terminal ana", bench.now)
    bench.ask("12 ondrel drnoask clip bolt torque")
    assert (bench.only().state, bench.only().number) == ("open", 1)
    assert gaps.group(bench.record, 2) == bench.only()


def test_a_choice_is_shown_with_the_message_before_it(bench: Bench) -> None:
    chat = "chat of choices"
    first = bench.ask("12 ondrel bracket bolt torque", "telegram 3", chat)
    labels = [option.label for option in first.outcome.options] if isinstance(first.outcome, Choose) else []
    assert labels == ["front", "rear"]
    bench.record.put(_gap_of_a_choice(bench, chat))
    (one,) = gaps.asked(bench.record, bench.only())
    assert one.question == "12 ondrel bracket bolt torque → rear"
    assert one.words[0] == "12: year 2012"


def _gap_of_a_choice(bench: Bench, chat: str) -> Entry:
    """The second choice pressed, in a book that has lost the row meanwhile."""
    memory = bench.record.chat_state(chat, bench.now)
    part = GapPart(
        "row", "lost", "position not held", "Brackwell", "Ondrel", "2012", "", "caliper bracket bolt", "rear"
    )
    gap = GapEntry("position not held", "[]", (part,), memory)
    return Entry(chat, "telegram 3", None, "2", bench.now, "gap", '{"words": [], "asks": []}', "[]", gap=gap)


def test_nothing_is_guessed_of_a_vehicle_that_was_not_named_in_full(bench: Bench) -> None:
    bench.ask("2012 brackwell head bolts torque")
    one = bench.only()
    assert (one.subject.make, one.subject.model, one.words) == ("Brackwell", "", "brackwell")


def test_a_word_that_nobody_read_is_no_part_of_the_plain_gap(bench: Bench) -> None:
    bench.ask("12 ondrel head bolts torque")
    bench.ask("12 ondrel zorvak head bolts torque")
    assert len(bench.groups()) == 2
    assert {one.words for one in bench.groups()} - {""}


def test_what_the_book_holds_nearby_starts_with_the_part_itself(bench: Bench) -> None:
    bench.ask("2003 ondrel front caliper bracket bolt torque")
    vocabulary = bench.talk.lexicon.vocabulary
    rows = gaps.nearby(bench.only(), bench.talk.book, vocabulary, NOW.date(), most=6)
    names = [bench.talk.book.vehicle(row.vehicle).model for row in rows]
    assert (rows[0].component, rows[0].position, rows[0].property, names[0]) == (
        "caliper bracket bolt",
        "front",
        "torque",
        "Ondrel",
    )
    assert rows[0].year_from == min(row.year_from for row in rows if row.component == rows[0].component)
    assert len(rows) == 6


def test_near_an_unknown_vehicle_are_those_with_a_name_like_it(bench: Bench) -> None:
    bench.ask("2012 halciaz front caliper bracket bolt torque")
    one = bench.only()
    assert (one.kind, one.subject.component, one.subject.years) == ("vehicle", "caliper bracket bolt", (2012,))
    rows = gaps.nearby(one, bench.talk.book, bench.talk.lexicon.vocabulary, NOW.date())
    assert all(bench.talk.book.vehicle(row.vehicle).model == "Halcya" for row in rows)


def test_a_gap_is_asked_again_with_the_memory_of_its_chat(bench: Bench) -> None:
    bench.ask("12 ondrel", "telegram 3", "c")
    turn = bench.ask("head bolts?", "telegram 3", "c")
    (question,) = meanings.questions_of(bench.record, bench.only().number, 5)
    again = bench.talk.consider(question.question, question.memory)
    assert again.outcome == turn.outcome
    assert meant(bench.only()) == HEAD_BOLT


def test_a_part_is_on_record_with_its_gap_or_not_at_all(bench: Bench) -> None:
    part = GapPart("row", "identity", "component not held", component="wheel nut")
    bad = GapPart("row", "other", "component not held", make=None)  # type: ignore[arg-type]
    entry = Entry("c", "p", "m", "?", NOW, "gap", "{}", "[]", gap=GapEntry("component not held", "[]", (part, bad)))
    with pytest.raises(Exception, match="NULL"):
        bench.record.put(entry)
    assert bench.record.rows("SELECT meaning FROM meaning", {}) == []
    assert bench.record.rows("SELECT gap FROM gap", {}) == []


STATEMENTS = (*meanings.ALL, *statements.ALL)


@pytest.mark.parametrize("statement", STATEMENTS)
def test_every_statement_is_plain_sql(statement: str, record: Record) -> None:
    named = set(re.findall(r":(\w+)", statement))
    compiled = text(statement).compile(dialect=postgresql.dialect())  # type: ignore[no-untyped-call]
    assert set(compiled.params) == named
    assert record.rows(f"EXPLAIN {statement}", dict.fromkeys(named))


@pytest.mark.parametrize("statement", [meanings.ONE, meanings.GAPS_OF, meanings.BEFORE, meanings.QUESTIONS_OF])
def test_looking_at_one_gap_walks_indexes(statement: str, record: Record) -> None:
    named = dict.fromkeys(re.findall(r":(\w+)", statement))
    plan = [str(row[3]) for row in record.rows(f"EXPLAIN QUERY PLAN {statement}", named)]
    assert not [step for step in plan if step.startswith("SCAN")], plan


def test_all_names_every_statement() -> None:
    held = {value for name, value in vars(meanings).items() if isinstance(value, str) and name.isupper()}
    assert held - set(statements.ALL) == {*meanings.ALL} | {meanings._COLUMNS, meanings._GAPS}
