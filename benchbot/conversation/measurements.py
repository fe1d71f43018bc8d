"""A message that says what was measured: read, looked up and judged, and kept in mind while something is asked back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from benchbot.conversation.past import Past
from benchbot.measuring.damage import Damage, damage_said, rule
from benchbot.measuring.holding import PART_STATED, TAKEN_STATED, UNIT_STATED, held_against, with_limits
from benchbot.measuring.measured import Measured
from benchbot.measuring.saying import said_measurement
from benchbot.measuring.several import is_of_parts, said_of_parts
from benchbot.outcomes import Answer, Choose, Gap, Judged, Outcome, Sentence
from benchbot.quantities.units import read_unit
from benchbot.understanding.reading import Ask, Reading, WordNote
from benchbot.vocabulary.letters import fold
from benchbot.vocabulary.terms import Vocabulary

Readings = tuple[Reading, ...]
Read = Callable[[str], tuple[Readings, Readings]]
Decide = Callable[[Readings, Readings], Outcome]

_NO_QUESTION = frozenset({"too long", "out of scope"})


@dataclass(frozen=True, slots=True)
class Judgement:
    """What came of a measurement."""

    readings: Readings
    completed: Readings
    outcome: Outcome
    measured: Measured

    @property
    def has_verdict(self) -> bool:
        return isinstance(self.outcome, Answer) and bool(self.outcome.judged)


@dataclass(frozen=True, slots=True)
class Measurements:
    """Judges what was measured; read and decide are those of a message without a measurement."""

    vocabulary: Vocabulary
    is_name: Callable[[str], bool]
    read: Read
    decide: Decide

    def of(self, text: str, past: Past) -> Judgement | None:
        """What comes of a message that says a measurement, or goes on with one; None when it does neither."""
        damage = damage_said(text)
        text = text if damage is None else damage.rest
        several = said_of_parts(text, self.is_name)
        if several is not None:
            judged = self._of_parts(*self.read(several.rest), _with_damage(several.measured, damage))
            if judged is not None:
                return judged
        if is_of_parts(text, self.is_name):
            # one verdict alone would pass for one on all that was measured
            return None
        said = said_measurement(text, self.is_name)
        if said is None:
            return self._going_on(text, past) if past.measured is not None else None
        readings, completed = self.read(said.rest)
        if readings[0].kind in _NO_QUESTION or (not said.sure and _no_part(readings[0], past)):
            return None
        if _no_part(readings[0], past) and (readings[0].left_over or "chatter" in readings[0].signs):
            return None
        return self._judged(readings, completed, _with_damage(said.measured, damage), _note(said.measured))

    def _of_parts(self, readings: Readings, completed: Readings, measured: Measured) -> Judgement | None:
        """Of a word that can be two parts, the reading that has the parts which were measured."""
        pairs = [
            (own, whole)
            for own, whole in zip(readings, completed, strict=True)
            if with_limits(whole, measured, self.vocabulary, False) is not None
        ]
        if not pairs or readings[0].kind in _NO_QUESTION:
            return None
        kept, wholes = zip(*pairs, strict=True)
        return self._judged(kept, wholes, measured, _note(measured))

    def chosen(self, reading: Reading, measured: Measured, states: Mapping[str, object]) -> Judgement | None:
        """What comes of it once a choice has stated what was open: the unit of it, or anything else."""
        unit = str(states.get(UNIT_STATED, ""))
        reading, known = _of_the_part(reading, measured, states)
        known = known.with_chosen(unit) if unit else known
        known = known.with_measured(str(states[TAKEN_STATED])) if TAKEN_STATED in states else known
        return self._judged((Reading(),), (reading,), known, _note(known))

    def plain(self, text: str) -> str:
        """The message as it is read where nothing is judged: no word of damage to a measured part is left out later."""
        damage = damage_said(text)
        return text if damage is None else damage.rest

    def unclear(self, text: str, outcome: Outcome) -> Outcome:
        """The outcome, with what the message says of damage first, and that figures of several parts are not judged."""
        damage = damage_said(text)
        if damage is not None and damage.kinds:
            return _damage_first(self.unclear(damage.rest, outcome), damage.sentence)
        if not isinstance(outcome, (Answer, Choose)) or not is_of_parts(text, self.is_name):
            return outcome
        return replace(outcome, advice=(*outcome.advice, Sentence.of("one part at a time")))

    def _going_on(self, text: str, past: Past) -> Judgement | None:
        """A message that tells what was asked back: the vehicle, the axle, the unit."""
        if past.measured is None:
            return None
        unit = _unit_said(text, past)
        readings, completed = self.read("" if unit else text)
        first = readings[0]
        if unit:
            whole, measured = _of_the_part(completed[0], past.measured, past.choices[0])
            return self._judged((Reading(),), (whole,), measured.with_chosen(unit), WordNote(text, "unit", unit))
        tells = first.vehicle.state != "none" or first.years or first.stated or first.place or first.asks
        if "asking" in first.signs or first.unknown_part or first.left_over or not tells:
            return None
        if first.properties or first.vague:
            return None
        if first.asks and not all(set(a.components) <= _asked(past) for a in first.asks):
            return None
        return self._judged(readings, completed, past.measured, _note(past.measured))

    def _judged(self, readings: Readings, completed: Readings, measured: Measured, note: WordNote) -> Judgement | None:
        names = [_names_a_figure(own) or measured.limit_asked for own in readings]
        wanted = [with_limits(one, measured, self.vocabulary, here) for one, here in zip(completed, names, strict=True)]
        known = [one for one in wanted if one is not None]
        if len(known) != len(wanted):
            return None
        asked = any(one.asked for one in known)
        own = tuple(replace(one, kind="question", asks=one.asks) for one in readings)
        whole = tuple(replace(one.reading, kind="question", notes=(*one.reading.notes, note)) for one in known)
        decided = self.decide(own, whole)
        if isinstance(decided, Choose) and decided.about == "component" and len(decided.options) == len(whole) == 1:
            # a question with one answer
            whole = (_of_component(whole[0], str(decided.options[0].states["component"])),)
            own = (replace(own[0], asks=whole[0].asks),)
            decided = self.decide(own, whole)
        outcome = held_against(decided, measured, asked)
        measured = replace(measured, limit_asked=asked)
        if outcome is not None and measured.damage:
            part = measured.parts[0] if len(measured.parts) == 1 else _one_part(whole)
            outcome = _damage_first(outcome, rule(measured.damage, measured.damage_said, part))
        return None if outcome is None else Judgement(own, whole, outcome, measured)


def _with_damage(measured: Measured, damage: Damage | None) -> Measured:
    return measured if damage is None else replace(measured, damage=damage.kinds, damage_said=damage.said)


def _damage_first(outcome: Outcome, said: Sentence) -> Outcome:
    """The outcome with the rule for the damage before all else; a word of it is no word to leave out."""
    if isinstance(outcome, (Choose, Gap)):
        return replace(outcome, unsafe=(said, *outcome.unsafe))
    if isinstance(outcome, Answer) and not any(one.verdict == "damaged" for one in outcome.judged):
        return replace(outcome, judged=(Judged("damaged", "", said), *outcome.judged))
    return outcome


def open_still(outcome: Outcome, measured: Measured | None) -> Measured | None:
    """What was measured, as long as something is asked back about it."""
    return measured if isinstance(outcome, Choose) else None


def _note(measured: Measured) -> WordNote:
    return WordNote(measured.shown(), "number", "a value you state")


def _of_component(reading: Reading, component: str) -> Reading:
    """The reading once the one component that it can be about is known."""
    if reading.asks:
        return replace(reading, asks=tuple(replace(one, components=(component,)) for one in reading.asks))
    ask = Ask((component,), properties=reading.properties, place=reading.place, named=True)
    return replace(reading, asks=(ask,), properties=())


def _of_the_part(reading: Reading, measured: Measured, states: Mapping[str, object]) -> tuple[Reading, Measured]:
    """What is asked back of one of several parts is about that one alone; of the others it was said to send them."""
    part = str(states.get(PART_STATED, ""))
    if not part:
        return reading, measured
    asks = tuple(ask for ask in reading.asks if part in ask.components)
    return replace(reading, asks=asks), measured.of_part(part)


def _unit_said(text: str, past: Past) -> str:
    """The unit that the whole message says, where it was asked for."""
    if not any(UNIT_STATED in choice for choice in past.choices):
        return ""
    bare = fold(text).strip(" .!?").removeprefix("its ").removeprefix("it's ").removeprefix("in ") or fold(text)
    unit = read_unit(bare)
    return unit.symbol if unit is not None and unit.dimension == "length" else ""


def _no_part(own: Reading, past: Past) -> bool:
    """Whether neither the message nor the chat says what was measured, nor of which vehicle."""
    named = own.asks or own.properties or own.vague_properties or own.vehicle.state != "none"
    return not named and not past.asks


def _names_a_figure(own: Reading) -> bool:
    return bool(own.properties) or any(ask.named and not ask.vague for ask in own.asks)


def _one_part(readings: Readings) -> str:
    parts = {name for one in readings for ask in one.asks for name in ask.components}
    return parts.pop() if len(parts) == 1 else ""


def _asked(past: Past) -> set[str]:
    return {name for ask in past.asks for name in ask.components}
