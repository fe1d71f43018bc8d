"""Lanes and desks: one chat in order, chats side by side, and a fault in one message stops nothing else."""

from __future__ import annotations

import asyncio
import gc
import threading
import warnings
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from parts import BOT, NOW, Clock, Noted, asked, clerk_of, fresh_home, record_of, run
from telegram.error import BadRequest

from benchbot.channels.telegram.lanes import Lanes
from benchbot.channels.telegram.leaving import AGAIN
from benchbot.channels.telegram.serving import Counter
from benchbot.channels.telegram.threads import Seat
from benchbot.desk.incoming import Incoming, What
from benchbot.desk.sheets import AtOnce, Notice, Offers, Parcel
from benchbot.desk.wording import ENGLISH, wording_of
from benchbot.errors import BookError, RecordError
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records import arrivals


async def _process(lanes: Lanes, incoming: Incoming, work: Awaitable[None]) -> None:
    lanes.expect()
    await lanes.process_update(incoming, work)


def test_a_chat_is_handled_in_order_and_chats_side_by_side() -> None:
    done: list[str] = []

    async def main() -> None:
        lanes, gates = Lanes(), {name: asyncio.Event() for name in ("a1", "b1", "a2", "b2", "a3")}

        async def work(name: str) -> None:
            await gates[name].wait()
            done.append(name)

        tasks = [
            asyncio.create_task(_process(lanes, asked(n, chat=name[0]), work(name))) for n, name in enumerate(gates)
        ]
        for name in ("a3", "a2", "b1", "b2", "a1"):
            gates[name].set()
            for _ in range(10):
                await asyncio.sleep(0)
        await asyncio.gather(*tasks)
        assert lanes.pending == 0
        assert not lanes._lanes

    run(main())
    assert done == ["b1", "b2", "a1", "a2", "a3"]


def test_a_person_without_a_chat_has_a_lane_of_their_own() -> None:
    assert asked(1, chat="", person="telegram 9").lane == "telegram 9"


def test_many_chats_do_not_wait_for_one_long_lane() -> None:
    """The library limits how many updates it works on, waiting ones included."""

    async def main() -> None:
        lanes, gate, other = Lanes(), asyncio.Event(), asyncio.Event()

        async def wait() -> None:
            await gate.wait()

        async def quick() -> None:
            other.set()

        tasks = [asyncio.create_task(_process(lanes, asked(n, chat="long"), wait())) for n in range(1500)]
        tasks.append(asyncio.create_task(_process(lanes, asked(9999, chat="other"), quick())))
        await other.wait()
        gate.set()
        await asyncio.gather(*tasks)

    run(main())


def test_a_failure_lets_the_next_one_in() -> None:
    async def main() -> None:
        lanes = Lanes()

        async def fail() -> None:
            raise KeyError("of the test")

        with pytest.raises(KeyError):
            await _process(lanes, asked(1), fail())
        await _process(lanes, asked(2), asyncio.sleep(0))
        assert lanes.pending == 0

    run(main())


def test_nothing_more_is_begun_once_closed() -> None:
    begun: list[int] = []

    async def main() -> None:
        lanes, gate = Lanes(), asyncio.Event()

        async def work(number: int) -> None:
            begun.append(number)
            await gate.wait()

        tasks = [asyncio.create_task(_process(lanes, asked(n), work(n))) for n in (1, 2, 3)]
        while not begun:
            await asyncio.sleep(0)
        lanes.close()
        gate.set()
        await asyncio.gather(*tasks)

    with warnings.catch_warnings():
        warnings.simplefilter("error")
        run(main())
        gc.collect()
    assert begun == [1]


def test_fewer_waits_for_one_to_be_handled() -> None:
    async def main() -> None:
        lanes = Lanes()
        waiting = asyncio.create_task(lanes.fewer())
        await asyncio.sleep(0)
        assert not waiting.done()
        await _process(lanes, asked(1), asyncio.sleep(0))
        await waiting

    run(main())


