"""The text or caption of a call, read by its parse mode and checked."""

from __future__ import annotations

import html
from typing import Any

from .forms import Form
from .markup import Marked, plain_text, read_html
from .refusals import bad

TEXT_AT_MOST = 4096  # UTF-16 units after entities are parsed; https://core.telegram.org/bots/api#sendmessage
CAPTION_AT_MOST = 1024  # the same; https://core.telegram.org/bots/api#sendphoto


def marked(text: str, parse_mode: str, entities: list[dict[str, Any]] | None = None) -> Marked:
    mode = parse_mode.lower()
    if mode == "html":
        return read_html(text)
    if mode in ("markdown", "markdownv2"):
        raise bad("the stand-in reads no Markdown")
    if mode not in ("", "none"):
        raise bad("unsupported parse_mode")
    read = plain_text(text, tuple(entities or ()))
    return Marked(read.plain, read.entities, html.escape(text, quote=False))


def checked_text(text: str, parse_mode: str, entities: list[dict[str, Any]] | None = None) -> Marked:
    read = marked(text, parse_mode, entities)
    if read.empty:
        raise bad("message text is empty")
    if read.size > TEXT_AT_MOST:
        raise bad("message is too long")
    return read


def checked_caption(text: str, parse_mode: str, entities: list[dict[str, Any]] | None = None) -> Marked:
    read = marked(text, parse_mode, entities)
    if read.size > CAPTION_AT_MOST:
        raise bad("message caption is too long")
    return read


def text_of(form: Form) -> Marked:
    return checked_text(form.text("text"), form.text("parse_mode"), form.structure("entities", "entities", list))


def caption_of(form: Form) -> Marked:
    entities = form.structure("caption_entities", "caption entities", list)
    return checked_caption(form.text("caption"), form.text("parse_mode"), entities)
