"""The outbox on its way: each chat in order, chats side by side, nothing lost, nothing doubled without a word."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import httpx
import pytest
from parts import BOT, NOW, Clock, Noted, add, clerk_of, fresh_home, post, record_of, run, states, until
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)

from benchbot.channels.telegram import fates
from benchbot.channels.telegram.calls import Garbled, ServerFault, verdict
from benchbot.channels.telegram.fates import TRIES_AT_MOST, backoff
from benchbot.channels.telegram.leaving import ACT, AGAIN
from benchbot.channels.telegram.posting import Postman
from benchbot.desk.sheets import Parcel
from benchbot.desk.wording import ENGLISH, wording_of
from benchbot.places import Home
from benchbot.records import cards, outbox


def caused(error: TelegramError, cause: Exception) -> TelegramError:
    error.__cause__ = cause
    return error


UNSURE, SHOW_IT = ENGLISH.unsure, ENGLISH.show_it
NOT_SENT = [
    caused(NetworkError("httpx.ConnectError"), httpx.ConnectError("refused")),
    caused(TimedOut(), httpx.ConnectTimeout("late")),
    caused(TimedOut(), httpx.PoolTimeout("full")),
    ServerFault(500),
]
UNKNOWN = [
    caused(TimedOut(), httpx.ReadTimeout("late")),
    caused(TimedOut(), httpx.WriteTimeout("late")),
    caused(NetworkError("httpx.ReadError"), httpx.ReadError("cut")),
    caused(NetworkError("httpx.RemoteProtocolError"), httpx.RemoteProtocolError("disconnected without a response")),
    ServerFault(502),
    ServerFault(504),
    TelegramError("Invalid server response"),
]
GARBLED = Garbled("the answer cannot be read (KeyError: 'result')")


def named(error: Exception) -> str:
    return f"{type(error).__name__} {type(error.__cause__).__name__} {error}"


@dataclass(slots=True)
class PretendSender:
    """Shows what it is given, unless the test has another answer for it: an error, or something to wait for first."""

    answers: dict[str, list[Exception | Awaitable[object]]] = field(default_factory=dict)
    shown: list[tuple[str, Parcel]] = field(default_factory=list)
    tried: list[tuple[str, str]] = field(default_factory=list)
    card_messages: list[str] = field(default_factory=list)
    flying: int = 0
    most_flying: int = 0

    async def send(self, parcel: Parcel, chat: str, card_message: str) -> str:
        text = text_of(parcel)
        self.tried.append((chat, text))
        self.card_messages.append(card_message)
        self.flying += 1
        self.most_flying = max(self.most_flying, self.flying)
        try:
            for answer in self.answers.get(text, [])[:1]:
                del self.answers[text][0]
                if isinstance(answer, Exception):
                    raise answer
                await answer
        finally:
            self.flying -= 1
        self.shown.append((chat, parcel))
        return str(1000 + len(self.shown))

    @property
    def texts(self) -> list[tuple[str, str]]:
        return [(chat, text_of(parcel)) for chat, parcel in self.shown]


def text_of(parcel: Parcel) -> str:
    return parcel.sheet.blocks[0].text if parcel.sheet.blocks else parcel.do


class Office:
    """A postman and all that they talk to."""

    def __init__(self, home: Home, postman: Postman, sender: PretendSender, clock: Clock, leave: Noted) -> None:
        self.home, self.postman, self.sender, self.clock, self.leave = home, postman, sender, clock, leave

    def states(self) -> list[tuple[str, str]]:
        return states(self.home)

    async def settled(self, *wanted: str) -> None:
        """Waits until the states in the outbox are these, in order."""

        async def met() -> bool:
            return [state for _, state in await asyncio.to_thread(self.states)] == list(wanted)

        await until(met)

    async def returned(self, number: int = 1) -> None:
        """Waits until that one was tried and waits again."""

        def look() -> bool:
            with record_of(self.home) as record:
                found = record.row("SELECT state, tries FROM sending WHERE sending = :number", {"number": number})
            return found is not None and found[0] == "waiting" and found[1] > 0

        await until(lambda: asyncio.to_thread(look))

    def work(self, *steps: Callable[[], Awaitable[object]]) -> None:
        """Runs the postman while the steps are taken, then lets them finish."""

        async def main() -> None:
            await self.postman.begin()
            task = asyncio.create_task(self.postman.run())
            for step in steps:
                await step()
            self.postman.close()
            await task

        run(main())


@contextmanager
def office(folder: Path, at_once: int = 32, **answers: list[Exception | Awaitable[object]]) -> Iterator[Office]:
    home = fresh_home(folder)
    sender, clock, leave = PretendSender(answers), Clock(), Noted()
    with clerk_of(home) as clerk:
        yield Office(home, Postman(clerk, BOT, sender, leave, clock, at_once), sender, clock, leave)


def bodies(home: Home, state: str) -> list[str]:
    with record_of(home) as record:
        return [row[0] for row in record.rows("SELECT body FROM sending WHERE state = :state", {"state": state})]


def whys(home: Home) -> list[str]:
    with record_of(home) as record:
        return [row[0] for row in record.rows("SELECT why FROM sending ORDER BY sending", {})]


def test_what_waits_is_sent_in_the_order_of_its_chat(tmp_path: Path) -> None:
    with office(tmp_path) as one:
        add(one.home, *(post(chat, f"{chat} {n}") for n in range(4) for chat in ("5", "6")))
        one.work(lambda: one.settled(*["sent"] * 8))
        for chat in ("5", "6"):
            assert [text for at, text in one.sender.texts if at == chat] == [f"{chat} {n}" for n in range(4)]
        assert one.postman.counts["sent"] == 8
        assert bodies(one.home, "sent") == [""] * 8, "what was written is not kept"


def test_one_chat_that_hangs_holds_up_nobody_else(tmp_path: Path) -> None:
    gate = asyncio.Event()

    async def opened() -> None:
        gate.set()

    with office(tmp_path, first=[gate.wait()]) as one:
        add(one.home, post("5", "first"), post("5", "second"), post("6", "other"), post("7", "another"))
        one.work(lambda: one.settled("sending", "waiting", "sent", "sent"), opened, lambda: one.settled(*["sent"] * 4))
        assert [text for chat, text in one.sender.texts if chat == "5"] == ["first", "second"]


def test_only_so_many_are_on_their_way_at_once(tmp_path: Path) -> None:
    gate = asyncio.Event()

    async def full() -> None:
        await until(lambda: asyncio.sleep(0, one.sender.flying == 3))
        gate.set()

    with office(tmp_path, 3, **{f"t{n}": [gate.wait()] for n in range(9)}) as one:
        add(one.home, *(post(str(n), f"t{n}") for n in range(9)))
        one.work(full, lambda: one.settled(*["sent"] * 9))
        assert one.sender.most_flying == 3


def test_something_new_is_sent_when_woken(tmp_path: Path) -> None:
    async def come_later() -> None:
        await asyncio.to_thread(add, one.home, post("5", "new"))
        one.postman.wake()

    with office(tmp_path) as one:
        one.work(come_later, lambda: one.settled("sent"))


def test_a_wait_that_the_server_asks_for_is_kept_and_nothing_of_that_chat_goes_first(tmp_path: Path) -> None:
    async def not_yet() -> None:
        await one.settled("waiting", "waiting", "sent")
        one.clock.forward(16.9)
        await asyncio.to_thread(add, one.home, post("7", "later"))
        one.postman.wake()
        await one.settled("waiting", "waiting", "sent", "sent")
        assert sorted(one.sender.tried) == [("5", "first"), ("6", "other"), ("7", "later")]

    async def then() -> None:
        one.clock.forward(0.2)
        one.postman.wake()
        await one.settled("sent", "sent", "sent", "sent")

    with office(tmp_path, first=[RetryAfter(17)]) as one:
        add(one.home, post("5", "first"), post("5", "second"), post("6", "other"))
        one.work(not_yet, then)
        assert [text for chat, text in one.sender.texts if chat == "5"] == ["first", "second"]


@pytest.mark.parametrize("error", NOT_SENT, ids=named)
@pytest.mark.parametrize("do", ["post", "picture", "change", "menu"])
def test_what_was_not_sent_for_certain_is_sent_again(tmp_path: Path, error: TelegramError, do: str) -> None:
    async def later() -> None:
        await one.returned()
        one.clock.forward(1)
        one.postman.wake()
        await one.settled("sent")

    parcel = post("5", "first")
    with office(tmp_path, first=[error]) as one:
        add(one.home, Parcel(do, "5", parcel.sheet))  # type: ignore[arg-type]
        one.work(later)
        assert len(one.sender.tried) == 2


@pytest.mark.parametrize("error", [*UNKNOWN, GARBLED], ids=named)
@pytest.mark.parametrize("do", ["post", "picture"])
def test_what_may_have_arrived_is_not_repeated_but_asked_about(tmp_path: Path, error: TelegramError, do: str) -> None:
    async def much_later() -> None:
        await one.settled("unsure", "sent")
        one.clock.forward(3600)
        one.postman.wake()

    with office(tmp_path, first=[error]) as one:
        parcel = Parcel(do, "5", post("5", "first").sheet, topic="8", quote="77", card=4)  # type: ignore[arg-type]
        [number] = add(one.home, parcel)
        one.work(much_later)
        assert one.sender.tried == [("5", "first"), ("5", UNSURE)]
        [(chat, question)] = one.sender.shown
        assert (question.do, chat, question.topic, question.quote) == ("post", "5", "8", "77")
        [button] = question.sheet.buttons
        assert (button.label, button.code, question.card) == (SHOW_IT, f"again.{number}", None)
        assert bodies(one.home, "unsure") == [parcel.to_text()], "it can still be shown"
        assert one.postman.counts["unsure"] == 1


def test_who_is_spoken_to_in_spanish_is_asked_in_spanish(tmp_path: Path) -> None:
    with office(tmp_path, first=[UNKNOWN[0]]) as one:
        add(one.home, post("5", "first", language="es"))
        one.work(lambda: one.settled("unsure", "sent"))
        [(_, question)] = one.sender.shown
        spanish = wording_of("es")
        assert question.sheet.blocks[0].text == spanish.unsure != UNSURE
        assert question.sheet.buttons[0].label == spanish.show_it != SHOW_IT


def test_what_an_earlier_release_left_waiting_is_sent(tmp_path: Path) -> None:
    with office(tmp_path) as one, record_of(one.home) as record:
        body = post("5", "first").to_text().replace('"twice":false', '"twice":false,"asks":true')
        assert "asks" in body
        with record.writing() as store:
            outbox.add(store, BOT, "5", body, NOW)
        one.work(lambda: one.settled("sent"))
        assert one.sender.tried == [("5", "first")]


@pytest.mark.parametrize("error", UNKNOWN, ids=named)
@pytest.mark.parametrize("do", ["change", "caption", "menu", "twice"])
def test_what_may_be_repeated_is(tmp_path: Path, error: TelegramError, do: str) -> None:
    async def later() -> None:
        await one.returned()
        one.clock.forward(1)
        one.postman.wake()
        await one.settled("sent")

    sheet = post("5", "first").sheet
    with office(tmp_path, first=[error]) as one:
        add(one.home, Parcel("post", "5", sheet, twice=True) if do == "twice" else Parcel(do, "5", sheet))  # type: ignore[arg-type]
        one.work(later)
        assert len(one.sender.tried) == 2


def test_a_question_about_an_unsure_one_that_times_out_is_repeated_itself(tmp_path: Path) -> None:
    lost = UNKNOWN[0]

    async def later() -> None:
        await one.returned(2)
        one.clock.forward(1)
        one.postman.wake()
        await one.settled("unsure", "sent")

    with office(tmp_path, first=[lost], **{UNSURE: [lost]}) as one:
        add(one.home, post("5", "first"))
        one.work(later)
        assert one.sender.tried == [("5", "first"), ("5", UNSURE), ("5", UNSURE)]


def test_a_question_about_an_unsure_one_is_not_asked_about(tmp_path: Path) -> None:
    """A server that answers everything so would be asked, and the person told, without end."""
    with office(tmp_path, first=[GARBLED], **{UNSURE: [GARBLED]}) as one:
        add(one.home, post("5", "first"), post("5", "second"))
        one.work(lambda: one.settled("unsure", "sent", "unsure"))
        assert one.sender.tried == [("5", "first"), ("5", "second"), ("5", UNSURE)]


@pytest.mark.parametrize("error", [Forbidden("bot was blocked by the user"), BadRequest("chat not found")])
def test_what_the_server_refuses_is_not_tried_again(tmp_path: Path, error: TelegramError) -> None:
    with office(tmp_path, first=[error]) as one:
        add(one.home, post("5", "first"), post("5", "second"))
        one.work(lambda: one.settled("refused", "sent"))
        assert bodies(one.home, "refused") == [""]
        assert str(error) in whys(one.home)[0]


def test_a_group_that_moved_gets_all_that_waits_for_it(tmp_path: Path) -> None:
    with office(tmp_path, first=[ChatMigrated(-1005)]) as one:
        add(one.home, post("-5", "first"), post("-5", "second"), post("6", "other"))
        one.work(lambda: one.settled("sent", "sent", "sent"))
        assert [chat for chat, text in one.sender.texts if text != "other"] == ["-1005", "-1005"]
        assert [chat for chat, _ in one.states()] == ["-1005", "-1005", "6"]


def test_a_refused_token_ends_the_process_and_loses_nothing(tmp_path: Path) -> None:
    with office(tmp_path, first=[InvalidToken(f"The token `{BOT}:x` was rejected")]) as one:
        add(one.home, post("5", "first"))

        async def left() -> None:
            await until(lambda: asyncio.sleep(0, bool(one.leave.calls)))
            one.postman.close()

        one.work(left)
        assert one.leave.calls[0][0] == ACT
        assert one.states() == [("5", "waiting")]
        assert f"{BOT}:x" not in whys(one.home)[0]


def test_a_parcel_that_cannot_be_made_does_not_stop_the_others(tmp_path: Path) -> None:
    with office(tmp_path, first=[ValueError("the button has too long a code")]) as one:
        add(one.home, post("5", "first"), post("5", "second"))
        with record_of(one.home) as record, record.writing() as store:
            outbox.add(store, BOT, "5", "no parcel", NOW)
        one.work(lambda: one.settled("refused", "sent", "refused"))
        assert "too long a code" in whys(one.home)[0]


def test_an_error_of_the_server_about_one_message_does_not_hold_up_its_chat_for_ever(tmp_path: Path) -> None:
    with office(tmp_path, first=[ServerFault(500)]) as one:
        add(one.home, post("5", "first"), post("5", "second"))
        with record_of(one.home) as record, record.writing() as store:
            store.run("UPDATE sending SET tries = :tries WHERE sending = 1", {"tries": TRIES_AT_MOST - 1})
        one.work(lambda: one.settled("unsure", "sent", "sent"))


def test_what_a_killed_process_had_in_hand_is_sent_and_counted(tmp_path: Path) -> None:
    with office(tmp_path) as one:
        add(one.home, post("5", "first"), post("6", "other"), post("5", "second"))
        with record_of(one.home) as record:
            assert len(outbox.claim(record, BOT, (), NOW, 10)) == 2
        one.work(lambda: one.settled("sent", "sent", "sent"))
        assert one.postman.counts["repeated"] == 2
        assert [text for chat, text in one.sender.texts if chat == "5"] == ["first", "second"]


def test_the_message_of_a_card_is_known_to_what_changes_it(tmp_path: Path) -> None:
    with office(tmp_path) as one:
        with record_of(one.home) as record:
            card = cards.put(record, "telegram 5", "telegram 5", "answer", "1", {}, NOW, NOW)
        add(one.home, post("5", "first", card=card), Parcel("change", "5", post("5", "second").sheet, card=card))
        one.work(lambda: one.settled("sent", "sent"))
        assert one.sender.card_messages == ["", "1001"]


def test_closing_lets_what_is_on_its_way_end_and_begins_nothing(tmp_path: Path) -> None:
    gate = asyncio.Event()

    async def close() -> None:
        await one.settled("sending", "waiting")
        one.postman.close()
        gate.set()

    with office(tmp_path, first=[gate.wait()]) as one:
        add(one.home, post("5", "first"), post("5", "second"))
        one.work(close)
        assert one.states() == [("5", "sent"), ("5", "waiting")]


def test_finishing_sends_all_that_can_be_sent_now(tmp_path: Path) -> None:
    with office(tmp_path, **{"5 1": [RetryAfter(60)]}) as one:
        add(one.home, *(post(chat, f"{chat} {n}") for n in range(3) for chat in ("5", "6")))
        one.work(one.postman.finish)
        assert [state for chat, state in one.states() if chat == "6"] == ["sent"] * 3
        assert [state for chat, state in one.states() if chat == "5"] == ["sent", "waiting", "waiting"]


def test_a_record_that_fails_for_a_while_loses_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("benchbot.channels.telegram.posting.backoff", lambda _: backoff(1, lambda: -1))
    monkeypatch.setattr("benchbot.channels.telegram.posting._TRIES_OF_RECORD", 10**9)
    gate = asyncio.Event()

    def broken(on: bool) -> Callable[[], Awaitable[object]]:
        def change() -> None:
            with record_of(one.home) as record, record.writing() as store:
                store.run(f"ALTER TABLE {'sending' if on else 'away'} RENAME TO {'away' if on else 'sending'}", {})

        async def step() -> None:
            await asyncio.to_thread(change)
            gate.set()
            one.postman.wake()

        return step

    async def failed() -> None:
        await until(lambda: asyncio.sleep(0, "takes nothing" in caplog_text()))

    noted: list[str] = []

    def caplog_text() -> str:
        return " ".join(noted)

    monkeypatch.setattr("benchbot.channels.telegram.posting.event", lambda _log, what, *_, **__: noted.append(what))
    with office(tmp_path, first=[gate.wait()]) as one:
        add(one.home, post("5", "first"), post("5", "second"))
        one.work(lambda: one.settled("sending", "waiting"), broken(True), failed, broken(False))
        assert one.sender.tried[0] == ("5", "first")
        assert one.states()[0] == ("5", "sent")
        assert one.sender.tried.count(("5", "first")) == 1
        assert not one.leave.calls


def test_a_record_that_stays_broken_ends_the_process(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("benchbot.channels.telegram.posting.backoff", lambda _: backoff(1, lambda: -1))
    with office(tmp_path) as one:
        add(one.home, post("5", "first"))

        async def broken() -> None:
            with record_of(one.home) as record, record.writing() as store:
                store.run("DROP TABLE sending", {})
            one.postman.wake()
            await until(lambda: asyncio.sleep(0, bool(one.leave.calls)))

        async def main() -> None:
            task = asyncio.create_task(one.postman.run())
            await one.settled("sent")
            await broken()
            one.postman.close()
            await task

        run(main())
        assert one.leave.calls[0][0] == AGAIN


def test_waits_grow_and_stay_within_limits() -> None:
    longest = [backoff(tries, lambda: 1.0).total_seconds() for tries in range(1, 12)]
    assert longest[:7] == [0.5, 1, 2, 4, 8, 16, 30]
    assert set(longest[6:]) == {30}
    assert backoff(500, lambda: 0.0).total_seconds() == 15


def test_every_error_of_the_library_has_a_verdict() -> None:
    wanted: Sequence[tuple[TelegramError, str]] = [
        (RetryAfter(3), "wait"),
        (ChatMigrated(-7), "moved"),
        (Forbidden("x"), "forbidden"),
        (InvalidToken(), "token"),
        (BadRequest("x"), "bad"),
        *((error, "not done") for error in NOT_SENT),
        *((error, "unknown") for error in UNKNOWN),
    ]
    assert [verdict(error).what for error, _ in wanted] == [what for _, what in wanted]
    assert fates.fate_of(verdict(RetryAfter(3)), post("5"), 1).wait.total_seconds() == 3  # type: ignore[union-attr]


def test_a_menu_that_the_server_does_not_know_holds_up_nothing_and_ends_nothing() -> None:
    menu = Parcel("menu", "5", codes=("help",), labels=("How to ask",), twice=True)
    unknown = verdict(InvalidToken("Not Found"))
    assert isinstance(fates.fate_of(unknown, menu, 1), fates.Refused)
    assert isinstance(fates.fate_of(unknown, post("5"), 1), fates.Back)
    broken = verdict(ServerFault(500))
    assert isinstance(fates.fate_of(broken, menu, TRIES_AT_MOST - 1), fates.Back)
    assert isinstance(fates.fate_of(broken, menu, TRIES_AT_MOST), fates.Refused)


def test_a_server_without_menus_leaves_the_answers_going(tmp_path: Path) -> None:
    with office(tmp_path, first=[InvalidToken("Not Found")]) as one:
        add(one.home, Parcel("menu", "5", post("5", "first").sheet), post("5", "second"))
        one.work(lambda: one.settled("refused", "sent"))
        assert one.sender.texts == [("5", "second")]