class PretendDesk:
    """Does what a test tells it for each message; notes the threads it works on."""

    def __init__(self, home: Home, does: Callable[[Incoming], tuple[AtOnce, ...]]) -> None:
        self.record = record_of(home)
        self.does = does
        self.threads = {threading.get_ident()}

    def take(self, incoming: Incoming) -> tuple[AtOnce, ...]:
        self.threads.add(threading.get_ident())
        things = self.does(incoming)
        with self.record.writing() as store:
            arrivals.handled(store, BOT, incoming.number, NOW)
        return things

    def close(self) -> None:
        self.record.close()


class PretendBot:
    def __init__(self) -> None:
        self.calls: list[tuple[object, ...]] = []

    async def answer_callback_query(self, query: str, text: str | None) -> None:
        self.calls.append(("notice", query, text))
        if query == "too old":
            raise BadRequest("Query is too old and response timeout expired or query id is invalid")

    async def answer_inline_query(self, query: str, results: list[object], **more: object) -> None:
        button = more.pop("button")
        self.calls.append(("inline", query, len(results), button and button.text, more))


class Shop:
    """A counter with two desks, and all that it talks to."""

    def __init__(self, home: Home, counter: Counter, leave: Noted, wake: Noted, bot: PretendBot, sleep: Noted) -> None:
        self.home, self.counter = home, counter
        self.leave, self.wake, self.bot, self.sleep = leave, wake, bot, sleep

    def serve(self, *incoming: Incoming) -> None:
        with record_of(self.home) as record:
            arrivals.keep(record, BOT, [(one.number, one.chat, one.to_text()) for one in incoming], NOW)

        async def main() -> None:
            await asyncio.gather(*(self.counter.serve(one) for one in incoming))
            await self.counter.finish()

        run(main())

    @property
    def left(self) -> list[str]:
        with record_of(self.home) as record:
            return arrivals.left(record, BOT)

    @property
    def posted(self) -> list[Parcel]:
        with record_of(self.home) as record:
            return [Parcel.from_text(row[0]) for row in record.rows("SELECT body FROM sending ORDER BY sending", {})]


@contextmanager
def shop(folder: Path, does: Callable[[Incoming], tuple[AtOnce, ...]] = lambda _: ()) -> Iterator[Shop]:
    home = fresh_home(folder)
    leave, wake, bot, sleep = Noted(), Noted(), PretendBot(), Noted()
    desks = [Seat(f"desk {number}", lambda: PretendDesk(home, does)) for number in (1, 2)]
    for desk in desks:
        desk.open().result()
    with clerk_of(home) as clerk:
        # asyncio.Queue takes the loop that uses it first, so one counter serves one run.
        counter = Counter(desks, clerk, bot, wake, leave, Clock(), sleep.sleep)  # type: ignore[arg-type]
        yield Shop(home, counter, leave, wake, bot, sleep)
        for desk in desks:
            assert desk._thing is not None and len(desk._thing.threads) == 1, "a desk belongs to its thread"
            desk.close()


def test_what_a_desk_returns_is_answered_directly(tmp_path: Path) -> None:
    things = (Notice("q1", "x" * 300), Notice("q2"), Offers("q3", refusal="Ask your shop for an invite."))
    with shop(tmp_path, lambda _: things) as one:
        one.serve(asked(1))
        assert not one.left
        assert one.bot.calls == [
            ("notice", "q1", "x" * 200),
            ("notice", "q2", None),
            ("inline", "q3", 0, "Ask your shop for an invite.", {"cache_time": 0, "is_personal": True}),
        ]
        assert one.wake.calls, "what the desk put into the outbox must be seen"
        assert one.counter.handled == 1


