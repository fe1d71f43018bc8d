"""What takes longer than an answer is done beside the desks, and whoever waits for it hears of it at once."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from parts import NOW, Clock, Noted, clerk_of, fresh_home

from benchbot.channels.telegram import errands as room
from benchbot.channels.telegram import posting
from benchbot.channels.telegram.errands import Runner
from benchbot.errors import RecordBusyError
from benchbot.following.errands import Done
from benchbot.records import errands


def test_what_is_due_is_done_and_the_postman_woken(tmp_path: Path) -> None:
    home, woken = fresh_home(tmp_path), Noted()

    async def once(runner: Runner) -> None:
        await runner.once()
        await runner.once()

    with clerk_of(home) as clerk:

        def put(record: object) -> None:
            with record.writing() as store:  # type: ignore[attr-defined]
                errands.put(store, "dance", {}, NOW)

        asyncio.run(clerk.do(put))
        asyncio.run(once(Runner(clerk, home, woken, Clock())))
        (failed,) = asyncio.run(clerk.do(errands.failed))
    assert failed[0].what == "dance" and "no errand 'dance'" in failed[1]
    # the second look found nothing, and woke nobody
    assert woken.calls == [()]


@pytest.mark.parametrize("error", [RecordBusyError("busy"), KeyError("a fault of ours")])
def test_what_goes_wrong_ends_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    looks: list[int] = []

    def run_due(*given: object) -> list[Done]:
        looks.append(1)
        if len(looks) == 1:
            raise error
        raise asyncio.CancelledError

    home = fresh_home(tmp_path)
    monkeypatch.setattr(room, "run_due", run_due)
    slept = Noted()
    with clerk_of(home) as clerk, pytest.raises(asyncio.CancelledError):
        asyncio.run(Runner(clerk, home, Noted(), Clock(), slept.sleep).run())
    assert len(looks) == 2 and slept.calls == [(1.0,)]


def test_the_postman_looks_every_second() -> None:
    assert posting._LOOK_AGAIN == 1.0
