"""How updates are fetched: getUpdates with a long poll, and the webhook that excludes it."""

from __future__ import annotations

from typing import Any

from .exchange import Exchange
from .forms import Form
from .mailbox import AT_MOST
from .refusals import bad, conflict

LONGEST = 50  # seconds; server source, LONG_POLL_MAX_TIMEOUT


async def get_updates(exchange: Exchange, form: Form) -> list[dict[str, Any]]:
    """Server source, process_get_updates_query and do_get_updates; its pause for a repeated offset is left out."""
    if exchange.webhook:
        raise conflict(
            "can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first"
        )
    box = exchange.mailbox
    offset = form.whole("offset")
    limit = min(max(form.whole("limit", AT_MOST), 1), AT_MOST)
    seconds = min(max(form.whole("timeout"), 0), LONGEST)
    _allow(exchange, form)
    found = box.take(offset, limit)
    exchange.changed()
    if found or not seconds:
        return found
    poller = box.stand_in_line()
    exchange.changed()
    try:
        stayed = await box.wait(poller, seconds)
    finally:
        exchange.changed()
    if not stayed:
        if exchange.webhook:
            raise conflict("terminated by setWebhook request")
        raise conflict("terminated by other getUpdates request; make sure that only one bot instance is running")
    return box.take(offset, limit)


def set_webhook(exchange: Exchange, form: Form) -> bool:
    """The webhook is kept and never called."""
    url = form.text("url")
    if url and not url.startswith("https://"):
        raise bad("bad webhook: An HTTPS URL must be provided for webhook")
    if form.flag("drop_pending_updates"):
        exchange.mailbox.clear()
    exchange.webhook = url
    if url:
        _allow(exchange, form)
        exchange.mailbox.dislodge()
    return True


def delete_webhook(exchange: Exchange, form: Form) -> bool:
    if form.flag("drop_pending_updates"):
        exchange.mailbox.clear()
    exchange.webhook = ""
    exchange.changed()
    return True


def get_webhook_info(exchange: Exchange, form: Form) -> dict[str, Any]:
    found: dict[str, Any] = {"url": exchange.webhook, "has_custom_certificate": False}
    found["pending_update_count"] = exchange.mailbox.pending
    if exchange.mailbox.allowed:
        found["allowed_updates"] = exchange.mailbox.allowed
    return found


def _allow(exchange: Exchange, form: Form) -> None:
    kinds = form.structure("allowed_updates", "allowed updates", list)
    if kinds is not None:
        exchange.mailbox.allow([str(kind) for kind in kinds])
