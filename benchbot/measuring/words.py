"""The words that measuring is told in: what took the figure, where, and what is asked of it.

Common practice, no source. Every pattern is for text in small letters.
"""

from __future__ import annotations

import re

# Said of a figure, wherever it stands in the message.
TAKEN = re.compile(
    r"\b(?:measure(?:d|s|ment|ments)?|measuring|meas|mesur(?:ed|es|e)|measurd|meausred|mics|mic'?e?d|micced|mic(?= )|"
    r"mike[ds]?|miked|reads|readings?|gau?ged|medi(?:da|do)?|midi(?:o)?|miden?|marcan?)\b"
)
# Said of a figure only right before it.
BEFORE = re.compile(
    r"(?:\b(?:got|get|getting|at|down to|worn to|only|now|says?|shows?|showing|dial|indicator|have|has|read|is|are|was|"
    r"were|came out to|quedan?|estan? en|tienen?|en)\b|[=:]) *(?:about |around |like |a |just |only |at |~ ?|right )*$"
)
FILL = re.compile(
    r"^(?:[ ,:=~-]|\b(?:at|is|are|about|around|the|a|was|it|out|to|in|my|on|this|one|each|both|sides?|como|en|el|la|"
    r"los|las|del|de)\b)*$"
)
# What is left of a pad, behind the figure.
REMAINING = re.compile(r"^ *(?:left|remaining|to go|of (?:pad|lining|meat|life)|de (?:balata|pastilla|grosor))\b")
JUDGE = re.compile(
    r"\b(?:(?:is|are) (?:it|that|this|they|these) )?(?:still |all |todavia |aun )*"
    r"(?:good|ok|okay|fine|safe|legal|usable|serviceable|reusable|alright|bueno|buena|buenas|sirven?|pasan?)"
    r"(?: (?:to (?:go|use|run|reuse|drive|put back|"
    r"(?:be )?(?:turn|machine|cut|skim|resurface)(?:e?d|ned|med)?)|or (?:not|no|junk|bad|toss|replace|trash|"
    r"nah|what)|"
    r"enough|still|"
    r"yet|for now))*\b"
    r"|\b(?:can|could|should|do|may) (?:i|we|you) (?:just |still )?(?:re-?use|run|use|turn|machine|cut|resurface|keep|"
    r"send|skim|replace|toss)(?: (?:it|them|these|this|that|em))?\b"
    r"|\b(?:(?:is|are) (?:it|that|they) )?(?:ok|okay|good|enough|safe|thick enough|fine) (?:left |meat )?(?:to|for) "
    r"(?:be )?(?:turn(?:ed|ing)?|machin(?:e|ed|ing)|cut(?:ting)?|skim(?:med)?|resurfac(?:e|ed|ing)|"
    r"a (?:turn|cut|skim))\b"
    r"|\b(?:can|could|may|should) (?:it|they|that|this|these) (?:still )?be (?:turned|machined|cut|skimmed|"
    r"resurfaced|reused|used)\b"
    r"|\b(?:esta|estan|va|van) bien\b|\b(?:se |lo |la |los |las )?puede[ns]? (?:rectificar|usar|montar|"
    r"maquinar|tornear)(?:l[oa]s?|se)?\b|\baguantan?\b"
    r"|\b(?:with)?in spec\b|\bout of spec\b|\bin tolerance\b|\bkeep or toss\b"
    r"|\b(?:turn|use|reuse) or (?:replace|toss)\b"
    r"|\b(?:does|do|will|did|would) (?:it|they|that|this|these) (?:pass|make it|fly|go back on)\b"
    r"|\bpass(?:es)? or fail\b"
    r"|\b(?:do|does) (?:they|it|these) need (?:replacing|to be replaced)\b|\breplace\b(?= *\?)|\bpasses?\b(?= *\?)"
    r"|\bjunk\b(?= *\?)|\btoss (?:it|them)\b|\bbad(?= *\?)"
)
# A figure beside one of these may be the limit itself, which is only to be confirmed.
LIMIT_NAMED = re.compile(
    r"\b(?:min(?:imum|imo|s)?|max(?:imum|imo)?|limits?|limite|discard|scrap|descarte|specs?|nominal|new|nuevo|machine|"
    r"turn(?:ing)? to|torque|or|o)\b"
)
# What a part is to be machined to, right before the figure.
TURN_TO = re.compile(
    r"\b(?:(?:can|could|should|may|if) (?:i|we|you) )?(?:turn|cut|machine|skim|resurface|take|"
    r"rectificarl[oa]|rectificar)(?:ed|ing)?(?: (?:it|them|this|that|both|the|rotors?|down))* (?:to|a|hasta) *$"
)
WITH_PLATE = re.compile(
    r"\b(?:with|w/|incl(?:uding)?\.?|counting|con) *(?:the |la |its )?"
    r"(?:back(?:ing|er)?|steel|plate|placa)(?: ?plates?)?\b"
)
RUNS = re.compile(r"\b(?:run ?out|lro|tir|wobble|alabeo|variation|dtv|tv|parallelism|variacion)\b")
# The component that each word names, where a message has figures of several. "Linings" are of pads or of shoes.
PARTS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (part, re.compile(rf"\b(?:{said})\b"))
    for part, said in (
        ("brake rotor", r"rot[oae]rs?|dis[ck]s?|discos?"),
        ("brake pad", r"pads?|balatas?|pastillas?"),
        ("brake shoe", r"shoes?|zapatas?"),
        ("brake drum", r"drums?|tambor(?:es)?"),
    )
)
PART = re.compile(
    r"\b(?:rot[oae]rs?|dis[ck]s?|discos?|pads?|shoes?|linings?|drums?|balatas?|pastillas?|zapatas?|tambor(?:es)?)\b"
)

