"""The order of tightening: every stud once, always across, as evenly as the count allows."""

from __future__ import annotations

from itertools import pairwise

import pytest

from benchbot.pictures.tightening import ORDERS, STUDS, tightening_order


def apart(one: int, other: int, studs: int) -> int:
    """How many studs lie between two, the shorter way, and one more."""
    way = abs(one - other)
    return min(way, studs - way)


@pytest.mark.parametrize("studs", STUDS)
def test_every_stud_has_its_turn_and_the_first_is_the_first(studs: int) -> None:
    order = tightening_order(studs)
    assert sorted(order) == list(range(1, studs + 1))
    assert order[0] == 1


# Never to a neighbour: that is what crisscross means (common practice, no source). Three studs have neighbours only.
@pytest.mark.parametrize("studs", [n for n in STUDS if n >= 5])
def test_the_next_is_never_a_neighbour(studs: int) -> None:
    assert all(apart(one, other, studs) > 1 for one, other in pairwise(tightening_order(studs)))


@pytest.mark.parametrize("studs", [n for n in STUDS if n % 2 == 0])
def test_of_an_even_count_each_pair_lies_straight_across(studs: int) -> None:
    order = tightening_order(studs)
    assert all(apart(order[n], order[n + 1], studs) == studs // 2 for n in range(0, studs, 2))


@pytest.mark.parametrize("studs", STUDS)
def test_no_half_of_the_wheel_is_two_ahead_for_long(studs: int) -> None:
    """After each pair, the studs done on any half of the wheel and on the other half differ by two at the most."""
    order = tightening_order(studs)
    for count in range(2, studs + 1, 2):
        done = order[:count]
        for start in range(1, studs + 1):
            half = {(start + step - 1) % studs + 1 for step in range(studs // 2)}
            assert abs(2 * sum(stud in half for stud in done) - count) <= 2


# ASME PCC-1, cross pattern for 4 and 8 bolts (value from memory).
@pytest.mark.parametrize(("studs", "order"), [(4, (1, 3, 2, 4)), (8, (1, 5, 3, 7, 2, 6, 4, 8))])
def test_as_flanges_are_tightened(studs: int, order: tuple[int, ...]) -> None:
    assert tightening_order(studs) == order


def test_the_step_that_tells_it_tells_the_same() -> None:
    from benchbot.places import knowledge_folder

    text = (knowledge_folder() / "procedures" / "common.yaml").read_text(encoding="utf-8")
    for studs, order in ORDERS.items():
        if 3 < studs < 10:
            assert f"{studs} studs {'-'.join(map(str, order))}" in text


@pytest.mark.parametrize("studs", [0, 2, 7, 9, 12])
def test_a_count_without_an_order_is_refused(studs: int) -> None:
    with pytest.raises(ValueError, match="there is no order"):
        tightening_order(studs)
