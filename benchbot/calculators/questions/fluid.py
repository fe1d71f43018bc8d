"""Asked: boiling points of a brake fluid grade, what may be mixed, and whether one does for another."""

from __future__ import annotations

from decimal import Decimal

from benchbot.calculators import asking_back as back
from benchbot.calculators.factors import in_unit, plain
from benchbot.calculators.fluids import COLOUR_SOURCE, GRADES, SOURCE, Grade, fahrenheit, mixes, reaches
from benchbot.calculators.said import Message
from benchbot.calculators.words import GLUE
from benchbot.outcomes import Calculation, Choose, Sentence

_BOIL = frozenset({"boil", "temp", "temperature", "hot", "heat", "erbp"})
_MIX = frozenset({"mix", "top", "together", "compatible", "over", "add", "blend"})
_ABOUT = frozenset(
    {"dry", "wet", "viscosity", "color", "purple", "silicone", "glycol", "better", "vs", "versus", "thick"}
)
WORDS = _BOIL | _MIX | _ABOUT | frozenset(
    {"fluid", "dot", "system", "instead", "same", "substitute", "replace", "swap", "sub", "place", "cap", "reservoir",
     "synthetic", "fresh", "tested", "tests", "tester", "min", "limit", "compare", "compared", "safe", "point",
     "water", "moisture",
     "happens", "higher", "lower", "hotter", "puts", "adding",
     "run", "grade", "class", "cars", "needing", "f", "c", "fahrenheit", "celsius", "fill",
     "filled", "master", "cylinder"}
)  # fmt: skip
_KNOWN = WORDS | GLUE
_SYSTEMS = frozenset({"car", "system", "vehicle", "truck", "reservoir", "cap", "cars"})
# These say which of the two goes into the place of the other.
_INTO = frozenset(
    {"in", "into", "instead", "substitute", "replace", "sub", "swap", "for", "with", "top", "use", "using", "on", "add",
     "adding", "place", "run"}
)  # fmt: skip
_ALL = tuple(GRADES.values())


def asked(message: Message, text: str) -> Calculation | Choose | None:
    """What the message asks of fluid grades; None when it asks for anything else."""
    said = message.of("grade")
    if not said or not message.is_made_of(_KNOWN) or message.of("thread") or message.of("strength"):
        return None
    bare = message.figures("")
    also = [GRADES.get(f.text) for f in bare if f.text in GRADES]
    if len(also) != len(bare):
        return None
    temperatures = message.figures("temperature")
    if len(message.figures()) != len(bare) + len(temperatures) or len(temperatures) > 1:
        return None
    grades = list(dict.fromkeys([GRADES[piece.word] for piece in said] + [grade for grade in also if grade]))
    if temperatures:
        return _tested(grades, temperatures[0].number, temperatures[0].unit) if len(grades) == 1 else None
    if len(grades) == 2:
        return _pair(message, *grades)
    if len(grades) > 2:
        return _table(grades) if message.says(*_BOIL, *_ABOUT, "difference") else None
    return _one(message, grades[0])


def _one(message: Message, grade: Grade) -> Calculation | Choose | None:
    if message.says("color", "purple"):
        return _colour(grade)
    if message.says(*_BOIL, "dry", "wet", "viscosity"):
        return _table([grade])
    if message.says(*_MIX):
        if grade.base == "silicone":
            return _of_all(grade)
        return back.missing(back.FLUID_IN_IT, message, "in a")
    return None


def _colour(grade: Grade) -> Calculation:
    lines = [Sentence("colour is no proof"), Sentence("read the cap")]
    if grade.base == "silicone":
        lines.insert(0, Sentence("five is silicone"))
    title = Sentence.of(f"new and {grade.colour}", grade=grade.label)
    said = "purple" if grade.colour == "purple" else "colorless to amber"
    return Calculation(grade.label, said, f"{grade.label}: {said}", title, tuple(lines), source=COLOUR_SOURCE)


def _points(grade: Grade) -> str:
    return f"{grade.label}: {grade.dry} °C ({fahrenheit(grade.dry)} °F) / {grade.wet} °C ({fahrenheit(grade.wet)} °F)"


