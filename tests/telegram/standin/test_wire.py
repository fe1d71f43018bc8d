"""HTTP as far as a bot needs it (RFC 9112), and the process of the stand-in."""

from __future__ import annotations

import json
import socket
import subprocess
import sys
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from telegram.error import NetworkError

from .client import StandIn
from .rig import ANN, Rig


def speak(rig: Rig, *parts: bytes) -> bytes:
    """Sends the parts and reads until the stand-in closes or nothing more comes after the last answer."""
    where = urlsplit(rig.server.url)
    with socket.create_connection((where.hostname, where.port), timeout=5) as line:
        for part in parts:
            line.sendall(part)
        found = b""
        while more := line.recv(65536):
            found += more
    return found


def request(rig: Rig, body: bytes, kind: str, *headers: str) -> bytes:
    head = [f"POST /bot{rig.server.token}/sendMessage HTTP/1.1", "Host: x", f"Content-Type: {kind}", *headers]
    return "\r\n".join([*head, "", ""]).encode() + body


def test_parameters_may_come_as_json(rig: Rig) -> None:
    body = json.dumps({"chat_id": ANN, "text": "größe"}).encode()
    told = speak(rig, request(rig, body, "application/json", f"Content-Length: {len(body)}", "Connection: close"))
    assert told.startswith(b"HTTP/1.1 200 OK")
    assert rig.server.last(ANN).text == "größe"


def test_a_body_may_come_in_chunks_and_pieces(rig: Rig) -> None:
    body = b"6\r\nchat_i\r\n" + b"c;x=1\r\nd=501&text=x\r\n" + b"0\r\n\r\n"
    whole = request(rig, body, "application/x-www-form-urlencoded", "Transfer-Encoding: chunked", "Connection: close")
    told = speak(rig, whole[:10], whole[10:-8], whole[-8:])
    assert told.startswith(b"HTTP/1.1 200 OK")
    assert rig.server.last(ANN).text == "x"


def test_requests_may_be_sent_ahead_and_are_answered_in_order(rig: Rig) -> None:
    rig.server.delay(0.2, "sendMessage")
    kind = "application/x-www-form-urlencoded"
    first = request(rig, b"chat_id=501&text=one", kind, "Content-Length: 20")
    second = request(rig, b"chat_id=999&text=two", kind, "Content-Length: 20", "Connection: close")
    told = speak(rig, first + second)
    assert told.index(b"200 OK") < told.index(b"400 Bad Request")


@pytest.mark.parametrize("body", [b"GET /\r\n\r\n", b"GET / HTTP/1.1\r\nno colon\r\n\r\n"])
def test_what_is_no_request_is_refused(rig: Rig, body: bytes) -> None:
    assert speak(rig, body).startswith(b"HTTP/1.1 400")


def test_a_fault_of_the_stand_in_itself_fails_the_test() -> None:
    with pytest.raises(Exception, match="the stand-in itself failed"), Rig() as rig:
        rig.people()
        rig.server.raw_update("message", {})
        rig.server.settings(query_seconds="soon")
        query = rig.server.inline(ANN).query
        assert rig.refusal(rig.bot.answer_inline_query(query, [])).kind is NetworkError


def test_the_process_ends_with_its_parent_and_starts_as_a_module() -> None:
    folder = Path(__file__).resolve().parent.parent
    command = [sys.executable, "-m", "standin", "--with-parent", "--token", "77:for-tests", "--no-privacy"]
    with subprocess.Popen(command, cwd=folder, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        told = json.loads(process.stdout.readline())
        assert told["token"] == "77:for-tests"
        process.stdin.close()
        assert process.wait(10) == 0


def test_two_stand_ins_do_not_know_of_each_other(rig: Rig) -> None:
    with StandIn.start() as other:
        assert other.url != rig.server.url
        other.person(ANN)
        other.say(ANN, "x")
        assert rig.updates() == []
