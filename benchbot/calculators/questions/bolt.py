"""Asked: what a torque does to a bolt, or how strong one is; a torque for a thread is refused with the reason."""

from __future__ import annotations

from benchbot.calculators import asking_back as back
from benchbot.calculators.bolts import ANY_FINISH, DRY, OILED, Fastener, fastener, load
from benchbot.calculators.factors import in_unit
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.words import GLUE
from benchbot.errors import QuantityError
from benchbot.outcomes import Calculation, Choose, Sentence

_LOAD = frozenset(
    {"load", "clamp", "clampload", "force", "proof", "strength", "strong", "stretch", "yield", "break", "breaks",
     "snap",
     "tension", "kn", "hold", "holds", "overtight", "overtightened", "preload"}
)  # fmt: skip
_TIGHT = frozenset({"torque", "tq", "trq", "howtight", "tight", "tighten", "torqued", "torques"})
_OILY = frozenset({"oiled", "oil", "lubed", "lube", "greased", "lubricated", "antiseize", "wet"})
WORDS = _LOAD | _TIGHT | _OILY | frozenset(
    {"class", "grade", "dry", "bolt", "thread", "fine", "coarse", "metric", "chart", "table", "generic", "standard",
     "typical", "usual", "general", "ballpark", "normal", "usually", "max", "maximum", "min", "ftlb", "ftlbs", "nm",
     "mm", "stud", "percent", "%", "k", "hex", "flange", "zinc", "plated", "rated", "plain", "rule", "thumb",
     "recommended", "safe", "hard", "cap", "allen", "socket", "foot", "pounds", "pound", "lb", "lbs", "inch"}
)  # fmt: skip
_KNOWN = WORDS | GLUE
_CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9")
_SOURCE = "ISO 898-1, SAE J429; F = T / (K × d)"


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """The load of a torque, the strength of a bolt, or a refusal; None when the message asks for anything else."""
    threads = message.of("thread")
    if len(threads) != 1 or not message.is_made_of(_KNOWN) or message.of("grade"):
        return None
    torques = message.figures("torque")
    marked = [f.text for f in message.figures("") if f.text in _CLASSES] + [p.word for p in message.of("strength")]
    rest = [f for f in message.figures() if f not in torques and f.text not in _CLASSES and f.unit != "%"]
    if len(marked) > 1 or len(torques) > 1:
        return None
    if not torques and message.says(*_TIGHT, "chart"):
        if message.says("hex", "socket", "flange") and not marked:
            return None
        return _refused(threads[0], marked[0] if marked else "") if _asks_generally(message, bool(marked)) else None
    if rest or not (message.says(*_LOAD) or (torques and marked)):
        return None
    if not marked:
        return back.missing(back.BOLT_CLASS, message, "class")
    try:
        bolt = fastener(threads[0].word, marked[0])
    except QuantityError:
        return None
    if bolt is None:
        return None
    return _load(message, bolt, threads[0], torques[0]) if torques else _strength(bolt, threads[0])


def _asks_generally(message: Message, marked: bool) -> bool:
    """Whether nothing but the thread is known of the fastener; "the m12 ones?" may go on with a vehicle's question."""
    return marked or message.says(
        "chart",
        "table",
        "generic",
        "standard",
        "typical",
        "usual",
        "general",
        "ballpark",
        "normal",
        "usually",
        "an",
        "a",
    )


def _name(thread: Piece, strength: str) -> str:
    return f"{thread.word} {strength}".strip()


def _refused(thread: Piece, strength: str) -> Calculation:
    name = _name(thread, strength)
    low, high = ANY_FINISH
    lines = (
        Sentence.of("friction decides", low=f"{low:.2f}", high=f"{high:.2f}", times=f"{high / low:.1f}"),
        Sentence("joint decides"),
        Sentence("ask for the fastener"),
    )
    return Calculation(name, "", "F = T / (K × d)", Sentence.of("no torque from a thread", bolt=name), lines,
                       source=_SOURCE, refused=True)  # fmt: skip


def _kilonewtons(newtons: float) -> str:
    return f"{newtons / 1000:.1f}"


def _strength(bolt: Fastener, thread: Piece) -> Calculation:
    name = f"{thread.word} {bolt.strength.name}"
    proof, breaking = _kilonewtons(bolt.proof_load), _kilonewtons(bolt.breaking_load)
    title = Sentence.of("strength", bolt=thread.word, strength=bolt.strength.name.split()[-1], proof=f"{proof} kN",
                        breaking=f"{breaking} kN")  # fmt: skip
    formula = (
        f"{bolt.area:.1f} mm² × {bolt.strength.proof:.0f} MPa = {proof} kN; "
        f"{bolt.area:.1f} mm² × {bolt.strength.tensile:.0f} MPa = {breaking} kN"
    )
    return Calculation(name, f"{proof} kN", formula, title, (Sentence("load is no torque"),), source=_SOURCE)


def _load(message: Message, bolt: Fastener, thread: Piece, torque: Piece) -> Calculation:
    oily, dry = message.says(*_OILY), message.says("dry")
    k = ANY_FINISH if oily == dry else OILED if oily else DRY
    newton_metres = float(in_unit(torque.number, torque.unit, "N·m"))
    may = load(newton_metres, bolt.diameter, k)
    least, most = _kilonewtons(may.least), _kilonewtons(may.most)
    shares = [f"{newtons / bolt.proof_load * 100:.0f}" for newtons in (may.least, may.most)]
    title = Sentence.of("load", torque=torque.shown(), bolt=thread.word, strength=bolt.strength.name.split()[-1],
                        least=f"{least} kN", most=f"{most} kN")  # fmt: skip
    d = f"{bolt.diameter / 1000:.4g} m"
    formula = (
        f"{newton_metres:.4g} N·m / ({k[1]:.2f} × {d}) = {least} kN; "
        f"{newton_metres:.4g} N·m / ({k[0]:.2f} × {d}) = {most} kN"
    )
    lines = [
        Sentence.of("share of proof", least=shares[0], most=shares[1], proof=f"{_kilonewtons(bolt.proof_load)} kN")
    ]
    cautions = (Sentence("may overstretch"),) if may.most > bolt.proof_load else ()
    lines.append(Sentence("load is no torque"))
    given = f"{torque.shown()}, {thread.word} {bolt.strength.name}"
    return Calculation(given, f"{least}-{most} kN", formula, title, tuple(lines), cautions, _SOURCE)
