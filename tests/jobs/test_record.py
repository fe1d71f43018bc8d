"""The finished record: what was entered and nothing else, the same bytes again, and a paper that shows it."""

from __future__ import annotations

import hashlib
import json

import pypdfium2
import pytest
from job_bay import BAD, DANA, GOOD, MIRO, RIGHT, START, Bay, measured, tightened

from benchbot.jobs.record_json import plain_record, record_bytes, record_digest
from benchbot.jobs.record_pdf import record_pdf
from benchbot.jobs.retorque import slip
from benchbot.jobs.rules import set_days, set_distance, set_second_person
from benchbot.jobs.slip_pdf import slip_pdf
from benchbot.jobs.terms import Refused

HOSTILE = "<b>no</b> &amp; <img src='x'/> </para> größer 你好 " + "long " * 80


def whole(bay: Bay) -> None:
    set_second_person(bay.record, None, True, "telegram 1", START)
    set_distance(bay.record, None, "80 km", "telegram 1", START)
    set_days(bay.record, None, 7, "telegram 1", START)
    bay.begin(repair_order="RO-10482")
    bay.do("measure", DANA, measured(value="22.41 22.40 22.43"), GOOD)
    bay.do("measure", MIRO, measured(wheel=RIGHT, value="21.3"), BAD)
    bay.do("strike", MIRO, bay.state.lines[-1].entry, "wrong scale")
    bay.do("skip", DANA, HOSTILE)
    bay.do("pause")
    bay.do("resume", MIRO)
    bay.do("tighten", DANA, tightened("wheel nut", held=False))
    bay.do("tighten", DANA, tightened(set_to="80 N·m"))
    bay.all_lines()
    bay.all_steps(MIRO)
    bay.do("confirm", MIRO)
    bay.do("explain", DANA, [f"no value {bay.state.tightened[0].entry}"], "maker's page 12", decided_by="Miro")
    bay.do("explain", DANA, [f"differs {bay.state.tightened[1].entry}"], "crowfoot on the wrench", decided_by="Miro")
    bay.do("finish")


def pages(file: bytes) -> list[str]:
    with pypdfium2.PdfDocument(file) as document:
        texts = []
        for page in document:
            text = page.get_textpage()
            texts.append(" ".join(text.get_text_range().split()))
            text.close()
            page.close()
        return texts


def test_the_record_holds_what_was_entered(bay: Bay) -> None:
    whole(bay)
    told = json.loads(record_bytes(bay.state))
    assert list(told) == [
        "format", "layout", "job", "vehicle", "repair_order", "location", "procedure", "second_person_on_wheels",
        "begun", "finished", "re_torque", "measurements", "tightened", "steps", "explained", "open_points", "course",
    ]  # fmt: skip
    first, struck = told["measurements"][:2]
    assert (first["value"], first["unit"], first["judged"], first["name"]) == (
        "22.41 22.40 22.43",
        "mm",
        "good",
        "Dana",
    )
    assert first["limits"] == [{"text": "21.5 mm", "spec": "D0007", "revision": 2}]
    assert struck["struck"]["reason"] == "wrong scale"
    nut = told["tightened"][0]
    assert (nut["component"], nut["target"], nut["set_to"], nut["tool"]) == ("wheel nut", None, "105 N·m", "wrench 4")
    assert nut["confirmed"]["name"] == "Miro"
    assert [one["set_to"] for one in told["tightened"] if one["differs"]] == ["80 N·m"]
    assert told["steps"][0]["state"] == "skipped"
    assert told["steps"][0]["reason"] == " ".join(HOSTILE.split())
    assert {one["state"] for one in told["steps"][1:]} == {"done"}
    assert [one["what"] for one in told["course"]] == ["begun", "paused", "resumed", "finished"]
    assert told["open_points"] == []
    assert told["re_torque"]["on"] == "2026-03-09"


