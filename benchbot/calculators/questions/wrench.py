"""Asked: does this torque wrench do for that torque, and what can a click at a setting mean."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import pairwise

from benchbot.calculators import asking_back as back
from benchbot.calculators.factors import in_unit, plain, torque_text
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.words import GLUE
from benchbot.calculators.wrench import LOWEST_TESTED, SMALL_TOOL, Kind, click, deviation, fits
from benchbot.outcomes import Calculation, Choose, Sentence

_KINDS: dict[str, Kind] = {
    "click": "click", "torquewrench": "click", "dial": "dial", "digital": "electronic", "electronic": "electronic",
    "beam": "beam", "needle": "beam", "screwdriver": "screwdriver",
}  # fmt: skip
_TOOLS = frozenset({"wrench", "torquewrench", "click", "beam", "digital", "electronic", "screwdriver", "needle"})
_ABOUT_A_CLICK = frozenset(
    {"click", "accuracy", "tolerance", "trust", "off", "iso", "deviation", "error", "accurately"}
)
WORDS = (
    _TOOLS | _ABOUT_A_CLICK | frozenset(_KINDS)
    | frozenset({
        "range", "fit", "enough", "drive", "type", "scale", "max", "goes", "go", "rated", "cover", "covers", "mark",
        "marked", "lowest", "highest", "capacity", "work", "suitable", "percent", "fine", "be", "%", "min", "as", "low",
        "within", "starts", "reach", "reaches", "big", "small", "plus", "calibrated", "fresh", "cal", "±",
        "precise", "maximum",
    })
)  # fmt: skip
_KNOWN = WORDS | GLUE
_MOST_FIGURES = 4
_SOURCE = "ISO 6789-1:2017, 5.1.5"
_WHAT_IT_MAY_BE = re.compile(
    r"\b(?:really|actually|truly|true|real)\b|\bwhat (?:torque )?(?:can|could|may|might) (?:it|that) be\b"
    r"|\bis (?:it|that) (?:really |exactly )?[0-9]"
)
_IN_GENERAL = frozenset({"iso", "accuracy", "accurately", "tolerance", "deviation", "error"})
_HOW_FAR_OFF = re.compile(r"\bhow (?:far|much) off\b|\bhow (?:accurate|precise)\b|\boff by\b")
_HIGHEST = frozenset({"max", "maximum", "capacity", "rated"})


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """What the message asks of a torque wrench; None when it asks for anything else."""
    if not message.says(*_TOOLS) or not message.is_made_of(_KNOWN) or message.of("thread") or message.of("grade"):
        return None
    figures = message.figures()
    if any(f.measures not in ("torque", "share", "") or f.number < 0 for f in figures):
        return None
    shares = message.figures("share")
    torques = [f for f in figures if f.measures != "share"]
    if not torques and not shares:
        general = message.says(*_IN_GENERAL) or _HOW_FAR_OFF.search(text) is not None
        return _may_be_off(message) if general and message.says("click", *_KINDS, "wrench") else None
    if len(shares) > 1 or len(torques) > _MOST_FIGURES or not torques:
        return None
    ends = _range(message, torques)
    rest = [f for f in torques if not _is_said_elsewhere(f, torques, ends)]
    if ends is None and len(rest) == 2 and all(f.unit for f in rest) and _of_a_tool(message, rest):
        return back.missing(back.WRENCH_RANGE, message)
    if len(rest) != 1 or rest[0].number == 0:
        return None
    about = message.says(*_ABOUT_A_CLICK - {"click"}) or _WHAT_IT_MAY_BE.search(text) is not None
    if ends is None and not ((about or _says_a_click(message)) and message.says("click", "wrench", "torquewrench")):
        return None
    share = shares[0].number if shares else None
    unknown = [f for f in (*(ends or ()), rest[0]) if not f.unit]
    if ends is not None and ends[1].unit and not ends[0].unit:
        ends, unknown = (_like(ends[0], ends[1]), ends[1]), [f for f in unknown if f is not ends[0]]
    if unknown:
        return back.which_unit(message, unknown, _offers(unknown))
    return _verdict(message, rest[0], ends, share) if ends else _click(message, rest[0], share)


def _says_a_click(message: Message) -> bool:
    """Whether a click is spoken of, and not only a click wrench."""
    behind = [*message.pieces[1:], Piece("mark", "")]
    return any(p.word == "click" and q.word != "torquewrench" for p, q in zip(message.pieces, behind, strict=True))


def _is_said_elsewhere(figure: Piece, torques: list[Piece], ends: tuple[Piece, Piece] | None) -> bool:
    """Whether it is an end of the range, or repeats another figure: "torqued to 100 ft lb, is it 100?"."""
    if ends is not None and any((figure.number, figure.unit) == (end.number, end.unit) for end in ends):
        return True
    return not figure.unit and any(other.unit and other.number == figure.number for other in torques)


def _of_a_tool(message: Message, torques: list[Piece]) -> bool:
    """Whether just one of the torques belongs to the wrench itself, as in "a 250 ft lb wrench"."""
    of_it = 0
    for n, piece in enumerate(message.pieces):
        if any(piece is f for f in torques):
            behind = message.pieces[n + 1].word if n + 1 < len(message.pieces) else ""
            before = message.pieces[n - 1].word if n else ""
            of_it += behind in _TOOLS | _HIGHEST or before in _TOOLS | _HIGHEST
    return of_it == 1


def _may_be_off(message: Message) -> Calculation:
    """What ISO 6789 lets a kind of wrench be off by, where no setting was said."""
    kind, said = _kind(message)
    small, large = deviation(kind, SMALL_TOOL), deviation(kind, SMALL_TOOL * 2)
    title = Sentence.of("any may be off", percent=plain(large))
    if small != large:
        title = Sentence.of("wrench may be off", large=plain(large), small=plain(small), small_tool=plain(SMALL_TOOL))
    lines = [] if said else [Sentence("as a click wrench")]
    lines += [Sentence("click is the wrench"), Sentence("only in cal")]
    formula = f"torque × (1 ± {plain(large)}/100); ≤ {plain(SMALL_TOOL)} N·m: ± {plain(small)} %"
    return Calculation("torque wrench", f"± {plain(large)} %", formula, title, tuple(lines), source=_SOURCE)


def _offers(unknown: list[Piece]) -> tuple[str, ...]:
    return ("lb-ft", "lb-in") if any(f.bare for f in unknown) else back.TORQUES


def _like(figure: Piece, other: Piece) -> Piece:
    return Piece("figure", figure.raw, number=figure.number, unit=other.unit, text=figure.text)


def _range(message: Message, torques: list[Piece]) -> tuple[Piece, Piece] | None:
    """The two figures with "to" between them, low before high; None when no two stand so, or several do."""
    found = []
    for low, high in pairwise(torques):
        places = [n for n, piece in enumerate(message.pieces) if piece is low or piece is high]
        between = {p.word for p in message.pieces[places[0] + 1 : places[1]]}
        if (
            between
            and between <= {"to", "and", "up", "goes", "go", "thru", "through", "all", "the", "way"}
            and "to" in between
        ):
            found.append((low, high))
    if len(found) != 1:
        return None
    low, high = found[0]
    if low.unit and high.unit and low.unit != high.unit:
        return None
    return (low, high) if low.number < high.number else None


def _kind(message: Message) -> tuple[Kind, bool]:
    """The kind of wrench, and whether it was said; where it was not, the figures shown are those of a click wrench."""
    said = [kind for word, kind in _KINDS.items() if word in message.words and word != "torquewrench"]
    return (said[0], True) if said else ("click", False)


def _verdict(message: Message, torque: Piece, ends: tuple[Piece, Piece], share: Decimal | None) -> Calculation:
    low, high = ends
    unit = high.unit
    wanted = in_unit(torque.number, torque.unit, unit)
    verdict = fits(wanted, low.number, high.number)
    given = f"{torque.shown()}; {low.text}-{high.text} {unit}"
    text = torque_text(wanted, unit)
    if verdict == "below":
        title = Sentence.of("wrench below", torque=torque.shown(), low=f"{low.text} {unit}")
        return Calculation(given, f"{text} < {low.text} {unit}", f"{text} < {low.text} {unit}", title,
                           (Sentence("wrench smaller"),), source=_SOURCE)  # fmt: skip
    if verdict == "above":
        title = Sentence.of("wrench above", torque=torque.shown(), high=f"{high.text} {unit}")
        return Calculation(given, f"{text} > {high.text} {unit}", f"{text} > {high.text} {unit}", title,
                           (Sentence("wrench larger"),), source=_SOURCE)  # fmt: skip
    kind, said = _kind(message)
    percent = share or deviation(kind, in_unit(high.number, unit, "N·m"))
    may = click(wanted, percent)
    result = f"{low.text} ≤ {text.removesuffix(f' {unit}')} ≤ {high.text} {unit}"
    title = Sentence.of("wrench fits", torque=torque.shown(), low=low.text, high=f"{high.text} {unit}")
    lines = [_may_mean(may.least, may.most, unit, text, percent)]
    if not said:
        lines.append(Sentence("as a click wrench"))
    if wanted < high.number * LOWEST_TESTED:
        lines.append(Sentence.of("low on the scale", share=plain((wanted / high.number * 100).quantize(Decimal(1)))))
    lines.append(Sentence("only in cal"))
    return Calculation(given, result, f"{text} ± {plain(percent)} %", title, tuple(lines), source=_SOURCE)


def _may_mean(least: Decimal, most: Decimal, unit: str, set_: str, percent: Decimal) -> Sentence:
    return Sentence.of("click may mean", setting=set_, percent=plain(percent), least=torque_text(least, unit),
                       most=torque_text(most, unit))  # fmt: skip


def _click(message: Message, torque: Piece, share: Decimal | None) -> Calculation | Choose:
    kind, said = _kind(message)
    newton_metres = in_unit(torque.number, torque.unit, "N·m")
    if share is None and newton_metres <= SMALL_TOOL and deviation(kind, SMALL_TOOL) != deviation(kind, SMALL_TOOL * 2):
        # a tool of 8 N·m at most may be off by 6 %, one that goes higher by 4 %
        return back.missing(back.WRENCH_RANGE, message)
    percent = share or deviation(kind, newton_metres)
    may = click(torque.number, percent)
    set_, unit = torque.shown(), torque.unit
    least, most = torque_text(may.least, unit), torque_text(may.most, unit)
    formula = f"{torque.text} × (1 ± {plain(percent)}/100) = {least.removesuffix(f' {unit}')} … {most}"
    lines = [] if said else [Sentence("as a click wrench")]
    lines += [Sentence("click is the wrench"), Sentence("only in cal")]
    return Calculation(set_, f"{least.removesuffix(f' {unit}')}-{most}", formula,
                       _may_mean(may.least, may.most, unit, set_, percent), tuple(lines), source=_SOURCE)  # fmt: skip
