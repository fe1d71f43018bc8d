"""benchbot chat and benchbot demo at a terminal: typed into through a pseudo-terminal, with and without the extra."""

from __future__ import annotations

import os
import re
import sys

import pytest

from benchbot.commands.demo import MARK
from benchbot.places import Home

pexpect = pytest.importorskip("pexpect", reason="a pseudo-terminal is needed to type into")

ESCAPES = re.compile(r"\x1b\[[0-9;?]*[a-zA-Z]|\x1b[=>]|\r")


def typed_into(*words: str) -> pexpect.spawn:
    """benchbot at a terminal; it asks the terminal nothing that a test would have to answer."""
    environment = {**os.environ, "PROMPT_TOOLKIT_NO_CPR": "1", "TERM": "xterm", "COLUMNS": "120", "LINES": "40"}
    child = pexpect.spawn(
        sys.executable, ["-m", "benchbot", *words], env=environment, encoding="utf-8", timeout=60, dimensions=(40, 120)
    )
    child.delaybeforesend = None
    return child


def test_a_chat_at_a_terminal(shop: Home) -> None:
    pytest.importorskip("prompt_toolkit")
    child = typed_into("chat")
    child.expect("Ask for a figure")
    child.expect(">")
    child.send("16 ondrel axle nut front torque\r")
    child.expect("Which engine")
    child.expect("1  1.6")
    child.expect("2  2.0T")
    child.send("2\r")
    child.expect("90 N·m \\+ 60 deg")
    child.expect("Source: ")
    child.send("more\r")
    child.expect("Row F0006")
    child.send("why\r")
    child.expect("How I read that|no words to read")
    child.send("quit\r")
    child.expect("Bye")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    history = shop.chat_history.read_text(encoding="utf-8")
    assert "16 ondrel axle nut front torque" in history


def test_the_last_question_comes_back_with_the_up_key(shop: Home) -> None:
    pytest.importorskip("prompt_toolkit")
    child = typed_into("chat")
    child.expect(">")
    child.send("16 ondrel lugs torque\r")
    child.expect("105 N·m")
    child.expect(">")
    child.send("\x1b[A\r")
    child.expect("105 N·m")
    child.expect(">")
    child.sendeof()
    child.expect("Bye")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


@pytest.mark.parametrize("key", ["\x03", "\x04"])
def test_a_plain_chat_at_a_terminal_is_left_by_key(shop: Home, key: str) -> None:
    child = typed_into("chat", "--plain")
    child.expect("Ask for a figure")
    child.expect(">")
    child.send("16 ondrel lugs torque\r")
    child.expect("105 N·m")
    child.expect(">")
    child.send(key)
    if child.expect(["Bye", pexpect.TIMEOUT], timeout=10):
        # a key that falls between the prompt and the reading of it waits for the next one
        child.send(key)
        child.expect("Bye")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0


def test_the_chat_works_without_its_extra(shop: Home) -> None:
    """With neither library importable, the plain screen takes over, at a terminal too."""
    code = (
        "import sys; sys.modules['prompt_toolkit'] = sys.modules['rich'] = None; "
        "import importlib.util as u; found = u.find_spec; "
        "u.find_spec = lambda name, *a: None if name in ('prompt_toolkit', 'rich') else found(name, *a); "
        "from benchbot.__main__ import main; sys.exit(main(['chat']))"
    )
    child = pexpect.spawn(sys.executable, ["-c", code], encoding="utf-8", timeout=60)
    child.delaybeforesend = None
    child.expect(">")
    child.send("16 ondrel lugs torque\r")
    child.expect("105 N·m")
    child.send("quit\r")
    child.expect(pexpect.EOF)
    assert ESCAPES.sub("", child.before).strip().endswith("Bye.")
    child.close()
    assert child.exitstatus == 0


def test_the_demo_at_a_terminal_says_that_all_is_invented() -> None:
    child = typed_into("demo")
    child.expect_exact(MARK)
    child.expect(">")
    child.send("12 ondrel frt cal brkt bolt tq\r")
    child.expect("50 lb-ft")
    child.expect("current service information")
    child.expect_exact(MARK)
    child.expect(">")
    child.sendintr()
    child.expect("Bye")
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