def test_the_same_bytes_again_whatever_comes_after(bay: Bay) -> None:
    whole(bay)
    written = record_bytes(bay.state)
    set_days(bay.record, None, 9, "telegram 1", bay.tick())
    job = bay.job
    bay.begin()
    bay.job = job
    assert record_bytes(bay.state) == written
    assert record_digest(written) == hashlib.sha256(written).hexdigest()
    assert record_pdf(bay.state) == record_pdf(bay.state)


@pytest.mark.parametrize(("size", "points"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_the_paper_shows_all_of_it(bay: Bay, size: str, points: tuple[int, int]) -> None:
    whole(bay)
    file = record_pdf(bay.state, size)  # type: ignore[arg-type]
    digest = record_digest(record_bytes(bay.state))
    with pypdfium2.PdfDocument(file) as document:
        assert [round(one) for one in document.get_page_size(0)] == list(points)
    texts = pages(file)
    assert len(texts) > 2
    for number, text in enumerate(texts, 1):
        assert f"page {number} of {len(texts)}" in text
        assert digest in text
    text = " ".join(texts)
    assert "<b>no</b> &amp; <img src='x'/> </para> größer [U+4F60][U+597D]" in text
    told = plain_record(bay.state)
    assert "Finished with 2 points left open" in texts[0] and "Decided by Miro" in text
    for step in told["steps"]:
        assert step["title"] in text
    for word in (
        "RO-10482",
        "22.41 22.40 22.43 mm",
        "NOT IN THE BOOK",
        "80 N·m NOT THE BOOK'S VALUE",
        "crowfoot on the wrench",
        "STRUCK OUT by Miro: wrong scale",
        "maker's page 12",
    ):
        assert word in text


def test_an_unfinished_record_says_so_on_every_page(bay: Bay) -> None:
    bay.begin()
    texts = pages(record_pdf(bay.state))
    assert all("NOT FINISHED" in text for text in texts)


def test_the_slip_says_when_and_to_what(bay: Bay) -> None:
    whole(bay)
    found = slip(bay.state)
    assert not isinstance(found, Refused)
    (text,) = pages(slip_pdf(found))
    assert "at 80 km, or by 2026-03-09, whichever comes first" in text
    assert "front left wheel nut ask the shop 105 N·m" in text
    assert "front right wheel nut 105 N·m" in text


def test_the_slip_has_every_wheel_that_was_off(bay: Bay) -> None:
    set_distance(bay.record, None, "80 km", "telegram 1", START)
    bay.begin()
    bay.do("tighten", DANA, tightened("wheel nut", held=False, set_to="78 lb-ft"))
    bay.all_steps()
    rest = [one["point"] for one in plain_record(bay.state)["open_points"]]
    bay.do("explain", DANA, rest, "nobody wrote it down", decided_by="Miro")
    bay.do("finish")
    found = slip(bay.state)
    assert not isinstance(found, Refused)
    assert found.lines == (("front left", "wheel nut", "", "78 lb-ft"), ("front right", "wheel nut", "", ""))
    (text,) = pages(slip_pdf(found))
    assert "front left wheel nut ask the shop 78 lb-ft" in text
    assert "front right wheel nut ask the shop not entered" in text


def test_no_figure_is_ours(bay: Bay) -> None:
    """Where the shop has set no distance and no days, there is no slip."""
    bay.begin()
    bay.all_lines()
    bay.all_steps()
    assert isinstance(slip(bay.state), Refused)
    bay.do("finish")
    found = slip(bay.state)
    assert isinstance(found, Refused)
    assert found.about == "setting"


def test_a_job_that_tightened_no_wheel_has_no_slip(bay: Bay) -> None:
    set_distance(bay.record, None, "50 miles", "telegram 1", START)
    bay.begin("bedding-and-road-test", wheels=("front left",))
    bay.all_steps()
    bay.do("finish")
    found = slip(bay.state)
    assert isinstance(found, Refused)
    assert found.about == "line"
