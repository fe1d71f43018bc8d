"""The rooms: imports run one way, light rooms stay light, and only the layout that belongs here is here."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "benchbot"

# From the ground up: a room may import from its own floor's rooms below only.
FLOORS = [
    {"errors"},
    {"places", "pictures"},
    {"quantities"},
    {"vocabulary"},
    {"specs", "procedures"},
    {"checking"},
    {"records"},
    {"people", "book"},
    {"understanding"},
    {"outcomes"},
    {"lookup", "calculators", "reply"},
    {"measuring"},
    {"conversation", "curation", "jobs"},
    {"desk"},
    {"following"},
    {"channels"},
    {"commands"},
    {"__main__"},
]
FLOOR_OF = {room: n for n, rooms in enumerate(FLOORS) for room in rooms}
HEAVY = {
    "pint", "pydantic", "sqlalchemy", "alembic", "sqlite_utils", "yaml", "telegram", "rich", "prompt_toolkit", "PIL",
    "segno", "reportlab",
}  # fmt: skip


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported_rooms(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module]
            if node.module == "benchbot":
                names = [f"benchbot.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        found |= {name.split(".")[1] for name in names if name.startswith("benchbot.")}
    return found


@pytest.mark.parametrize("path", sorted(PACKAGE.rglob("*.py")), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_imports_run_one_way(path: Path) -> None:
    room = room_of(path)
    if room == "__init__":
        assert not imported_rooms(path)
        return
    backward = {other for other in imported_rooms(path) if other != room and FLOOR_OF[other] >= FLOOR_OF[room]}
    assert not backward, f"{room} imports {backward}, which lies on its floor or above"


def test_every_room_has_a_floor() -> None:
    rooms = {room_of(path) for path in PACKAGE.rglob("*.py")} - {"__init__"}
    assert rooms <= set(FLOOR_OF)


def test_only_the_telegram_channel_imports_telegram() -> None:
    for path in PACKAGE.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        modules = [n.module or "" for n in ast.walk(tree) if isinstance(n, ast.ImportFrom)]
        modules += [alias.name for n in ast.walk(tree) if isinstance(n, ast.Import) for alias in n.names]
        if any(m == "telegram" or m.startswith("telegram.") for m in modules):
            assert path.relative_to(PACKAGE).parts[:2] == ("channels", "telegram"), path


@pytest.mark.parametrize("room", ["understanding.reader", "lookup.lookup", "book.reader", "conversation.conversation"])
def test_the_path_of_an_answer_is_light(room: str) -> None:
    code = f"import sys, benchbot.{room}; print(sorted(set(sys.modules) & {HEAVY!r}))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
