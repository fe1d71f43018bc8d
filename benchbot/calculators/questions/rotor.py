"""Asked: thickness variation or runout, from a row of readings."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from benchbot.calculators import asking_back as back
from benchbot.calculators.factors import in_unit, plain
from benchbot.calculators.readings import FEW, spread, thinnest
from benchbot.calculators.said import Message, Piece
from benchbot.calculators.words import GLUE
from benchbot.outcomes import Calculation, Choose, Sentence

_ROTOR = frozenset({"rotor", "thickness", "variation", "drum", "thk"})
_READINGS = frozenset({"readings", "measurements"})
_RUNOUT = frozenset({"runout", "indicator"})
# These ask for a verdict, which takes the limit of a vehicle.
_VERDICTS = frozenset({"good", "ok", "okay", "bad", "min", "limit", "discard", "spec", "reuse", "machine", "pass"})
WORDS = _ROTOR | _RUNOUT | frozenset(
    {"mic", "miked", "micd", "micrometer", "measured", "measure", "measures", "reads", "spots", "spot", "points",
     "point", "places", "readings", "dial", "gauge", "swings", "max", "plus", "minus", "zero", "lateral",
     "measurements",
     "needle", "swing", "read", "four", "five", "six", "eight", "ten", "twelve",
     "degrees", "apart", "front", "rear", "hub", "face", "variations", "mm", "inches", "inch"}
)  # fmt: skip
_KNOWN = WORDS | GLUE | _VERDICTS
# Between these lies the thickness of every rotor of a car or truck; a figure that fits one of them only has that unit.
_SURELY_MM, _SURELY_INCH = (Decimal(4), Decimal(70)), (Decimal("0.15"), Decimal("2.5"))
_MOST_ON_A_DIAL, _MOST_BARE = Decimal("2.54"), Decimal(50)
_OTHER = {"mm": "in", "in": "mm"}
_SLIP = Decimal("1.15")
_PAIR = 2


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """The variation or the runout of the readings; None when the message asks for anything else."""
    runout = message.says(*_RUNOUT)
    rotor = message.says(*_ROTOR)
    if (
        not (runout or rotor or message.says(*_READINGS))
        or not message.is_made_of(_KNOWN)
        or message.says("left", "right")
    ):
        return None
    figures = message.figures()
    named = runout or message.says("variation")
    if len(figures) < (2 if named else 3):
        return None
    if message.says(*_VERDICTS) and not message.says("variation"):
        return None
    if any(f.measures not in ("length", "") for f in figures) or message.of("thread") or message.of("grade"):
        return None
    if not _in_a_row(message, figures):
        return None
    units = {f.unit for f in figures if f.unit}
    if len(units) > 1 or (figures[-1].unit == "" and units):
        return None
    unit = units.pop() if units else ""
    if not unit:
        unit = "mm" if message.says("mm") else "in" if message.says("inches", "inch") else ""
    read_as = ""
    if not runout and _has_a_slip([f.number for f in figures]):
        slipped = _nearly_all_are_thick([f.number for f in figures])
        return back.again(back.READINGS_AGAIN, "rotor readings") if slipped else None
    if not unit and not runout:
        unit = read_as = _only_unit([f.number for f in figures])
    if not (runout or rotor) and not read_as:
        return None
    if runout and not _can_be_a_dial(message, figures, unit):
        return None
    if not unit:
        return back.which_unit(message, [f for f in figures if not f.unit], back.DIALLED if runout else back.LENGTHS)
    readings = [replace(f, unit=unit) for f in figures]
    return _runout(readings, unit) if runout else _variation(readings, unit, read_as)


def _in_a_row(message: Message, figures: list[Piece]) -> bool:
    """Whether nothing but marks and "and" parts the figures: a year or a count before them is no reading."""
    places = [n for n, piece in enumerate(message.pieces) if piece.kind == "figure"]
    between = message.pieces[places[0] : places[-1] + 1]
    return all(p.kind in ("figure", "mark") or p.word in ("and", "to", "then", "/") for p in between)


def _can_be_a_dial(message: Message, figures: list[Piece], unit: str) -> bool:
    """Whether the figures can be readings of a dial gauge: small, and one without a unit is 0 or a fraction."""
    if unit:
        return all(abs(in_unit(f.number, unit, "mm")) <= _MOST_ON_A_DIAL for f in figures)
    if message.says("max", "limit", "spec"):
        return False
    small = all(abs(f.number) <= _MOST_BARE for f in figures)
    return small and any("." in f.text or f.number <= 0 for f in figures)


def _only_unit(numbers: list[Decimal]) -> str:
    """mm or inches where all readings can be thicknesses of a rotor in one of them only, else ""."""
    fits_mm = all(_SURELY_MM[0] <= n <= _SURELY_MM[1] for n in numbers)
    fits_inch = all(_SURELY_INCH[0] <= n <= _SURELY_INCH[1] for n in numbers)
    return "mm" if fits_mm and not fits_inch else "in" if fits_inch and not fits_mm else ""


def _difference(readings: list[Piece]) -> str:
    step = min(r.step for r in readings)
    return f"{spread([r.number for r in readings]).quantize(step):f}"


def _has_a_slip(numbers: list[Decimal]) -> bool:
    """Whether a point slipped in one of the thicknesses, or one is of another rotor."""
    return min(numbers) <= 0 or max(numbers) > min(numbers) * _SLIP


def _nearly_all_are_thick(numbers: list[Decimal]) -> bool:
    """Whether without one reading, and only without that one, the rest are thicknesses of one rotor."""
    rests = [numbers[:n] + numbers[n + 1 :] for n in range(len(numbers))]
    return len(numbers) > _PAIR and sum(not _has_a_slip(rest) and bool(_only_unit(rest)) for rest in rests) == 1


def _variation(readings: list[Piece], unit: str, read_as: str) -> Calculation:
    numbers = [r.number for r in readings]
    thick = max(readings, key=lambda r: r.number).text
    thin = min(readings, key=lambda r: r.number).text
    result = f"{_difference(readings)} {unit}"
    lines = [Sentence.of("thinnest counts", thinnest=f"{thin} {unit}")]
    if read_as:
        lines.append(Sentence.of("can only be", unit=unit, figure=f"{plain(thinnest(numbers))} {_OTHER[unit]}"))
    if len(readings) < FEW:
        lines.append(Sentence.of("few readings", count=str(len(readings))))
    lines.append(Sentence("limit of the vehicle"))
    given = f"{', '.join(r.text for r in readings)} {unit}"
    title = Sentence.of("variation", variation=result, count=str(len(readings)))
    return Calculation(given, result, f"{thick} - {thin} = {result}", title, tuple(lines))


def _runout(readings: list[Piece], unit: str) -> Calculation:
    high = max(readings, key=lambda r: r.number).text
    low = min(readings, key=lambda r: r.number).text
    result = f"{_difference(readings)} {unit}"
    taken = f"({low})" if low.startswith("-") else low
    lines = (Sentence("runout is the whole swing"), Sentence("runout set-up"), Sentence("limit of the vehicle"))
    given = f"{', '.join(r.text for r in readings)} {unit}"
    title = Sentence.of("runout", runout=result)
    return Calculation(given, result, f"{high} - {taken} = {result}", title, lines)
