"""Finds the components that a message names: splits its trade words into the phrases that explain them best."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import product

from benchbot.understanding.lexicon import Candidate
from benchbot.understanding.work import Work
from benchbot.vocabulary.terms import Phrase

# What a way of reading costs. The cheapest is taken; those hardly dearer are read as well and must agree with it.
_GROUP = 0.4
_LEFT_OVER = 2.2
_LEFT_OVER_WEAK = 0.25
_ALSO_UNUSED = 0.9
_HEARD_UNUSED = 0.7
_HEARD_ALONE = 0.6
_DOUBTED_UNUSED = 1.2
_DOUBTED_BESIDE = 0.4
_EVERYDAY_UNUSED = 0.3
_NOISE_UNUSED = 0.1
_HEARD = 0.4
_SLIP = 0.3
_SLIP_TO_WEAK = 0.25
_HOW_COST = {"heard": _HEARD, "autocorrect": _HEARD, "doubted": 0.5}
_APART = 0.12
_JOINER_INSIDE = 0.75
_COMMA_INSIDE = 0.45
_BREAK_INSIDE = 0.8
_STRANGER_INSIDE = 1.2
_PROPERTY_INSIDE = 0.5
_MARKS_INSIDE = {**dict.fromkeys(".?!;:", _BREAK_INSIDE), **dict.fromkeys("&+/", _JOINER_INSIDE), ",": _COMMA_INSIDE}
# stands for a word inside a phrase that only says where: "shock (upper) bolt"
_PASSED_OVER = Candidate("", "passed over")
_MARGIN = 0.2
_MOST_WAYS = 8
_MOST_ITEMS = 24
_MOST_ALTERNATIVES = 24

_HEADS = frozenset({"bolt", "nut", "screw", "plug", "stud", "fastener", "fitting", "pin"})
_OPPOSITES = {"upper": "lower", "lower": "upper", "inner": "outer", "outer": "inner"}
_BETWEEN_OPPOSITES = frozenset({"and", "n", "&", "+", "/", "or", "y", ",", "plus"})
_POSITION_NOUNS = frozenset({"axle", "wheel", "side", "end", "brake"})
_WEAK = frozenset({"brake", "upper", "lower", "inner", "outer", "front", "rear", "wheel", "left", "right", "side"})


@dataclass(frozen=True, slots=True)
class Group:
    """Tokens that together name a component."""

    places: tuple[int, ...]
    phrase: Phrase
    words: frozenset[str]
    slips: int = 0


@dataclass(slots=True)
class Item:
    """A token that can be a word of a component's name; `unused` is what it costs to leave it out."""

    at: int
    candidates: list[Candidate]
    unused: float


@dataclass(slots=True)
class Way:
    """One way to split the trade words into groups."""

    cost: float = 0.0
    groups: list[Group] = field(default_factory=list)
    left: list[int] = field(default_factory=list)


@dataclass(slots=True)
class Parts:
    """The best ways to read the components; the first is the best."""

    ways: list[Way]
    items: list[Item]


def read_parts(work: Work) -> Parts:
    """Every plausible grouping of the trade words; nothing is taken yet."""
    items = _items(work, autocorrected=False)
    ways = _ways(work, items)
    if not (ways and ways[0].groups) and any(work.lexicon.names_property(token.text) for token in work.tokens):
        # "router runout": a lone misheard word is the component where a property has none
        ways = _ways(work, items, heard_alone=0.0 - _HEARD)
    if not ways or not ways[0].groups or ways[0].left:
        more = _items(work, autocorrected=True)
        if len(more) > len(items):
            better = _ways(work, more)
            if better and better[0].groups and len(better[0].left) < len(ways[0].left if ways else [0] * 99):
                return Parts(better, more)
            if better and better[0].groups and not (ways and ways[0].groups):
                return Parts(better, more)
    return Parts(ways, items)


