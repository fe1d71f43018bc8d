"""Looks at what people enter before it goes on record: short, of the expected shape, and nothing about a customer."""

from __future__ import annotations

import re
import unicodedata

from benchbot.errors import QuantityError
from benchbot.jobs.terms import JUDGEMENTS, WHEELS, WHENS, Measured, Refused, Tightened, Vehicle, Verdict
from benchbot.quantities.numbers import read_number
from benchbot.quantities.units import read_unit

TEXT_AT_MOST, SHORT_AT_MOST = 500, 60
_FIGURES_AT_MOST = 24
# Readings of a swing may well be 0 and more; those of a size may not.
_SIZES, _MOST_APART = frozenset({"minimum thickness", "maximum diameter"}), 5
_WORDS_OF_A_VEHICLE = 6

_TELLS_NOBODY = (
    "and|or|is|was|has|had|will|would|did|does|do|says?|said|asks?|asked|wants?|wanted|declined?|declines|refused?|"
    "refuses|approved?|approves|brought|brings|supplied|supplies|knows?|told|pays?|paid|to|not|for|by|about|on|in|at|"
    "the|this|that|who|comes?|informed|called|calls|waits?|waiting|complaint|states?|stated|"
    "no|quiere|dice|dijo|pidió|rechazó|aprobó|trajo|sabe|paga|pagó|y|o|va|viene|espera|lo|la|ya"
)
_REPAIR_ORDER = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9-]{0,18}[A-Za-z0-9])?")
_MAIL = re.compile(r"\S@\S+\.\w")
# As telephone numbers are written: three groups, or a country's code first, or ten figures and more in one.
_PHONE = re.compile(
    r"(?<![\w.])(?:\(?\d{3}\)?[ .-]{1,2}\d{3}[ .-]\d{3,4}|\+\d(?:[ ().-]{0,2}\d){7,14}|\d{10,15})(?!\w|\.\d)"
)
# ISO 3779: 17 letters and digits without I, O and Q. It tells the owner, through whoever keeps the register.
# A title with a name behind it. "Customer declined it" tells nobody; "customer Bob did not want it" does.
_TITLE = re.compile(
    r"(?<![\w'])(?<!\d )(?:(?:mr|mrs|ms|mister|missus|sra?|señora?|srta)\b\.?[ :]+(?=[^\W\d_])"
    r"|(?:customers?|clients?|owners?|clientes?|dueñ[oa]s?|propietari[oa]s?)\b[ :=]+"
    rf"(?!(?:{_TELLS_NOBODY})\b)(?=[^\W_]))",
    re.IGNORECASE,
)
_PLATE = re.compile(
    r"(?:\b(?:license|licence|number|registration)[ -]plate|\bplates?|\bplacas?)\b[ :#=]*"
    r"(?:(?:no|number|número)\b\.?[ :#]*)?(?=[\w-]*[a-z])(?=[\w-]*\d)[\w-]{4,9}\b",
    re.IGNORECASE,
)
_VIN = re.compile(r"\b(?=[A-Z0-9]*\d)(?=[A-Z0-9]*[A-Z])[A-HJ-NPR-Z0-9]{17}\b", re.IGNORECASE)


_TELLS = (
    (_MAIL, "an e-mail address"),
    (_PHONE, "a telephone number"),
    (_VIN, "a VIN"),
    (_TITLE, "the name of a customer"),
    (_PLATE, "a number plate"),
)


def read_text(text: str, what: str, most: int = TEXT_AT_MOST, may_be_empty: bool = False) -> str | Refused:
    """The text in one line, without what cannot be seen. what: names it in the refusal ("a reason")."""
    seen = "".join(
        " " if letter.isspace() else letter
        for letter in unicodedata.normalize("NFC", text)
        if letter.isspace() or unicodedata.category(letter) not in ("Cc", "Cf", "Cs", "Co", "Cn")
    )
    tidy = " ".join(seen.split())
    if not tidy and not may_be_empty:
        return Refused(f"Say {what}.", "empty")
    if len(tidy) > most:
        return Refused(f"{what.capitalize()} takes {most} characters at most; this has {len(tidy)}.", "too long")
    return customer_in(tidy) or tidy


def read_reason(text: str, what: str) -> str | Refused:
    """A text of two words at least: "x" and "ok" tell nobody anything."""
    read = read_text(text, what)
    if isinstance(read, str) and sum(any(letter.isalnum() for letter in word) for word in read.split()) < 2:
        return Refused(f"Say {what} in two words at least.", "reason")
    return read


