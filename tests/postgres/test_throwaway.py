"""Without a server or a driver the tests of this folder are left out, but never where everything has to be tested."""

from __future__ import annotations

from pathlib import Path

import pytest
import throwaway
from throwaway import Server, throwaway_server


@pytest.fixture(params=["driver", "server"])
def missing(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    if request.param == "driver":
        monkeypatch.setattr(throwaway, "find_spec", lambda name: None)
        return "psycopg is not installed; install benchbot"
    monkeypatch.setattr(throwaway, "_USUAL", tmp_path)
    monkeypatch.setenv("PATH", str(tmp_path))
    return "initdb is not installed"


def test_they_are_left_out(missing: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("BENCHBOT_CI", raising=False)
    with pytest.raises(pytest.skip.Exception, match=missing), throwaway_server():
        pass


def test_they_fail_where_everything_has_to_be_tested(missing: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BENCHBOT_CI", "1")
    with pytest.raises(pytest.fail.Exception, match=f"{missing}.*leaves no test out"), throwaway_server():
        pass


def test_the_server_listens_to_nobody_else(server: Server) -> None:
    assert server.run("SHOW listen_addresses") == [("",)]
    assert server.folder.stat().st_mode & 0o777 == 0o700
