"""One person's phone in a private chat with the bot, by the means that each of the two servers has for tests."""

from __future__ import annotations

import html
import re
import time
from collections import Counter
from dataclasses import dataclass
from typing import Any, Protocol

import httpx

_MARK = re.compile(r"</?[a-z]+>")
PERSON = 4711
NAME = "Ilka"


@dataclass(frozen=True, slots=True)
class Shown:
    """A message of the bot as it stands in the chat now. buttons: the code of each label."""

    id: int
    text: str
    buttons: dict[str, str]


class Phone(Protocol):
    def say(self, text: str) -> None: ...
    def press(self, message: Shown, label: str) -> None: ...
    def shown(self) -> list[Shown]: ...


class PollingPhone:
    """At telegram-test-api."""

    def __init__(self, url: str, token: str) -> None:
        self._token = token
        self._client = _client(url)

    def say(self, text: str) -> None:
        word, _, _ = text.partition(" ")
        told = self._common() | {"text": text}
        if text.startswith("/"):
            marks = [{"type": "bot_command", "offset": 0, "length": len(word)}]
            self._post("sendCommand", told | {"entities": marks})
        else:
            self._post("sendMessage", told)

    def press(self, message: Shown, label: str) -> None:
        stands = self._common() | {"message_id": message.id, "text": message.text}
        self._post("sendCallback", self._common() | {"message": stands, "data": message.buttons[label]})

    def shown(self) -> list[Shown]:
        history = self._post("getUpdatesHistory", {"token": self._token})
        # What the bot sent has the fields of the call.
        ours = [one for one in history if str(one.get("message", {}).get("chat_id")) == str(PERSON)]
        return [
            Shown(one["messageId"], _plain(one["message"]["text"]), _buttons(one["message"].get("reply_markup")))
            for one in sorted(ours, key=lambda one: int(one["messageId"]))
        ]

    def _common(self) -> dict[str, Any]:
        person = {"id": PERSON, "first_name": NAME, "is_bot": False}
        chat = {"id": PERSON, "first_name": NAME, "type": "private"}
        return {"botToken": self._token, "from": person, "chat": chat, "date": int(time.time())}

    def _post(self, path: str, told: dict[str, Any]) -> Any:
        return self._client.post(f"/{path}", json=told).raise_for_status().json()["result"]

    def close(self) -> None:
        self._client.close()


class WebhookPhone:
    """At telemelya."""

    def __init__(self, url: str, token: str) -> None:
        self._token = token
        # It asks for a key and, with none set, takes any.
        self._client = _client(url, {"Authorization": "Bearer any"})

    def reachable(self) -> bool:
        """Whether the bot has told the server where to bring what comes."""
        info = self._client.post(f"/bot{self._token}/getWebhookInfo").raise_for_status().json()
        return bool(info["result"]["url"])

    def say(self, text: str) -> None:
        self._send(text=text)

    def press(self, message: Shown, label: str) -> None:
        self._send(callback_data=message.buttons[label], callback_message_id=message.id)

    def shown(self) -> list[Shown]:
        stands: dict[int, Shown] = {}
        for call in self._calls():
            if call["method"] in ("sendMessage", "editMessageText"):
                number = int(call["message_id"])
                stands[number] = Shown(number, _plain(call["text"]), _buttons(call["reply_markup"]))
        return list(stands.values())

    def calls(self) -> Counter[str]:
        """How often the bot called each method."""
        return Counter(call["method"] for call in self._calls())

    def _calls(self) -> list[dict[str, Any]]:
        calls: list[dict[str, Any]] = self._client.get("/api/v1/test/responses").raise_for_status().json()["responses"]
        return calls

    def _send(self, **told: Any) -> None:
        told |= {"chat_id": PERSON, "from_user": {"id": PERSON, "first_name": NAME}}
        way = {"bot_token": self._token}
        answer = self._client.post("/api/v1/test/send_update", params=way, json=told).raise_for_status().json()
        assert answer["delivery"]["status_code"] == 200, answer

    def close(self) -> None:
        self._client.close()


def _client(url: str, headers: dict[str, str] | None = None) -> httpx.Client:
    # No proxy stands between this machine and itself.
    return httpx.Client(base_url=url, headers=headers, trust_env=False)


def _plain(text: str) -> str:
    """Without the marks of the Bot API's HTML, which both servers keep as they were sent."""
    return html.unescape(_MARK.sub("", text))


def _buttons(markup: Any) -> dict[str, str]:
    rows = markup["inline_keyboard"] if markup else []
    return {button["text"]: button["callback_data"] for row in rows for button in row}
