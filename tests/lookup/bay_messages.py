"""Questions as slots of a random fleet, the way they are typed, and what the slots alone allow as an answer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import lru_cache

from fleets import HELD, SPLITS, Shop, lexicon, shop, vocabulary
from hypothesis import strategies as st

from benchbot.book.rows import SpecRow

# Ways to say a property, an axle, a year, and words that mean nothing. Common practice, no source.
SAID_PROPERTY = {
    "torque": ("torque", "tq", "torque spec"),
    "socket": ("socket", "socket size"),
    "minimum thickness": ("min thickness", "minimum thickness", "discard thickness"),
    "nominal thickness": ("nominal thickness", "new thickness"),
    "maximum runout": ("max runout", "runout"),
    "maximum diameter": ("max diameter", "maximum diameter"),
    "gap": ("gap",),
}
SAID_AXLE = {"front": ("front", "frt", "Front"), "rear": ("rear", "rr", "back")}
BEFORE = ("", "hey", "need", "whats the", "yo quick one:", "can someone tell me the", "looking for", "pls")
AFTER = ("", "?", "pls", "thanks", "asap", "!!", "please :)", "cust waiting")
_KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
_TEENS = ("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen")
_UNITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def spoken(year: int) -> str:
    """2014 -> "twenty fourteen", 2007 -> "two thousand seven", 2021 -> "twenty twenty one"."""
    last = year % 100
    if last < 10:
        return f"two thousand {_UNITS[last]}"
    if last < 20:
        return f"twenty {_TEENS[last - 10]}"
    return f"twenty twenty {_UNITS[last % 10] if last % 10 else ''}".strip()


YEAR_FORMS: tuple[Callable[[int], str], ...] = (str, lambda y: f"'{y % 100:02}", lambda y: f"{y % 100:02}", spoken)


@lru_cache(maxsize=1)
def phrases() -> dict[str, tuple[str, ...]]:
    """Every phrase that the vocabulary gives to one component alone."""
    found: dict[str, list[str]] = {name: [] for name in HELD}
    for phrase in vocabulary().component_phrases:
        if len(phrase.means) == 1 and not phrase.always and phrase.means[0] in found:
            found[phrase.means[0]].append(" ".join(phrase.words))
    return {name: tuple(said) for name, said in found.items()}


@dataclass(frozen=True, slots=True)
class Slots:
    """What a technician has in mind; None or empty = not said. `shop` is the number of the fleet."""

    shop: int
    vehicle: int | None
    year: int | None
    stated: tuple[tuple[str, str], ...]
    component: str
    axle: str
    property: str

    @property
    def there(self) -> Shop:
        return shop(self.shop)

    @property
    def model(self) -> str:
        return self.there.named[self.vehicle - 1][1] if self.vehicle else ""


@dataclass(frozen=True, slots=True)
class Style:
    """How the slots are put into words. order: of the blocks vehicle, qualifiers, thing. slips: (which word, how)."""

    make: bool = True
    year_form: int = 0
    phrase: int = 0
    form: int = 0
    order: tuple[int, ...] = (0, 1, 2)
    axle_last: bool = False
    property_first: bool = False
    before: str = ""
    after: str = ""
    slips: tuple[tuple[int, int, int], ...] = field(default=())


PLAIN = Style()
CHANGES = ("vehicle", "year", "axle", "stated", "component", "property")


def slip(word: str, at: int, kind: int) -> str:
    """The word with a letter dropped, doubled, swapped with the next, or hit on the key beside it; never the first."""
    at = 1 + at % (len(word) - 1)
    letter = word[at]
    if kind == 0:
        return word[:at] + word[at + 1 :]
    if kind == 1:
        return word[:at] + letter + word[at:]
    if kind == 2 and at + 1 < len(word):
        return word[:at] + word[at + 1] + letter + word[at + 2 :]
    row = next((row for row in _KEYS if letter in row), letter)
    return word[:at] + row[(row.index(letter) + 1) % len(row)] + word[at + 1 :]


def blocks(slots: Slots, style: Style) -> list[str]:
    """The texts of vehicle and year, qualifiers, and the thing asked for; an unsaid one is empty."""
    vehicle = []
    if slots.year is not None:
        vehicle.append(YEAR_FORMS[style.year_form](slots.year))
    if slots.vehicle is not None:
        make, model = slots.there.named[slots.vehicle - 1]
        alone = sum(other == model for _, other in slots.there.named) == 1 and not model.replace(" ", "").isdigit()
        vehicle.append(model if alone and not style.make else f"{make} {model}")
    stated = [SPLITS[key][value][style.form % len(SPLITS[key][value])] for key, value in slots.stated]
    said = phrases()[slots.component]
    thing = said[style.phrase % len(said)]
    if slots.axle:
        axle = SAID_AXLE[slots.axle][style.form % 3]
        thing = f"{thing} {axle}" if style.axle_last else f"{axle} {thing}"
    if slots.property:
        forms = SAID_PROPERTY[slots.property]
        name = forms[style.form % len(forms)]
        thing = f"{name} {'on ' if style.form % 2 else ''}{thing}" if style.property_first else f"{thing} {name}"
    return [" ".join(vehicle), " ".join(stated), thing]


def message(slots: Slots, style: Style = PLAIN) -> str:
    parts = blocks(slots, style)
    text = ", ".join(parts[n] for n in style.order if parts[n]) if style.form % 4 == 3 else ""
    text = text or " ".join(parts[n] for n in style.order if parts[n])
    words = text.split(" ")
    book = slots.there.conversation.book
    for which, at, kind in style.slips:
        n = which % len(words)
        if len(words[n]) > 3 and words[n].isalpha():
            typed = slip(words[n].lower(), at, kind)
            # a slip that makes another word of the trade, or another name, says that other thing
            if not lexicon().is_known(typed) and not book.words(typed):
                words[n] = typed
    return " ".join(filter(None, (style.before, *words, style.after)))


def allowed(slots: Slots) -> list[SpecRow] | None:
    """The rows that the slots single out; None where something that decides is unsaid, so that nothing may be shown."""
    rows = [row for row in slots.there.rows if row.vehicle == slots.vehicle and row.component == slots.component]
    if slots.vehicle is None or slots.year is None:
        return None
    rows = [row for row in rows if row.year_from <= slots.year <= row.year_to]
    stated = dict(slots.stated)
    keys = {row.only_if.partition("=")[0] for row in rows if row.only_if}
    if keys - set(stated) or (
        (len(HELD[slots.component][0]) > 1 or slots.component == "brake drum") and not slots.axle
    ):
        return None
    return [row for row in rows if agrees(row, slots)]


def agrees(row: SpecRow, slots: Slots) -> bool:
    """Whether the row contradicts nothing that was said."""
    key, _, value = row.only_if.partition("=")
    wanted = {slots.property or "torque"} | ({"socket"} if slots.property in ("torque", "") else set())
    return (
        row.vehicle == slots.vehicle
        and (slots.year is None or row.year_from <= slots.year <= row.year_to)
        and row.component == slots.component
        and row.property in wanted
        and dict(slots.stated).get(key, value) == value
        and (not slots.axle or row.position.split(" ")[0] in ("", slots.axle))
    )


def held(fleets: int) -> st.SearchStrategy[Slots]:
    """Questions with every slot said, each about a row that the book holds."""
    return st.builds(of_row, st.integers(0, fleets - 1), st.integers(0, 10_000), st.integers(0, 20))


def of_row(number: int, at: int, year: int) -> Slots:
    """The question about one row of a fleet, in one of its years, with every slot said."""
    there = shop(number)
    row = there.rows[at % len(there.rows)]
    span = row.year_to - row.year_from + 1
    stated = tuple(pair for pair in [row.only_if.partition("=")[::2]] if row.only_if)
    return Slots(number, row.vehicle, row.year_from + year % span, stated, row.component, row.position, row.property)


styles = st.builds(
    Style,
    make=st.booleans(),
    year_form=st.integers(0, len(YEAR_FORMS) - 1),
    phrase=st.just(0) | st.integers(0, 400),
    form=st.integers(0, 11),
    order=st.permutations((0, 1, 2)).map(tuple),
    axle_last=st.booleans(),
    property_first=st.booleans(),
    before=st.sampled_from(BEFORE),
    after=st.sampled_from(AFTER),
)
slipped = st.builds(
    lambda style, slips: replace(style, slips=tuple(slips)),
    styles,
    st.lists(st.tuples(st.integers(0, 20), st.integers(0, 12), st.integers(0, 3)), min_size=1, max_size=2),
)
_stated = st.sampled_from([(key, value) for key, values in SPLITS.items() for value in values])


@st.composite
def any_slots(draw: st.DrawFn, fleets: int) -> Slots:
    """Questions near a row that the book holds: slots left out, changed, or said beside what the rows carry."""
    slots = draw(held(fleets))
    for change in draw(st.lists(st.sampled_from(CHANGES), max_size=2)):
        if change == "vehicle":
            slots = replace(slots, vehicle=draw(st.none() | st.integers(1, len(slots.there.named))))
        elif change == "year":
            slots = replace(slots, year=draw(st.none() | st.integers(2003, 2024)))
        elif change == "axle":
            slots = replace(slots, axle=draw(st.sampled_from(("", "front", "rear"))))
        elif change == "stated":
            same = [(key, value) for key, _ in slots.stated for value in SPLITS[key]]
            pair = draw(st.sampled_from(same) if same and draw(st.booleans()) else _stated)
            slots = replace(slots, stated=draw(st.sampled_from(((), (pair,), (pair,)))))
        elif change == "component":
            slots = replace(slots, component=draw(st.sampled_from(sorted(HELD))))
    if slots.property not in HELD[slots.component][1]:
        slots = replace(slots, property=draw(st.sampled_from(HELD[slots.component][1])))
    return slots
