"""The shape of a language: every sentence that a person sees in a reply, and what the things of the book are called."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

# The caution that belongs to every chat rather than to a component.
MAKER_FIRST = "maker first"
# The same in every language: channels number the choices with it.
NUMBERED = "{number}  {label}"

Words = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Names:
    """What this language calls what reaches the room in English; whatever is not named here stays as it is.

    parts: component -> its name here, shown behind the English one. properties, positions (word by word), keys (of
    qualifiers), conditions and handling (of a row), orders (of tightening). reasons: why a word was read as it was.
    questions: the question of an outcome -> the same here. typed, leave_out: labels of choices.
    """

    parts: Words = field(default_factory=dict)
    properties: Words = field(default_factory=dict)
    positions: Words = field(default_factory=dict)
    keys: Words = field(default_factory=dict)
    conditions: Words = field(default_factory=dict)
    handling: Words = field(default_factory=dict)
    orders: Words = field(default_factory=dict)
    reasons: Words = field(default_factory=dict)
    questions: Words = field(default_factory=dict)
    typed: str = ""
    leave_out: str = ""


@dataclass(frozen=True, slots=True)
class Wording:
    """The sentences of one language. The rest of the room only puts values in; no value depends on the language."""

    language: str
    names: Names
    both: str
    either: str
    maker_first: str

    converted: str
    short_converted: str
    printed_too: str
    one_of_several: str
    you_said: str
    stages: str
    reuse: Words
    reuse_line: str
    order: str
    first_caution: str
    caution: str
    source: str
    source_of_one: str
    # In the place of who checked a row, where nobody else has.
    one_person: str
    checked_by_one: str
    questioned: str
    thing: str

    other_units: str
    thread: str
    strength_class: str
    row: str
    review: str

    read_as: str

    not_held: str
    logged: str
    not_logged: str
    reasons: Words
    # The reason "withdrawn", where it is known when.
    withdrawn_on: str
    unknown_words: str
    something: str

    # Choose.question, where there is one, stands in place of these.
    questions: Words
    unit_not_said: str
    # Where there are options to take, the question need not say what to type.
    with_options: Words
    qualifier_questions: Words

    calculated: str
    calculated_note: str
    calculated_after: str
    # Name of a Sentence -> its words.
    sums: Words
    # The same of what was measured; "where left" -> what the place is called.
    judging: Words
    # What stands around a step of a procedure.
    steps: Words

    other: Words
    not_placed: str
    vehicle_unclear: str
    held: str
    held_and_more: str
    held_all: str
    held_nothing: str
    year_wanted: str

    built: Words

    why_head: str
    why_nothing: str
    why_word: str
    roles: Words
    noise_with_reason: str
    left_over_with_reason: str
    how: Words
    vehicle_states: Words
    why_ask: str
    why_always: str
    why_default: str

    @property
    def is_the_books(self) -> bool:
        """Whether it is the language of the book, in which options and questions come already."""
        return self.language == "en"
