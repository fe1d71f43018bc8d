"""Asked: a torque for a bolt of which only size, class or nothing is known; refused, with the reason.

A vehicle's name is no word here, so whatever names one is left to the book.
"""

from __future__ import annotations

import re

from benchbot.calculators.factors import in_unit
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.words import GLUE
from benchbot.outcomes import Calculation, Sentence

_TIGHT = frozenset({"torque", "tq", "trq", "howtight", "tight", "tighten", "torqued", "torques", "tightening"})
# No vehicle has such a torque, so no part named beside these makes it a question for the book.
_FROM_A_LIST = frozenset({"chart", "table", "generic", "typical", "typically", "ballpark", "thumb", "universal"})
_IN_GENERAL = frozenset({"usual", "usually", "normal", "normally", "general", "generally", "average", "common"})
_BOLTS = frozenset({"bolt", "bolts", "nut", "nuts", "screw", "fastener", "fasteners", "stud", "thread"})
_PARTS = frozenset(
    {"wheel", "lug", "lugs", "caliper", "bracket", "slide", "pin", "pins", "strut", "hub", "axle", "banjo", "brake",
     "brakes", "knuckle", "control", "arm", "rod", "ball", "joint", "rear", "front", "suspension"}
)  # fmt: skip
_KINDS = frozenset(
    {"class", "fine", "coarse", "metric", "imperial", "inch", "sae", "hex", "flange", "flanged", "cap", "allen",
     "steel", "zinc", "plated", "dry", "oiled", "lubed", "greased", "half", "quarter", "eighths", "eighth", "quarters",
     "threequarter", "size", "sizes", "sized", "marked", "stamped", "grades", "classes", "head", "m"}
)  # fmt: skip
_ASKING = frozenset(
    {"max", "maximum", "min", "recommended", "standard", "safe", "hard", "k", "percent", "%", "break", "breaks", "snap",
     "snaps", "strip", "strips", "stretch", "load", "clampload", "clamp", "force", "proof", "yield", "tension",
     "strength", "rule", "snug", "lleva", "lleve", "doy", "le", "va", "aplico", "medida", "guess", "estimate", "by",
     "diameter", "factor", "friction", "gives", "specs", "lookup", "list", "every", "kn"}
)  # fmt: skip
_OF_A_LOAD = frozenset({"load", "clampload", "clamp", "force", "proof", "break", "breaks", "snap", "stretch", "socket"})
_UNITS = frozenset({"nm", "lb", "lbs", "foot", "pound", "pounds", "ftlb", "ftlbs", "newton", "newtons", "meters",
                    "libras", "libra", "pie", "pies", "cuantas", "cuantos"})  # fmt: skip
WORDS = _TIGHT | _FROM_A_LIST | _IN_GENERAL | _BOLTS | _PARTS | _KINDS | _ASKING | _UNITS
_KNOWN = WORDS | GLUE
_KNOWN_OF_A_BOLT = _KNOWN - _PARTS
_IN_WORDS = re.compile(
    r"\b(?:half|quarter|three[ -](?:quarters?|eighths?)|five[ -](?:eighths?|sixteenths?)|media|cuarto)"
    r"(?:[ -](?:of )?(?:an? )?(?:inch|in|de pulgada|pulgada))?[ -](?:\w+ )?"
    r"(?:bolt|nut|stud|screw|tornillo|perno|tuerca)"
    r"|(?:tornillo|perno|tuerca|birlo)s? de (?:media|un cuarto|tres octavos)"
)
# "12mm bolt", "tornillo de 12 mm": the size stands beside the fastener, so that it is no length of anything else.
_BESIDE = 3
_FEW = 40
_HOW_MUCH = re.compile(r"\bhow (?:much|many)\b.*\b(?:needs?|takes?|gets?|for)\b|\bcuanto (?:lleva|le doy|necesita)\b")
_A_UNIT = re.compile(r"\b(?:ft|foot|feet|in|inch)[ -]?(?:lbs?|pounds?)\b|\bnm\b|\bnewton|\blibras\b")
# Asked so, it is refused whatever is named beside it: a load gives no torque for a vehicle either.
_OUT_OF_A_LOAD = re.compile(
    r"\b(?:calculate|compute|work out|figure out|derive|calcula(?:r|me)?)\b.*\b(?:torques?|apriete)\b.*"
    r"\b(?:from|using|out of|by|de|con|desde)\b.*\b(?:load|preload|clamp\w*|proof|stretch|tensile|grade|class|thread|"
    r"pitch|bolt size|carga|clase|grado|rosca)\b"
)
_BY_SIZE = re.compile(
    r"\b(?:by|per|por) (?:the )?(?:bolt |thread )?(?:sizes?|diameter|class|grade|medida|clase|rosca)\b"
)
_OF_A_TOOL = frozenset({"socket", "hex", "head", "wrench", "size", "sizes", "thread", "allen", "flange"})
_A_HEAD_BOLT = re.compile(r"\bhead (?:bolt|stud|nut)")
_SOURCE = "F = T / (K × d)"


