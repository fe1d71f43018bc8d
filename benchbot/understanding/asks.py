"""Puts components, properties and positions together into the things that were asked for."""

from __future__ import annotations

from dataclasses import replace

from benchbot.understanding.parts import Group, joined, merged
from benchbot.understanding.positions import Position, place_of
from benchbot.understanding.properties import Wanted
from benchbot.understanding.reading import Ask, Place
from benchbot.understanding.strange import CONTEXT, fastens, is_part_only
from benchbot.understanding.wanted import clear_properties, distance, joined_after, wanted_by_group
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Component, Phrase

_FASTENER_PROPERTIES = ("torque", "socket", "thread")


def asks_of(
    work: Work, groups: list[Group], positions: list[Position], wanted: Wanted, said_units: set[str]
) -> tuple[Ask, ...]:
    """Everything asked for, each with its own properties and place."""
    groups = merged(work, groups)
    groups = [group for group in groups if not _is_context(work, group, groups, wanted)]
    places = _places_by_group(work, groups, positions)
    own = wanted_by_group(work, groups, wanted)
    asks: list[Ask] = []
    for n, group in enumerate(groups):
        ask = _ask(work, group, own[n], places[n])
        if "length" in said_units and not ask.named and ask.properties == ("torque",):
            # "is it 17 or 18 mm": a size was said, so it is not settled that the torque is wanted
            ask = replace(ask, properties=("torque", "socket", "thread"), vague=True)
        if asks and _either(work, groups[n - 1], group):
            names = tuple(dict.fromkeys((*asks[-1].components, *ask.components)))
            wanted_all = tuple(dict.fromkeys((*asks[-1].properties, *ask.properties)))
            asks[-1] = replace(asks[-1], components=names, properties=wanted_all, always=True)
        elif ask not in asks:
            asks.append(ask)
    return tuple(asks)


def _either(work: Work, one: Group, other: Group) -> bool:
    """Example: "bracket or slide pin bolt": one of the two is meant."""
    return any(work.text(at) in ("or", "vs", "versus") for at in range(one.places[-1] + 1, other.places[0]))


def _is_context(work: Work, group: Group, groups: list[Group], wanted: Wanted) -> bool:
    """A bare assembly that only says where the asked fastener is, or a second part that nothing is asked of."""
    if not is_part_only(work, group) or len(groups) == 1:
        return False
    if len(group.phrase.means) > 1 and all(name in CONTEXT for name in group.phrase.means):
        # "handbrake shoes min lining": a general word beside the part itself
        return any(g is not group and len(g.phrase.means) == 1 and not joined(work, group, g) for g in groups)
    if _own_properties(work, group, wanted):
        return False
    others = [g for g in groups if g is not group and not is_part_only(work, g)]
    if any(fastens(work, other, group) for other in others):
        return True
    if others and all(_said_apart(work, other, group) for other in others):
        return True
    if not all(name in CONTEXT for name in group.phrase.means) and not group.phrase.always:
        return False
    return any(not joined(work, group, other) for other in others) and (
        all(name in CONTEXT for name in group.phrase.means)
    )


def _said_apart(work: Work, fastener: Group, part: Group) -> bool:
    """Whether the part stands after the fastener in talk of its own ("... bolts, its puking oil")."""
    between = range(fastener.places[-1] + 1, part.places[0])
    talk = any(work.text(at) in work.lexicon.chatter for at in between)
    return talk and not joined(work, fastener, part, commas=False)


def _own_properties(work: Work, group: Group, wanted: Wanted) -> list[str]:
    """The stated properties that this group's components can have."""
    held = {p for name in group.phrase.means for p in work.lexicon.component(name).properties}
    return [p for _, p in wanted.clear if p in held]


def _places_by_group(work: Work, groups: list[Group], positions: list[Position]) -> list[Place]:
    """One place for all where the message states one; else each position goes to the component nearest to it."""
    whole = place_of(work, positions)
    if len(groups) < 2 or (len(whole.axles) < 2 and len(whole.heights) < 2 and len(whole.depths) < 2):
        return [whole] * len(groups)
    own: list[list[Position]] = [[] for _ in groups]
    for position in positions:
        nearest = min(range(len(groups)), key=lambda n: distance(groups[n], position.at))
        own[nearest].append(position)
    stated = [place_of(work, one) for one in own if one]
    if len(stated) == 1:
        # "front and rear pads and rotors": said once for all
        return [stated[0]] * len(groups)
    return [place_of(work, own[n]) if own[n] else Place() for n in range(len(groups))]


