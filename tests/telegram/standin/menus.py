"""The menu of commands: setMyCommands, getMyCommands, deleteMyCommands, each for a scope and a language."""

from __future__ import annotations

import re
from typing import Any

from .exchange import Exchange
from .forms import Form
from .refusals import bad

# https://core.telegram.org/bots/api#setmycommands and #botcommand
AT_MOST = 100
DESCRIPTION_AT_MOST = 256
_NAME = re.compile(r"[a-z0-9_]{1,32}\Z")
_WIDE = {"default", "all_private_chats", "all_group_chats", "all_chat_administrators"}
_OF_ONE_CHAT = {"chat", "chat_administrators", "chat_member"}


def set_my_commands(exchange: Exchange, form: Form) -> bool:
    """An empty list is stricter here: the server takes it as deleteMyCommands. Names of faults: value from memory."""
    commands = form.structure("commands", "commands", list)
    if not commands:
        raise bad("BOT_COMMANDS_EMPTY")
    if len(commands) > AT_MOST:
        raise bad("BOT_COMMANDS_TOO_MUCH")
    kept = [_checked(one) for one in commands]
    if len({one["command"] for one in kept}) != len(kept):
        raise bad("BOT_COMMAND_DUPLICATE")
    exchange.menus[_place(exchange, form)] = kept
    exchange.changed()
    return True


def get_my_commands(exchange: Exchange, form: Form) -> list[dict[str, str]]:
    return exchange.menus.get(_place(exchange, form), [])


def delete_my_commands(exchange: Exchange, form: Form) -> bool:
    exchange.menus.pop(_place(exchange, form), None)
    exchange.changed()
    return True


def _checked(command: Any) -> dict[str, str]:
    if not isinstance(command, dict):
        raise bad("can't parse BotCommand: expected an Object")
    for name in ("command", "description"):
        if not isinstance(command.get(name), str):
            raise bad(f'can\'t parse BotCommand: Field "{name}" must be of type String')
    word = command["command"].removeprefix("/")
    if not _NAME.match(word):
        raise bad("BOT_COMMAND_INVALID")
    if not command["description"].strip() or len(command["description"]) > DESCRIPTION_AT_MOST:
        raise bad("BOT_COMMAND_DESCRIPTION_INVALID")
    return {"command": word, "description": command["description"]}


def _place(exchange: Exchange, form: Form) -> tuple[str, int, int, str]:
    """Scope, chat, member, language; 0 where there is none."""
    scope = form.structure("scope", "BotCommandScope", dict) or {"type": "default"}
    kind = scope.get("type")
    language = form.text("language_code")
    if language and not re.fullmatch(r"[a-z]{2}", language):
        raise bad("invalid language code specified")
    if kind in _WIDE:
        return str(kind), 0, 0, language
    if kind not in _OF_ONE_CHAT:
        raise bad("can't parse BotCommandScope: Unsupported type specified")
    chat = exchange.known_chat(str(scope.get("chat_id", "")))
    if kind == "chat" or kind == "chat_administrators":
        if kind == "chat_administrators" and chat.kind == "private":
            raise bad("can't parse BotCommandScope: not a group chat")
        return str(kind), chat.id, 0, language
    if scope.get("user_id") not in chat.members:
        raise bad("user not found")
    return str(kind), chat.id, int(scope["user_id"]), language
