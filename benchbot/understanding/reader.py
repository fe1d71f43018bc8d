"""Reads a whole message: every word gets a role, and every plausible reading is kept."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from benchbot.understanding.asks import asks_of
from benchbot.understanding.bolt_sizes import sizes_of_fasteners, take_threads
from benchbot.understanding.compounds import compounds, merged
from benchbot.understanding.doubt import doubted_keys, sure_positions
from benchbot.understanding.elsewhere import said_elsewhere
from benchbot.understanding.figures import Numbers
from benchbot.understanding.joining import joined_tokens
from benchbot.understanding.lexicon import Lexicon, VehicleNames
from benchbot.understanding.numbers import read_numbers
from benchbot.understanding.parts import Way, coordinated, read_parts
from benchbot.understanding.positions import place_of, read_positions
from benchbot.understanding.properties import Wanted, read_properties
from benchbot.understanding.reading import Ask, Kind, Reading, VehicleRead, WordNote
from benchbot.understanding.signs import Signs, read_long_qualifiers, read_short_qualifiers, read_signs
from benchbot.understanding.spoken import with_spoken_numbers
from benchbot.understanding.strange import UNTAUGHT, unknown_part
from benchbot.understanding.tokens import MOST_LETTERS, MOST_TOKENS, Token, tokens_of
from benchbot.understanding.vehicles import read_vehicle
from benchbot.understanding.wanted import named_properties
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Stated

_MOST_READINGS = 6
_TRADE_IN_PARTS = frozenset(
    {"price", "prices", "pricing", "cost", "costs", "quote", "quotes", "estimate", "buy", "purchase", "sell", "stock"}
)


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads messages against one vocabulary and one book's vehicle names."""

    lexicon: Lexicon
    names: VehicleNames

    def read(self, text: str, today: date, chat_make: int | None = None) -> tuple[Reading, ...]:
        """The plausible readings of the message, the best first; never empty.

        They differ only where the message itself leaves it open; an answer needs all of them to lead to the same rows.
        """
        if len(text) > MOST_LETTERS:
            return (Reading(kind="too long"),)
        tokens = self._tokens(text)
        if len(tokens) >= MOST_TOKENS:
            return (Reading(kind="too long"),)
        readings = self._read(Work(tokens, self.lexicon, self.names, chat_make=chat_make), today)
        named = any(reading.asks or reading.unknown_part for reading in readings)
        runs = [run for reading in readings for run in compounds(tokens, reading.notes, self.lexicon, named)]
        if not runs:
            return tuple(readings)
        whole, places = merged(tokens, runs)
        work = Work(whole, self.lexicon, self.names, chat_make=chat_make)
        work.take(places, "left over", UNTAUGHT)
        return tuple(self._read(work, today))

    def _read(self, work: Work, today: date) -> list[Reading]:
        sizes = take_threads(work)
        signs = read_signs(work)
        stated = read_long_qualifiers(work, signs)
        vehicle = read_vehicle(work)
        numbers = read_numbers(work, today)
        sizes += sizes_of_fasteners(work)
        parts = read_parts(work)
        stated += numbers.stated
        readings = [
            self._finish(replace_notes(work), way, signs, vehicle, numbers, list(stated), sizes)
            for way in (parts.ways or [Way()])[:_MOST_READINGS]
        ]
        return _unlike(self._sensible(readings))

    def _sensible(self, readings: list[Reading]) -> list[Reading]:
        """Readings without those that ask of a component what it cannot have, where another makes sense."""
        sensible = [
            reading
            for reading in readings
            if all(
                not ask.named
                or any(p in self.lexicon.component(name).properties for name in ask.components for p in ask.properties)
                for ask in reading.asks
            )
        ]
        return sensible or readings

    def _tokens(self, text: str) -> list[Token]:
        cut = with_spoken_numbers(tokens_of(text, self._is_word, self._is_part))
        return joined_tokens(cut, self.lexicon, self.names)

    def _is_word(self, chunk: str) -> bool:
        if self.lexicon.is_known(chunk) or self.names.words(chunk):
            return True
        # a word with one slip in it is no two words run together
        return len(chunk) > 4 and any(near.slips == 1 for near in self.lexicon.rescued(chunk))

    def _is_part(self, chunk: str) -> bool:
        return self.lexicon.is_whole_word(chunk) or bool(self.names.words(chunk))

    def _finish(
        self,
        work: Work,
        way: Way,
        signs: Signs,
        vehicle: VehicleRead,
        numbers: Numbers,
        stated: list[Stated],
        sizes: list[str],
    ) -> Reading:
        """Completes one reading, given one grouping of the component words."""
        groups = coordinated(work, way.groups)
        whole = [note.word for note in work.notes if note and note.read_as == UNTAUGHT]
        part_unknown, groups, loose = unknown_part(work, groups, way.left)
        part_unknown = part_unknown or " ".join(whole)
        for group in groups:
            names = " or ".join(group.phrase.means)
            how = "spelling" if group.slips else ""
            work.take(group.places, "component", names, how)
        wanted = read_properties(work)
        stated += read_short_qualifiers(work, signs, vehicle)
        positions = sure_positions(work, read_positions(work))
        doubted = doubted_keys(work)
        other = said_elsewhere(work)
        here, unsaid = other.said_here(work, stated)
        years, places = other.years_here(work, numbers.years), other.positions_here(positions)
        unsaid |= {"year"} if numbers.years and not years else set()
        unsaid |= {"place"} if positions and not places else set()
        numbers = replace(numbers, years=years)
        other.leave_out(work)
        _read_noise(work, loose, vehicle.state != "none")
        unknown_words = part_unknown.split()
        left = [
            note.word for note in work.notes if note and note.role == "left over" and note.word not in unknown_words
        ]
        asks = asks_of(work, groups, places, wanted, numbers.said_units)
        asks = _taken_back(asks, signs)
        found = signs.found | ({"negated"} if signs.negated else set()) | _talk(work)
        if other.asked and vehicle.state == "none":
            found.add("next_vehicle")
        kind = _kind(work, asks, vehicle, wanted, numbers, here, bool(places), part_unknown, found)
        return Reading(
            kind=kind,
            vehicle=vehicle,
            years=tuple(numbers.years),
            stated=tuple(dict.fromkeys(here)),
            excluded=(*signs.excluded, *numbers.excluded),
            unsure=frozenset(signs.unsure | numbers.unsure | doubted | unsaid),
            conditions=tuple(signs.conditions),
            asks=asks,
            properties=named_properties(work, wanted),
            vague=bool(wanted.vague) and not wanted.clear,
            vague_properties=tuple(dict.fromkeys(name for _, phrase in wanted.vague for name in phrase.means)),
            vague_always=any(phrase.always for _, phrase in wanted.vague),
            place=place_of(work, places),
            unit=wanted.unit,
            left_over=tuple(left),
            unknown_part=part_unknown,
            said_values=tuple(numbers.said),
            sizes=tuple(sizes),
            signs=frozenset(found),
            notes=tuple(
                note or WordNote(t.raw, "noise", "", "a mark") for note, t in zip(work.notes, work.tokens, strict=True)
            ),
        )


