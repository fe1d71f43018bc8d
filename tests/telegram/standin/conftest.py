"""One stand-in for all tests of a module, which begin anew with the same people."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from .rig import Rig


@pytest.fixture(scope="module")
def _rig() -> Iterator[Rig]:
    with Rig() as rig:
        yield rig


@pytest.fixture
def rig(_rig: Rig, monkeypatch: pytest.MonkeyPatch) -> Rig:
    # python-telegram-bot 22.8 warns at every RetryAfter unless its seconds are wanted as a timedelta.
    monkeypatch.setenv("PTB_TIMEDELTA", "true")
    return _rig.people()
