"""All checks on one row, in the order in which a curator wants to read them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from benchbot.checking.bolt_load import bolt_load
from benchbot.checking.contradictions import contradictions
from benchbot.checking.found import Found
from benchbot.checking.outliers import outlier
from benchbot.checking.rows import Components, HeldRow, RowToCheck
from benchbot.checking.scopes import scope_sanity
from benchbot.checking.two_units import two_units
from benchbot.vocabulary.terms import Vocabulary


def check_row(row: RowToCheck, held: Sequence[HeldRow], vocabulary: Vocabulary, today: date) -> tuple[Found, ...]:
    """What is found of a row, by concern: two units, bolt load, outlier, contradiction, scope.

    held: the checked rows of the same component on any vehicle, and those of the same vehicle; the row's own
    revisions among them are left aside by their id. What passed is told too; what cannot be judged is not. One
    concern can have several findings. QuantityError or ValueError: a cell did not pass the check of the table.
    """
    components = Components(vocabulary)
    others = [other for other in held if not row.spec or other.spec != row.spec]
    one_by_one = (
        two_units(row),
        bolt_load(row, components.name(row.component)),
        outlier(row, others, components),
    )
    return (
        *(found for found in one_by_one if found is not None),
        *contradictions(row, others, components),
        *scope_sanity(row, others, components, today),
    )
