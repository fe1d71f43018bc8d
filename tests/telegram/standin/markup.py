"""HTML of the Bot API read into plain text and entities; all faults are refused, some more strictly than there."""

from __future__ import annotations

import html
import re
from dataclasses import dataclass
from typing import Any

from .refusals import Refusal, bad

# https://core.telegram.org/bots/api#html-style
_TAGS = {
    "b": "bold", "strong": "bold",
    "i": "italic", "em": "italic",
    "u": "underline", "ins": "underline",
    "s": "strikethrough", "strike": "strikethrough", "del": "strikethrough",
    "span": "spoiler", "tg-spoiler": "spoiler",
    "a": "text_link", "tg-emoji": "custom_emoji",
    "code": "code", "pre": "pre", "blockquote": "blockquote",
}  # fmt: skip
_NAMED = {"lt": "<", "gt": ">", "amp": "&", "quot": '"'}
_ENTITY = re.compile(r"&(?:(lt|gt|amp|quot)|#([0-9]{1,7})|#[xX]([0-9a-fA-F]{1,6}));")
_TAG_NAME = re.compile(r"</?([^\s<>]*)")
_TAG = re.compile(r"<(/?)([^\s<>/]*)((?:[^<>\"']|\"[^\"]*\"|'[^']*')*)>")
_ATTRIBUTE = re.compile(r"\s+([^\s=<>\"']+)(?:\s*=\s*(\"[^\"]*\"|'[^']*'|[^\s\"'<>]+))?")
# Signs that show nothing: a text of them alone counts as empty. Value from memory.
_INVISIBLE = dict.fromkeys(map(ord, "\u200b\u200c\u200d\u200e\u200f\u2060\u2800\u3164\ufeff\u00ad"))


@dataclass(frozen=True, slots=True)
class Marked:
    """A text as it is shown, its entities (offsets in UTF-16 units), and the HTML that it came as."""

    plain: str
    entities: tuple[dict[str, Any], ...] = ()
    source: str = ""

    @property
    def size(self) -> int:
        return utf16(self.plain)

    @property
    def empty(self) -> bool:
        return not self.plain.translate(_INVISIBLE).strip()


@dataclass(slots=True)
class _Opened:
    tag: str
    start: int
    extra: dict[str, Any]


