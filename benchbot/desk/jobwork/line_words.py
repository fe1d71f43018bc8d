"""A line of a job in words: what was measured and how it was judged, what was tightened, by whom, confirmed or not."""

from __future__ import annotations

from collections.abc import Iterable

from benchbot.desk.jobwork.wording import JobWording
from benchbot.jobs.open_points import Point
from benchbot.jobs.sheet import Want
from benchbot.jobs.state import JobState, differs
from benchbot.records.jobs import JobEvent
from benchbot.reply.languages import wording_of
from benchbot.reply.subjects import component_words, position_words, property_words


def named(component: str, wheel: str, which: str, language: str) -> str:
    """Example: "FRONT LEFT upper caliper bracket bolt"."""
    wording = wording_of(language)
    place = position_words(wheel, wording).upper() if wheel else ""
    where = position_words(which, wording) if which else ""
    return " ".join(word for word in (place, where, component_words(component, wording)) if word)


def want_words(want: Want, language: str) -> str:
    """What a line is wanted of."""
    if not want.where:
        return named(want.component, want.wheel, want.name, language)
    return f"{named(want.component, want.wheel, '', language)}, {property_words(want.name, wording_of(language))}"


def wants_words(wants: Iterable[Want], language: str) -> str:
    return "; ".join(want_words(one, language) for one in wants)


def line_words(state: JobState, event: JobEvent, words: JobWording) -> str:
    """One line as it stands on record."""
    body, language = event.body, words.language
    if event.what == "measured":
        return words.measured_line.format(
            named=named(body["component"], body["wheel"], "", language),
            property=property_words(body["property"], wording_of(language)),
            figure=f"{body['value']} {body['unit']}",
            when=words.whens[body["when"]],
            judged=words.judged[body["judged"]],
            name=event.name,
        )
    target = body["target"]
    text = words.tightened_line.format(
        named=named(body["component"], body["wheel"], body["which"], language),
        set_to=body["set_to"],
        tool=body["tool"],
        target=words.target_was.format(text=target["text"]) if target else words.target_none,
        name=event.name,
    )
    if differs(event):
        why = state.explained.get(f"differs {event.entry}")
        told = words.differs_why.format(reason=why.body["reason"]) if why else words.differs_mark
        text = f"{text}, {told}"
    confirmed = state.confirmed.get(event.entry)
    return text if confirmed is None else f"{text}, {words.confirmed_by.format(name=confirmed.name)}"


def point_words(point: Point, words: JobWording) -> str:
    """An open point; in English as the record has it."""
    if words.language == "en":
        return point.text
    return words.points[point.kind].format(**dict(point.values))
