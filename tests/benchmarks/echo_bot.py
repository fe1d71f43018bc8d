"""A bot that does nothing but answer, as the library's own examples make one: what the rest is measured against.

    python echo_bot.py URL TOKEN SIZE

Answers every message of text with SIZE characters.
"""

from __future__ import annotations

import argparse
import logging
from typing import Any

from telegram import Update
from telegram.ext import ApplicationBuilder, ContextTypes, MessageHandler, filters


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("url")
    parser.add_argument("token")
    parser.add_argument("size", type=int)
    chosen = parser.parse_args()
    logging.basicConfig(level=logging.WARNING)
    text = ("one two three four five " * (1 + chosen.size // 24))[: chosen.size].rstrip()

    async def answer(update: Update, _: ContextTypes.DEFAULT_TYPE) -> None:
        assert update.message is not None
        await update.message.reply_text(text)

    builder: Any = ApplicationBuilder().token(chosen.token).base_url(f"{chosen.url}/bot")
    # As many connections as the bot itself takes; the library takes all updates side by side when asked to.
    application = builder.concurrent_updates(True).connection_pool_size(256).pool_timeout(30).build()
    application.add_handler(MessageHandler(filters.TEXT, answer))
    application.run_polling(bootstrap_retries=5)


if __name__ == "__main__":
    main()