SIDES: tuple[tuple[re.Pattern[str], str, str], ...] = tuple(
    (re.compile(rf"(?<![\w'])(?:{said})(?![\w'])"), where, axle)
    for said, where, axle in (
        (r"l/?f", "left", "front"),
        (r"r/?f", "right", "front"),
        (r"l/?r", "left", "rear"),
        (r"r/?r", "right", "rear"),
        (r"f/?l", "left", "front"),
        (r"f/?r", "right", "front"),
        (r"r/?l", "left", "rear"),
        (r"left(?: hand)?(?: side)?|lh|lhs|izq|izquierd[oa]", "left", ""),
        (r"right(?: hand)?(?: side)?|rh|rhs|der|derech[oa]", "right", ""),
        (r"l", "left", ""),
        (r"r", "right", ""),
        (r"drivers?(?:'s)?(?: side)?|ds", "driver", ""),
        (r"pass(?:enger)?s?(?:'s)?(?: side)?|ps", "passenger", ""),
        (r"inner|inboard|inside|interior", "inner", ""),
        (r"outer|outboard|outside|exterior", "outer", ""),
        (r"front|frt|frnt|fronts|delanter[oa]s?", "", "front"),
        (r"rear|rears|tras(?:er[oa]s?)?", "", "rear"),
    )
)
OTHER_SIDE = {"left": "right", "right": "left", "driver": "passenger", "passenger": "driver", "inner": "outer",
              "outer": "inner"}  # fmt: skip
# These letters are sides only where their like is there too; "rr" alone is the rear.
SHORT = frozenset({"l", "r", "rr", "lr", "lf", "rf", "fl", "fr", "rl", "ds", "ps", "der", "inside", "outside", "right"})

UNIT = re.compile(
    r"(?P<gap> *-?)(?P<unit>mm|millimet(?:er|re)s?|milimetros?|cm|inch(?:es)?|in|pulgadas?|\"|thou(?:sandths)?|mils?|"
    r"milesimas?|um|microns?|micras?|micrometers?|32nds?)(?![a-z0-9])\.?"
)
UNITS = {"mi": "mm", "mm": "mm", "cm": "cm", "in": "in", "pu": "in", '"': "in", "um": "um", "th": "thou", "32": "32nds"}
THOUSANDTHS = re.compile(r"mils?|milesimas?")
# Behind a number these make it an engine, not a figure.
ENGINE = re.compile(
    r"^ *(?:t|td|tdi|turbo|diesel|d|l|lt|liters?|litres?|v6|v8|hybrid|engine|motor|gdi|cyl|hp|k|km|miles?|%|nm|ft|lbs?|"
    r"psi|x|deg|lugs?|studs?|studded|bolts?|amp|volts?|pot|piston)(?![a-z])"
)
SIZE = re.compile(r"^ *(?:brakes?|brks?|breaks?|wheels?|rims?|package|pkg|setup|rotors?|discs?|disks?|drums?)\b")