def utf16(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2


def plain_text(text: str, entities: tuple[dict[str, Any], ...] = ()) -> Marked:
    return _trimmed(text, list(entities), html.escape(text, quote=False))


def read_html(source: str) -> Marked:
    """The wording of the refusals is that of TDLib's MessageEntity.cpp, value from memory."""
    shown: list[str] = []
    size = 0
    opened: list[_Opened] = []
    entities: list[dict[str, Any]] = []
    at = 0
    while at < len(source):
        sign = source[at]
        if sign == "&":
            text, at = _read_entity(source, at)
        elif sign == "<":
            at = _read_tag(source, at, size, opened, entities)
            continue
        else:
            start = at
            while at < len(source) and source[at] not in "<&":
                at += 1
            text = source[start:at]
            if ">" in text:
                # Stricter than the server, which lets it pass: the documentation asks for &gt;.
                raise _fault("Unescaped '>'", source, start + text.index(">"))
        shown.append(text)
        size += utf16(text)
    if opened:
        raise bad(f"can't parse entities: Can't find end tag corresponding to start tag \"{opened[-1].tag}\"")
    entities.sort(key=lambda entity: (entity["offset"], -entity["length"]))
    return _trimmed("".join(shown), entities, source)


def _read_entity(source: str, at: int) -> tuple[str, int]:
    found = _ENTITY.match(source, at)
    if found is None:
        # Stricter than the server, which shows such a sign as it stands: the documentation asks for &amp;.
        raise _fault("Unsupported HTML entity or unescaped '&'", source, at)
    if found[1]:
        return _NAMED[found[1]], found.end()
    code = int(found[2]) if found[2] else int(found[3], 16)
    if not 0 < code <= 0x10FFFF or 0xD800 <= code <= 0xDFFF:
        raise _fault("Invalid numeric HTML entity", source, at)
    return chr(code), found.end()


def _read_tag(source: str, at: int, size: int, opened: list[_Opened], entities: list[dict[str, Any]]) -> int:
    closing = source.startswith("</", at)
    named = _TAG_NAME.match(source, at)
    tag = named[1].lower() if named else ""
    found = _TAG.match(source, at)
    if closing:
        if not opened:
            raise _fault("Unexpected end tag", source, at)
        if found is None or found[3].strip():
            raise _fault("Unclosed end tag", source, at)
        if tag != opened[-1].tag:
            wanted = f', expected "</{opened[-1].tag}>", found "</{tag}>"'
            raise _fault("Unmatched end tag", source, at, wanted)
        _close(opened.pop(), size, entities)
        return found.end()
    if tag not in _TAGS:
        raise _fault(f'Unsupported start tag "{tag}"', source, at)
    if found is None:
        raise _fault(f'Unclosed start tag "{tag}"', source, at)
    inside = [one.tag for one in opened]
    if tag == "blockquote" and "blockquote" in inside:
        raise _fault("Blockquotes can't be nested", source, at)
    if ("code" in inside or "pre" in inside) and not (tag == "code" and inside[-1] == "pre"):
        # Stricter than the server, which drops what stands inside: the documentation forbids it.
        raise _fault(f'Tag "{tag}" inside of "{inside[-1]}"', source, at)
    opened.append(_Opened(tag, size, _extra(tag, _attributes(found[3], tag, source, at), source, at)))
    return found.end()


def _attributes(text: str, tag: str, source: str, at: int) -> dict[str, str]:
    found: dict[str, str] = {}
    end = 0
    for one in _ATTRIBUTE.finditer(text):
        if one.start() != end:
            break
        end = one.end()
        value = one[2] or ""
        found[one[1].lower()] = html.unescape(value[1:-1] if value[:1] in ("'", '"') else value)
    if text[end:].strip():
        raise _fault(f'Expected equal sign in declaration of an attribute of the tag "{tag}"', source, at)
    return found


def _extra(tag: str, attributes: dict[str, str], source: str, at: int) -> dict[str, Any]:
    allowed = {
        "a": {"href"}, "code": {"class"}, "span": {"class"}, "tg-emoji": {"emoji-id"}, "blockquote": {"expandable"},
    }  # fmt: skip
    unknown = set(attributes) - allowed.get(tag, set())
    if unknown:
        # Stricter than the server, which passes over them: such an attribute does nothing.
        raise _fault(f'Attribute "{min(unknown)}" in the tag "{tag}"', source, at)
    if tag == "span" and attributes.get("class") != "tg-spoiler":
        raise _fault('Tag "span" must have class "tg-spoiler"', source, at)
    if tag == "a":
        return {"url": attributes.get("href", "")}
    if tag == "tg-emoji":
        if not attributes.get("emoji-id", "").isdecimal():
            raise _fault("Invalid custom emoji identifier specified", source, at)
        return {"custom_emoji_id": attributes["emoji-id"]}
    language = attributes.get("class", "")
    return {"language": language.removeprefix("language-")} if language.startswith("language-") else {}


def _close(one: _Opened, size: int, entities: list[dict[str, Any]]) -> None:
    if size == one.start or (one.tag == "a" and not one.extra["url"]):
        return
    if one.tag == "pre" and entities and entities[-1]["type"] == "code":
        inner = entities[-1]
        if inner["offset"] == one.start and inner["length"] == size - one.start:
            entities.pop()
            one.extra = {"language": inner["language"]} if "language" in inner else {}
    entities.append({"type": _TAGS[one.tag], "offset": one.start, "length": size - one.start, **one.extra})


def _trimmed(text: str, entities: list[dict[str, Any]], source: str) -> Marked:
    """The messenger shows a text without the blanks around it."""
    left = utf16(text) - utf16(text.lstrip())
    text = text.strip()
    size = utf16(text)
    kept = []
    for entity in entities:
        start = max(entity["offset"] - left, 0)
        end = min(entity["offset"] + entity["length"] - left, size)
        if end > start:
            kept.append(entity | {"offset": start, "length": end - start})
    return Marked(text, tuple(kept), source)


def _fault(what: str, source: str, at: int, more: str = "") -> Refusal:
    return bad(f"can't parse entities: {what} at byte offset {len(source[:at].encode())}{more}")
