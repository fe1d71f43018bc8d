"""A list longer than a screen, a page at a time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from benchbot.desk.sheets import Button
from benchbot.desk.wording import Wording

A_PAGE = 6
One = TypeVar("One")


def turned_to(whole: Sequence[One], page: int, code: str, words: Wording) -> tuple[list[One], list[Button]]:
    """What stands on that page (from 0, or the last one there is), and the buttons to its neighbours.

    code: what a button's code starts with, the number of a page behind it.
    """
    last = max(0, (len(whole) - 1) // A_PAGE)
    at = min(page, last)
    buttons = []
    if at:
        buttons.append(Button(words.previous_page, f"{code}{at - 1}"))
    if at < last:
        buttons.append(Button(words.next_page, f"{code}{at + 1}"))
    return list(whole[at * A_PAGE : (at + 1) * A_PAGE]), buttons
