"""Whatever a handling trips over, nothing of it is on record: not even what is beside the answer."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from bay import BOT, Bay, Phone

from benchbot.records import arrivals
from benchbot.records.record import Record

Act = Callable[[Phone], object]
OPEN = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name"


class Broken(Exception):
    """What the desk trips over."""


def everything(record: Record) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table; what came in stays there whatever becomes of it."""
    tables = [str(row[0]) for row in record.rows(OPEN, {})]
    return {name: sorted(record.rows(f"SELECT * FROM {name}", {}), key=repr) for name in tables if name != "arrival"}


def _asked_first(phone: Phone) -> None:
    phone.say("12 ondrel frt cal brkt bolt tq")
    phone.press("North", on=phone.last)


def _marked(phone: Phone) -> None:
    _asked_first(phone)
    phone.press("Not right?", on=phone.last)


def _renamed(phone: Phone) -> None:
    phone.name = "Anabel"
    phone.say("12 ondrel")


ACTS: dict[str, tuple[Act | None, Act]] = {
    "a question": (None, lambda phone: phone.say("12 ondrel frt cal brkt bolt tq")),
    "another name": (None, _renamed),
    "a place with a question that waited": (
        lambda phone: phone.say("12 ondrel frt cal brkt bolt tq"), lambda phone: phone.press("North", on=phone.last),
    ),
    "a place": (lambda phone: phone.say("/location"), lambda phone: phone.press("South", on=phone.last)),
    "a command where words are awaited": (
        _marked, lambda phone: phone.say("/help"),
    ),
    "a question behind a command where words are awaited": (
        _marked,
        lambda phone: phone.say("/ask 12 ondrel rear bleeder socket"),
    ),
    "a picture of an album": (_asked_first, lambda phone: phone.send("text", "12 ondrel", album="a1")),
    "a query that was sent": (
        _asked_first, lambda phone: phone.send("chosen", "12 ondrel frt cal brkt bolt tq", chat="", private=False),
    ),
    "a greeting": (_asked_first, lambda phone: phone.say("/start")),
}  # fmt: skip


@pytest.mark.parametrize(("before", "act"), ACTS.values(), ids=list(ACTS))
@pytest.mark.parametrize("where", ["at the mark that it was handled", "right behind that mark"])
def test_a_handling_that_fails_leaves_nothing(
    bay: Bay, monkeypatch: pytest.MonkeyPatch, before: Act | None, act: Act, where: str
) -> None:
    ana = bay.phone("Ana", technician=bay.location("North"))
    bay.let_in(ana, bay.location("South"), "technician")
    if before is not None:
        before(ana)
    found, handled = everything(bay.record), arrivals.handled

    def fail(*given: object) -> None:
        if where == "right behind that mark":
            handled(*given)  # type: ignore[arg-type]
        raise Broken

    with monkeypatch.context() as patch, pytest.raises(Broken):
        patch.setattr(arrivals, "handled", fail)
        act(ana)
    assert everything(bay.record) == found
    [body] = arrivals.left(bay.record, BOT.number)
    assert body, "it is tried again"
    with bay.record.writing() as store:
        arrivals.set_aside(store, bay.clock())
    act(ana)
    assert everything(bay.record) != found, "without the fault it leaves something"
