"""What a person can send beside text, as the Bot API shows it; the contents are invented."""

from __future__ import annotations

import base64
from pathlib import PurePath
from typing import Any

from . import pictures
from .exchange import Exchange, StoredFile
from .pictures import PIXEL
from .refusals import OrderError
from .sending import document, photo_sizes

CAPTIONED = {"photo", "document", "voice", "video"}


def content_of(exchange: Exchange, kind: str, content: str, filename: str) -> tuple[dict[str, Any], StoredFile | None]:
    """The fields of the message, and the file if it has one.

    content: base64, or empty for an invented one. filename: of a document, and of what kind it is sent as.
    """
    given = base64.b64decode(content) if content else b""
    if kind == "photo":
        stored = exchange.keep_file(given or PIXEL, "photos", ".jpg")
        return {"photo": photo_sizes(exchange, stored, pictures.size_of(stored.content))}, stored
    if kind == "document":
        stored = exchange.keep_file(given or b"invented", "documents", PurePath(filename).suffix)
        return {"document": document(stored, filename)}, stored
    if kind == "voice":
        stored = exchange.keep_file(given or b"OggS", "voice", ".oga")
        return {"voice": _file(stored) | {"duration": 2, "mime_type": "audio/ogg"}}, stored
    if kind == "video":
        stored = exchange.keep_file(given or b"invented", "videos", ".mp4")
        return {"video": _file(stored) | {"duration": 2, "width": 64, "height": 64}}, stored
    if kind == "sticker":
        stored = exchange.keep_file(given or b"invented", "stickers", ".webp")
        shape = {"type": "regular", "width": 512, "height": 512, "is_animated": False, "is_video": False}
        return {"sticker": _file(stored) | shape}, stored
    if kind == "contact":
        return {"contact": {"phone_number": "+10000000000", "first_name": "Invented"}}, None
    if kind == "location":
        return {"location": {"latitude": 1.5, "longitude": 2.5}}, None
    if kind == "poll":
        return {"poll": _poll(exchange)}, None
    raise OrderError(f"no kind {kind!r} of media")


def _file(stored: StoredFile) -> dict[str, Any]:
    return {"file_id": stored.id, "file_unique_id": f"unique{stored.id[-6:]}", "file_size": len(stored.content)}


def _poll(exchange: Exchange) -> dict[str, Any]:
    options = [{"text": text, "voter_count": 0, "persistent_id": text} for text in ("yes", "no")]
    return {
        "id": str(exchange.number("poll")),
        "question": "Invented?",
        "options": options,
        "total_voter_count": 0,
        "is_closed": False,
        "is_anonymous": True,
        "type": "regular",
        "allows_multiple_answers": False,
        "allows_revoting": False,
        "members_only": False,
    }
