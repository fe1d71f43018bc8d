"""Asked: what to set with an adapter on the torque wrench, or what the fastener got."""

from __future__ import annotations

import re
from decimal import Decimal

from benchbot.calculators import asking_back as back
from benchbot.calculators.adapter import ACROSS, IN_LINE, REVERSED, cosine, reached, setting
from benchbot.calculators.factors import in_unit, plain, torque_text
from benchbot.calculators.roles import assign
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.words import GLUE
from benchbot.errors import QuantityError
from benchbot.outcomes import Calculation, Choose, Sentence

_ADAPTERS = frozenset({"adapter", "crowfoot", "dogbone", "offset"})
_WRENCHES = frozenset({"wrench", "torquewrench", "handle", "lever", "grip", "l"})
_EXTENSIONS = frozenset({"extension", "socketext"})
_ANGLES = {"across": ACROSS, "reversed": REVERSED, "inline": IN_LINE, "straight": IN_LINE}
WORDS = (
    _ADAPTERS | _WRENCHES | _EXTENSIONS | frozenset(_ANGLES)
    | frozenset({"degrees", "drive", "angle", "e", "open", "click", "socket", "hand", "°", "inches", "angled", "bend",
                 "read", "clicked"})
)  # fmt: skip
_KNOWN = WORDS | GLUE
_WHAT_IT_GOT = re.compile(
    r"\b(?:what|how much)\b.*\b(?:did|do|does|am|is|was|will|would)\b.*\b(?:get|gets|got|getting|put|apply|applied|"
    r"reach|reached|see|sees|on it)\b|\b(?:actual|actually|really|true)\b"
)
_WHAT_TO_SET = re.compile(
    r"\bwhat\b.*\b(?:do|should|would|must|to)\b.*\b(?:set|dial)\b|\b(?:what|which|whats the|the) setting\b"
    r"|\bsetting for\b|\bset (?:it |the wrench |my wrench )?(?:for|to get)\b"
)
_CHANGES = frozenset(
    {"change", "changes", "changed", "affect", "affects", "correct", "correction", "compensate", "account", "adjust",
     "matter", "matters", "difference", "different", "set", "setting", "formula"}
)  # fmt: skip
_SET_WORDS = frozenset({"set", "setting", "dialed", "dial", "click", "reads", "clicked"})
_TO = frozenset({"at", "to", "on", "is", "was"})
_WANTED = frozenset({"get", "want", "need", "needs", "spec", "calls"})
_SOURCE = "F × L, F × (L + E × cos a)"


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """What the message asks of an adapter; None when it asks for anything else."""
    adapters, extensions = message.words & _ADAPTERS, message.words & _EXTENSIONS
    if not (adapters or extensions) or not message.is_made_of(_KNOWN) or message.of("thread") or message.of("grade"):
        return None
    torques = message.figures("torque")
    lengths = message.figures("length")
    angles = message.figures("angle")
    bare = message.figures("")
    if len(torques) > 1 or len(angles) > 1 or len(lengths) > 2 or _strange(message):
        return None
    if not adapters:
        return _extension(message, torques, lengths, bare)
    return _adapter(message, text, torques, lengths, angles, bare)


def _strange(message: Message) -> bool:
    return any(f.measures not in ("torque", "length", "angle", "") or f.number < 0 for f in message.figures())


def _extension(
    message: Message, torques: list[Piece], lengths: list[Piece], bare: list[Piece]
) -> Calculation | Choose | None:
    """An extension with a wrench length beside it may be an adapter; alone it is the one between wrench and socket."""
    if "socketext" not in message.words and (len(lengths) == 2 or message.words & frozenset(_ANGLES)):
        written = " ".join(piece.raw for piece in message.pieces)
        spelt = re.compile(r"\bext[a-z]*\b")
        return back.either(
            back.WHICH_EXTENSION,
            ("straight extension", spelt.sub("socket extension", written, count=1)),
            ("adapter", spelt.sub("adapter", written, count=1)),
        )
    target = torques[0] if torques else next((f for f in bare if len(bare) == 1), None)
    if target is None and ((lengths and not message.says("torque", "set")) or not message.says(*_CHANGES)):
        return None
    shown = torque_text(target.number, target.unit) if target else "1 : 1"
    title = Sentence.of("extension", setting=shown) if target else Sentence("extension any")
    return Calculation(
        target.shown() if target else "a straight extension",
        shown,
        "E = 0: setting = target × L / (L + 0) = target",
        title,
        (Sentence("extension twists"), Sentence("extension or adapter")),
        source=_SOURCE,
    )


