"""Puts components, properties and positions together into the things that were asked for."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from benchbot.understanding.parts import Group, is_head, joined, merged
from benchbot.understanding.positions import Position, place_of
from benchbot.understanding.properties import Wanted
from benchbot.understanding.reading import Ask, Place
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Component, Phrase

# Whole assemblies that are often named around a fastener of theirs ("rear drum wheel cylinder bolts").
_CONTEXT = frozenset(
    {"brake drum", "brake rotor", "brake pad", "brake shoe", "caliper", "wheel", "brake", "caliper bracket", "tire"}
)
_HEAD_WORDS = frozenset({"bolt", "nut", "screw", "plug", "pin"})
_JOINERS = frozenset({"and", "n", "&", "+", "/", ",", "y", "plus", "also", "then"})
_FASTENER_PROPERTIES = ("torque", "socket", "thread")


def unknown_part(work: Work, groups: list[Group], left: list[int]) -> tuple[str, list[Group], list[int]]:
    """Trade words that no known component explains.

    Returns the unknown component's words ("" when there is none), the groups that stand, and the places of words
    that are only a second mention or too general to matter. A left-over trade word (or a word that nobody knows)
    right before a group makes that group a part of an unknown component: "exhaust bracket bolt" is no bracket bolt.
    """
    said = {word for group in groups for word in group.words}
    loose: list[int] = []
    strange: list[int] = []
    for at in left:
        words = {c.word for c in work.lexicon.canonical(work.text(at))}
        if words & said and not _modifies(work, at, groups):
            loose.append(at)
        else:
            strange.append(at)
    stand = list(groups)
    unknown: list[int] = []
    for group in groups:
        before = _stranger_before(work, group, strange) + _stranger_after(work, group, strange)
        if before:
            stand.remove(group)
            unknown += [*before, *group.places]
    for at in strange:
        if at in unknown:
            continue
        canonical = work.lexicon.canonical(work.text(at))
        head = bool(canonical) and all(is_head(c.word) for c in canonical)
        beside = _strangers_beside(work, at, strange)
        after = next((g for g in stand if _directly_after(work, g, at) and is_part_only(work, g)), None)
        if after is not None and head:
            stand.remove(after)
            unknown += [*after.places, at]
        elif head and not beside:
            loose.append(at)
        else:
            unknown += [*beside, at]
    for one, other in list(pairwise(stand)):
        if one in stand and other in stand and _is_compound(work, one, other):
            stand = [group for group in stand if group not in (one, other)]
            unknown += [*one.places, *other.places]
    name = " ".join(work.tokens[at].raw for at in sorted(set(unknown)))
    if unknown:
        work.take(sorted(set(unknown)), "left over", "a component that nobody taught me")
    return name, stand, loose


def _is_compound(work: Work, left: Group, right: Group) -> bool:
    """Two names side by side that make a third thing: "shock bracket bolt", "bleeder cap".

    Not so where one only says where the other is ("rear drum wheel cylinder bolt"), says it again, or where two bare
    parts stand in a row ("rotors pads min").
    """
    if work.next_at(left.places[-1], marks=True) != right.places[0] or left.words & right.words - _HEAD_WORDS:
        return False
    if is_part_only(work, left) and is_part_only(work, right):
        return not _all_named_parts(work, left, right)
    if _fastens(work, left, right) or _fastens(work, right, left):
        return False
    context = all(name in _CONTEXT for name in left.phrase.means) and is_part_only(work, left)
    both = set(left.phrase.means) & set(right.phrase.means)
    return not context and not both


def _all_named_parts(work: Work, left: Group, right: Group) -> bool:
    both = (left.phrase.means, right.phrase.means)
    return all(len(means) == 1 or all(name in _CONTEXT for name in means) for means in both)


def is_part_only(work: Work, group: Group) -> bool:
    return all(work.lexicon.component(name).kind != "fastener" for name in group.phrase.means)


def _modifies(work: Work, at: int, groups: list[Group]) -> bool:
    """Whether the left-over word stands directly before a group, where it would narrow its meaning."""
    after = work.next_at(at)
    return any(group.places[0] == after for group in groups) and not any(
        is_head(c.word) for c in work.lexicon.canonical(work.text(at))
    )


def _stranger_before(work: Work, group: Group, strange: list[int]) -> list[int]:
    """Words directly before a group that nothing explains: left-over trade words, or words nobody knows."""
    found: list[int] = []
    at = group.places[0] - 1
    while at >= 0 and work.free(at) and work.is_word(at):
        text = work.text(at)
        unknown = (
            not work.lexicon.is_known(text) and not work.lexicon.rescued(text) and not work.lexicon.near_noise(text)
        )
        if at not in strange and not unknown:
            break
        found.insert(0, at)
        at -= 1
    return found


def _stranger_after(work: Work, group: Group, strange: list[int]) -> list[int]:
    """A left-over trade word directly behind a fastener: "lug nut key" is no lug nut."""
    after = group.places[-1] + 1
    return [after] if after in strange or (work.free(after) and work.in_list(after, "goes_on")) else []


def _strangers_beside(work: Work, at: int, strange: list[int]) -> list[int]:
    found: list[int] = []
    for step in (-1, 1):
        here = at + step
        while 0 <= here < len(work.tokens) and work.free(here) and work.is_word(here):
            text = work.text(here)
            if here not in strange and (work.lexicon.is_known(text) or work.lexicon.near_noise(text)):
                break
            if work.lexicon.is_property_word(text):
                break
            found.append(here)
            here += step
    return found


def _directly_after(work: Work, group: Group, at: int) -> bool:
    return work.next_at(group.places[-1]) == at


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
    """ "bracket or slide pin bolt": one of the two is meant."""
    return any(work.text(at) in ("or", "vs", "versus") for at in range(one.places[-1] + 1, other.places[0]))


def _is_context(work: Work, group: Group, groups: list[Group], wanted: Wanted) -> bool:
    """A bare assembly that only says where the asked fastener is, or a second part that nothing is asked of."""
    if not is_part_only(work, group) or len(groups) == 1:
        return False
    if len(group.phrase.means) > 1 and all(name in _CONTEXT for name in group.phrase.means):
        # "handbrake shoes min lining": a general word beside the part itself
        return any(g is not group and len(g.phrase.means) == 1 and not joined(work, group, g) for g in groups)
    if _own_properties(work, group, wanted):
        return False
    others = [g for g in groups if g is not group and not is_part_only(work, g)]
    if any(_fastens(work, other, group) for other in others):
        return True
    if others and all(_said_apart(work, other, group) for other in others):
        return True
    if not all(name in _CONTEXT for name in group.phrase.means) and not group.phrase.always:
        return False
    return any(not joined(work, group, other) for other in others) and (
        all(name in _CONTEXT for name in group.phrase.means)
    )


def _said_apart(work: Work, fastener: Group, part: Group) -> bool:
    """Whether the part stands after the fastener in talk of its own ("... bolts, its puking oil")."""
    between = range(fastener.places[-1] + 1, part.places[0])
    talk = any(work.text(at) in work.lexicon.chatter for at in between)
    return talk and not joined(work, fastener, part, commas=False)


def _fastens(work: Work, fastener: Group, part: Group) -> bool:
    return any(set(work.lexicon.component(name).fastens) & set(part.phrase.means) for name in fastener.phrase.means)


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
        nearest = min(range(len(groups)), key=lambda n: _distance(groups[n], position.at))
        own[nearest].append(position)
    stated = [place_of(work, one) for one in own if one]
    if len(stated) == 1:
        # "front and rear pads and rotors": said once for all
        return [stated[0]] * len(groups)
    return [place_of(work, own[n]) if own[n] else Place() for n in range(len(groups))]


def _distance(group: Group, at: int) -> float:
    first, last = group.places[0], group.places[-1]
    if at < first:
        return first - at
    return at - last + 0.5 if at > last else 0.0


def wanted_by_group(work: Work, groups: list[Group], wanted: Wanted) -> list[Wanted]:
    """The properties that each component is asked for.

    With one component all are its own. With several, a property belongs to the component on its side of the word that
    joins them, or to the nearest; a component that gets none this way shares those of the others.
    """
    if len(groups) < 2:
        return [wanted] * len(groups)
    own = [Wanted(unit=wanted.unit) for _ in groups]
    for at, name in wanted.clear:
        own[_owner(work, groups, at)].clear.append((at, name))
    for at, phrase in wanted.vague:
        own[_owner(work, groups, at)].vague.append((at, phrase))
    return [
        one if one.clear or one.vague else wanted if _admits_any(work, group, wanted) else one
        for one, group in zip(own, groups, strict=True)
    ]


def _admits_any(work: Work, group: Group, wanted: Wanted) -> bool:
    """Whether a property named for another component can be shared by this one."""
    held = {p for name in group.phrase.means for p in work.lexicon.component(name).properties}
    if all(set(work.lexicon.component(name).properties) <= {"note"} for name in group.phrase.means):
        return True
    return any(name in held for _, name in wanted.clear) or any(held & set(p.means) for _, p in wanted.vague)


def _owner(work: Work, groups: list[Group], at: int) -> int:
    for n in range(len(groups) - 1):
        left, right = groups[n].places[-1], groups[n + 1].places[0]
        if not left < at < right:
            continue
        joiners = [i for i in range(left + 1, right) if work.text(i) in _JOINERS]
        if joiners:
            # "min and nominal on the rotor and ...": the last joiner is the one between the components
            return n if at < joiners[-1] else n + 1
    return min(range(len(groups)), key=lambda n: _distance(groups[n], at))


def _ask(work: Work, group: Group, wanted: Wanted, place: Place) -> Ask:
    lexicon = work.lexicon
    components = [lexicon.component(name) for name in group.phrase.means]
    clear = _clear_properties(work, group, components, wanted)
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
    if default and len(clear) == 1 and clear[0] != default and _joined_after(work, group, wanted):
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


def _clear_properties(work: Work, group: Group, components: list[Component], wanted: Wanted) -> list[str]:
    """The properties named clearly, with those that a joined vague word can only mean ("nominal and discard").

    A word that names a property only by the way ("how much torque", "what does it take") gives way to any other.
    """
    named = [(at, name) for at, name in wanted.clear if not _by_the_way(work, at)]
    held = {p for c in components for p in c.properties}
    if named or not wanted.clear:
        what = _what_fluid(work, group, components) if not named and not wanted.vague else []
        clear = [name for _, name in named] + what
    else:
        clear = _what_fluid(work, group, components) or [name for _, name in wanted.clear]
    for at, phrase in wanted.vague:
        meant = [p for p in phrase.means if p in held]
        if clear and len(meant) == 1 and not phrase.always and any(_joined_to(work, at, other) for other, _ in named):
            clear.append(meant[0])
    return list(dict.fromkeys(clear))


def _by_the_way(work: Work, at: int) -> bool:
    return work.in_list(at, "by_the_way") > 0


def _joined_to(work: Work, at: int, other: int) -> bool:
    low, high = min(at, other), max(at, other)
    return any(work.text(i) in _JOINERS for i in range(low + 1, high))


def _what_fluid(work: Work, group: Group, components: list[Component]) -> list[str]:
    """ "what trans fluid", "which oil": the kind of fluid is asked, not the amount."""
    if any(c.kind != "fluid" for c in components):
        return []
    before = group.places[0] - 1
    while before >= 0 and (work.role(before) in ("vehicle", "year", "qualifier") or work.text(before) == "the"):
        before -= 1
    return ["fluid"] if work.text(before) in ("what", "which", "wat", "que", "cual") else []


def _joined_after(work: Work, group: Group, wanted: Wanted) -> bool:
    """Whether the one property stands after the component and is joined to it."""
    if len(wanted.clear) != 1:
        return False
    end, at = group.places[-1], wanted.clear[0][0]
    between = range(end + 1, at)
    return (
        at > end
        and any(work.text(i) in _JOINERS - {","} for i in between)
        and all(work.role(i) in ("noise", None) or work.tokens[i].kind == "mark" for i in between)
    )


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
