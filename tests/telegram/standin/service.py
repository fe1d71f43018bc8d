"""The face towards the bot: finds the method, lets the ordered faults happen, logs the call, words the answer."""

from __future__ import annotations

import asyncio
import json
import re
import time
import traceback
from collections.abc import Awaitable, Callable
from dataclasses import replace
from inspect import isawaitable
from typing import Any
from urllib.parse import unquote

from . import answering, editing, lookups, menus, polling, sending
from .exchange import Call, Exchange
from .faults import Fault
from .forms import Form, read_form
from .refusals import Refusal
from .wire import Answer, Request

Method = Callable[[Exchange, Form], Any]

METHODS: dict[str, Method] = {
    "getme": lookups.get_me,
    "getchat": lookups.get_chat,
    "getfile": lookups.get_file,
    "logout": lookups.log_out,
    "close": lookups.close,
    "getupdates": polling.get_updates,
    "setwebhook": polling.set_webhook,
    "deletewebhook": polling.delete_webhook,
    "getwebhookinfo": polling.get_webhook_info,
    "sendmessage": sending.send_message,
    "sendphoto": sending.send_photo,
    "senddocument": sending.send_document,
    "sendchataction": sending.send_chat_action,
    "editmessagetext": editing.edit_message_text,
    "editmessagecaption": editing.edit_message_caption,
    "editmessagereplymarkup": editing.edit_message_reply_markup,
    "deletemessage": editing.delete_message,
    "answercallbackquery": answering.answer_callback_query,
    "answerinlinequery": answering.answer_inline_query,
    "setmycommands": menus.set_my_commands,
    "getmycommands": menus.get_my_commands,
    "deletemycommands": menus.delete_my_commands,
}

_PATH = re.compile(r"/(file/)?bot([^/]+)/(.+)\Z")


class Service:
    def __init__(self, exchange: Exchange) -> None:
        self._exchange = exchange

    def handle(self, request: Request) -> Answer | Awaitable[Answer | None] | None:
        found = _PATH.match(unquote(request.path))
        if found is None:
            return worded(Refusal(404, "Not Found"))
        if found[2] != self._exchange.token:
            return worded(Refusal(401, "Unauthorized"))
        if found[1]:
            return self._download(found[3])
        method = found[3].lower()
        try:
            form = read_form(request)
        except Refusal as refusal:
            return worded(refusal)
        chat_id = form.text("chat_id")
        chat = int(chat_id) if chat_id.lstrip("-").isdecimal() else None
        call = Call(method, form.logged(), chat, time.time())
        self._exchange.calls.append(call)
        self._exchange.counts[method] += 1
        self._exchange.changed()
        fault = self._exchange.faults.next(method, chat)
        if fault is not None:
            return self._fail(call, form, fault)
        return self._carry_out(call, form)

    def _download(self, path: str) -> Answer | Awaitable[Answer | None] | None:
        """Logged as a call of the method "file", for which faults can be ordered; cut and handled tears the file."""
        call = Call("file", {"path": path}, None, time.time())
        self._exchange.calls.append(call)
        self._exchange.counts["file"] += 1
        self._exchange.changed()
        fault = self._exchange.faults.next("file", None)
        if fault is None or fault.kind in ("delay", "hang"):
            found = self._file(path)
            call.status, call.handled = found.status, found.status == 200
            return found if fault is None else self._late(found, fault)
        call.fault = fault.kind
        if fault.kind == "cut":
            return replace(self._file(path), torn=True) if fault.handled else None
        call.status = fault.code
        if fault.kind == "garbage":
            return Answer(fault.code, b"<html><body>not what was asked for", "text/html")
        return self._refused(call, Refusal(fault.code, fault.words, fault.parameters))

    async def _late(self, answer: Answer, fault: Fault) -> Answer:
        await (asyncio.sleep(fault.seconds) if fault.kind == "delay" else asyncio.Event().wait())
        return answer

    def _file(self, path: str) -> Answer:
        for stored in self._exchange.files.values():
            if stored.path == path:
                return Answer(200, stored.content, "application/octet-stream")
        return worded(Refusal(404, "Not Found"))

    def _carry_out(self, call: Call, form: Form) -> Answer | Awaitable[Answer]:
        method = METHODS.get(call.method)
        if method is None:
            return self._refused(call, Refusal(404, f"Not Found: the stand-in has no method {call.method}"))
        try:
            result = method(self._exchange, form)
        except Refusal as refusal:
            return self._refused(call, refusal)
        except Exception:
            return self._crashed(call)
        return self._later(call, result) if isawaitable(result) else self._done(call, result)

    async def _later(self, call: Call, coming: Awaitable[Any]) -> Answer:
        try:
            result = await coming
        except Refusal as refusal:
            return self._refused(call, refusal)
        except Exception:
            return self._crashed(call)
        return self._done(call, result)

    def _done(self, call: Call, result: Any) -> Answer:
        call.status = 200
        call.handled = True
        return Answer(200, json.dumps({"ok": True, "result": result}, ensure_ascii=False).encode())

    def _refused(self, call: Call, refusal: Refusal) -> Answer:
        call.status, call.description = refusal.code, refusal.description
        self._exchange.changed()
        return worded(refusal)

    def _crashed(self, call: Call) -> Answer:
        """A fault of the stand-in itself: told to the test when it ends."""
        self._exchange.crashes.append(f"{call.method} {call.params}\n{traceback.format_exc()}")
        return self._refused(call, Refusal(500, "Internal Server Error: the stand-in itself failed"))

    async def _fail(self, call: Call, form: Form, fault: Fault) -> Answer | None:
        call.fault = fault.kind
        answer = None
        if fault.handled or fault.kind == "delay":
            done = self._carry_out(call, form)
            answer = done if isinstance(done, Answer) else await done
        if fault.kind == "delay":
            await asyncio.sleep(fault.seconds)
            return answer
        call.status, call.description = None, ""
        if fault.kind == "status":
            return self._refused(call, Refusal(fault.code, fault.words, fault.parameters))
        if fault.kind == "garbage":
            call.status = fault.code
            return Answer(fault.code, b"<html><body>not what was asked for", "text/html")
        if fault.kind == "hang":
            await asyncio.Event().wait()
        return None


def worded(refusal: Refusal) -> Answer:
    body: dict[str, Any] = {"ok": False, "error_code": refusal.code, "description": refusal.description}
    if refusal.parameters:
        body["parameters"] = refusal.parameters
    return Answer(refusal.code, json.dumps(body, ensure_ascii=False).encode())
