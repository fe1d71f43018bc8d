"""Threads and tool sizes: what the fastener is cut to and what fits its head."""

from __future__ import annotations

import re
from decimal import Decimal

from benchbot.errors import QuantityError
from benchbot.quantities.amounts import Amount, Thread, ToolSize
from benchbot.quantities.numbers import read_number
from benchbot.quantities.units import BareUnitError, read_unit, tidy_signs

_FIGURE = r"[0-9]+(?:[.,][0-9]+)?"
_METRIC = re.compile(
    rf"M\s?({_FIGURE})(?:\s?[x\u00b7*-]\s?({_FIGURE}))?(?:\s?mm)?(\s+(?:LH|left[ -]hand))?", re.IGNORECASE
)
_INCH = re.compile(
    r"([0-9]+/[0-9]+|[0-9]+(?: |-)[0-9]+/[0-9]+|[0-9]+)\s?(?:\"|in\b)?\s?(?:-|\u00b7|x)\s?([0-9]+)"
    r"(?:\s?(?:UNC|UNF|UNEF|UN|UNS|TPI))?(\s+(?:LH|left[ -]hand))?",
    re.IGNORECASE,
)

_WIDEST_METRIC = Decimal(100)
_WIDEST_INCH = Decimal(4)
_MOST_PER_INCH = Decimal(80)

_DRIVES: dict[str, str] = {
    "": "",
    "hex": "hex",
    "hex key": "hex key",
    "hex bit": "hex key",
    "allen": "hex key",
    "allen key": "hex key",
    "inner hex": "hex key",
    "internal hex": "hex key",
    "hex head": "hex",
    "hex socket": "hex",
    "socket": "",
    "wrench": "",
    "spanner": "",
    "6 point": "6-point",
    "6 pt": "6-point",
    "12 point": "12-point",
    "12 pt": "12-point",
    "flare nut": "flare nut",
    "flare nut wrench": "flare nut",
    "line wrench": "flare nut",
    "square": "square",
}
_TORX = re.compile(r"(?:torx\s?)?(E|TX|T)\s?-?([0-9]{1,3})(?:\s?(?:e-?)?torx)?", re.IGNORECASE)
# A bare "M10" would be a thread, so M needs its word behind it.
_NUMBERED = re.compile(
    r"(?:(H)\s?([0-9]{1,2})(?:\s(?:hex(?: key| bit)?|allen))?|(M)\s?([0-9]{1,2})\s(?:spline|triple[ -]square)"
    r"|(PH|PZ)\s?([0-9]))",
    re.IGNORECASE,
)
_SIZED = re.compile(
    r"([0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?)\s*"
    r"(mm|millimet(?:er|re)s?|inch(?:es)?|in\b\.?|\")?\s*(.*)",
    re.IGNORECASE,
)
_NUMBERED_DRIVES = {"m": "spline", "ph": "cross", "pz": "cross"}

_MOST_TORX = 100
_WIDEST_HEAD = {"mm": Decimal(120), "in": Decimal(5)}


def read_thread(text: str) -> Thread:
    """A metric thread ("M12x1.5", "M10") or an inch one ("7/16-20 UNF"), left hand if it says so.

    QuantityError for any other text, and for a pitch that no such diameter is cut with.
    """
    tidied = tidy_signs(text)
    metric = _METRIC.fullmatch(tidied)
    if metric:
        diameter = Amount(read_number(metric[1]), "mm", metric[1])
        pitch = read_number(metric[2]) if metric[2] else None
        if not Decimal(1) <= diameter.number <= _WIDEST_METRIC:
            raise QuantityError(f"{text!r}: no metric thread of the bay is {diameter.text} mm wide; check the source")
        if pitch is not None and not 0 < pitch <= diameter.number * _steepest(diameter.number):
            raise QuantityError(
                f"{text!r}: no {diameter.text} mm thread has a pitch of {pitch} mm; look for a slipped point"
            )
        return Thread(diameter, pitch, None, metric[3] is not None, text)
    inch = _INCH.fullmatch(tidied)
    if inch:
        diameter = Amount(read_number(inch[1]), "in", inch[1])
        per_inch = read_number(inch[2])
        if not 0 < diameter.number <= _WIDEST_INCH or not 4 <= per_inch <= _MOST_PER_INCH:
            raise QuantityError(f"{text!r} is no inch thread of the bay; write one such as 7/16-20")
        return Thread(diameter, None, per_inch, inch[3] is not None, text)
    raise QuantityError(f"{text!r} is no thread; write one such as M12x1.5 or 7/16-20")


def _steepest(diameter: Decimal) -> Decimal:
    """The largest share of its diameter that a pitch can be.

    ISO 261 coarse pitches lie below it, and "M16-4.8", a strength class behind a dash, lies above it.
    """
    return Decimal("0.25") if diameter < 3 else Decimal("0.18")


def read_tool_size(text: str) -> ToolSize:
    """What fits the head: "18 mm", "5/8", "8 mm hex", "21 mm 6-point", "T40", "E14", "H8", "M10 spline".

    The drive is only what the text says: "8 mm hex" stays "hex", head or key, and "18 mm" has none. A whole figure
    without mm or inch is a BareUnitError: 18 mm and 5/8 in are told apart by nothing else.
    """
    tidied = " ".join(tidy_signs(text).split())
    torx = _TORX.fullmatch(tidied)
    if torx:
        number = int(torx[2])
        if not 1 <= number <= _MOST_TORX:
            raise QuantityError(f"{text!r}: there is no such number; write one such as T40 or E14")
        return ToolSize("E-Torx" if torx[1].lower() == "e" else "Torx", None, number, text)
    numbered = _NUMBERED.fullmatch(tidied)
    if numbered:
        letter, figure = (group for group in numbered.groups() if group is not None)
        if int(figure) == 0:
            raise QuantityError(f"{text!r}: there is no size 0 in the bay; check the source")
        if letter.lower() == "h":
            return ToolSize("hex key", Amount(Decimal(figure), "mm", figure), None, text)
        return ToolSize(_NUMBERED_DRIVES[letter.lower()], None, int(figure), text)
    sized = _SIZED.fullmatch(tidied)
    if sized is None:
        raise QuantityError(f"{text!r} is no tool size; write one such as 18 mm, 5/8 in, 8 mm hex or T40")
    return _sized(sized, text)


def _sized(sized: re.Match[str], text: str) -> ToolSize:
    figure, spelling, drive_said = sized.groups()
    drive = _DRIVES.get(" ".join(drive_said.lower().replace("-", " ").split()))
    if drive is None:
        raise QuantityError(f"{text!r}: {drive_said!r} is no drive we know; write one such as hex, hex key or 12-point")
    number = read_number(figure)
    if spelling is None and "/" not in figure:
        raise BareUnitError(number, "", ("mm", "in"), f"{text!r} has no unit; write mm or in behind the figure")
    unit = read_unit(spelling) if spelling else None
    symbol = "in" if unit is None else unit.symbol
    if "/" in figure and symbol == "mm":
        raise QuantityError(f"{text!r} is a fraction of a millimetre; write it in inches or as a decimal")
    if not 0 < number <= _WIDEST_HEAD[symbol]:
        raise QuantityError(f"{text!r} is no size of a tool; look for a slipped point or a wrong unit")
    return ToolSize(drive, Amount(number, symbol, figure), None, text)
