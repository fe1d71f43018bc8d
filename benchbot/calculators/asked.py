"""A message in plain bay words becomes a calculation, or one question back; anything else is left alone.

Every word must be one that the calculator knows: a vehicle's name or a part's leaves the message to the book.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from benchbot.calculators import conversion
from benchbot.calculators.questions import adapter, fluid, head, pads, rotor, torque_asked, wear, wrench
from benchbot.calculators.said import Message, Piece, cut
from benchbot.outcomes import Calculation, Choose
from benchbot.vocabulary.letters import fold

# What can be asked without a figure; all else without one is no question to a calculator.
_WORTH_READING = re.compile(
    r"exten[st]ion|crow|adapt|dog ?bone|\blast\b|chart|\btabla|gen[eé]ric|typical|ballpark|thumb|\binch\b|pulgada"
    r"|\bby (?:bolt |thread )?size|\bpor medida|accura|toleran|\bpata de|how far off",
    re.IGNORECASE,
)

_YEARS = range(1950, 2051)

Asked = Calculation | Choose | None

_LIGHT: tuple[Callable[[Message, str], Asked], ...] = (
    adapter.asked, wrench.asked, fluid.asked, rotor.asked, pads.asked, wear.asked,
)  # fmt: skip
_WORDS = frozenset().union(
    *(one.WORDS for one in (adapter, wrench, fluid, rotor, pads, wear, head, torque_asked))
)  # fmt: skip


def calculate(text: str, begun: str = "") -> Asked:
    """The calculation that the whole message asks for, or what is missing for it; None when it asks for anything else.

    begun: the key of the question that was asked back last (`Choose.key` about "sum"), or "". The message is
    tried as its answer first, and then by itself.
    """
    gone_on = _of_a_calculator(f"{begun} {text}") if begun else None
    if isinstance(gone_on, Calculation):
        return gone_on
    refused = torque_asked.out_of_a_load(fold(text))
    return refused or conversion.calculate(text) or _of_a_calculator(text) or gone_on


def _of_a_calculator(text: str) -> Asked:
    if not any(letter.isdigit() for letter in text) and not _WORTH_READING.search(text):
        return None
    message = cut(text, _WORDS)
    if message is None or any(_may_be_a_year(figure) for figure in message.figures("")):
        return None
    folded = fold(text)
    for asked in _LIGHT:
        found = asked(message, folded)
        if found is not None:
            return found
    refused = torque_asked.asked(message, folded)
    if refused is not None:
        return refused
    return _of_a_thread(message, folded) if message.of("thread") or message.says("thread", "hex") else None


def _may_be_a_year(figure: Piece) -> bool:
    return figure.number in _YEARS and figure.text.isdigit()


def _of_a_thread(message: Message, folded: str) -> Asked:
    # strengths come with the checks of whole tables, which few messages need
    from benchbot.calculators.questions import bolt

    return bolt.asked(message, folded) or head.asked(message, folded)
