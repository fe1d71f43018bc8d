"""A strict stand-in for the Telegram Bot API server, for tests only: a process of its own that speaks HTTP on loopback.

What it answers and refuses follows the published Bot API (https://core.telegram.org/bots/api) and, where a comment says
"server source", the published source of the Bot API server (tdlib/telegram-bot-api, Client.cpp). The wording of all
other refusals is a value from memory. Nothing is persisted.
"""