def _items(work: Work, autocorrected: bool) -> list[Item]:
    found: list[Item] = []
    lexicon = work.lexicon
    for at, token in enumerate(work.tokens):
        if token.kind != "word" or not work.free(at):
            continue
        exact = [c for c in lexicon.canonical(token.text) if c.word in lexicon.part_words]
        if exact:
            everyday = token.text in lexicon.function or token.text in lexicon.chatter
            weak = all(c.word in _WEAK for c in exact) or _after_position(work, at, exact)
            also = lexicon.is_property_word(token.text) or lexicon.is_position_or_qualifier(token.text)
            unused = _LEFT_OVER_WEAK if weak else _EVERYDAY_UNUSED if everyday else _ALSO_UNUSED if also else _LEFT_OVER
            heard = [c for c in lexicon.heard_as(token.text) if c.word in lexicon.part_words]
            found.append(Item(at, exact + heard, unused))
            continue
        heard = [c for c in lexicon.heard_as(token.text) if c.word in lexicon.part_words]
        if heard:
            joiner = work.in_list(at, "joiners") > 0
            unused = _NOISE_UNUSED if joiner else _HEARD_UNUSED if lexicon.is_known(token.text) else _LEFT_OVER
            found.append(Item(at, heard, unused))
            continue
        if not lexicon.is_known(token.text):
            rescued = list(lexicon.rescued(token.text))
            parts = [c for near in rescued for c in _as_parts(work, near)]
            if parts and lexicon.near_noise(token.text):
                # as near to an everyday word: "whitch" is which before it is hitch
                doubted = [Candidate(c.word, "doubted", c.slips) for c in parts]
                found.append(Item(at, doubted, _DOUBTED_UNUSED))
            elif parts and len(parts) >= len({c.word for c in rescued if not lexicon.is_position_or_qualifier(c.word)}):
                found.append(Item(at, parts, _LEFT_OVER))
            elif parts:
                found.append(Item(at, parts, _ALSO_UNUSED + _SLIP))
            continue
        if autocorrected and token.text in lexicon.chatter and token.text not in lexicon.function:
            near = list(lexicon.near_parts(token.text))
            if near:
                found.append(Item(at, near, _NOISE_UNUSED))
    if found and all(item.unused <= _LEFT_OVER_WEAK for item in found):
        # "wheel torque": a word that elsewhere adds nothing is all there is
        for item in found:
            if any(lexicon.phrase(frozenset({candidate.word})) for candidate in item.candidates):
                item.unused = _LEFT_OVER
    return found[:_MOST_ITEMS]


def _as_parts(work: Work, near: Candidate) -> list[Candidate]:
    """The component words that a rescued word stands for (a rescued short form is read through its form)."""
    lexicon = work.lexicon
    return [
        Candidate(c.word, near.how, near.slips) for c in lexicon.canonical(near.word) if c.word in lexicon.part_words
    ]


def _after_position(work: Work, at: int, candidates: list[Candidate]) -> bool:
    """Example: "front axle", "rear wheel": the noun only carries the position, unless a phrase needs it."""
    if not all(c.word in _POSITION_NOUNS for c in candidates):
        return False
    before = work.next_at(at, -1)
    return before >= 0 and any(
        (word,) in work.lexicon.position_phrases for word in (work.text(before), work.text(before).rstrip("s"))
    )


def _ways(work: Work, items: list[Item], heard_alone: float = _HEARD_ALONE) -> list[Way]:
    """The cheapest ways to cover the items from the right end on, all within the margin of the best."""
    best: list[list[Way]] = [[] for _ in range(len(items) + 1)]
    best[len(items)] = [Way()]
    for start in range(len(items) - 1, -1, -1):
        here: list[Way] = []
        item = items[start]
        for rest in best[start + 1]:
            left = [item.at, *rest.left] if item.unused >= _LEFT_OVER else rest.left
            here.append(Way(rest.cost + item.unused, rest.groups, left))
        for end in range(start + 1, min(len(items), start + work.lexicon.longest_part + 1) + 1):
            for group, cost in _groups(work, items[start:end], heard_alone):
                for rest in best[end]:
                    here.append(Way(rest.cost + cost, [group, *rest.groups], rest.left))
        best[start] = _cheapest(here)
    return best[0]


def _cheapest(ways: list[Way]) -> list[Way]:
    ways.sort(key=lambda way: way.cost)
    kept: list[Way] = []
    seen: set[tuple[tuple[tuple[int, ...], tuple[str, ...]], ...]] = set()
    for way in ways:
        if kept and way.cost > kept[0].cost + _MARGIN:
            break
        key = tuple((group.places, group.phrase.means) for group in way.groups)
        if key not in seen:
            seen.add(key)
            kept.append(way)
        if len(kept) == _MOST_WAYS:
            break
    return kept


def _groups(work: Work, items: list[Item], heard_alone: float) -> list[tuple[Group, float]]:
    found: list[tuple[Group, float]] = []
    places = tuple(item.at for item in items)
    distance = _inside(work, places)
    tried = 0
    inner = {item.at: item.unused for item in items[1:-1] if item.unused == _LEFT_OVER_WEAK}
    spans = [[*item.candidates, _PASSED_OVER] if item.at in inner else item.candidates for item in items]
    for whole in product(*spans):
        tried += 1
        if tried > _MOST_ALTERNATIVES:
            break
        choice = [candidate for candidate in whole if candidate is not _PASSED_OVER]
        words = frozenset(candidate.word for candidate in choice)
        if len(words) < len(choice) - 1:
            continue
        phrase = work.lexicon.phrase(words)
        if phrase is None or all(candidate.how == "autocorrect" for candidate in choice):
            continue
        cost = _GROUP + distance
        slips = 0
        for candidate in choice:
            slips += candidate.slips
            cost += _HOW_COST.get(candidate.how, _SLIP * candidate.slips)
            if candidate.how == "doubted" and len(choice) > 1:
                cost += _DOUBTED_BESIDE
            if candidate.slips and candidate.word in _WEAK:
                cost += _SLIP_TO_WEAK
        if len(choice) == 1 and choice[0].how == "heard":
            cost += heard_alone
        kept = tuple(at for at, candidate in zip(places, whole, strict=True) if candidate is not _PASSED_OVER)
        cost += sum(unused for at, unused in inner.items() if at not in kept)
        found.append((Group(kept, phrase, words, slips), cost))
    return found