def _ask(work: Work, group: Group, wanted: Wanted, place: Place) -> Ask:
    lexicon = work.lexicon
    components = [lexicon.component(name) for name in group.phrase.means]
    clear = clear_properties(work, group, components, wanted)
    clear += [hint for hint in _unit_hint(wanted, components) if hint not in clear and not clear]
    vague = [phrase for _, phrase in wanted.vague]
    bare = not clear and not vague and all(set(c.properties) <= {"note"} for c in components)
    if bare or _wants_a_fastener(clear, components):
        fasteners = [
            c for c in lexicon.vocabulary.components.values() if set(c.fastens) & set(group.phrase.means)
        ]  # fmt: skip
        if fasteners:
            components = fasteners
    default = _default(components)
    if default and len(clear) == 1 and clear[0] != default and joined_after(work, group, wanted):
        # "bracket bolts and the socket": the bolt's own figure, and the socket
        clear.insert(0, default)
    admitted = [p for p in clear if any(p in c.properties for c in components)]
    always = group.phrase.always
    if admitted:
        # "plug gap" is no drain plug: what is asked narrows what a word can mean
        having = [c for c in components if all(p in c.properties for p in admitted)]
        having = having or [c for c in components if any(p in c.properties for p in admitted)]
        always = always and len(having) > 1
        components = having
    names = tuple(c.name for c in components)
    heights = tuple(w for w in ("upper", "lower") if w in group.words)
    depths = tuple(w for w in ("inner", "outer") if w in group.words)
    place = Place(place.axles, place.sides, place.heights or heights, place.depths or depths, place.several)
    if admitted:
        return Ask(names, always, group.phrase.ask, tuple(admitted), False, place, True)
    if clear:
        return Ask(names, always, group.phrase.ask, tuple(clear), False, place, True)
    if vague:
        return _vague_ask(components, names, always, group.phrase.ask, vague, place)
    default = _default(components)
    if default:
        return Ask(names, always, group.phrase.ask, (default,), False, place)
    return Ask(names, always, group.phrase.ask, (), True, place)


def _vague_ask(
    components: list[Component], names: tuple[str, ...], always: bool, question: str, vague: list[Phrase], place: Place
) -> Ask:
    """A property named vaguely: what the components can have of it; one alone is meant, unless it is always asked."""
    held = {p for c in components for p in c.properties}
    meant = [tuple(p for p in phrase.means if p in held) for phrase in vague]
    meant = [m for m in meant if m]
    if not meant:
        default = _default(components)
        if default:
            return Ask(names, always, question, (default,), False, place)
        return Ask(names, always, question, (), True, place)
    both = set(meant[0]).intersection(*meant[1:]) or {p for m in meant for p in m}
    ordered = tuple(p for m in meant for p in m if p in both)
    ordered = tuple(dict.fromkeys(ordered))
    # "max diameter" of a drum: a word that can mean one thing only settles what the other leaves open
    diameter = any(set(phrase.words) & {"diameter", "dia", "diam"} for phrase in vague)
    settles = (not diameter or ordered == ("maximum diameter",)) and any(
        not phrase.always and sum(p in held for p in phrase.means) == 1 for phrase in vague
    )
    open_question = len(ordered) > 1 or not settles
    return Ask(names, always, question, ordered, open_question, place, True)


def _default(components: list[Component]) -> str:
    """The property meant when none is said, where all that have one agree; "" when it must be asked."""
    defaults = {c.default for c in components if c.default is not None}
    fasteners_only = all(c.default is not None or c.kind == "part" for c in components)
    return str(next(iter(defaults))) if len(defaults) == 1 and fasteners_only else ""


def _unit_hint(wanted: Wanted, components: list[Component]) -> list[str]:
    """A unit alone says which property is meant where only one fits: "ft lbs" a torque, "quarts" an amount."""
    if wanted.unit is None:
        return []
    from benchbot.understanding.properties import dimension_of

    hinted = {"torque": "torque", "volume": "capacity", "pressure": "pressure"}.get(dimension_of(wanted.unit))
    return [hinted] if hinted and any(hinted in c.properties or c.kind == "part" for c in components) else []


def _wants_a_fastener(clear: list[str], components: list[Component]) -> bool:
    """A torque, socket or thread asked of a part means the fasteners of that part."""
    asked = [p for p in clear if p in _FASTENER_PROPERTIES]
    return bool(asked) and not any(p in c.properties for p in asked for c in components)
