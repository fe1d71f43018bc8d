"""A bay on a home of its own, with the demo book."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from bay import Bay

from benchbot.places import Home


@pytest.fixture
def bay(demo_shop: Home, tmp_path: Path) -> Iterator[Bay]:
    """Its record is new: no person and no location is known."""
    shutil.copy(demo_shop.book, tmp_path / "book.sqlite")
    opened = Bay(Home(tmp_path))
    yield opened
    opened.close()
