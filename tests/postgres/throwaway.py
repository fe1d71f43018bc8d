"""Starts a PostgreSQL server in a folder of its own that nobody else can reach, and ends it."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib.util import find_spec
from itertools import count
from pathlib import Path
from typing import Any, NoReturn

import pytest
from sqlalchemy import create_engine, make_url, text
from sqlalchemy.exc import OperationalError
from sqlalchemy.pool import NullPool

PASSWORD = "not-to-be-told"
# Debian and Ubuntu keep the server's programs there, out of the search path (pg_wrapper(1), package postgresql-common).
_USUAL = Path("/usr/lib/postgresql")
_START_SECONDS, _END_SECONDS = 60.0, 60.0
# Nothing here has to outlive a power cut.
_SETTINGS = ("fsync=off", "synchronous_commit=off", "full_page_writes=off", "shared_buffers=32MB", "max_connections=60")
# Ends the server when its standard input closes: at the end of the tests, and also when their process is killed.
_KEEPER = '"$@" </dev/null & server=$!; read -r _; kill -QUIT "$server"; wait "$server"; rm -rf "$0"'


@dataclass(frozen=True, slots=True)
class Server:
    """A running server; it is reached through a socket in its folder alone."""

    folder: Path
    _numbers: count[int] = field(default_factory=lambda: count(1))
    _made: list[str] = field(default_factory=list)

    def url(self, database: str) -> str:
        return f"postgresql+psycopg://shop:{PASSWORD}@/{database}?host={self.folder}"

    def database(self, template: str = "template1") -> str:
        """The URL of a new database, a copy of another one to which nobody is connected."""
        name = f"shop{next(self._numbers)}"
        self.run(f"CREATE DATABASE {name} TEMPLATE {template}")
        self._made.append(name)
        return self.url(name)

    def drop(self) -> None:
        """Drops every database that was made so: what has reached the disk takes long to remove."""
        while self._made:
            self.run(f"DROP DATABASE {self._made.pop()} WITH (FORCE)")

    def run(self, statement: str, database: str = "postgres", **values: Any) -> list[tuple[Any, ...]]:
        """What a statement gives that is sent as the server's owner, outside of any transaction."""
        engine = create_engine(self.url(database), poolclass=NullPool, isolation_level="AUTOCOMMIT")
        with engine.connect() as connection:
            done = connection.execute(text(statement), values)
            return [tuple(row) for row in done] if done.returns_rows else []


def name_of(url: str) -> str:
    """The database that a URL of ours names."""
    return str(make_url(url).database)


@contextmanager
def throwaway_server() -> Iterator[Server]:
    """Runs while the block does. Skips the test, or fails it, where there is no server or no driver."""
    if find_spec("psycopg") is None:
        lacking("the Python package psycopg is not installed; install benchbot[server]")
    account = _account()
    folder = Path(tempfile.mkdtemp(prefix="pg"))
    try:
        if account is not None:
            os.chown(folder, account, -1)
        _made(folder, account)
        with _running(folder, account):
            yield Server(folder)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        assert not folder.exists(), f"{folder} is left"


def lacking(what: str) -> NoReturn:
    """Skips the test, but where everything has to be tested it fails."""
    if os.environ.get("BENCHBOT_CI") == "1":
        pytest.fail(f"{what}, and BENCHBOT_CI=1 leaves no test out", pytrace=False)
    pytest.skip(what)


def program(name: str) -> Path:
    """One of the server's programs, of the newest server where there are several."""
    found = shutil.which("initdb")
    usual = sorted(_USUAL.glob("*/bin/initdb"), key=lambda path: float(path.parent.parent.name))
    folders = [Path(found).resolve().parent] if found is not None else []
    for folder in (*folders, *(path.parent for path in reversed(usual))):
        if (folder / name).exists():
            return folder / name
    lacking(f"PostgreSQL's {name} is not installed")


def _account() -> int | None:
    """The account that the server runs as, because it refuses root; None for our own."""
    if os.name == "nt" or os.geteuid() != 0:
        return None
    import pwd

    for name in ("postgres", "nobody"):
        try:
            return pwd.getpwnam(name).pw_uid
        except KeyError:
            continue
    lacking("PostgreSQL refuses to run as root, and there is no account postgres or nobody")


def _made(folder: Path, account: int | None) -> None:
    command = [
        str(program("initdb")), f"--pgdata={folder / 'cluster'}", "--username=shop", "--auth=trust", "--no-sync",
        "--encoding=UTF8", "--locale=C",
    ]  # fmt: skip
    about = subprocess.run([str(program("initdb")), "--help"], capture_output=True, text=True, check=True).stdout
    if "--icu-locale" in about:
        # Sorts and compares texts quite otherwise than SQLite does, so that whatever relies on that order is found.
        command += ["--locale-provider=icu", "--icu-locale=en-US"]
    done = subprocess.run(command, cwd=folder, user=account, env=_env(), capture_output=True, text=True, check=False)
    if done.returncode:
        pytest.fail(f"initdb ended with {done.returncode}:\n{done.stderr}")


@contextmanager
def _running(folder: Path, account: int | None) -> Iterator[None]:
    command = [str(program("postgres")), "-D", str(folder / "cluster"), "-k", str(folder), "-h", ""]
    command += [word for setting in _SETTINGS for word in ("-c", setting)]
    log = folder / "log.txt"
    with (
        log.open("wb") as said,
        subprocess.Popen(
            ["sh", "-c", _KEEPER, str(folder), *command], cwd=folder, user=account, env=_env(), stdin=subprocess.PIPE,
            stdout=said, stderr=said, start_new_session=True,
        ) as keeper,
    ):  # fmt: skip
        assert keeper.stdin is not None
        try:
            _await(Server(folder), keeper, log)
            yield
        finally:
            keeper.stdin.close()
            keeper.wait(_END_SECONDS)


def _await(server: Server, keeper: subprocess.Popen[bytes], log: Path) -> None:
    until = time.monotonic() + _START_SECONDS
    while True:
        try:
            server.run("SELECT 1")
        except OperationalError:
            if keeper.poll() is not None or time.monotonic() > until:
                pytest.fail(f"the server did not start:\n{log.read_text(encoding='utf-8')}")
            time.sleep(0.05)
        else:
            return


def _env() -> dict[str, str]:
    """English messages, and no setting of another server's client."""
    return {name: value for name, value in os.environ.items() if not name.startswith(("PG", "LC_"))} | {"LC_ALL": "C"}
