"""Trade words that no known component explains, and what they do to the components beside them."""

from __future__ import annotations

from itertools import pairwise

from benchbot.understanding.parts import Group, is_head
from benchbot.understanding.work import Work

# How the words of an unknown component are read.
UNTAUGHT = "a component that nobody taught me"
_HEAD_WORDS = frozenset({"bolt", "nut", "screw", "plug", "pin"})

# Whole assemblies that are often named around a fastener of theirs ("rear drum wheel cylinder bolts").
CONTEXT = frozenset(
    {"brake drum", "brake rotor", "brake pad", "brake shoe", "caliper", "wheel", "brake", "caliper bracket", "tire"}
)


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
        work.take(sorted(set(unknown)), "left over", UNTAUGHT)
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
    if fastens(work, left, right) or fastens(work, right, left):
        return False
    context = all(name in CONTEXT for name in left.phrase.means) and is_part_only(work, left)
    both = set(left.phrase.means) & set(right.phrase.means)
    return not context and not both


def _all_named_parts(work: Work, left: Group, right: Group) -> bool:
    both = (left.phrase.means, right.phrase.means)
    return all(len(means) == 1 or all(name in CONTEXT for name in means) for means in both)


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


def fastens(work: Work, fastener: Group, part: Group) -> bool:
    return any(set(work.lexicon.component(name).fastens) & set(part.phrase.means) for name in fastener.phrase.means)