def customer_in(text: str) -> Refused | None:
    """A refusal when the text holds what tells a customer: an e-mail address, a telephone number, a VIN."""
    for pattern, named in _TELLS:
        if pattern.search(text):
            return Refused(f"That looks like {named}. A job keeps nothing about a customer; leave it out.", "customer")
    return None


def read_repair_order(text: str) -> str | Refused:
    """The number as it was written, "" for none: digits, with letters and dashes among them, 20 at most."""
    number = text.strip()
    if not number:
        return ""
    if not _REPAIR_ORDER.fullmatch(number) or not any(letter in "0123456789" for letter in number):
        return Refused(
            "A repair order number has a digit at least, letters and dashes, 20 at most, such as RO-10482. No names.",
            "repair order",
        )
    return customer_in(number) or number


def read_vehicle(vehicle: Vehicle) -> str | Refused:
    """Which vehicle, as it was said: short where the book does not know it, as nothing else tells its words apart."""
    said = read_text(vehicle.said, "which vehicle", 120)
    if isinstance(said, str) and not vehicle.make and len(said.split()) > _WORDS_OF_A_VEHICLE:
        return Refused("Say year, make and model, and nothing else; a job keeps nothing about a customer.", "customer")
    return said


def read_measured(measured: Measured, verdict: Verdict, wheels: tuple[str, ...]) -> Measured | Refused:
    """The measurement tidied; its figures and unit stay as they were entered."""
    figures = " ".join(measured.value.split())
    if not figures or len(figures.split()) > _FIGURES_AT_MOST:
        return Refused(f"Give 1 to {_FIGURES_AT_MOST} figures, such as 22.4.", "figure")
    for one in figures.split():
        try:
            read_number(one)
        except QuantityError as error:
            return Refused(f"{one!r} is no figure: {error}.", "figure")
    odd = _odd_one(figures.split()) if measured.property in _SIZES else ""
    if odd:
        return Refused(f"{odd} lies far from the other readings; read it again.", "figure")
    if not measured.unit.strip() or read_unit(measured.unit) is None:
        return Refused("Say the unit as well, such as 22.4 mm or .882 in.", "unit")
    if measured.when not in WHENS or verdict.judged not in JUDGEMENTS:
        return Refused(f"Say when: {' or '.join(WHENS)}; judged: {', '.join(JUDGEMENTS)}.", "judgement")
    refused = _wrong_wheel(measured.wheel, wheels)
    component = read_text(measured.component, "what was measured", SHORT_AT_MOST)
    name = read_text(measured.property, "which figure of it", SHORT_AT_MOST)
    for one_of in (refused, component, name):
        if isinstance(one_of, Refused):
            return one_of
    unit = measured.unit.strip()
    return Measured(str(component), str(name), figures, unit, measured.when, measured.wheel)


def _odd_one(figures: list[str]) -> str:
    """A reading that can be none of the same thing as the others: "22.41 22.40 2.24" has a slip of the hand."""
    read = sorted((read_number(one), one) for one in figures)
    (least, first), (most, last) = read[0], read[-1]
    if most <= least * _MOST_APART:
        return ""
    return last if len(read) > 2 and read[-2][0] <= least * _MOST_APART else first


def read_tightened(tightened: Tightened, wheels: tuple[str, ...]) -> Tightened | Refused:
    """The line tidied."""
    refused = _wrong_wheel(tightened.wheel, wheels)
    component = read_text(tightened.component, "which fastener", SHORT_AT_MOST)
    set_to = read_text(tightened.set_to, "what was set on the tool, with its unit", SHORT_AT_MOST)
    tool = read_text(tightened.tool, "which tool", SHORT_AT_MOST)
    which = read_text(tightened.which, "which of them", SHORT_AT_MOST, may_be_empty=True)
    for one in (refused, component, set_to, tool, which):
        if isinstance(one, Refused):
            return one
    if not re.search(r"\d\s*[^\W\d]", str(set_to)):
        return Refused("Say what was set on the tool with its unit, such as 105 N·m.", "unit")
    return Tightened(
        str(component), str(set_to), str(tool), tightened.wheel, str(which), tightened.target, tightened.value
    )


def _wrong_wheel(wheel: str, wheels: tuple[str, ...]) -> Refused | None:
    if not wheel or wheel in wheels:
        return None
    choices = wheels or WHEELS
    return Refused(f"{wheel!r} is no wheel of this job; it has {', '.join(choices)}.", "wheel", choices)
