"""Shows a sheet as Telegram does: text with its own HTML, rows of buttons, results of an inline query."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from html import escape

from telegram import (
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    InlineQueryResultArticle,
    InputTextMessageContent,
    LinkPreviewOptions,
)
from telegram.constants import InlineKeyboardButtonLimit, ParseMode

from benchbot.desk.pages import laid_out, length
from benchbot.desk.sheets import SHOWN_AT_MOST, Button, Offers, Sheet
from benchbot.reply.reply import Block, Kind

IN_PAIRS_AT_MOST = 18
LABEL_AT_MOST = 60
_CUT = "…"

# Bold is what is looked for at arm's length, and only that, or nothing stands out. Cautions read best unmarked.
_MARKS: dict[Kind, str] = {
    "condition": "b",
    "value": "b",
    "calculation": "b",
    "verdict": "b",
    "question": "b",
    "missing": "b",
    "said": "i",
    "before": "i",
    "source": "i",
    "echo": "i",
}


def html(sheet: Sheet) -> str:
    """The text with marks; nothing that anybody wrote can become a mark. Empty for a sheet without blocks."""
    return "\n".join(" ".join(_marked(block) for block in line) for line in laid_out(sheet.blocks))


def keyboard(sheet: Sheet, card: int | None) -> InlineKeyboardMarkup | None:
    """The buttons, short labels in pairs; None when there are none. ValueError: a code is too long for Telegram."""
    if not sheet.buttons:
        return None
    rows: list[list[InlineKeyboardButton]] = []
    pair_is_open = False
    for button, label in zip(sheet.buttons, _labels(sheet.buttons), strict=True):
        made = InlineKeyboardButton(label, callback_data=_callback(button, card))
        alone = button.wide or len(label) > IN_PAIRS_AT_MOST
        if pair_is_open and not alone:
            rows[-1].append(made)
            pair_is_open = False
        else:
            rows.append([made])
            pair_is_open = not alone
    return InlineKeyboardMarkup(rows)


def results(offers: Offers) -> list[InlineQueryResultArticle]:
    """The results of an inline query, in order. ValueError: an offer is longer than one message."""
    return [
        InlineQueryResultArticle(
            id=offer.code,
            title=offer.title,
            description=offer.line or None,
            input_message_content=_content(offer.title, offer.sheet),
            reply_markup=keyboard(offer.sheet, None),
        )
        for offer in offers.offers
    ]


def _marked(block: Block) -> str:
    text = escape(block.text)
    mark = _MARKS.get(block.kind) if text.strip() else None
    return f"<{mark}>{text}</{mark}>" if mark else text


def _callback(button: Button, card: int | None) -> str:
    data = f"{card or 0}:{button.code}"
    size, most = len(data.encode("utf-8", "surrogatepass")), InlineKeyboardButtonLimit.MAX_CALLBACK_DATA
    if size > most:
        raise ValueError(
            f"the button “{button.label}” has the code {button.code!r}, {size} bytes with its card where Telegram "
            f"takes {most}; make the code shorter"
        )
    return data


def _labels(buttons: Sequence[Button]) -> list[str]:
    """Long labels without their middle, as the ends tell most; in full where two would read alike."""
    short = [_shortened(button.label) for button in buttons]
    alike = Counter(short)
    return [cut if alike[cut] == 1 else button.label for button, cut in zip(buttons, short, strict=True)]


def _shortened(label: str) -> str:
    if len(label) <= LABEL_AT_MOST:
        return label
    head = (LABEL_AT_MOST - len(_CUT) + 1) // 2
    tail = LABEL_AT_MOST - len(_CUT) - head
    return f"{label[:head].rstrip()}{_CUT}{label[-tail:].lstrip()}"


def _content(title: str, sheet: Sheet) -> InputTextMessageContent:
    size = length(sheet.blocks)
    if size > SHOWN_AT_MOST:
        raise ValueError(
            f"the offer “{title}” is {size} long where one message holds {SHOWN_AT_MOST}; offer less of it at once"
        )
    return InputTextMessageContent(
        html(sheet), parse_mode=ParseMode.HTML, link_preview_options=LinkPreviewOptions(is_disabled=True)
    )
