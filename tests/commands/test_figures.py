"""coverage, digest and specs due as they are typed."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PIL import Image

from benchbot.__main__ import main
from benchbot.conversation.conversation import Conversation
from benchbot.conversation.manner import Manner
from benchbot.curation.weeks import Week
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.places import Home
from benchbot.records.record import open_record


def asked(shop: Home, *questions: str) -> Location:
    """Said at a location today; so much is counted in this week."""
    with open_record(shop) as record:
        place = People(record).add_location("Main shop", "telegram 1", datetime.now(UTC))
    assert isinstance(place, Location)
    with Conversation.open(shop) as conversation:
        for number, question in enumerate(questions):
            conversation.say(f"chat {number}", "telegram 2", question, manner=Manner(location=place.number))
    return place


def test_coverage_draws_and_tells(shop: Home, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked(shop, "1999 nobodys vehicle wheel nut torque")
    file = tmp_path / "seen.png"
    assert main(["coverage", str(file)]) == 0
    assert capsys.readouterr().out.splitlines()[-1] == str(file)
    with Image.open(file) as picture:
        assert (picture.format, picture.width) == ("PNG", 1080)
    assert main(["coverage", str(file), "--since", "2026-01-01", "--location", "main SHOP", "--language", "es"]) == 0
    capsys.readouterr()
    assert main(["coverage", str(file), "--location", "Nowhere"]) == 1
    assert "there is no location 'Nowhere'; there are: Main shop" in capsys.readouterr().err


def test_digest_in_words_in_json_and_as_a_chart(shop: Home, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked(shop, "torque?", "thanks", "torque?")
    chart = tmp_path / "week.png"
    assert main(["digest", "--json", "--chart", str(chart)]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["week"] == str(Week.at(datetime.now(UTC), "UTC")) and told["so_far"]
    assert told["replies"] == [
        {"location": "Main shop", "answered": 0, "answered_in_part": 0, "asked_back": 2, "not_answered": 0}
    ]
    with Image.open(chart) as picture:
        assert (picture.format, picture.width) == ("PNG", 1080)
    assert main(["digest", "--week", "2025-W03", "--location", "Main shop"]) == 0
    assert capsys.readouterr().out.splitlines()[:2] == [
        "Main shop. Week 2025-W03, 2025-01-13 to 2025-01-19", "Nobody asked anything.",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "words",
    [
        ["coverage"], ["coverage", "seen.jpg"], ["coverage", "a.png", "--since", "yesterday"],
        ["digest", "--week", "2025-W53"], ["digest", "--chart", "week"], ["digest", "--language", "fr"],
    ],
)  # fmt: skip
def test_wrong_usage(words: list[str], shop: Home) -> None:
    with pytest.raises(SystemExit) as left:
        main(words)
    assert left.value.code == 2


def test_due_as_it_is_typed(shop: Home, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["specs", "due", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == []
    assert main(["specs", "due", "--days", "7"]) == 0
    assert capsys.readouterr().out == "no row has to be looked at again within 7 days\n"
