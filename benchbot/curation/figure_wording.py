"""What stands on the coverage picture and in the week's digest, as plain data."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FigureWording:
    """The sentences in one language; the defaults are English."""

    language: str = "en"

    coverage_title: str = "Asked since {since}"
    coverage_place: str = "at {place}"
    filled: str = "held"
    missing: str = "missing"
    stale: str = "to be checked again"
    number_is: str = "The number: how often it was asked."
    coverage_sum: str = "{filled} of {cells} fields held in full"
    not_shown: str = "Not shown: {vehicles} more vehicles, {components} more parts, {asks} questions."
    unplaced: str = "{asks} questions name a part or a vehicle that nobody knows, and no field here."
    nothing_asked: str = "Nobody has asked anything since {since}."

    week_title: str = "Week {week}, {first} to {last}"
    week_so_far: str = "Week {week}, from {first}, so far"
    whole_shop: str = "whole shop"
    answered: str = "answered"
    asked_back: str = "asked back"
    not_answered: str = "not answered"
    nowhere: str = "no location"
    line: str = "{name}: {answered} answered, {asked_back} asked back, {not_answered} not answered"
    in_part: str = "of those answered, {count} only in part"
    quiet: str = "Nobody asked anything."
    open_gaps: str = "Gaps open: {open}, new in this week: {fresh}."
    filled_gaps: str = "Gaps filled: {filled}. Half of them within {time} of the first question."
    filled_none: str = "Gaps filled: none."
    top: str = "Most wanted:"
    gap: str = "{number}. {what}: {people}, {asks}, {week}"
    word: str = "what is “{words}”?"
    vehicle: str = "which vehicle is “{words}”?"
    with_words: str = "{what}, with “{words}” not read"
    nobody_waits: str = "nobody waits"
    one_waits: str = "1 waits"
    many_wait: str = "{count} wait"
    asked_times: str = "asked {count}×"
    this_week: str = "{count} in this week"
    due: str = "Rows to be looked at again within 30 days: {due}, of which {past} do not answer any more."
    due_none: str = "No row has to be looked at again within 30 days."
    minutes: str = "{count} min"
    hours: str = "{count} h"
    days: str = "{count} days"
    more_places: str = "and {count} more locations"


ENGLISH = FigureWording()


def figure_wording(language: str) -> FigureWording:
    """The sentences of a language; English where it is none of ours."""
    if language == "es":
        from benchbot.curation.figure_spanish import SPANISH

        return SPANISH
    return ENGLISH
