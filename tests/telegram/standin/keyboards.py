"""What hangs below a message: inline buttons, reply keyboards, a forced reply; each checked as the server checks it."""

from __future__ import annotations

import re
from typing import Any

from .forms import Form
from .refusals import bad

BUTTONS_AT_MOST = 100  # value from memory
ROW_AT_MOST = 8  # value from memory
DATA_AT_MOST = 64  # bytes; https://core.telegram.org/bots/api#inlinekeyboardbutton
PLACEHOLDER_AT_MOST = 64  # characters; https://core.telegram.org/bots/api#forcereply
COPIED_AT_MOST = 256  # characters; https://core.telegram.org/bots/api#copytextbutton

_ACTIONS = (
    "url", "callback_data", "callback_game", "pay", "switch_inline_query", "switch_inline_query_current_chat",
    "switch_inline_query_chosen_chat", "login_url", "web_app", "copy_text",
)  # fmt: skip
_URL = re.compile(r"(?:(?:https?|tg|ton)://\S+|[\w-]+(?:\.[\w-]+)+(?:[/?#]\S*)?)\Z", re.IGNORECASE)


def read_markup(form: Form) -> dict[str, Any] | None:
    """The markup of a call, checked, without its empty rows; None when there is none."""
    markup = form.structure("reply_markup", "reply keyboard markup", dict)
    return None if markup is None else checked_markup(markup)


def checked_markup(markup: dict[str, Any]) -> dict[str, Any] | None:
    if "inline_keyboard" in markup:
        rows = _rows(markup["inline_keyboard"], "inline_keyboard", "InlineKeyboardMarkup")
        _count(rows)
        for row in rows:
            for button in row:
                _check_inline(button)
        return {"inline_keyboard": rows} if rows else None
    if "keyboard" in markup:
        rows = _rows(markup["keyboard"], "keyboard", "ReplyKeyboardMarkup")
        _count(rows)
        for row in rows:
            for button in row:
                _check_text(button, "keyboard button")
        _check_placeholder(markup)
        return markup | {"keyboard": rows} if rows else None
    if markup.get("remove_keyboard") is True:
        return markup
    if markup.get("force_reply") is True:
        _check_placeholder(markup)
        return markup
    # The server takes any other object for no markup at all (server source, get_reply_markup); here it is a mistake.
    raise bad("can't parse reply keyboard markup JSON object")


def only_inline(markup: dict[str, Any] | None) -> dict[str, Any] | None:
    """What an edit may set. Wording: value from memory."""
    if markup is not None and "inline_keyboard" not in markup:
        raise bad("inline keyboard expected")
    return markup


def _rows(value: Any, name: str, owner: str) -> list[list[Any]]:
    """Server source, get_reply_markup."""
    if not isinstance(value, list):
        raise bad(f'field "{name}" of the {owner} must be an Array')
    for row in value:
        if not isinstance(row, list):
            raise bad(f'field "{name}" of the {owner} must be an Array of Arrays')
    return [row for row in value if row]


def _count(rows: list[list[Any]]) -> None:
    """Both names of faults: value from memory."""
    if sum(len(row) for row in rows) > BUTTONS_AT_MOST:
        raise bad("REPLY_MARKUP_TOO_LONG")
    if any(len(row) > ROW_AT_MOST for row in rows):
        raise bad("REPLY_MARKUP_INVALID")


def _check_text(button: Any, what: str) -> None:
    text = button.get("text") if isinstance(button, dict) else button if what == "keyboard button" else None
    if not isinstance(text, str):
        raise bad(f'can\'t parse {what}: Field "text" must be of type String')
    if not text.strip():
        raise bad(f"can't parse {what}: Button text must be non-empty")


def _check_inline(button: Any) -> None:
    what = "inline keyboard button"
    if not isinstance(button, dict):
        raise bad(f"can't parse {what}: InlineKeyboardButton must be an Object")
    _check_text(button, what)
    # An empty url or callback_data counts as none (server source, get_inline_keyboard_button).
    actions = [name for name in _ACTIONS if name in button and (button[name] != "" or name.startswith("switch"))]
    if not actions:
        raise bad(f"can't parse {what}: Text buttons are unallowed in the inline keyboard")
    if len(actions) > 1:
        # Stricter than the server, which takes the first: the documentation asks for exactly one.
        raise bad(f"can't parse {what}: more than one of the optional fields is used: {', '.join(actions)}")
    value = button[actions[0]]
    if actions[0] == "callback_data":
        if not isinstance(value, str):
            raise bad(f'can\'t parse {what}: Field "callback_data" must be of type String')
        if len(value.encode()) > DATA_AT_MOST:
            raise bad("BUTTON_DATA_INVALID")
    if actions[0] == "url" and not _URL.match(str(value)):
        raise bad(f"{what} URL '{value}' is invalid: Wrong HTTP URL")
    if actions[0] == "copy_text" and not 1 <= len(str(value.get("text", ""))) <= COPIED_AT_MOST:
        raise bad("BUTTON_COPY_TEXT_INVALID")


def _check_placeholder(markup: dict[str, Any]) -> None:
    placeholder = markup.get("input_field_placeholder")
    if placeholder is not None and not 1 <= len(placeholder) <= PLACEHOLDER_AT_MOST:
        raise bad("input field placeholder must be of 1-64 characters")


def check_place(markup: dict[str, Any] | None, chat_kind: str) -> None:
    """What cannot hang in this kind of chat."""
    if markup is None:
        return
    if "inline_keyboard" not in markup:
        if chat_kind == "channel":
            raise bad("reply keyboards and forced replies can't be sent to channels")
        return
    if chat_kind != "private" and any("web_app" in one for row in markup["inline_keyboard"] for one in row):
        raise bad("BUTTON_TYPE_INVALID")


def buttons_of(markup: dict[str, Any] | None) -> list[list[dict[str, Any]]]:
    return markup.get("inline_keyboard", []) if markup else []


def keyboard_only(markup: dict[str, Any] | None) -> dict[str, Any] | None:
    """The part of a markup that a message keeps: inline buttons."""
    return markup if markup and "inline_keyboard" in markup else None
