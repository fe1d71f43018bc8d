"""Whether what was set on a tool is what the book says, for whichever door it is entered by."""

from __future__ import annotations

import re
from decimal import Decimal

from benchbot.calculators.factors import in_unit
from benchbot.errors import QuantityError
from benchbot.quantities import parse_value
from benchbot.quantities.amounts import Single, Span, Tolerance
from benchbot.quantities.units import tidy_signs

# A wrench cannot be read finer; common practice, no source.
_SAME_WITHIN = Decimal("0.02")


def agrees(set_to: str, target: str) -> bool:
    """Whether what was set is what the book says, as near as a wrench can be set; stages must be the same."""
    try:
        mine, theirs = parse_value("torque", set_to), parse_value("torque", target)
        if not isinstance(mine, Single):
            return _plain(set_to) == _plain(target)
        number = in_unit(mine.amount.number, mine.amount.unit, "N·m")
        if isinstance(theirs, Single):
            low = high = in_unit(theirs.amount.number, theirs.amount.unit, "N·m")
        elif isinstance(theirs, Span):
            low, high = (in_unit(one.number, one.unit, "N·m") for one in (theirs.low, theirs.high))
        elif isinstance(theirs, Tolerance):
            middle, within = (in_unit(one.number, one.unit, "N·m") for one in (theirs.middle, theirs.within))
            low, high = middle - within, middle + within
        else:
            return False
    except QuantityError:
        return False
    return low * (1 - _SAME_WITHIN) <= number <= high * (1 + _SAME_WITHIN)


def can_be_set(target: str) -> bool:
    """Whether a value of the book is one setting and no range to choose from."""
    try:
        return not isinstance(parse_value("torque", target), (Span, Tolerance))
    except QuantityError:
        return False


def _plain(text: str) -> str:
    return re.sub(r"[^\w+.;]", "", tidy_signs(text).casefold())
