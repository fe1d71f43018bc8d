"""A job on the command line: begun, walked, measured, tightened, explained, finished, exported."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest

from benchbot.__main__ import main
from benchbot.places import Home


class Sitting:
    """Commands of one person, in this process."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def ok(self, *words: str) -> str:
        assert main(["job", *words]) == 0, self._capsys.readouterr().err
        return self._capsys.readouterr().out

    def refused(self, *words: str) -> str:
        assert main(["job", *words]) == 1
        return self._capsys.readouterr().err


@pytest.fixture
def sitting(shop: Home, capsys: pytest.CaptureFixture[str]) -> Sitting:
    return Sitting(capsys)


def test_a_job_from_begin_to_export(sitting: Sitting, tmp_path: Path) -> None:
    job = sitting
    assert "nobody confirms wheels" in job.ok("rules")
    assert "80 km or 7 days" in job.ok("rules", "--distance", "80 km", "--days", "7", "--second-person", "on")
    assert "such as 80 km" in job.refused("rules", "--distance", "soon")
    assert "there are: ball-joint" in job.refused("begin", "2015 Brackwell Ondrel", "nonsense")
    for beside in ("tellrick's", "red tellrick", "plate 7ABC123"):
        assert "I cannot place" in job.refused("begin", f"2015 Brackwell Ondrel {beside}", "disc-brake-front")
    told = job.ok("begin", "2015 Brackwell Ondrel", "disc-brake-front", "--repair-order", "RO-5", "--by", "Dana")
    assert "step 1 of" in told
    assert "a digit at least" in job.refused("repair-order", "next", "--by", "Dana")
    assert "RO-6" in job.ok("repair-order", "RO-6", "--by", "Dana")
    assert "step 2 of" in job.ok("done", "--by", "Dana")
    assert "step 3 of" in job.ok("next", "--by", "Dana")
    assert "step 2 of" in job.ok("back", "--by", "Dana")
    assert "step 3 of" in job.ok("skip", "no", "hybrid", "--by", "Dana")
    rotor = ("measure", "brake rotor", "minimum thickness")
    assert "BAD" in job.ok(*rotor, "21.2", "mm", "--wheel", "front left", "--by", "Dana")
    assert "GOOD" in job.ok(*rotor, "23.4", "mm", "--wheel", "front left", "--after", "--by", "Dana")
    assert "unit" in job.refused(*rotor, "23.4", "furlongs", "--wheel", "front left", "--by", "Dana")
    assert "which wheel" in job.refused(*rotor, "23.4", "mm", "--by", "Dana")
    assert "There is no part 'zorb'" in job.refused("measure", "zorb", "minimum thickness", "2", "mm", "--by", "Dana")
    assert "brake rotor has no 'torque'" in job.refused("measure", "brake rotor", "torque", "2", "mm", "--by", "Dana")
    told = job.ok("measure", "brake pad", "minimum thickness", "6", "mm", "--wheel", "front right", "--by", "Dana")
    assert told.startswith(("GOOD", "not judged: the book holds no limit for it"))
    bolt = ("tighten", "caliper bracket bolt", "--set", "88 lb-ft", "--tool", "W4", "--by", "Dana")
    assert "the book says: 88 lb-ft" in job.ok(*bolt, "--wheel", "front left")
    told = job.ok("tighten", "wheel nut", "--set", "88 lb-in", "--tool", "W4", "--wheel", "front left", "--by", "Dana")
    assert told.startswith("NOT THE BOOK'S VALUE: you set 88 lb-in where the book says 105 N·m.")
    assert "88 lb-in NOT THE BOOK'S VALUE" in job.ok("show", "--by", "Dana")
    pin = ("tighten", "caliper slide pin bolt", "--set", "20 lb-ft", "--tool", "W4", "--by", "Dana")
    assert "THE BOOK HOLDS NO VALUE" in job.ok(*pin, "--wheel", "front right")
    nut = ("tighten", "wheel nut", "--set", "105 N·m", "--tool", "W4", "--by", "Dana")
    assert "the book says: 105 N·m" in job.ok(*nut, "--wheel", "front right")
    assert "somebody else" in job.refused("confirm", "--by", "dana")
    assert "no such job in hand" in job.refused("confirm", "--by", "Miro")
    job.ok("resume", "--job", "1", "--by", "Miro")
    told = job.refused("confirm", "--by", "Miro")
    assert "wheel nut, front left: set to 88 lb-in where the book says 105 N·m" in told
    job.ok("confirm", re.findall(r"(\d+): wheel nut", told)[0], "--by", "Miro")
    job.ok("confirm", "--by", "Miro")
    job.ok("pause", "--by", "Dana")
    assert "paused" in job.ok("list")
    assert "resume it first" in job.refused("done", "--job", "1", "--by", "Dana")
    job.ok("resume", "--job", "1", "--by", "Dana")
    assert "points are open" in job.refused("finish", "--by", "Dana")
    file = tmp_path / "job.json"
    job.ok("export", str(file), "--by", "Dana")
    points = [one["point"] for one in json.loads(file.read_text(encoding="utf-8"))["open_points"]]
    assert "who decided" in job.refused("explain", *points, "--because", "only tried out", "--by", "Dana")
    job.ok("explain", *points, "--because", "only tried out", "--decided-by", "Miro", "--by", "Dana")
    assert "finished" in job.ok("finish", "--by", "Dana")
    said = job.ok("export", str(file), "--job", "1")
    assert hashlib.sha256(file.read_bytes()).hexdigest() in said
    job.ok("export", str(tmp_path / "job.pdf"), "--job", "1", "--page", "Letter")
    job.ok("slip", str(tmp_path / "slip.pdf"), "--job", "1")
    assert all((tmp_path / name).read_bytes().startswith(b"%PDF-") for name in ("job.pdf", "slip.pdf"))
    assert "ends in .json or .pdf" in job.refused("export", str(tmp_path / "job.txt"), "--job", "1")
    assert json.loads(job.ok("show", "--json", "--job", "1")) == json.loads(file.read_text(encoding="utf-8"))
    assert job.ok("list") == "no job is open\n"


def test_a_slip_of_the_hand_is_struck_and_the_job_handed_over(sitting: Sitting) -> None:
    job = sitting
    job.ok("begin", "2015 Brackwell Ondrel", "stabilizer-link", "--wheel", "front left", "--by", "Dana")
    job.ok("tighten", "stabilizer link nut", "--set", "40 N·m", "--tool", "W1", "--wheel", "front left", "--by", "Dana")
    assert "40 N·m" in job.ok("show", "--by", "Dana")
    job.ok("strike", "2", "wrong", "wrench", "--by", "Dana")
    assert "40 N·m" not in job.ok("show", "--by", "Dana")
    job.ok("hand-over", "Miro", "--by", "Dana")
    assert "no such job in hand" in job.refused("where", "--by", "Dana")
    assert "step 1 of" in job.ok("where", "--by", "Miro")