def _taken_back(asks: tuple[Ask, ...], signs: Signs) -> tuple[Ask, ...]:
    """Example: "lugs... scratch that, drain plug": which of the components is meant is asked."""
    if "correction" not in signs.found or len(asks) < 2:
        return asks
    components = tuple(dict.fromkeys(name for ask in asks for name in ask.components))
    properties = tuple(dict.fromkeys(name for ask in asks for name in ask.properties))
    return (replace(asks[-1], components=components, properties=properties, always=True),)


def replace_notes(work: Work) -> Work:
    """The same message with its own notes, so that one reading does not write into another."""
    return replace(work, notes=list(work.notes))


def _unlike(readings: list[Reading]) -> list[Reading]:
    kept: list[Reading] = []
    for reading in readings:
        bare = replace(reading, notes=())
        if all(replace(other, notes=()) != bare for other in kept):
            kept.append(reading)
    return kept


def _read_noise(work: Work, loose: list[int], vehicle_known: bool) -> None:
    """Accounts for every word that is still free: noise where that is known, else left over."""
    lexicon = work.lexicon
    for at, token in enumerate(work.tokens):
        if token.kind == "mark" or not work.free(at):
            continue
        text = token.text
        if at in loose:
            work.take([at], "noise", "said again, or too general to add anything")
        elif work.role(at - 1) == "vehicle" and _may_be_of_the_name(work, at):
            work.take([at], "left over", "may belong to another model's name")
        elif (
            text in lexicon.function
            or text in lexicon.chatter
            or any(
                work.in_list(at, name)
                for name in ("joiners", "joining", "small_talk", "confirm", "alternatives", "negation")
            )
        ) or lexicon.is_listed(text):
            work.take([at], "noise")
        elif lexicon.is_weak(text):
            work.take([at], "noise", "adds nothing here")
        elif (
            token.kind == "word"
            and not lexicon.is_known(text)
            and not lexicon.rescued(text)
            and vehicle_known
            and _misspelt_noise(work, at)
        ):
            work.take([at], "noise", "", "spelling of an everyday word")
        elif len(text) == 1 and text not in "tdrsvx":
            work.take([at], "noise")
        else:
            work.take([at], "left over")


