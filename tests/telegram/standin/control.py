"""The face towards the test: POST /control/<order> with a JSON object of its parameters; JSON comes back."""

from __future__ import annotations

import inspect
import json
import traceback
from collections.abc import Awaitable, Callable
from typing import Any

from . import chatter, events, seen, waiting
from .exchange import Exchange
from .faults import Fault
from .listening import Listener
from .refusals import OrderError, Refusal
from .wire import Answer, Request

Order = Callable[..., Any]

ORDERS: dict[str, Order] = {**chatter.ORDERS, **events.ORDERS, **seen.ORDERS, **waiting.ORDERS}


class Control:
    def __init__(self, exchange: Exchange, bot_side: Listener) -> None:
        self._exchange = exchange
        self._bot_side = bot_side
        self._orders: dict[str, Order] = ORDERS | {
            "settings": settings,
            "fault": order_fault,
            "clear_faults": clear_faults,
            "repeat_updates": repeat_updates,
            "overhear_confirmations": overhear_confirmations,
            "refuse_connections": self._refuse_connections,
            "accept_connections": self._accept_connections,
            "reset": self._reset,
            "batch": self._batch,
        }

    def handle(self, request: Request) -> Answer | Awaitable[Answer]:
        name = request.path.removeprefix("/control/")
        try:
            given = json.loads(request.body) if request.body else {}
            result = self._give(name, given)
        except Exception as fault:
            return _failed(fault)
        return self._later(result) if inspect.isawaitable(result) else _told(result)

    def _give(self, name: str, given: dict[str, Any]) -> Any:
        order = self._orders.get(name)
        if order is None:
            raise OrderError(f"no order {name!r}; there are {', '.join(sorted(self._orders))}")
        try:
            inspect.signature(order).bind(self._exchange, **given)
        except TypeError as fault:
            raise OrderError(f"{name}: {fault}") from fault
        return order(self._exchange, **given)

    async def _later(self, coming: Awaitable[Any]) -> Answer:
        try:
            return _told(await coming)
        except Exception as fault:
            return _failed(fault)

    def _batch(self, exchange: Exchange, orders: list[tuple[str, dict[str, Any]]]) -> list[Any]:
        """Many orders in one request, carried out one after the other before any call of the bot."""
        return [self._give(name, given) for name, given in orders]

    def _refuse_connections(self, exchange: Exchange, seconds: float = 0) -> None:
        self._bot_side.refuse(seconds)

    async def _reset(self, exchange: Exchange) -> None:
        exchange.forget()
        await self._bot_side.resume()
        self._bot_side.cut(only_busy=True)

    async def _accept_connections(self, exchange: Exchange) -> None:
        await self._bot_side.resume()


def settings(exchange: Exchange, limits: dict[str, Any] | None = None, **given: Any) -> None:
    """query_seconds, clock, privacy, inline; limits: the fields of Limits."""
    for name in ("query_seconds", "clock", "privacy", "inline"):
        if name in given:
            setattr(exchange, name, given.pop(name))
    if given:
        raise OrderError(f"no such setting: {', '.join(sorted(given))}")
    for name, value in (limits or {}).items():
        if name.startswith("_") or not hasattr(exchange.limits, name):
            raise OrderError(f"no such limit: {name}")
        setattr(exchange.limits, name, value)


def order_fault(exchange: Exchange, **given: Any) -> None:
    exchange.faults.order(Fault(**given))


def clear_faults(exchange: Exchange) -> None:
    exchange.faults.clear()


def repeat_updates(exchange: Exchange, count: int = 1) -> None:
    """The next `count` updates handed out come a second time, after they were confirmed."""
    exchange.mailbox.again += count


def overhear_confirmations(exchange: Exchange, count: int = 1) -> None:
    """The next `count` confirmations are lost: what they confirmed is handed out again."""
    exchange.mailbox.deaf += count


def _told(result: Any) -> Answer:
    return Answer(200, json.dumps(result, ensure_ascii=False).encode())


def _failed(fault: Exception) -> Answer:
    """A wrong order is told plainly; anything else is a fault of the stand-in, told with its traceback."""
    if isinstance(fault, OrderError | Refusal):
        return Answer(400, json.dumps({"error": str(fault)}).encode())
    return Answer(500, json.dumps({"error": "".join(traceback.format_exception(fault))}).encode())
