"""The shop of these tests, on a record of its own."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from job_bay import Bay, url_in

from benchbot.records.record import open_record


@pytest.fixture
def bay(tmp_path: Path) -> Iterator[Bay]:
    with open_record(url_in(tmp_path)) as record:
        yield Bay(record)
