"""The stand-in from a test's side: starts the process, orders faults, looks, and waits without sleeping."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from types import TracebackType
from typing import Any

from .looks import Call, InlineAnswer, Menu, Notice, Shown, inline_answer, menu, shown
from .ordering import StandInError
from .people import People

SECONDS = 5.0  # how long a wait may take unless the test says otherwise
ENDING = 5.0


class NotSeenError(AssertionError):
    """What a test waited for did not come in time; the text says what there was instead."""


class StandIn(People):
    """Use as `with StandIn.start() as server:`.

    url: for the bot; api_url and file_url: the base_url and base_file_url of a python-telegram-bot Bot. All methods
    block, so a test whose bot runs in the same event loop calls them in a thread (asyncio.to_thread).
    """

    def __init__(self, process: subprocess.Popen[str], told: dict[str, str]) -> None:
        super().__init__(told["control"])
        self._process = process
        self.url = told["url"]
        self.control_url = told["control"]
        self.token = told["token"]
        self.api_url = f"{self.url}/bot"
        self.file_url = f"{self.url}/file/bot"

    @classmethod
    def start(cls, *words: str) -> StandIn:
        """Starts it on free ports; words: further ones of its command line, such as --no-privacy."""
        command = [sys.executable, str(Path(__file__).with_name("__main__.py")), "--with-parent", *words]
        process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        assert process.stdout is not None
        line = process.stdout.readline()
        if not line:
            _end(process)
            raise StandInError(f"the stand-in ended at its start with status {process.returncode}")
        return cls(process, json.loads(line))

    def __enter__(self) -> StandIn:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        try:
            crashes = [] if kind is not None else self.state()["crashes"]
        finally:
            self.stop()
        if crashes:
            raise StandInError("the stand-in itself failed:\n" + "\n".join(crashes))

    def stop(self) -> None:
        self.hang_up()
        _end(self._process)

    # Faults, each for the next `times` calls of `method` ("" is any; chat: only of that chat; skip: let so many pass)

    def fail(self, method: str = "", code: int = 500, **given: Any) -> None:
        """Answers with the status; handled=True carries the call out all the same."""
        self.order("fault", kind="status", method=method, code=code, **given)

    def limit(self, method: str = "", retry_after: int = 1, **given: Any) -> None:
        """429, to be tried again after so many seconds."""
        self.fail(method, 429, parameters={"retry_after": retry_after}, **given)

    def cut(self, method: str = "", handled: bool = False, **given: Any) -> None:
        """Closes the connection before the call is handled, or after (delivered, but no answer)."""
        self.order("fault", kind="cut", method=method, handled=handled, **given)

    def delay(self, seconds: float, method: str = "", **given: Any) -> None:
        """Handles the call at once and answers after so many seconds."""
        self.order("fault", kind="delay", method=method, seconds=seconds, **given)

    def garble(self, method: str = "", code: int = 200, handled: bool = True, **given: Any) -> None:
        """Answers with something that is no JSON."""
        self.order("fault", kind="garbage", method=method, code=code, handled=handled, **given)

    def hang(self, method: str = "", handled: bool = False, **given: Any) -> None:
        """Never answers."""
        self.order("fault", kind="hang", method=method, handled=handled, **given)

    def clear_faults(self) -> None:
        self.order("clear_faults")

    def repeat_updates(self, count: int = 1) -> None:
        """The next updates handed out come a second time, after they were confirmed."""
        self.order("repeat_updates", count=count)

    def overhear_confirmations(self, count: int = 1) -> None:
        """The next confirming offsets are lost: their updates are handed out again."""
        self.order("overhear_confirmations", count=count)

    def refuse_connections(self, seconds: float = 0.0) -> None:
        """Cuts all connections of the bot and refuses new ones; 0: until `accept_connections`."""
        self.order("refuse_connections", seconds=seconds)

    def accept_connections(self) -> None:
        self.order("accept_connections")

    def expire_queries(self) -> None:
        """Every press and inline query until now is too old to be answered."""
        self.order("expire_queries")

    def reset(self) -> None:
        """Forgets everything but the token and the name, and cuts the calls that hang; numbers go on."""
        self.order("reset")

    def settings(self, **given: Any) -> None:
        """query_seconds, privacy, inline, clock (Unix time of all messages), limits={"on": True, ...} (see Limits)."""
        self.order("settings", **given)

    # What there is to see

    def transcript(self, chat: int, deleted: bool = False) -> list[Shown]:
        """Every message of the chat in order, service messages left out."""
        return [shown(one) for one in self.order("transcript", chat=chat, deleted=deleted)]

    def answers(self, chat: int) -> list[Shown]:
        """The messages of the bot that stand in the chat."""
        return [one for one in self.transcript(chat) if one.ours]

    def last(self, chat: int) -> Shown:
        """The last message of the bot that stands in the chat."""
        found = self.answers(chat)
        if not found:
            raise NotSeenError(f"the bot has no message in chat {chat}\n{self._told(chat)}")
        return found[-1]

    def message(self, chat: int, message: int) -> Shown:
        """A message by its id, also a deleted one."""
        return next(one for one in self.transcript(chat, deleted=True) if one.id == message)

    def calls(self, method: str = "", chat: int | None = None) -> list[Call]:
        return [Call(**one) for one in self.order("calls", method=method, chat=chat)]

    def refused(self) -> list[Call]:
        """The calls that the checks refused, ordered faults left out: a bot that does all right has none."""
        return [call for call in self.calls() if call.refused]

    def notices(self, query: str = "", person: int | None = None) -> list[Notice]:
        return [Notice(**one) for one in self.order("notices", query=query, person=person)]

    def inline_answers(self, query: str = "") -> list[InlineAnswer]:
        return [inline_answer(one) for one in self.order("inline_answers", query=query)]

    def menus(self) -> list[Menu]:
        return [menu(one) for one in self.order("menus")]

    def state(self) -> dict[str, Any]:
        """counts (by method, in lower case), pending, polling, outstanding, from_bot, webhook, crashes."""
        told: dict[str, Any] = self.order("state")
        return told

    # Waiting

    def wait_for(self, chat: int | None = None, seconds: float = SECONDS, **conditions: Any) -> None:
        """Returns as soon as all conditions (see waiting.py) hold together; raises NotSeenError if they never do.

        Such as messages=2, text="100 N·m", edits=1 of a chat; method="sendMessage", calls=3; pending=0; polling=True.
        """
        if not self.order("wait", seconds, seconds=seconds, chat=chat, **conditions):
            wanted = ", ".join(f"{name}={value!r}" for name, value in conditions.items())
            raise NotSeenError(f"not within {seconds} s: {wanted}\n{self._told(chat)}")

    def wait_for_answer(self, chat: int, messages: int, seconds: float = SECONDS) -> Shown:
        """Waits until the bot has sent so many messages to the chat in all; the last that stands there."""
        self.wait_for(chat, seconds, messages=messages)
        return self.last(chat)

    def wait_for_notice(self, query: str, seconds: float = SECONDS) -> Notice:
        """The line that answers a press."""
        self.wait_for(None, seconds, notice_count=1, query=query)
        return self.notices(query)[0]

    def wait_for_inline(self, query: str, seconds: float = SECONDS) -> InlineAnswer:
        self.wait_for(None, seconds, inline_count=1, query=query)
        return self.inline_answers(query)[0]

    def _told(self, chat: int | None) -> str:
        """What there is, for the text of a failure."""
        lines = [f"state: { {name: value for name, value in self.state().items() if value} }"]
        if chat is not None:
            lines += [
                f"  {'bot' if one.ours else one.sender}: {one.text!r} {one.labels or ''}"
                for one in self.transcript(chat)
            ]
        lines += [f"  refused: {call.method}: {call.description}" for call in self.refused()]
        return "\n".join(lines)


def _end(process: subprocess.Popen[str]) -> None:
    """Closes its standard input, at which it ends."""
    if process.stdin is not None:
        process.stdin.close()
    try:
        process.wait(ENDING)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()
    if process.stdout is not None:
        process.stdout.close()