def _inside(work: Work, places: tuple[int, ...]) -> float:
    """What stands between the words of a phrase and makes it less likely that they belong together."""
    cost = 0.0
    taken = set(places)
    for at in range(places[0] + 1, places[-1]):
        if at in taken:
            continue
        text = work.text(at)
        if work.tokens[at].kind != "mark" and not work.in_list(at, "joining"):
            cost += _APART
        if work.tokens[at].kind == "mark":
            cost += _MARKS_INSIDE.get(text, 0.0)
        elif work.in_list(at, "joiners"):
            cost += _JOINER_INSIDE
        elif work.role(at) in ("vehicle", "year", "qualifier"):
            cost += 0.15
        elif work.lexicon.names_property(text):
            cost += _PROPERTY_INSIDE
        elif work.role(at) is None and not work.lexicon.is_known(text):
            cost += _STRANGER_INSIDE
        elif text in work.lexicon.chatter:
            cost += 0.3
    return cost


def merged(work: Work, groups: list[Group]) -> list[Group]:
    """The groups with second mentions and mere context taken out.

    A group whose words all stand in another's ("struts just went in") is a second mention. Two neighbours that can
    mean the same component are one ("shoes ... lining"). Both hold only where nothing joins the two.
    """
    kept = list(groups)
    for group in groups:
        for other in kept:
            if other is group or group not in kept:
                continue
            if group.words < other.words and not joined(work, group, other, commas=False):
                kept.remove(group)
                break
            if group.words == other.words and group.places > other.places and not joined(work, group, other):
                kept.remove(group)
                break
    at = 0
    while at + 1 < len(kept):
        left, right = kept[at], kept[at + 1]
        both = tuple(name for name in left.phrase.means if name in right.phrase.means)
        if both and not joined(work, left, right):
            always = left.phrase.always and right.phrase.always
            phrase = Phrase(left.phrase.words + right.phrase.words, both, always and len(both) > 1, left.phrase.ask)
            kept[at : at + 2] = [Group(left.places + right.places, phrase, left.words | right.words)]
        else:
            at += 1
    return kept


def coordinated(work: Work, groups: list[Group]) -> list[Group]:
    """The groups with those added that share their words: "upper and lower ball joint nuts" are two."""
    found: list[Group] = []
    for n, group in enumerate(groups):
        if n + 1 < len(groups) and joined(work, group, groups[n + 1], commas=False):
            group = _with_shared_head(work, group, groups[n + 1])
        for word, opposite in _OPPOSITES.items():
            if word not in group.words:
                continue
            at = _joined_before(work, group.places[0])
            if at is None or opposite not in {c.word for c in work.lexicon.canonical(work.text(at))}:
                continue
            words = group.words - {word} | {opposite}
            phrase = work.lexicon.phrase(words)
            if phrase is not None:
                found.append(Group((at,), phrase, words))
        found.append(group)
    return found


def _with_shared_head(work: Work, group: Group, after: Group) -> Group:
    """The first of "ubj and lbj nuts" gets the head of the second, where that makes a name."""
    heads = after.words & _HEADS
    parts = all(work.lexicon.component(name).kind == "part" for name in group.phrase.means)
    between = [work.text(at) for at in range(group.places[-1] + 1, after.places[0])]
    if not heads or group.words & _HEADS or not parts or len(between) != 1:
        return group
    for head in sorted(heads):
        phrase = work.lexicon.phrase(group.words | {head})
        if phrase is not None:
            return Group(group.places, phrase, group.words | {head}, group.slips)
    return group


def _joined_before(work: Work, at: int) -> int | None:
    """The place of the word that "and", "or", "&" ... joins to the word at `at`."""
    joiner = at - 1
    if joiner < 1 or work.text(joiner) not in _BETWEEN_OPPOSITES:
        return None
    return joiner - 1 if work.free(joiner - 1) else None


def joined(work: Work, one: Group, other: Group, commas: bool = True) -> bool:
    """Whether "and", "+", "," ... stands between two groups."""
    first, second = (one, other) if one.places[0] < other.places[0] else (other, one)
    for at in range(first.places[-1] + 1, second.places[0]):
        if work.tokens[at].kind == "mark" and work.text(at) in ("&+,/" if commas else "&+/"):
            return True
        if work.in_list(at, "joiners") or work.text(at) in ("or", "vs"):
            return True
    return False


def is_head(word: str) -> bool:
    """Whether the word only says what kind of fastener it is."""
    return word in _HEADS
