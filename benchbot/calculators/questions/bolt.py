"""Asked: what a torque does to a bolt, or how strong one is."""

from __future__ import annotations

from decimal import Decimal

from benchbot.calculators import asking_back as back
from benchbot.calculators.bolts import (
    ANY_FINISH,
    DRY,
    OILED,
    Fastener,
    breaking,
    fastener,
    load,
    nominal_area,
    proof,
)  # fmt: skip
from benchbot.calculators.factors import in_unit, plain
from benchbot.calculators.questions.torque_asked import CLASSES
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
     "recommended", "safe", "hard", "cap", "allen", "socket", "foot", "pounds", "pound", "lb", "lbs", "inch",
     "factor", "friction"}
)  # fmt: skip
_KNOWN = WORDS | GLUE
_BREAKING = frozenset({"break", "breaks", "snap", "yield", "stretch"})
_LEAST_K, _MOST_K = Decimal("0.05"), Decimal("0.6")
_WHOLE = 100
_SOURCE = "ISO 898-1, SAE J429; F = T / (K × d)"


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """The load of a torque, the strength of a bolt, or a refusal; None when the message asks for anything else."""
    threads = message.of("thread")
    if len(threads) != 1 or not message.is_made_of(_KNOWN) or message.of("grade"):
        return None
    torques, shares = message.figures("torque"), message.figures("share")
    k = _factor(message)
    marked = [f.text for f in message.figures("") if f.text in CLASSES] + [p.word for p in message.of("strength")]
    read = [*torques, *shares, *([k] if k else [])]
    rest = [f for f in message.figures() if f.text not in CLASSES and not any(f is one for one in read)]
    if len(marked) > 1 or len(torques) > 1 or len(shares) > 1 or (shares and torques):
        return None
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
    if torques:
        return _load(message, bolt, threads[0], torques[0], k)
    if shares:
        return _share(message, bolt, threads[0], shares[0])
    return _strength(bolt, threads[0])


def _factor(message: Message) -> Piece | None:
    """The nut factor that was said: "k 0.2", "k = 0.15"; None without one that can be."""
    words = [piece for piece in message.pieces if piece.kind != "mark"]
    for n, piece in enumerate(words[1:], 1):
        after = {words[n - 1].word, words[n - 2].word if n > 1 and words[n - 1].word in ("factor", "of", "is") else ""}
        if piece.kind == "figure" and not piece.unit and "k" in after and _LEAST_K <= piece.number <= _MOST_K:
            return piece
    return None


def _kilonewtons(newtons: float | Decimal) -> str:
    """Of a load that friction spreads: to a tenth."""
    return f"{newtons / 1000:.1f}"


def _printed(newtons: Decimal) -> str:
    """Of a load of the tables: with the three figures that it has there."""
    return f"{newtons.scaleb(-3):f}"


def _of_area(bolt: Fastener, stress: float, newtons: Decimal) -> str:
    return f"{nominal_area(bolt):f} mm² × {stress:.0f} MPa = {_printed(newtons)} kN"


def _strength(bolt: Fastener, thread: Piece) -> Calculation:
    name = f"{thread.word} {bolt.strength.name}"
    bears, breaks = _printed(proof(bolt)), _printed(breaking(bolt))
    title = Sentence.of("strength", bolt=thread.word, strength=bolt.strength.name.split()[-1], proof=f"{bears} kN",
                        breaking=f"{breaks} kN")  # fmt: skip
    formula = (
        f"{_of_area(bolt, bolt.strength.proof, proof(bolt))}; {_of_area(bolt, bolt.strength.tensile, breaking(bolt))}"
    )
    return Calculation(name, f"{bears} kN", formula, title, (Sentence("load is no torque"),), source=_SOURCE)


def _share(message: Message, bolt: Fastener, thread: Piece, share: Piece) -> Calculation | None:
    if message.says(*_BREAKING) or not 0 < share.number <= _WHOLE:
        return None
    newtons = proof(bolt) * share.number / _WHOLE
    shown = f"{_kilonewtons(newtons)} kN"
    bears = f"{_printed(proof(bolt))} kN"
    title = Sentence.of("share of a proof load", share=plain(share.number), bolt=thread.word, load=shown, proof=bears,
                        strength=bolt.strength.name.split()[-1])  # fmt: skip
    formula = f"{_of_area(bolt, bolt.strength.proof, proof(bolt))}; {bears} × {plain(share.number)} / 100 = {shown}"
    given = f"{plain(share.number)} %, {thread.word} {bolt.strength.name}"
    return Calculation(given, shown, formula, title, (Sentence("load is no torque"),), source=_SOURCE)


def _load(message: Message, bolt: Fastener, thread: Piece, torque: Piece, said: Piece | None) -> Calculation:
    oily, dry = message.says(*_OILY), message.says("dry")
    k = ANY_FINISH if oily == dry else OILED if oily else DRY
    if said is not None:
        k = float(said.number), float(said.number)
    newton_metres = float(in_unit(torque.number, torque.unit, "N·m"))
    may = load(newton_metres, bolt.diameter, k)
    least, most = _kilonewtons(may.least), _kilonewtons(may.most)
    bears = float(proof(bolt))
    shares = [f"{newtons / bears * 100:.0f}" for newtons in (may.least, may.most)]
    strength = bolt.strength.name.split()[-1]
    proof_load = f"{_printed(proof(bolt))} kN"
    d = f"{bolt.diameter / 1000:.4g} m"
    if said is not None:
        title = Sentence.of("load at k", torque=torque.shown(), bolt=thread.word, strength=strength, load=f"{least} kN",
                            k=said.text)  # fmt: skip
        formula = f"{newton_metres:.4g} N·m / ({said.text} × {d}) = {least} kN"
        lines = [
            Sentence.of("one share of proof", share=shares[0], proof=proof_load),
            Sentence.of("k is a guess", low=f"{ANY_FINISH[0]:.2f}", high=f"{ANY_FINISH[1]:.2f}"),
        ]
        result = f"{least} kN"
    else:
        title = Sentence.of("load", torque=torque.shown(), bolt=thread.word, strength=strength, least=f"{least} kN",
                            most=f"{most} kN")  # fmt: skip
        formula = (
            f"{newton_metres:.4g} N·m / ({k[1]:.2f} × {d}) = {least} kN; "
            f"{newton_metres:.4g} N·m / ({k[0]:.2f} × {d}) = {most} kN"
        )
        lines = [Sentence.of("share of proof", least=shares[0], most=shares[1], proof=proof_load)]
        result = f"{least}-{most} kN"
    cautions = (Sentence("may overstretch"),) if may.most > bears else ()
    lines.append(Sentence("load is no torque"))
    return Calculation(f"{torque.shown()}, {thread.word} {bolt.strength.name}", result, formula, title, tuple(lines),
                       cautions, _SOURCE)  # fmt: skip
