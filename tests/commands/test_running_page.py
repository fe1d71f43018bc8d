"""What docs/running.md, the service file and the container file say agrees with the program."""

from __future__ import annotations

import configparser
import re
import shlex
import shutil
import subprocess
from pathlib import Path

import pytest

from benchbot.__main__ import _parser
from benchbot.channels.telegram.leaving import ACT, AGAIN, ASKED, USAGE
from benchbot.channels.telegram.running import STOP_SECONDS
from benchbot.channels.telegram.settings import Settings
from benchbot.channels.telegram.watch import GRACE_SECONDS

ROOT = Path(__file__).resolve().parent.parent.parent
PAGE = (ROOT / "docs" / "running.md").read_text(encoding="utf-8")
UNIT = ROOT / "docs" / "benchbot.service"
CONTAINER = (ROOT / "docs" / "Containerfile").read_text(encoding="utf-8")
SOURCES = "\n".join(path.read_text(encoding="utf-8") for path in sorted((ROOT / "benchbot").rglob("*.py")))
# A text of the program can be broken over lines of the source.
JOINED = re.sub(r'"\s*\n\s*f?"', "", SOURCES)


def unit() -> configparser.SectionProxy:
    """The service's settings; names may stand twice, the last one counts."""
    parser = configparser.ConfigParser(strict=False, interpolation=None, delimiters=("=",))
    parser.optionxform = str  # type: ignore[assignment,method-assign]
    parser.read(UNIT, encoding="utf-8")
    return parser["Service"]


def seconds(text: str) -> float:
    number, kind = re.fullmatch(r"(\d+)(min)?", text).groups()  # type: ignore[union-attr]
    return float(number) * (60 if kind else 1)


def commands() -> list[str]:
    """Every command of benchbot that the page tells somebody to run."""
    blocks = "\n".join(re.findall(r"^```(?:sh|ini)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL))
    blocks = re.sub(r"\s*\\\n\s*", " ", blocks)
    inline = re.findall(r"`shop ([^`]+)`", PAGE) + re.findall(r"`benchbot ([a-z][^`]+)`", PAGE)
    shop = re.findall(r"^shop (.+?)(?:\s+#.*)?$", blocks, re.MULTILINE)
    program = re.findall(
        r"(?<!--name )\bbenchbot (?!benchbot)((?:backup|restore|people|specs|telegram) .+?)'?$", blocks, re.M
    )
    return list(dict.fromkeys(one.replace("...", "x") for one in [*inline, *shop, *program]))


def test_the_page_names_enough_commands() -> None:
    assert len(commands()) > 12


@pytest.mark.parametrize("command", commands())
def test_every_command_of_the_page_is_one(command: str) -> None:
    words = shlex.split(re.sub(r"\$\(.*?\)", "3", command))
    assert _parser(words).parse_args(words).command == words[0]


def test_the_exit_codes_told_are_those_of_the_program() -> None:
    told = [int(code) for code in re.findall(r"^\| (\d+) \|", PAGE, re.MULTILINE)]
    assert told == [ASKED, ACT, USAGE, AGAIN]
    assert [int(code) for code in unit()["RestartPreventExitStatus"].split()] == [ACT, USAGE]
    assert unit()["Restart"] == "on-failure"


def test_the_service_gives_the_bot_its_time() -> None:
    assert seconds(unit()["WatchdogSec"]) > Settings("x").give_up_seconds + GRACE_SECONDS
    assert seconds(unit()["WatchdogSec"]) > 2 * Settings("x").polling_seconds
    assert seconds(unit()["TimeoutStopSec"]) > STOP_SECONDS + GRACE_SECONDS
    assert seconds(unit()["TimeoutStartSec"]) > Settings("x").give_up_seconds
    assert unit()["Type"] == "notify"


def test_every_setting_named_is_one() -> None:
    named = set(re.findall(r"BENCHBOT_[A-Z_]+", PAGE + UNIT.read_text(encoding="utf-8") + CONTAINER))
    assert named >= {"BENCHBOT_HOME", "BENCHBOT_TELEGRAM_TOKEN_FILE", "BENCHBOT_TELEGRAM_API_URL"}
    for name in named:
        assert f'"{name}"' in SOURCES, name


@pytest.mark.parametrize(
    "said",
    [
        "Ask your shop for an invite.",
        "I cannot tell whether my last message reached you.",
        "Show it",
        "another process polls this bot",
        "polls this bot on this machine already",
        "another process kept it busy for too long",
        "the record is damaged",
        "a restore was cut off here and the record has been written to since",
        "belongs to the account",
    ],
)
def test_what_the_page_quotes_is_said(said: str) -> None:
    assert said in " ".join(PAGE.split())
    assert said in JOINED


@pytest.mark.skipif(shutil.which("systemd-analyze") is None, reason="no systemd here to look the service through")
def test_systemd_takes_the_service(tmp_path: Path) -> None:
    text = UNIT.read_text(encoding="utf-8")
    backup, timer = re.findall(r"^```ini\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    for name, body in (("benchbot", text), ("benchbot-backup", backup)):
        # The program is not installed here.
        there = body.replace("/opt/benchbot/bin/benchbot telegram", f"{shutil.which('true')} telegram")
        (tmp_path / f"{name}.service").write_text(there, encoding="utf-8")
    (tmp_path / "benchbot-backup.timer").write_text(timer, encoding="utf-8")
    units = sorted(str(path) for path in tmp_path.iterdir())
    done = subprocess.run(
        ["systemd-analyze", "verify", "--man=no", "--recursive-errors=no", *units],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout + done.stderr) == (0, "")


def test_the_container_is_made_of_what_is_there() -> None:
    lines = re.sub(r"\\\n\s*", "", CONTAINER).splitlines()
    told = [line.split(maxsplit=1) for line in lines if line and not line.startswith("#")]
    assert [rest for word, rest in told if word == "FROM"] == ["python:3.11-slim"]
    assert "://" not in CONTAINER
    for word, rest in told:
        if word == "COPY":
            for source in rest.split()[:-1]:
                assert (ROOT / source).exists(), source
    words = [word for word, _ in told]
    assert words.index("RUN") < words.index("USER") < words.index("CMD")
    assert dict(told)["USER"] == "benchbot"
    assert dict(told)["VOLUME"] == '["/shop"]'
