"""The page about the record names every key of it, in order."""

from __future__ import annotations

import re
from pathlib import Path

from job_bay import DANA, GOOD, Bay, measured, tightened

from benchbot.jobs.record_json import LAYOUT, plain_record

PAGE = Path(__file__).resolve().parents[2] / "docs" / "job-record.md"


def test_the_keys_told_are_those_of_the_record(bay: Bay) -> None:
    bay.begin()
    bay.do("measure", DANA, measured(), GOOD)
    bay.do("tighten", DANA, tightened())
    told = plain_record(bay.state)
    text = PAGE.read_text(encoding="utf-8").partition("## The JSON record")[2].partition("\n## ")[0]
    rows = dict(re.findall(r"^\| `(\w+)` \| (.*) \|$", text, re.MULTILINE))
    assert list(rows) == list(told)
    assert rows["layout"] == str(LAYOUT)
    for key in ("measurements", "tightened", "steps", "open_points"):
        inner = set(told[key][0]) - {"at", "person", "name"}
        assert inner <= set(re.findall(r"`(\w+)`", rows[key])), key
    for key in ("vehicle", "location", "procedure"):
        assert set(told[key]) <= set(re.findall(r"`(\w+)`", rows[key])), key
