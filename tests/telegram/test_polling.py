"""Polling: what came is on record before it is confirmed, once each; and what a poll that fails means."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Sequence
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from parts import BOT, NOW, Clock, Noted, add, asked, clerk_of, fresh_home, post, record_of, run, states
from telegram import Update, User
from telegram.error import BadRequest, Conflict, InvalidToken, NetworkError, RetryAfter, TelegramError, TimedOut

from benchbot.channels.telegram import polling
from benchbot.channels.telegram.lanes import Lanes
from benchbot.channels.telegram.leaving import ACT
from benchbot.channels.telegram.polling import CONFLICTS_AT_MOST, WANTED, Poller
from benchbot.channels.telegram.watch import Watch
from benchbot.desk.incoming import Incoming
from benchbot.places import Home
from benchbot.records import arrivals
from benchbot.records.record import Record

ME = User(int(BOT), "Bench", is_bot=True, username="BenchBot")
Answer = Sequence[dict[str, Any]] | Exception | Callable[[], Sequence[dict[str, Any]]]


def message(number: int, chat: int = 5, text: str = "a question") -> dict[str, Any]:
    """An update as the server sends it."""
    return {
        "update_id": number,
        "message": {
            "message_id": number,
            "date": int(NOW.timestamp()),
            "chat": {"id": chat, "type": "private", "first_name": "Nobody"},
            "from": {"id": chat, "is_bot": False, "first_name": "Nobody"},
            "text": text,
        },
    }


class PretendLine:
    last: Any = None


class PretendBot:
    """Gives one answer a poll, read as the library reads it: all of it or nothing."""

    def __init__(self, line: PretendLine, answers: Sequence[Answer]) -> None:
        self.line = line
        self.answers = list(answers)
        self.polls: list[dict[str, Any]] = []
        self.webhooks_removed = 0

    async def get_updates(self, **given: Any) -> tuple[Update, ...]:
        self.polls.append(given)
        answer = self.answers.pop(0)
        if isinstance(answer, Exception):
            raise answer
        plain = answer() if callable(answer) else answer
        self.line.last = {"ok": True, "result": plain}
        return Update.de_list(list(plain), None)

    async def delete_webhook(self, drop_pending_updates: bool) -> None:
        assert not drop_pending_updates
        self.webhooks_removed += 1


class Pier:
    """A poller and all that it talks to."""

    def __init__(self, home: Home, clerk: Any, answers: Sequence[Answer]) -> None:
        self.home = home
        self.line = PretendLine()
        self.bot = PretendBot(self.line, answers)
        self.leave, self.sleep, self.told = Noted(), Noted(), Noted()
        self.fed: list[Incoming] = []
        self.seconds = 0.0
        self.clock = Clock()
        self.watch = Watch(home, BOT, 180, self.clock, lambda: self.seconds, self.told)
        self.lanes = Lanes()
        self.poller = Poller(
            self.bot, self.line, ME, clerk, self.lanes, self.fed.append, self.watch, self.leave, self.clock,  # type: ignore[arg-type]
            lambda: {"sent": 3}, 7, self.sleep.sleep,
        )  # fmt: skip

    @property
    def polled_well(self) -> int:
        return sum(call == ("WATCHDOG=1",) for call in self.told.calls)

    async def poll(self) -> None:
        """As many polls as there are answers."""
        while self.bot.answers:
            await self.poller.once()

    @property
    def kept(self) -> list[str]:
        with record_of(self.home) as record:
            return arrivals.left(record, BOT)


@contextmanager
def pier(folder: Path, *answers: Answer) -> Any:
    home = fresh_home(folder)
    with clerk_of(home) as clerk:
        yield Pier(home, clerk, answers)


def numbers(incoming: Sequence[Incoming]) -> list[int]:
    return [one.number for one in incoming]


def test_what_comes_is_kept_and_handed_on_in_order(tmp_path: Path) -> None:
    with pier(tmp_path, [message(10), message(11), message(12, chat=6)], []) as one:
        run(one.poll())
        assert numbers(one.fed) == [10, 11, 12]
        assert [Incoming.from_text(body) for body in one.kept] == one.fed
        assert [poll["offset"] for poll in one.bot.polls] == [0, 13]
        assert one.bot.polls[0]["allowed_updates"] == WANTED
        assert [poll["timeout"] for poll in one.bot.polls] == [0, 7], "the first one tells soon that polling works"
        assert one.lanes.pending == 3
        assert one.polled_well == 2


def test_it_is_on_record_before_the_next_poll_confirms_it(tmp_path: Path) -> None:
    kept: list[int] = []

    def look() -> Sequence[dict[str, Any]]:
        kept.append(len(one.kept))
        return []

    with pier(tmp_path, [message(10), message(11)], look) as one:
        run(one.poll())
    assert kept == [2]


def test_an_update_that_comes_again_is_handed_on_once(tmp_path: Path) -> None:
    with pier(tmp_path, [message(10), message(10)], [message(10), message(11)], [message(10)]) as one:
        run(one.poll())
        assert numbers(one.fed) == [10, 11]


def test_an_update_of_an_earlier_process_is_not_handed_on_again(tmp_path: Path) -> None:
    with pier(tmp_path, [message(10), message(11)]) as one:
        with record_of(one.home) as record:
            arrivals.keep(record, BOT, [(10, "5", asked(10).to_text())], NOW)
            with record.writing() as store:
                arrivals.handled(store, BOT, 10, NOW)
        run(one.poll())
        assert numbers(one.fed) == [11]


def test_what_was_left_over_goes_first(tmp_path: Path) -> None:
    with pier(tmp_path, [message(12)]) as one:
        with record_of(one.home) as record:
            arrivals.keep(record, BOT, [(n, "5", asked(n).to_text()) for n in (10, 11)], NOW)

        async def main() -> None:
            task = asyncio.create_task(one.poller.run())
            while len(one.fed) < 3:
                await asyncio.sleep(0)
            task.cancel()
            await asyncio.wait([task])

        run(main())
        assert numbers(one.fed) == [10, 11, 12]
        assert one.fed[0] == asked(10)


def test_a_press_that_was_left_over_for_long_is_left_alone(tmp_path: Path) -> None:
    """A question that old gets the desk's line; a press would act, perhaps on what was done since."""
    with pier(tmp_path, []) as one:
        old = NOW - timedelta(minutes=5, seconds=1)
        left = [
            asked(10, what="press", at=old), asked(11, what="press", at=NOW - timedelta(minutes=5)),
            asked(12, what="inline", at=old), asked(13, at=old),
        ]  # fmt: skip
        with record_of(one.home) as record:
            arrivals.keep(record, BOT, [(each.number, "5", each.to_text()) for each in left], NOW)

        async def main() -> None:
            task = asyncio.create_task(one.poller.run())
            while one.bot.answers:
                await asyncio.sleep(0)
            task.cancel()
            await asyncio.wait([task])

        run(main())
        assert numbers(one.fed) == [11, 13]
        assert [Incoming.from_text(body).number for body in one.kept] == [11, 13], "the others are handled"