def _table(grades: list[Grade]) -> Calculation:
    lines = [Sentence("dry and wet")]
    if any(grade.name == "5" for grade in grades):
        lines.append(Sentence("five is silicone"))
    for grade in grades:
        lines.append(Sentence.of(f"{grade.base} fluid", grade=grade.label, viscosity=str(grade.viscosity)))
    lines.append(Sentence("no limit in service"))
    points = "; ".join(_points(grade) for grade in grades)
    title = Sentence.of("boiling points", points=points)
    return Calculation(
        ", ".join(g.label for g in grades), points, "°F = °C × 9/5 + 32", title, tuple(lines), source=SOURCE
    )


def _of_all(grade: Grade) -> Calculation:
    others = ", ".join(one.label for one in _ALL if not mixes(grade, one))
    title = Sentence.of("never mix", one=grade.label, other=others)
    return Calculation(grade.label, f"{grade.label} ≠ {others}", _points(grade), title, (Sentence("read the cap"),),
                       (Sentence("if mixed"),), SOURCE)  # fmt: skip


def _used_and_asked_for(message: Message, first: Grade, second: Grade) -> tuple[Grade, Grade]:
    """Which fluid goes in, and which the system asks for: "top dot 4 with dot 3", "is a dot 4 car ok on dot 3"."""
    places = {piece.word: n for n, piece in enumerate(message.pieces) if piece.kind == "grade"}
    behind = {name: _word(message, places.get(name, -9) + 1) for name in (first.name, second.name)}
    before = {name: _word(message, places.get(name, -9) - 1) for name in (first.name, second.name)}
    if behind[first.name] in _SYSTEMS and behind[second.name] not in _SYSTEMS:
        return second, first
    if before[second.name] == "with" and before[first.name] not in ("with", "use", "using"):
        return second, first
    return first, second


def _word(message: Message, place: int) -> str:
    return message.pieces[place].word if 0 <= place < len(message.pieces) else ""


def _pair(message: Message, one: Grade, other: Grade) -> Calculation | None:
    mixing = message.says("mix", "together", "compatible", "blend") or not message.says(*_INTO, *_SYSTEMS)
    used, asked_for = (one, other) if mixing else _used_and_asked_for(message, one, other)
    if not message.says(*_MIX, *_ABOUT, *_BOIL, "in", "with", "for", "instead", "difference", "same", "substitute",
                        "replace", "swap", "or", "and", "into", "sub", "on", "ok", "use", "using"):  # fmt: skip
        return None
    given = f"{used.label}, {asked_for.label}"
    points = f"{_points(used)}; {_points(asked_for)}"
    if not mixes(used, asked_for):
        title = Sentence.of("never mix", one=used.label, other=asked_for.label)
        return Calculation(given, f"{used.label} ≠ {asked_for.label}", points, title, (Sentence("read the cap"),),
                           (Sentence("if mixed"),), SOURCE)  # fmt: skip
    if message.says(*_BOIL, "vs", "versus", "difference", "better", "compare", "compared", "or"):
        return _table([used, asked_for])
    lines = [Sentence("read the cap"), Sentence("lower one counts")]
    if mixing:
        low, high = sorted((used, asked_for), key=lambda grade: grade.dry)
        title = Sentence.of("only up", low=low.label, high=high.label)
        lines.append(Sentence.of("may mix", one=used.label, other=asked_for.label))
        return Calculation(given, f"{used.label} + {asked_for.label}", points, title, tuple(lines), source=SOURCE)
    if reaches(used, asked_for):
        title = Sentence.of("reaches", one=used.label, other=asked_for.label)
        return Calculation(given, f"{used.label} ≥ {asked_for.label}", points, title, tuple(lines), source=SOURCE)
    title = Sentence.of("falls short", one=used.label, other=asked_for.label)
    return Calculation(given, f"{used.label} < {asked_for.label}", points, title, tuple(lines), source=SOURCE)


def _tested(grades: list[Grade], number: Decimal, unit: str) -> Calculation:
    grade = grades[0]
    celsius = in_unit(number, unit, "°C")
    shown = f"{plain(number)} {unit}"
    name = "above dry" if celsius >= grade.dry else "between" if celsius >= grade.wet else "below wet"
    title = Sentence.of(f"tested {name}", tested=shown, grade=grade.label, dry=f"{grade.dry} °C", wet=f"{grade.wet} °C")
    formula = f"{plain(celsius.quantize(Decimal(1)))} °C; {_points(grade)}"
    return Calculation(f"{shown}, {grade.label}", _points(grade), formula, title, (Sentence("no limit in service"),),
                       source=SOURCE)  # fmt: skip
