"""benchbot procedures: the shop's own word for a step, and learning anew how people ask, from the command line."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from benchbot.__main__ import main
from benchbot.errors import KnowledgeError
from benchbot.people.register import People
from benchbot.places import Home, knowledge_folder
from benchbot.procedures.asked import FOLDER, LEARNED, learned_text
from benchbot.procedures.likeness import Weights
from benchbot.records.record import open_record
from benchbot.records.step_overrides import in_force

WHERE = ("disc-brake-front", "common/lift-and-support")


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Home:
    monkeypatch.setenv("BENCHBOT_HOME", str(tmp_path))
    monkeypatch.delenv("BENCHBOT_DATABASE_URL", raising=False)
    home = Home(tmp_path)
    from datetime import UTC, datetime

    with open_record(home) as record:
        People(record).add_location("North", "telegram 1", datetime(2026, 3, 2, tzinfo=UTC))
    return home


def test_it_learns_anew_from_what_stands_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    copy = Path(shutil.copytree(knowledge_folder(), tmp_path / "knowledge"))
    monkeypatch.setattr("benchbot.commands.procedures.knowledge_folder", lambda: copy)
    for path in (copy / FOLDER).glob("*.yaml"):
        path.unlink()
    (copy / FOLDER / "none.yaml").write_text("none:\n  - who has my lunch\n  - is lunch here\n", "utf-8")
    with pytest.raises(KnowledgeError):
        learned_text(copy)
    assert main(["procedures", "learn"]) == 0
    assert "questions learned" in capsys.readouterr().out
    assert "none" in Weights.from_text(learned_text(copy)).steps
    (copy / FOLDER / "none.yaml").write_text("none: lunch\n", "utf-8")
    before = (copy / FOLDER / LEARNED).read_bytes()
    assert main(["procedures", "learn"]) == 1
    assert "asked/none.yaml line 1" in capsys.readouterr().err
    assert (copy / FOLDER / LEARNED).read_bytes() == before


def held(shop: Home) -> list[str]:
    with open_record(shop) as record:
        return [one.text for one in in_force(record)]


def test_it_is_kept_listed_and_ended(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["procedures", "override", "--location", "north", *WHERE, "Bay 3 only"]) == 0
    assert held(shop) == ["Bay 3 only"]
    assert main(["procedures", "override", "--location", "North", *WHERE, "Bay 4 only"]) == 0
    assert held(shop) == ["Bay 4 only"]
    capsys.readouterr()
    assert main(["procedures", "overrides"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("North, disc-brake-front, common/lift-and-support: “Bay 4 only” (command line, ")
    assert main(["procedures", "end-override", "--location", "North", *WHERE]) == 0
    assert held(shop) == []
    assert main(["procedures", "end-override", "--location", "North", *WHERE]) == 1


@pytest.mark.parametrize(("words", "told"), [
    (["override", "--location", "Nowhere", *WHERE, "x"], "there is no location 'Nowhere'; there are: North"),
    (["override", "--location", "North", "brakes", WHERE[1], "x"], "There is no procedure 'brakes'"),
    (["override", "--location", "North", WHERE[0], "nothing", "x"], "has no step 'nothing'"),
    (["override", "--location", "North", *WHERE, "to 105 N·m"], "Such figures come from the book alone"),
    (["steps", "brakes"], "there is no procedure 'brakes'"),
])  # fmt: skip
def test_what_does_not_fit_is_refused(
    shop: Home, capsys: pytest.CaptureFixture[str], words: list[str], told: str
) -> None:
    assert main(["procedures", *words]) == 1
    assert told in capsys.readouterr().err
    assert held(shop) == []


def test_the_keys_can_be_looked_up(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["procedures", "steps"]) == 0
    assert "disc-brake-front: Front disc brake service" in capsys.readouterr().out
    assert main(["procedures", "steps", "disc-brake-front"]) == 0
    assert " 3 common/lift-and-support: Lift and support" in capsys.readouterr().out
