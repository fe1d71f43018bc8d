"""Which of the properties named in a message each component is asked for."""

from __future__ import annotations

from benchbot.understanding.parts import Group
from benchbot.understanding.properties import Wanted
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Component

_JOINERS = frozenset({"and", "n", "&", "+", "/", ",", "y", "plus", "also", "then"})


def distance(group: Group, at: int) -> float:
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
    return min(range(len(groups)), key=lambda n: distance(groups[n], at))


def clear_properties(work: Work, group: Group, components: list[Component], wanted: Wanted) -> list[str]:
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


def named_properties(work: Work, wanted: Wanted) -> tuple[str, ...]:
    """The properties named clearly, whatever component they are asked of; one named by the way gives way to others."""
    named = [name for at, name in wanted.clear if not _by_the_way(work, at)]
    return tuple(dict.fromkeys(named or [name for _, name in wanted.clear]))


def _by_the_way(work: Work, at: int) -> bool:
    return work.in_list(at, "by_the_way") > 0


def _joined_to(work: Work, at: int, other: int) -> bool:
    low, high = min(at, other), max(at, other)
    return any(work.text(i) in _JOINERS for i in range(low + 1, high))


def _what_fluid(work: Work, group: Group, components: list[Component]) -> list[str]:
    """Example: "what trans fluid", "which oil": the kind of fluid is asked, not the amount."""
    if any(c.kind != "fluid" for c in components):
        return []
    before = group.places[0] - 1
    while before >= 0 and (work.role(before) in ("vehicle", "year", "qualifier") or work.text(before) == "the"):
        before -= 1
    return ["fluid"] if work.text(before) in ("what", "which", "wat", "que", "cual") else []


def joined_after(work: Work, group: Group, wanted: Wanted) -> bool:
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
