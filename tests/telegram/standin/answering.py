"""The methods that answer a press or an inline query, each of which may be answered for a while only."""

from __future__ import annotations

import re
import time
from typing import Any

from . import keyboards
from .exchange import Exchange, Query
from .forms import Form
from .refusals import bad
from .texts import checked_text

NOTICE_AT_MOST = 200  # characters; https://core.telegram.org/bots/api#answercallbackquery
RESULTS_AT_MOST = 50  # https://core.telegram.org/bots/api#answerinlinequery
ID_AT_MOST = 64  # bytes; https://core.telegram.org/bots/api#inlinequeryresultarticle
OFFSET_AT_MOST = 64  # bytes; https://core.telegram.org/bots/api#answerinlinequery
_PARAMETER = re.compile(r"[A-Za-z0-9_-]{1,64}\Z")


def _open_query(exchange: Exchange, number: str, kind: str) -> Query:
    query = exchange.queries.get(number)
    late = query is not None and time.monotonic() - query.at > exchange.query_seconds
    if query is None or query.kind != kind or query.over or late:
        raise bad("query is too old and response timeout expired or query ID is invalid")
    return query


def answer_callback_query(exchange: Exchange, form: Form) -> bool:
    number = form.text("callback_query_id")
    query = _open_query(exchange, number, "press")
    text = form.text("text")
    if len(text) > NOTICE_AT_MOST:
        raise bad("MESSAGE_TOO_LONG")  # wording: value from memory
    exchange.notices.append(
        {
            "query": number,
            "person": query.person,
            "text": text,
            "alert": form.flag("show_alert"),
            "url": form.text("url"),
        }
    )
    exchange.changed()
    return True


def answer_inline_query(exchange: Exchange, form: Form) -> bool:
    number = form.text("inline_query_id")
    results = form.structure("results", "inline query results", list) or []
    if len(results) > RESULTS_AT_MOST:
        raise bad("RESULTS_TOO_MUCH")  # wording: value from memory
    kept = [_checked_result(one) for one in results]
    if len({one["id"] for one in kept}) != len(kept):
        raise bad("RESULT_ID_DUPLICATE")  # wording: value from memory
    if len(form.text("next_offset").encode()) > OFFSET_AT_MOST:
        raise bad("NEXT_OFFSET_INVALID")  # wording: value from memory
    button = form.structure("button", "inline query results button", dict)
    if button is not None:
        _check_button(button)
    query = _open_query(exchange, number, "inline")
    query.over = True
    exchange.inline_answers.append(
        {
            "query": number,
            "person": query.person,
            "results": kept,
            "button": button,
            "cache_time": form.whole("cache_time", 300),
            "personal": form.flag("is_personal"),
            "next_offset": form.text("next_offset"),
        }
    )
    exchange.changed()
    return True


def _checked_result(result: Any) -> dict[str, Any]:
    """Of results only articles are read; the wording is a value from memory."""
    what = "can't parse inline query result"
    if not isinstance(result, dict):
        raise bad(f"{what}: expected an Object")
    if result.get("type") != "article":
        raise bad(f'{what}: type "{result.get("type")}" is unsupported for the inline query result')
    number = result.get("id")
    if not isinstance(number, str) or not 1 <= len(number.encode()) <= ID_AT_MOST:
        raise bad("RESULT_ID_INVALID")
    if not isinstance(result.get("title"), str) or not result["title"].strip():
        raise bad("ARTICLE_TITLE_EMPTY")
    content = result.get("input_message_content")
    if not isinstance(content, dict) or not isinstance(content.get("message_text"), str):
        raise bad(f'{what}: Can\'t find field "message_text"')
    text = checked_text(content["message_text"], content.get("parse_mode", ""), content.get("entities"))
    markup = result.get("reply_markup")
    keyboard = keyboards.only_inline(keyboards.checked_markup(markup)) if markup else None
    found = {"id": number, "title": result["title"], "description": result.get("description", "")}
    return found | {"text": text.plain, "html": text.source, "parse_mode": content.get("parse_mode", ""),
                    "keyboard": keyboard}  # fmt: skip


def _check_button(button: dict[str, Any]) -> None:
    """https://core.telegram.org/bots/api#inlinequeryresultsbutton; wording: value from memory."""
    if not isinstance(button.get("text"), str) or not button["text"].strip():
        raise bad("inline query results button text must be non-empty")
    if ("web_app" in button) == ("start_parameter" in button):
        raise bad("inline query results button must have exactly one of web_app and start_parameter")
    if "start_parameter" in button and not _PARAMETER.match(str(button["start_parameter"])):
        raise bad("START_PARAM_INVALID")
