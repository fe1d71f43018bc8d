"""Says in words what a figure, a question or a gap is about."""

from __future__ import annotations

from benchbot.outcomes import Subject
from benchbot.reply.english import ENGLISH
from benchbot.reply.wording import Wording

# How the rooms before put alternatives into one text.
OR = " or "


def vehicle_words(subject: Subject, wording: Wording) -> str:
    """Example: "2018 Brackwell Ondrel, engine 1.6", as far as it is known."""
    name = " ".join(word for word in (years_words(subject.years, wording), subject.make, subject.model) if word)
    narrowed = (qualifier_words(key, value, wording) for key, value in subject.only_if)
    return ", ".join(word for word in (name, *narrowed) if word)


def thing_words(subject: Subject, wording: Wording) -> str:
    """Example: "FRONT caliper bracket bolt"."""
    position = position_words(subject.position, wording).upper()
    return wording.thing.format(position=position, component=component_words(subject.component, wording)).strip()


def subject_words(subject: Subject, wording: Wording = ENGLISH) -> str:
    """Vehicle, place, part and property, as far as they are known."""
    what = property_words(subject.property, wording)
    return ", ".join(word for word in (vehicle_words(subject, wording), thing_words(subject, wording), what) if word)


def years_words(years: tuple[int, ...], wording: Wording) -> str:
    """Example: "2018"; years that run on as "2015-2019"; others, or two, as "2014 or 2016"."""
    if len(years) > 2 and list(years) == list(range(years[0], years[-1] + 1)):
        return f"{years[0]}-{years[-1]}"
    return wording.either.join(str(year) for year in years)


def qualifier_words(key: str, value: str, wording: Wording) -> str:
    """Example: "engine 1.6"; a build range as "built up to 2016-05"."""
    return build_words(value, wording) if key == "build" else f"{wording.names.keys.get(key, key)} {value}"


def build_words(value: str, wording: Wording) -> str:
    """Example: "..2016-05" is "built up to 2016-05"."""
    low, between, high = value.partition("..")
    form = "in" if not between else "both" if low and high else "from" if low else "to"
    return wording.built[form].format(low=low, high=high)


def component_words(component: str, wording: Wording) -> str:
    """The book's name, and behind it what this language calls the part, so that both languages mean the same one."""
    parts = wording.names.parts
    named = (f"{one} ({parts[one]})" if one in parts else one for one in component.split(OR))
    return wording.either.join(named)


def property_words(name: str, wording: Wording) -> str:
    """A property, or several of which one is meant ("minimum thickness or nominal thickness")."""
    known = wording.names.properties
    if name in known:
        return known[name]
    return wording.either.join(known.get(one, one) for one in name.split(OR))


def position_words(position: str, wording: Wording) -> str:
    """A position word by word, as the book puts one together."""
    return " ".join(wording.names.positions.get(word, word) for word in position.split(" "))
