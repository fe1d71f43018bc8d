"""Damage that a message says of a part it has a figure of: what kind it is, and the message without those words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, get_args

from benchbot.measuring.words import PART, PARTS
from benchbot.outcomes import Sentence
from benchbot.quantities.units import tidy_signs
from benchbot.vocabulary.letters import fold

Kind = Literal["cracked", "soaked", "loose", "face", "broken"]
KINDS: tuple[Kind, ...] = get_args(Kind)
"""The worst first."""

_FACES = {"brake rotor": "rotor", "brake drum": "drum"}
_LININGS = frozenset({"brake pad", "brake shoe", "parking brake shoe"})
_MOST_SHOWN = 60
_SOAK = r"oil|grease|brake fluid|gear oil|axle fluid|fluid|aceite|grasa|liquido(?: de frenos)?"
_SAID: tuple[tuple[Kind, str], ...] = (
    ("cracked", r"(?:hair ?line |heat |small |little |big |surface )*(?:crack(?:s|ed|ing)?|crazing|crazed|fissures?|"
     r"heat check(?:s|ed|ing)?|split|agrietad[oa]s?|grietas?|rajad[oa]s?|rajaduras?|fisuras?)"),
    ("soaked", rf"(?:soaked|covered|wet|contaminated|drenched|saturated|coated|fouled|empapad[oa]s?|mojad[oa]s?|"
     rf"contaminad[oa]s?|manchad[oa]s?)(?: (?:in|with|by|from|de|con) (?:the )?(?:{_SOAK}))?|(?:oily|greasy|"
     rf"aceitos[oa]s?|grasos[oa]s?)|(?:{_SOAK})[ -]?(?:soaked|covered|contaminated|stained)|(?:con|tienen?|has|have|"
     rf"got|with|full of|some) (?:{_SOAK})(?: (?:on|in) (?:it|them|the (?:face|lining|friction)))?|(?:{_SOAK}) (?:is |"
     rf"got |all )*(?:on|onto|over|in|en) (?:it|them|one|the (?:face|lining|friction|pads?|shoes?|rotor|drum)|\w+)"),
    ("loose", r"(?:(?:lining|friction|material|it|they|balata|forro)s? )?(?:is |are |s )?(?:coming|came|come|"
     r"peel(?:ing|ed)|lift(?:ing|ed)|falling|fell|separat(?:ing|ed)|break(?:ing)?|broke|"
     r"letting) ?(?:off|away|from|loose|go)+"
     r"(?: (?:of )?(?:the |its )?(?:back(?:ing|er)? ?)?(?:plate|backer|shoe|lining))?|delaminat(?:ed|ing|ion)|debonded|"
     r"(?:loose|crumbl(?:ing|ed|y)|missing|torn|unglued)(?: (?:lining|friction|chunks?|pieces?|material))?|"
     r"despegad[oa]s?|desprendid[oa]s?|suelt[oa]s?"),
    ("face", r"(?:bad(?:ly)? |deep(?:ly)? |heavy |heavily |hard |lightly |slightly )*(?:scor(?:ed|ing)|score marks?|"
     r"groov(?:e|es|ed|ing|y)|goug(?:e|es|ed|ing)|scratch(?:es|ed)?|ridge[sd]?|blu(?:ed|ing|ish)|blue(?: (?:from heat|"
     r"spots?|marks?))?|purple|hard spots?|hot ?spots?|heat(?: (?:spots?|marks?|stress(?:ed)?|damaged?))?|"
     r"overheat(?:ed)?|burn(?:t|ed)|glaz(?:ed|ing)|pitt(?:ed|ing)|rust(?:ed|y)?(?: (?:out|through|away|thru))?|"
     r"corroded|rotted(?: out)?|warped|out of round|tapered|surcos?|rayad[oa]s?|rayas|azul(?:ad[oa]s?)?|quemad[oa]s?|"
     r"cristalizad[oa]s?|oxidad[oa]s?|torcid[oa]s?|alabead[oa]s?)(?: (?:deep|bad|badly|up|lining|face|edge))*"),
    ("broken", r"(?:broken|broke|chipped|chips?|chunk(?:s|ed)?|bent|damaged?|dented|missing|rot[oa]s?|quebrad[oa]s?|"
     r"danad[oa]s?|doblad[oa]s?)"),
)  # fmt: skip
_LEAD = (
    r"(?:(?:but|and|with|has|have|its|it's|is|are|it|they|they're|a|an|some|the|y|pero|con|tiene|tienen|esta|estan) +)*"
)
_PATTERNS = tuple((kind, re.compile(rf"(?<![\w'-])(?:{said})(?![\w'-])")) for kind, said in _SAID)
_LED = re.compile(rf"(?<![\w']){_LEAD}$")
_DENIED = re.compile(
    r"(?<![\w'])(?:no|not|isn'?t|aren'?t|ain'?t|without|w/o|zero|never|sin|free of)(?: (?:a|any|signs? of|real|"
    r"esta|estan|tiene|ni))* *$"
)
# Words of damage that are none here: what is done to a bolt, and what it is locked with.
_NO_DAMAGE = re.compile(
    r"\bblue (?:loctite|thread ?locker)|\bcrack(?:ed|ing)? (?:it |them |the \w+ )?(?:loose|open)|\bheat ?shields?|"
    r"\bcrack the|\bloose (?:nut|bolt|lug|wheel)|\bdry or wet|\bwet or dry|\btapered (?:nut|seat)"
)


@dataclass(frozen=True, slots=True)
class Damage:
    """What a message says of damage.

    kinds: the worst first; said: the words, as the message has them. rest: the message without them. part: the
    component that it is of, "" where the message names none or several.
    """

    kinds: tuple[Kind, ...]
    said: str
    rest: str
    part: str = ""

    @property
    def sentence(self) -> Sentence:
        """The rule, as far as the message by itself says whose damage it is."""
        return rule(self.kinds, self.said, self.part)


def damage_said(text: str) -> Damage | None:
    """The damage that a message says of a part with a figure; None where it says none, or of nothing measured.

    Damage that is denied ("no cracks") is no damage, and its words go too: kinds is then empty.
    """
    message = fold(tidy_signs(text)).replace("\u2019", "'")
    if not PART.search(message) or not _measures(message):
        return None
    spans: list[tuple[int, int]] = []
    kinds: list[Kind] = []
    words: list[str] = []
    held_out = [match.span() for match in _NO_DAMAGE.finditer(message)]
    for kind, pattern in _PATTERNS:
        for match in pattern.finditer(message):
            start, end = match.span()
            if any(start < stop and begin < end for begin, stop in (*spans, *held_out)):
                continue
            denied = _DENIED.search(message, 0, start)
            if denied is not None:
                spans.append((denied.start(), end))
                continue
            led = _LED.search(message, 0, start)
            spans.append((led.start() if led is not None else start, end))
            kinds.append(kind)
            words.append(match[0].strip())
    if not spans:
        return None
    rest, at = [], 0
    for start, end in sorted(spans):
        rest.append(message[at : max(at, start)])
        at = max(at, end)
    rest.append(message[at:])
    parts = {part for part, pattern in PARTS if pattern.search(message)}
    told = ", ".join(dict.fromkeys(words))[:_MOST_SHOWN]
    found = tuple(kind for kind in KINDS if kind in kinds)
    return Damage(found, told, " ".join(" ".join(rest).split()), parts.pop() if len(parts) == 1 else "")


def rule(kinds: tuple[str, ...], said: str, component: str) -> Sentence:
    """What the shop's rule says of damage to a component; component "": of whichever part it is."""
    worst = kinds[0]
    if component in _FACES:
        if worst == "cracked":
            return Sentence.of(f"cracked {_FACES[component]}", said=said)
        if worst in ("soaked", "face"):
            return Sentence.of(f"{worst} of a face", said=said)
    elif component in _LININGS:
        name = {"cracked": "cracked lining", "loose": "cracked lining", "soaked": "soaked lining"}.get(worst, "damaged")
        return Sentence.of(name, said=said)
    return Sentence.of("damaged", said=said)


def _measures(message: str) -> bool:
    """Whether a figure stands there that is more than a year: with a point, a stroke or a unit of length."""
    return _MEASURE.search(message) is not None


_MEASURE = re.compile(
    r"[0-9]*[.,][0-9]+|[0-9]+/[0-9]+|[0-9]+ *-?(?:mm|millim|milim|cm|in\b|inch|\"|thou|mils?\b|32nds?)|"
    r"\b(?:measure[sd]?|mics?|miced|mic'd|reads?|mide|medi|at|pads?|shoes?|rotors?|drums?) +[0-9]{1,3}\b"
)
