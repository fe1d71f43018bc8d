"""Asked: which hex is on a metric thread, or which thread stands behind a hex."""

from __future__ import annotations

from decimal import Decimal

from benchbot.calculators.heads import heads_of, threads_of
from benchbot.calculators.said import Message
from benchbot.calculators.words import GLUE
from benchbot.errors import QuantityError
from benchbot.outcomes import Calculation, Choose, Sentence
from benchbot.quantities.fittings import read_thread

_HEX = frozenset({"socket", "hex", "head", "wrench", "af", "flats", "spanner"})
_BACK = frozenset({"thread", "threads", "pitch", "bolt"})
WORDS = _HEX | _BACK | frozenset(
    {"across", "flange", "flanged", "nut", "metric", "din", "iso", "jis", "standard", "normal", "usual", "typical",
     "fits", "fit", "size", "fine", "coarse", "always", "mm", "standards", "heads", "drive", "sized", "screw", "spec"}
)  # fmt: skip
_KNOWN = WORDS | GLUE
_SOURCE = (
    "ISO 4014, ISO 4017, ISO 4032, DIN 931, EN 1662, EN 1665, ISO 4162, ISO 15071, JIS B 1180, JIS B 1189, DIN 6921"
)
_ONLY_HEX = _HEX - {"head", "wrench"}


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """The hexes of a thread, or the threads of a hex; None when the message asks for anything else."""
    if not message.is_made_of(_KNOWN) or message.of("grade") or message.of("strength") or message.says("torque"):
        return None
    threads, figures = message.of("thread"), message.figures()
    if len(threads) == 1 and message.says(*_HEX):
        return _of_thread(threads[0].word, [f.number for f in figures if f.unit in ("", "mm")], len(figures))
    if threads or len(figures) != 1 or figures[0].unit != "mm" or figures[0].number % 1:
        return None
    # "socket for the 18 mm ones" asks for nothing here: a thread must be asked for
    if not message.says("thread", "threads", "pitch") or not message.says(*_HEX):
        return None
    return _of_hex(int(figures[0].number))


def _of_thread(thread: str, said: list[Decimal], figures: int) -> Calculation | None:
    try:
        read = read_thread(thread)
    except QuantityError:
        return None
    diameter = read.diameter.number
    if read.diameter.unit != "mm" or diameter % 1 or figures > 2 or len(said) != figures:
        return None
    heads = heads_of(int(diameter))
    if not heads or any(one % 1 for one in said):
        return None
    name = f"M{diameter}"
    iso = next((flats for flats, names in heads.items() if any(one.startswith("ISO 4014") for one in names)), None)
    others = ", ".join(f"{flats} mm ({', '.join(names)})" for flats, names in heads.items() if flats != iso)
    lines = [Sentence("hex tells no thread"), Sentence("makers differ")]
    if others:
        lines.insert(0, Sentence.of("other hexes", others=others))
    title = Sentence.of("hex of a thread", thread=name, hex=f"{iso} mm")
    if len(said) == 1:
        # whoever asks whether it is that thread must not read the thread's own hex first, as if it were a yes or a no
        known = "hex is one of them" if int(said[0]) in heads else "hex is none of them"
        lines.insert(0, title)
        title = Sentence.of(known, hex=f"{said[0]} mm", thread=name)
    return Calculation(thread, f"{iso} mm", f"{name} → {', '.join(f'{flats} mm' for flats in heads)}", title,
                       tuple(lines), source=_SOURCE)  # fmt: skip


def _of_hex(flats: int) -> Calculation | None:
    threads = threads_of(flats)
    if not threads:
        return None
    result = "; ".join(f"M{diameter}: {', '.join(names)}" for diameter, names in threads.items())
    title = Sentence.of("threads of a hex", hex=f"{flats} mm", threads=result)
    lines = (Sentence("hex tells no thread"), Sentence("measure the thread"), Sentence("makers differ"))
    return Calculation(f"{flats} mm", result, f"{flats} mm → {', '.join(f'M{d}' for d in threads)}", title, lines,
                       source=_SOURCE)  # fmt: skip