def _adapter(
    message: Message, text: str, torques: list[Piece], lengths: list[Piece], angles: list[Piece], bare: list[Piece]
) -> Calculation | Choose | None:
    if not message.figures():
        if _degrees(message, angles, bare, True)[0] == ACROSS:
            return _across_any()
        return back.missing(back.ADAPTER_ALL, message)
    alone = len(message.figures()) == 1
    degrees, bare = _degrees(message, angles, bare, bool(torques) or alone)
    if degrees is None and angles:
        return None
    target, loose = _target(message, torques, lengths, bare)
    roles = {"wrench": _WRENCHES, "adapter": _ADAPTERS | frozenset({"e", "extension"})}
    if target is None and len(lengths) + len(loose) == 3:
        shared = assign(message, [*lengths, *loose], roles | {"target": _WANTED | frozenset({"torque", "for"})})
        target = shared.get("target") if shared else None
        if target is None or target.unit:
            return None
        lengths, loose = [f for f in lengths if f is not target], [f for f in loose if f is not target]
    if len(lengths) + len(loose) > 2:
        return None
    if not lengths and not loose and target is None:
        if degrees is None:
            return None
        return _across_any() if degrees == ACROSS else back.missing(back.ADAPTER_ALL, message)
    found = assign(message, [*lengths, *loose], roles)
    if found is None and len(lengths) + len(loose) == 1 and target is None:
        return None
    if found is None and lengths + loose:
        return back.missing(back.WHICH_IS_WHICH, message)
    found = found or {}
    if degrees == ACROSS and target is not None:
        return _across(target)
    if loose:
        return back.which_unit(message, loose, back.LENGTHS)
    lever, length = found.get("wrench"), found.get("adapter")
    if lever is None or length is None:
        if target is None:
            return None
        if lever is None and length is None:
            return back.missing(back.BOTH_LENGTHS, message)
        if lever is None:
            return back.missing(back.WRENCH_LENGTH, message, "wrench")
        return back.missing(back.ADAPTER_LENGTH, message, "adapter")
    if target is None:
        return back.missing(back.ADAPTER_TARGET, message)
    if in_unit(length.number, length.unit, lever.unit) > lever.number:
        return back.missing(back.WHICH_IS_WHICH, message)
    is_set, to_set = _is_a_setting(message, target), _WHAT_TO_SET.search(text) is not None
    if is_set and to_set:
        return back.missing(back.ADAPTER_TARGET, message)
    got = is_set or (_WHAT_IT_GOT.search(text) is not None and not to_set)
    return _sum(target, lever, length, degrees, got)


def _is_a_setting(message: Message, torque: Piece) -> bool:
    """Whether the torque is what the wrench was set to: "set it at 100", and not "set to get 100"."""
    place = next(n for n, piece in enumerate(message.pieces) if piece is torque)
    before = [piece.word for piece in message.pieces[max(0, place - 4) : place]]
    if not before or before[-1] not in _TO or _WANTED & set(before):
        return False
    return bool(_SET_WORDS & set(before))


def _degrees(
    message: Message, angles: list[Piece], bare: list[Piece], has_torque: bool
) -> tuple[Decimal | None, list[Piece]]:
    """The angle said, and the bare figures that are none; None where no angle was said."""
    if angles:
        number = angles[0].number
        return (number if angles[0].unit == "deg" and 0 <= number <= 180 else None), bare
    said = {_ANGLES[word] for word in message.words & frozenset(_ANGLES)}
    if len(said) == 1:
        return said.pop(), bare
    at = [f for f in bare if has_torque and f.number in (45, 90, 180) and _follows(message, f, "at")]
    return (at[0].number, [f for f in bare if f is not at[0]]) if len(at) == 1 else (None, bare)


def _follows(message: Message, figure: Piece, word: str) -> bool:
    place = next(n for n, piece in enumerate(message.pieces) if piece is figure)
    return place > 0 and message.pieces[place - 1].word == word


def _target(
    message: Message, torques: list[Piece], lengths: list[Piece], bare: list[Piece]
) -> tuple[Piece | None, list[Piece]]:
    """The torque, and the bare figures that can only be lengths. With both lengths known, it is the torque."""
    if torques:
        return torques[0], bare
    pounds = [f for f in bare if f.bare]
    if len(pounds) == 1:
        return pounds[0], [f for f in bare if f is not pounds[0]]
    if len(lengths) == 2 and len(bare) == 1:
        return bare[0], []
    return None, bare


def _across(target: Piece) -> Calculation:
    shown = torque_text(target.number, target.unit)
    formula = f"{target.text} × L / (L + E × cos 90°) = {target.text} × L / L = {shown}"
    title = Sentence.of("set across", setting=shown)
    lines = (Sentence("across is exact"), *_same_unit(target))
    return Calculation(f"T = {target.shown()}, a = 90°", shown, formula, title, lines, source=_SOURCE)


def _across_any() -> Calculation:
    formula = "E × cos 90° = 0: setting = target × L / L = target"
    return Calculation("a = 90°", "1 : 1", formula, Sentence("across any"), (Sentence("across is exact"),),
                       source=_SOURCE)  # fmt: skip


def _same_unit(target: Piece) -> tuple[Sentence, ...]:
    return () if target.unit else (Sentence.of("same unit", figure=target.text),)


def _sum(target: Piece, lever: Piece, length: Piece, degrees: Decimal | None, got: bool) -> Calculation | Choose:
    whole, e = lever.number, in_unit(length.number, length.unit, lever.unit)
    reckon = reached if got else setting
    angle = IN_LINE if degrees is None else degrees
    try:
        shown = torque_text(reckon(target.number, whole, e, angle), target.unit)
        reversed_ = torque_text(reckon(target.number, whole, e, REVERSED), target.unit)
    except QuantityError:
        return Calculation(target.shown(), "", "L + E × cos a", Sentence("no lever left"), refused=True)
    given = f"T = {target.shown()}, L = {lever.shown()}, E = {length.shown()}, a = {plain(angle)}°"
    name = {IN_LINE: "in line", ACROSS: "across", REVERSED: "reversed"}.get(angle, "at an angle")
    title = Sentence.of(f"{'got' if got else 'set'} {name}", setting=shown, degrees=plain(angle))
    reach = f"({plain(whole)} + {plain(e)} × cos {plain(angle)}°)"
    formula = (
        f"{target.text} × {reach} / {plain(whole)} = {shown}"
        if got
        else f"{target.text} × {plain(whole)} / {reach} = {shown}"
    )
    if cosine(angle) not in (0, 1, -1):
        formula += f" (cos {plain(angle)}° = {cosine(angle):.4f})"
    lines = [Sentence("measure the levers")]
    if degrees is None:
        lines.insert(0, Sentence.of("other ways round", across=torque_text(target.number, target.unit), back=reversed_))
    return Calculation(given, shown, formula, title, (*lines, *_same_unit(target)), source=_SOURCE)