def test_a_direct_answer_that_fails_is_logged_only(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("INFO")
    with shop(tmp_path, lambda _: (Notice("too old"), Notice("fine"))) as one:
        one.serve(asked(1))
        assert [call[1] for call in one.bot.calls] == ["too old", "fine"]
    assert "not answered in time" in caplog.text


def test_two_desks_work_side_by_side(tmp_path: Path) -> None:
    both = threading.Barrier(2, timeout=10)

    def meet(_: Incoming) -> tuple[AtOnce, ...]:
        both.wait()
        return ()

    with shop(tmp_path, meet) as one:
        one.serve(asked(1, chat="5"), asked(2, chat="6"))
        assert one.counter.handled == 2


def test_a_record_that_is_busy_is_tried_again(tmp_path: Path) -> None:
    failures = iter([RecordError("busy"), RecordError("busy")])

    def sometimes(_: Incoming) -> tuple[AtOnce, ...]:
        error = next(failures, None)
        if error is not None:
            raise error
        return ()

    with shop(tmp_path, sometimes) as one:
        one.serve(asked(1))
        assert one.counter.handled == 1
        assert len(one.sleep.calls) == 2
        assert not one.posted


@pytest.mark.parametrize("error", [RecordError("a rule of the database"), BookError("damaged"), ZeroDivisionError("x")])
def test_a_message_that_cannot_be_handled_gets_an_excuse_once(tmp_path: Path, error: Exception) -> None:
    def fail(incoming: Incoming) -> tuple[AtOnce, ...]:
        if incoming.number == 1:
            raise error
        return ()

    with shop(tmp_path, fail) as one:
        one.serve(asked(1, topic="8"), asked(2))
        assert not one.left, "at the next start it would go wrong again"
        assert not one.leave.calls
        [sorry] = one.posted
        assert (sorry.chat, sorry.topic, sorry.quote) == ("5", "8", "1")
        assert [block.text for block in sorry.sheet.blocks] == [ENGLISH.fault]
        assert (one.counter.handled, one.counter.faults) == (1, 1)


@pytest.mark.parametrize("what", ["text", "press"])
def test_the_excuse_is_in_the_language_of_the_place(tmp_path: Path, what: What) -> None:
    def fail(_: Incoming) -> tuple[AtOnce, ...]:
        raise ZeroDivisionError

    with shop(tmp_path, fail) as one:
        with record_of(one.home) as record:
            people, person = People(record), asked(1).person
            made = people.add_location("Sur", person, NOW)
            assert isinstance(made, Location)
            people.set_defaults(made.number, language="es")
        one.serve(asked(1, what=what, query="q1"))
        posted = [block.text for sorry in one.posted for block in sorry.sheet.blocks]
        assert [*posted, *(call[2] for call in one.bot.calls)] == [wording_of("es").fault]


def test_an_excuse_comes_even_where_the_asker_cannot_be_looked_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> Any:
        raise ZeroDivisionError

    monkeypatch.setattr(People, "memberships", fail)
    with shop(tmp_path, fail) as one:
        one.serve(asked(1))
        assert [block.text for block in one.posted[0].sheet.blocks] == [ENGLISH.fault]
        assert not one.left


def test_an_unknown_command_in_a_group_gets_no_excuse(tmp_path: Path) -> None:
    def fail(_: Incoming) -> tuple[AtOnce, ...]:
        raise ZeroDivisionError

    with shop(tmp_path, fail) as one:
        one.serve(asked(1, command="deploy", addressed=False), asked(2, command="ask", addressed=False))
        assert [sorry.quote for sorry in one.posted] == ["2"]


def test_a_press_and_an_inline_query_get_their_excuse_directly(tmp_path: Path) -> None:
    def fail(_: Incoming) -> tuple[AtOnce, ...]:
        raise ZeroDivisionError

    with shop(tmp_path, fail) as one:
        one.serve(
            asked(1, what="press", query="q1"), asked(2, chat="", what="inline", query="q2"), asked(3, what="nobody")
        )
        assert sorted(call[:3] for call in one.bot.calls) == [("inline", "q2", 0), ("notice", "q1", ENGLISH.fault)]
        assert not one.posted
        assert not one.left


def test_a_record_that_takes_nothing_ends_the_process_for_another_try(tmp_path: Path) -> None:
    def fail(_: Incoming) -> tuple[AtOnce, ...]:
        raise RecordError("disk full")

    with shop(tmp_path, fail) as one:
        one.serve()
        with record_of(one.home) as record, record.writing() as store:
            store.run("DROP TABLE sending", {})
        one.serve(asked(1))
        assert [call[0] for call in one.leave.calls] == [AGAIN]
        assert len(one.left) == 1, "it is handled after the next start"
