"""Every example of the documents runs and shows what it says; tables and links agree with the program."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import get_args

import pytest

from benchbot.outcomes import Reason
from benchbot.places import Home, knowledge_folder
from benchbot.specs.columns import SPECS, VEHICLE_NAMES, WORDS
from benchbot.specs.properties import PROPERTIES
from benchbot.vocabulary.knowledge import load_vocabulary
from benchbot.vocabulary.qualifiers import KEYS

ROOT = Path(__file__).resolve().parent.parent
DOCS = sorted((ROOT / "docs").glob("*.md"))
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *DOCS]
ELSEWHERE = "## Two commands"
SKIPPED = "..."
_FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"\]\(([^)\s]+)\)")


@dataclass(frozen=True, slots=True)
class Block:
    """One fenced block of a page: its language, its text, the line it starts on, and what stands before it."""

    kind: str
    text: str
    line: int
    before: str


def blocks(page: Path) -> list[Block]:
    text = page.read_text(encoding="utf-8")
    return [
        Block(found[1], found[2], text[: found.start()].count("\n") + 1, text[: found.start()])
        for found in _FENCE.finditer(text)
    ]


def runnable(page: Path) -> list[Block]:
    """The blocks to run: all but the set-up commands, which a clean clone runs by itself."""
    kinds = ("console", "bash", "python", "csv", "text")
    found = [block for block in blocks(page) if block.kind in kinds and page.name != "DEVELOPERS.md"]
    return [block for block in found if not block.before.rpartition("\n## ")[2].startswith(ELSEWHERE[3:])]


def agrees(shown: list[str], told: list[str]) -> bool:
    """Whether the lines are those told; a line "..." stands for any number of lines, at a line's end for the rest."""
    if not told:
        return not shown
    if told[0] == SKIPPED:
        return any(agrees(shown[n:], told[1:]) for n in range(len(shown) + 1))
    if not shown:
        return False
    same = shown[0].startswith(told[0][:-3]) if told[0].endswith(SKIPPED) else shown[0] == told[0]
    return same and agrees(shown[1:], told[1:])


def run(command: list[str], folder: Path) -> subprocess.CompletedProcess[str]:
    env = {name: value for name, value in os.environ.items() if name != "BENCHBOT_DATABASE_URL"}
    scripts = str(Path(sys.executable).parent)
    env |= {"BENCHBOT_HOME": str(folder / "home"), "PYTHONIOENCODING": "utf-8", "USER": "curator"}
    env["PATH"] = os.pathsep.join((scripts, env.get("PATH", "")))
    return subprocess.run(
        command,
        cwd=folder,
        env=env,
        encoding="utf-8",
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        stdin=subprocess.DEVNULL,
        check=False,
    )


def run_console(block: Block, folder: Path, where: str) -> None:
    for part in re.split(r"^\$ ", block.text, flags=re.MULTILINE)[1:]:
        command, _, told = part.partition("\n")
        while told.startswith("> "):
            more, _, told = told.partition("\n")
            command += f"\n{more[2:]}"
        done = run(["bash", "-c", command], folder)
        assert agrees(done.stdout.rstrip("\n").split("\n"), told.rstrip("\n").split("\n")), (
            f"{where}: {command}\n{done.stdout}"
        )


@pytest.mark.parametrize("page", [page for page in PAGES if runnable(page)], ids=lambda page: page.name)
def test_the_examples_of_a_page_run(page: Path, tmp_path: Path, demo_shop: Home) -> None:
    (tmp_path / "home").mkdir()
    if page.name != "spec-table.md":
        shutil.copy(demo_shop.book, tmp_path / "home")
    output = ""
    for block in runnable(page):
        where = f"{page.name} line {block.line}"
        if block.kind == "csv":
            (name,) = re.findall(r"`(\w+\.csv)`", block.before.strip().rpartition("\n\n")[2])
            (tmp_path / name).write_text(block.text, encoding="utf-8")
        elif block.kind == "console":
            run_console(block, tmp_path, where)
        elif block.kind == "text":
            assert output == block.text, where
        else:
            script = [sys.executable, "-c"] if block.kind == "python" else ["bash", "-e", "-c"]
            done = run([*script, block.text], tmp_path)
            assert done.returncode == 0, f"{where}\n{done.stdout}"
            output = done.stdout