def asked(message: Message, text: str) -> Calculation | None:
    """The refusal; None when the message gives a torque, names more than a bolt, or asks for anything else."""
    torques = [f for f in message.figures() if f.measures == "torque" or f.bare]
    if torques or message.of("grade") or (message.says("hex", "flange", "cap") and not _class_of(message)):
        return None
    general = message.says(*_FROM_A_LIST) or _BY_SIZE.search(text) is not None
    if not message.is_made_of(_KNOWN if general or message.says(*_IN_GENERAL) else _KNOWN_OF_A_BOLT):
        return None
    size, strength = _size_of(message, text), _class_of(message)
    if size is None or not _can_be_a_size(message) or (not general and _A_HEAD_BOLT.search(text)):
        return None
    tight = message.says(*_TIGHT) or (message.says("chart") and message.says(*_BOLTS))
    if general and tight and (size or strength or not message.figures()):
        return _refused(size, strength)
    if general and size and not message.says(*_OF_A_TOOL):
        return _refused(size, strength)
    if not (size or strength):
        return None
    how_much = _HOW_MUCH.search(text) is not None and not message.says(*_OF_A_LOAD)
    if not (tight or (how_much and bool(message.of("thread"))) or _A_UNIT.search(text)):
        return None
    return _refused(size, strength) if size or message.says(*_BOLTS) else None


def out_of_a_load(text: str) -> Calculation | None:
    """The refusal of a torque reckoned from a load or a class, whatever vehicle is named; text: folded."""
    return _refused("", "") if _OUT_OF_A_LOAD.search(text) else None


def _size_of(message: Message, text: str) -> str | None:
    """The size as it was written, "" where none was said, None where a figure is no size of a bolt."""
    threads = message.of("thread")
    lengths = [f for f in message.figures("length") if _beside_a_bolt(message, f)]
    if len(threads) + len(lengths) > 1 or len(message.figures("length")) > len(lengths):
        return None
    if threads:
        return threads[0].word
    if lengths:
        return lengths[0].shown() if in_unit(lengths[0].number, lengths[0].unit, "mm") <= _FEW else None
    found = _IN_WORDS.search(text)
    return found[0] if found else ""


def _beside_a_bolt(message: Message, figure: Piece) -> bool:
    place = next(n for n, piece in enumerate(message.pieces) if piece is figure)
    near = message.pieces[max(0, place - _BESIDE) : place + _BESIDE + 1]
    return any(piece.word in _BOLTS for piece in near)


def _can_be_a_size(message: Message) -> bool:
    """Whether every figure is a size or a class, or belongs to the sum that a torque is wanted from."""
    for n, piece in enumerate(message.pieces):
        beside = {p.word for p in message.pieces[max(0, n - 1) : n + 2]}
        known = piece.measures == "length" or piece.text in CLASSES or piece.unit == "%" or beside & {"k", "kn"}
        if piece.kind == "figure" and not known:
            return False
    return True


CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")
"""Classes of ISO 898-1, as they are said without the word."""


def _class_of(message: Message) -> str:
    said = [f.text for f in message.figures("") if f.text in CLASSES] + [p.raw for p in message.of("strength")]
    return said[0] if said else ""


def _refused(size: str, strength: str) -> Calculation:
    # strengths come with the checks of whole tables, which few messages need
    from benchbot.calculators.bolts import ANY_FINISH

    low, high = ANY_FINISH
    name = f"{size} {strength}".strip()
    title = Sentence.of("no torque from a thread", bolt=name) if name else Sentence("no torque from a list")
    lines = (
        Sentence("ask for the fastener"),
        Sentence.of("friction decides", low=f"{low:.2f}", high=f"{high:.2f}", times=f"{high / low:.1f}"),
        Sentence("joint decides"),
        Sentence("load can be explained"),
    )
    return Calculation(name or "torque", "", "F = T / (K × d)", title, lines, source=_SOURCE, refused=True)