def test_what_cannot_be_kept_is_not_confirmed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    failures = iter([True, False, False])
    keep = arrivals.keep

    def sometimes(record: Record, *given: Any) -> set[int]:
        if next(failures):
            with record.writing() as store:
                store.run("INSERT INTO no_such_table VALUES (1)", {})
        return keep(record, *given)

    monkeypatch.setattr(polling.arrivals, "keep", sometimes)
    with pier(tmp_path, [message(10)], [message(10)], []) as one:
        run(one.poll())
        assert [poll["offset"] for poll in one.bot.polls] == [0, 0, 11]
        assert numbers(one.fed) == [10]
        assert len(one.sleep.calls) == 1
        assert one.polled_well == 2, "a poll whose updates could not be kept is no good one"


BROKEN = {"update_id": 11, "message": {"message_id": 1, "date": "yesterday"}}


@pytest.mark.parametrize("strange", [BROKEN, {"update_id": 11, "message": 7}, {"message": {}}, "text", None])
def test_one_update_that_cannot_be_read_does_not_hold_up_the_others(tmp_path: Path, strange: Any) -> None:
    with pier(tmp_path, [message(10), strange, message(12)], []) as one:
        run(one.poll())
        assert numbers(one.fed) == [10, 12]
        assert one.bot.polls[1]["offset"] == 13
        assert not one.sleep.calls


def test_a_last_update_that_cannot_be_read_is_confirmed_too(tmp_path: Path) -> None:
    with pier(tmp_path, [message(10), BROKEN], []) as one:
        run(one.poll())
        assert one.bot.polls[1]["offset"] == 12


def test_one_update_that_we_trip_over_does_not_hold_up_the_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    read = polling.incoming_of

    def trip(update: Update, *given: Any) -> Incoming | None:
        if update.update_id == 11:
            raise KeyError("of the test")
        return read(update, *given)

    monkeypatch.setattr(polling, "incoming_of", trip)
    with pier(tmp_path, [message(10), message(11), message(12)], []) as one:
        run(one.poll())
        assert numbers(one.fed) == [10, 12]
        assert one.bot.polls[1]["offset"] == 13
    assert "not understood" in caplog.text


