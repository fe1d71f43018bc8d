"""Says in words what a figure, a question or a gap is about."""

from __future__ import annotations

from benchbot.outcomes import Subject
from benchbot.reply.wording import BUILT


def vehicle_words(subject: Subject) -> str:
    """Example: "2018 Brackwell Ondrel, engine 1.6", as far as it is known."""
    name = " ".join(word for word in (years_words(subject.years), subject.make, subject.model) if word)
    return ", ".join(word for word in (name, *(qualifier_words(key, value) for key, value in subject.only_if)) if word)


def thing_words(subject: Subject) -> str:
    """Example: "FRONT caliper bracket bolt"."""
    return " ".join(word for word in (subject.position.upper(), subject.component) if word)


def subject_words(subject: Subject) -> str:
    """Vehicle, place, part and property, as far as they are known."""
    return ", ".join(word for word in (vehicle_words(subject), thing_words(subject), subject.property) if word)


def years_words(years: tuple[int, ...]) -> str:
    """Example: "2018"; years that run on as "2015-2019"; others, or two, as "2014 or 2016"."""
    if len(years) > 2 and list(years) == list(range(years[0], years[-1] + 1)):
        return f"{years[0]}-{years[-1]}"
    return " or ".join(str(year) for year in years)


def qualifier_words(key: str, value: str) -> str:
    """Example: "engine 1.6"; a build range as "built up to 2016-05"."""
    if key != "build":
        return f"{key} {value}"
    low, between, high = value.partition("..")
    form = "in" if not between else "both" if low and high else "from" if low else "to"
    return BUILT[form].format(low=low, high=high)
