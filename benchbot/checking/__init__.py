"""Checking: what speaks against a row before anyone relies on it, judged from the row and the rows beside it alone."""

from __future__ import annotations

from benchbot.checking.found import CONCERNS, Concern, Found, Level
from benchbot.checking.row_check import check_row
from benchbot.checking.rows import HeldRow, RowToCheck

__all__ = ["CONCERNS", "Concern", "Found", "HeldRow", "Level", "RowToCheck", "check_row"]