@pytest.mark.parametrize(
    ("shown", "told", "same"),
    [
        ("a\nb", "a\nb", True),
        ("a\nb", "a", False),
        ("a", "a\nb", False),
        ("a\nb\nc", "a\n...", True),
        ("a\nb\nc", "...\nc", True),
        ("a\nb\nc", "...\nb", False),
        ("a 12", "a ...", True),
        ("b 12", "a ...", False),
    ],
)
def test_how_outputs_are_compared(shown: str, told: str, same: bool) -> None:
    assert agrees(shown.split("\n"), told.split("\n")) is same


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_links_resolve(page: Path) -> None:
    for link in _LINK.findall(page.read_text(encoding="utf-8")):
        if "://" in link:
            continue
        name, _, heading = link.partition("#")
        target = (page.parent / name).resolve() if name else page
        assert target.is_file(), f"{page.name}: {link}"
        if heading:
            text = target.read_text(encoding="utf-8")
            headings = [re.sub(r"[^\w -]", "", line.lstrip("# ").lower()).replace(" ", "-") for line in
                        text.splitlines() if line.startswith("#")]  # fmt: skip
            assert heading in headings, f"{page.name}: {link}"


def test_every_document_is_linked_from_another() -> None:
    linked = {Path(link.partition("#")[0]).name for page in PAGES for link in _LINK.findall(page.read_text("utf-8"))}
    assert {page.name for page in DOCS} <= linked


def table_under(page: str, heading: str, header: str) -> list[list[str]]:
    """The cells of the first table with that header under a heading."""
    text = (ROOT / "docs" / page).read_text(encoding="utf-8")
    part = re.split(r"^#+ ", text.partition(f"\n{heading}\n")[2], maxsplit=1, flags=re.MULTILINE)[0]
    lines = part.partition(f"\n{header}\n")[2].split("\n\n")[0].splitlines()[1:]
    return [[cell.strip() for cell in line.strip().strip("|").split("|")] for line in lines]


def test_the_cautions_told_are_those_of_the_knowledge() -> None:
    cautions = load_vocabulary(knowledge_folder()).cautions.values()
    told = table_under("safety.md", "## The cautions", "| name | stands first | wording |")
    assert told == [[one.name, "yes" if one.first else "", one.text] for one in cautions]


@pytest.mark.parametrize(
    ("heading", "header", "columns"),
    [
        ("## Specs", "| column | required | what it holds |", SPECS.columns),
        ("## Vehicle names", "| column | what it holds |", VEHICLE_NAMES.columns),
        ("## Words", "| column | what it holds |", WORDS.columns),
        ("### What narrows a row", "| key | for example |", KEYS),
        ("### Properties and values", "| property | for example |", tuple(PROPERTIES)),
    ],
)
def test_the_columns_told_are_those_of_the_tables(heading: str, header: str, columns: tuple[str, ...]) -> None:
    assert [cells[0].strip("`") for cells in table_under("spec-table.md", heading, header)] == list(columns)


def test_the_required_columns_are_told() -> None:
    told = table_under("spec-table.md", "## Specs", "| column | required | what it holds |")
    assert [cells[0].strip("`") for cells in told if cells[1] == "yes"] == list(SPECS.required)


def test_every_value_told_for_a_property_can_be_entered() -> None:
    from benchbot.specs.figure import read_figure

    for cells in table_under("spec-table.md", "### Properties and values", "| property | for example |"):
        for value in re.findall(r"`([^`]+)`", cells[1]):
            assert read_figure(cells[0].strip("`"), value, "").value


def test_every_value_told_for_a_key_can_be_entered() -> None:
    from benchbot.specs.scope import read_scope

    for cells in table_under("spec-table.md", "### What narrows a row", "| key | for example |"):
        key = cells[0].strip("`")
        for value in re.findall(r"`([^`]+)`", cells[1]):
            assert read_scope(f"{key}={value}").pairs == ((key, value),)


def test_the_fields_and_reasons_told_are_those_of_the_contract() -> None:
    text = (ROOT / "docs" / "asking.md").read_text(encoding="utf-8")
    told = [
        cells[0].strip("`") for cells in table_under("asking.md", "## Batch questions", "| field | what it holds |")
    ]
    assert told == ["outcome", "specs", "choices", "gap", "reading", "text"]
    reasons = set(re.findall(r"`([^`]+)`", text.partition("A reason is one of:")[2]))
    assert reasons == set(get_args(Reason)) - {"no such choice"}


def test_the_maker_comes_first_in_readme_and_safety() -> None:
    for page in (ROOT / "README.md", ROOT / "docs" / "safety.md"):
        text = " ".join(page.read_text(encoding="utf-8").split())
        assert "maker's current service information, local codes and licensed practice" in text, page.name