def _talk(work: Work) -> set[str]:
    """Whether everyday words stand in the message, and whether one of them asks for something."""
    found: set[str] = set()
    for at, token in enumerate(work.tokens):
        note = work.notes[at]
        if note is None or note.role != "noise" or token.kind != "word":
            continue
        if token.text in _TRADE_IN_PARTS:
            found.add("trade in parts")
        if (
            token.text == "how"
            and work.text(work.next_at(at)) == "many"
            and work.role(work.next_at(at, 1) + 1)
            in (
                "component",
                "position",
            )
        ):
            found.add("counting")
        if token.text in ("where", "wheres"):
            found.add("where")
        for name in ("people", "tool"):
            if work.in_list(at, name):
                found.add(name)
        if work.in_list(at, "asking"):
            found.add("asking")
        elif token.text in work.lexicon.chatter and token.text not in work.lexicon.function:
            found.add("chatter")
    return found


def _may_be_of_the_name(work: Work, at: int) -> bool:
    """A single letter behind a model, anything glued to it, or an everyday word behind a numeric one."""
    text = work.text(at)
    if work.tokens[at].glued and work.is_word(at):
        return True
    numeric = work.text(at - 1).isdigit()
    talk = numeric and text in work.lexicon.chatter and text not in work.lexicon.function
    return (len(text) == 1 and text.isalpha() and text not in "nuwai") or talk


def _misspelt_noise(work: Work, at: int) -> bool:
    """An unknown word a slip from an everyday one; never a short one, nor one where a vehicle's name would stand."""
    if len(work.text(at)) < 5 or not work.lexicon.near_noise(work.text(at)):
        return False
    beside = {work.role(work.next_at(at)), work.role(work.next_at(at, -1))}
    return not beside & {"year", "vehicle", "left over"}


def _kind(
    work: Work,
    asks: tuple[object, ...],
    vehicle: VehicleRead,
    wanted: Wanted,
    numbers: Numbers,
    stated: list[Stated],
    place: bool,
    part_unknown: str,
    signs: set[str],
) -> Kind:
    """What sort of message it is, seen by itself; the conversation may know better."""
    chatter = "chatter" in signs
    if "out_of_scope" in signs and not (wanted.clear or wanted.vague) and ("trade in parts" in signs or not asks):
        return "out of scope"
    named = vehicle.state != "none"
    property_said = bool(wanted.clear or wanted.vague)
    if "stating" in signs and not property_said and not signs & {"asking", "question"} and asks:
        return "small talk"
    if asks and signs & {"counting", "where"} and not property_said:
        return "out of scope"
    if asks:
        bare = not (named or property_said or numbers.years)
        return "small talk" if bare and signs & {"people", "tool"} else "question"
    if part_unknown:
        talk = chatter or signs & {"people", "tool"}
        return "small talk" if talk and not (named or property_said or numbers.years) else "question"
    if signs & {"people", "tool"} and not named:
        return "small talk"
    if property_said and (named or not chatter):
        return "question"
    if named:
        return "vehicle only"
    if "negated" in signs and not chatter:
        return "slots only"
    if numbers.said and signs & {"confirm", "question"} and not numbers.years:
        return "slots only"
    unknown = any(n is not None and n.role == "left over" for n in work.notes)
    slots = bool(numbers.years or stated or place or wanted.unit or numbers.said)
    if slots and not chatter and not unknown:
        return "slots only"
    if property_said or slots or any(n is not None and n.role == "sign" for n in work.notes):
        if not chatter and not unknown:
            return "slots only"
        return "small talk"
    return "small talk" if not unknown else "nothing"