def test_halves_of_characters_do_not_stop_the_record(tmp_path: Path) -> None:
    with pier(tmp_path, [message(10, text="bolt \ud83d torque")], []) as one:
        run(one.poll())
        assert numbers(one.fed) == [10]
        assert len(one.kept) == 1


def test_a_group_that_became_a_supergroup_takes_its_outbox_along(tmp_path: Path) -> None:
    update = message(10, chat=-5)
    update["message"] |= {"chat": {"id": -5, "type": "group", "title": "Bay"}, "migrate_to_chat_id": -1005}
    del update["message"]["text"]
    with pier(tmp_path, [update], []) as one:
        add(one.home, post("-5"), post("6"))
        run(one.poll())
        assert states(one.home) == [("-1005", "waiting"), ("6", "waiting")]


def test_errors_of_the_network_are_waited_out_longer_each_time(tmp_path: Path) -> None:
    errors = [NetworkError("lost"), TimedOut(), TelegramError("Invalid server response"), BadRequest("odd")] * 3
    with pier(tmp_path, *errors, [], NetworkError("lost"), []) as one:
        run(one.poll())
        waits = [call[0] for call in one.sleep.calls]
        for number, wait in enumerate(waits[:12]):
            longest = min(30.0, 0.5 * 2**number)
            assert longest / 2 <= wait <= longest
        assert waits[12] <= 0.5, "after a good poll it starts anew"
        assert not one.leave.calls
        assert one.polled_well == 2


def test_a_wait_that_the_server_asks_for_is_kept(tmp_path: Path) -> None:
    with pier(tmp_path, RetryAfter(17), []) as one:
        run(one.poll())
        assert one.sleep.calls == [(17.0,)]


def test_a_refused_token_ends_the_process(tmp_path: Path) -> None:
    with pier(tmp_path, InvalidToken("Unauthorized")) as one:
        run(one.poll())
        assert [call[0] for call in one.leave.calls] == [ACT]


def test_three_conflicts_in_a_row_end_the_process(tmp_path: Path) -> None:
    conflict = Conflict("Conflict: terminated by other getUpdates request; make sure that only one runs")
    with pier(tmp_path, *[conflict] * (CONFLICTS_AT_MOST - 1), [], *[conflict] * (CONFLICTS_AT_MOST - 1)) as one:
        run(one.poll())
        assert not one.leave.calls
        one.bot.answers = [conflict]
        run(one.poll())
        [(code, why)] = one.leave.calls
        assert code == ACT
        assert "another process polls this bot" in why


def test_a_webhook_that_somebody_set_is_removed(tmp_path: Path) -> None:
    conflict = Conflict("Conflict: can't use getUpdates method while webhook is active; use deleteWebhook first")
    with pier(tmp_path, *[conflict] * 4, []) as one:
        run(one.poll())
        assert one.bot.webhooks_removed == 4
        assert not one.leave.calls
        assert one.polled_well == 1


def test_a_fault_of_ours_does_not_end_polling(tmp_path: Path) -> None:
    with pier(tmp_path, ZeroDivisionError("of the test"), [message(10)], []) as one:
        run(one.poll())
        assert numbers(one.fed) == [10]
        assert len(one.sleep.calls) == 1


def test_no_more_is_taken_in_than_can_be_handled(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(polling, "PENDING_AT_MOST", 2)
    with pier(tmp_path, [message(10), message(11), message(12)], [message(13)]) as one:

        async def handle() -> None:
            await one.lanes.process_update(one.fed[0], asyncio.sleep(0))

        async def main() -> None:
            task = asyncio.create_task(one.poller.run())
            while len(one.fed) < 3:
                await asyncio.sleep(0)
            for _ in range(20):
                await asyncio.sleep(0)
            assert len(one.bot.polls) == 1, "three are pending"
            one.seconds = 179
            await handle()
            one.seconds = 200
            for _ in range(20):
                await asyncio.sleep(0)
            assert len(one.bot.polls) == 1, "two are pending"
            assert not one.watch.overdue, "work that goes on is no polling that died"
            await handle()
            while len(one.fed) < 4:
                await asyncio.sleep(0)
            task.cancel()
            await asyncio.wait([task])

        run(main())


def test_numbers_that_begin_anew_after_a_quiet_week_are_asked_for(tmp_path: Path) -> None:
    with pier(tmp_path, [message(900)], [], [], [message(10)], []) as one:

        async def main() -> None:
            await one.poller.once()
            one.clock.forward(5 * 86400)
            await one.poller.once()
            one.clock.forward(2 * 86400)
            await one.poll()

        run(main())
        assert [poll["offset"] for poll in one.bot.polls] == [0, 901, 901, 0, 11]
        assert numbers(one.fed) == [900, 10]
