"""A thread with one thing that only this thread may use, such as a record or a desk."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Generic, Protocol, TypeVar

from benchbot.errors import BenchbotError


class Closes(Protocol):
    def close(self) -> None: ...


Thing = TypeVar("Thing", bound=Closes)
Result = TypeVar("Result")


class Seat(Generic[Thing]):
    """Does one piece of work after the other with its thing, off the event loop."""

    def __init__(self, name: str, make: Callable[[], Thing]) -> None:
        self._executor = ThreadPoolExecutor(1, thread_name_prefix=name)
        self._make = make
        self._thing: Thing | None = None

    def open(self) -> Future[None]:
        """Begins to make the thing, on its thread; the future ends with what making it raises."""
        return self._executor.submit(self._begin)

    async def do(self, work: Callable[[Thing], Result]) -> Result:
        """What `work` returns or raises. Work that was begun is finished even when nobody waits any more."""
        return await asyncio.get_running_loop().run_in_executor(self._executor, self._with_thing, work)

    def close(self) -> None:
        """Waits for the work in hand, then ends the thread and its thing with it."""
        ended = self._executor.submit(self._end)
        self._executor.shutdown()
        ended.result()

    def _begin(self) -> None:
        self._thing = self._make()

    def _with_thing(self, work: Callable[[Thing], Result]) -> Result:
        if self._thing is None:
            raise BenchbotError("this thread has nothing to work with; open it first")
        return work(self._thing)

    def _end(self) -> None:
        if self._thing is not None:
            self._thing.close()
            self._thing = None
