"""Gets the two servers that nobody here wrote, and starts and ends each as a process of its own."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import NoReturn

import pytest

API = "telegram-test-api"
API_VERSION = "4.2.1"
_HERE = Path(__file__).parent
_INSTALL_SECONDS = 30
_END_SECONDS = 5


@contextmanager
def telegram_test_api(kept: Path, folder: Path) -> Iterator[str]:
    """Its URL while it runs. kept: where it is installed once and found again; folder: for what it writes."""
    node = shutil.which("node")
    if node is None:
        lacking("node is not installed")
    module = _installed(kept / f"{API}-{API_VERSION}")
    with _running([node, str(_HERE / "telegram_test_api.js"), str(module)], folder) as url:
        yield url


@contextmanager
def telemelya(folder: Path) -> Iterator[str]:
    """Its URL while it runs. folder: for what it writes."""
    for name in ("telemelya", "fakeredis", "tornado"):
        if find_spec(name) is None:
            lacking(f"the Python package {name} is not installed; install benchbot[dev]")
    with _running([sys.executable, str(_HERE / "telemelya_server.py")], folder) as url:
        yield url


def lacking(what: str) -> NoReturn:
    """Skips the test, but where everything has to be tested it fails."""
    if os.environ.get("BENCHBOT_CI") == "1":
        pytest.fail(f"{what}, and BENCHBOT_CI=1 leaves no test out", pytrace=False)
    pytest.skip(what)


def _installed(target: Path) -> Path:
    """The folder of the package, installed by npm unless it is there already."""
    module = target / "node_modules" / API
    if module.is_dir():
        return module
    npm = shutil.which("npm")
    if npm is None:
        lacking(f"npm is not installed, and {API} is not here yet")
    # A folder with the right name is always a whole one, whatever stops npm.
    with tempfile.TemporaryDirectory(dir=target.parent, prefix="npm-") as name:
        fresh = Path(name) / "whole"
        command = [
            npm, "install", "--no-save", "--no-package-lock", "--ignore-scripts", "--no-audit", "--no-fund",
            "--fetch-retries=0", f"--prefix={fresh}", f"{API}@{API_VERSION}",
        ]  # fmt: skip
        fresh.mkdir()
        try:
            subprocess.run(command, cwd=fresh, check=True, capture_output=True, text=True, timeout=_INSTALL_SECONDS)
        except subprocess.TimeoutExpired:
            lacking(f"npm did not get {API} {API_VERSION} within {_INSTALL_SECONDS} s")
        except subprocess.CalledProcessError as error:
            lacking(f"npm cannot get {API} {API_VERSION}: {(error.stderr.splitlines() or [str(error)])[0]}")
        if not target.exists():
            fresh.rename(target)
    return module


@contextmanager
def _running(command: Sequence[str], folder: Path) -> Iterator[str]:
    """The URL that the process says first. It ends when we close its standard input, and so it does when we die."""
    log = folder / "server.log"
    with (
        log.open("w", encoding="utf-8") as said,
        subprocess.Popen(
            command, cwd=folder, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=said, text=True
        ) as process,
    ):
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            line = process.stdout.readline()
            if not line:
                pytest.fail(f"the server ended at its start:\n{log.read_text(encoding='utf-8')}")
            yield str(json.loads(line)["url"])
        finally:
            process.stdin.close()
            try:
                process.wait(_END_SECONDS)
            except subprocess.TimeoutExpired:
                process.kill()
