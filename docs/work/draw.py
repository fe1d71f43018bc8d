"""Draws the pictures of the work, and the papers of an invented job as pictures: all of them beside itself."""

from __future__ import annotations

import argparse
import tempfile
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pypdfium2

from benchbot.jobs import doing
from benchbot.jobs.beginning import begin
from benchbot.jobs.open_points import open_points
from benchbot.jobs.record_pdf import record_pdf
from benchbot.jobs.retorque import slip
from benchbot.jobs.rules import set_days, set_distance, set_second_person
from benchbot.jobs.slip_pdf import slip_pdf
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import Measured, Refused, Shown, Tightened, Vehicle, Verdict, When, Who
from benchbot.people.register import People
from benchbot.people.terms import Location
from benchbot.pictures.rotor import rotor_picture
from benchbot.pictures.tightening import STUDS, tightening_picture
from benchbot.pictures.wear import Limit, Reading, wear_picture
from benchbot.places import knowledge_folder
from benchbot.procedures.loading import load_procedures
from benchbot.records.record import Record, open_record
from benchbot.vocabulary.knowledge import load_vocabulary

HERE = Path(__file__).resolve().parent
DANA, MIRO = Who("telegram 11", "Dana"), Who("telegram 12", "Miro")
START = datetime(2026, 3, 2, 14, 30, tzinfo=UTC)
# Every figure below is invented.
TARGETS = {"caliper bracket bolt": "50 lb-ft", "caliper slide pin bolt": "16 lb-ft", "wheel nut": "79 lb-ft"}
FIGURES = {
    "brake pad": ("1.8", "11.2", "3.0 mm"),
    "minimum thickness": ("19.1", "19.1", "18.0 mm"),
    "maximum thickness variation": ("0.008", "0.008", "0.013 mm"),
    "maximum runout": ("0.03", "0.03", "0.08 mm"),
}


class Clock:
    """A minute goes by with whatever is done."""

    def __init__(self) -> None:
        self.now = START

    def tick(self) -> datetime:
        self.now += timedelta(minutes=1)
        return self.now


def played(record: Record) -> JobState:
    """A front brake job by two people on two days."""
    clock = Clock()
    location = People(record).open_first("Harrow Lane", START)
    assert isinstance(location, Location)
    People(record).set_hours(location.number, "America/Chicago", "", "")
    set_second_person(record, location.number, True, DANA.person, START)
    set_distance(record, location.number, "50 miles", DANA.person, START)
    set_days(record, location.number, 7, DANA.person, START)
    vocabulary = load_vocabulary(knowledge_folder())
    vehicle = Vehicle("2012 Brackwell Ondrel", "Brackwell", "Ondrel", 2012)
    begun = begin(
        record, load_procedures(knowledge_folder(), vocabulary), vocabulary, vehicle, "disc-brake-front", DANA,
        clock.tick(), location, "RO-10482", book_version=1,
    )  # fmt: skip
    state = kept(begun)
    number = state.number
    for wheel in state.sheet.wheels:
        measure(record, number, clock, "brake pad", "minimum thickness", wheel, "before")
    for at, step in enumerate(state.sheet.steps):
        who = DANA if at < 20 else MIRO
        if at == 20:
            kept(doing.pause(record, number, DANA, clock.tick()))
            clock.now += timedelta(hours=23)
            kept(doing.resume(record, number, MIRO, clock.tick()))
        for want in kept(job_state(record, number)).missing_lines(step.key):
            if want.where:
                measure(record, number, clock, want.component, want.name, want.wheel, "before")
            elif want.component in TARGETS:
                target = Shown(TARGETS[want.component], f"D{1000 + len(want.component)}", 1)
                line = Tightened(want.component, target.text, "wrench 4", want.wheel, want.name, target)
                kept(doing.tighten(record, number, who, clock.tick(), line))
        if step.key == "common/check-hoses":
            kept(doing.skip(record, number, who, clock.tick(), "hoses were new in January, looked at, dry"))
        else:
            kept(doing.done(record, number, who, clock.tick(), step.key))
    for wheel in state.sheet.wheels:
        measure(record, number, clock, "brake pad", "minimum thickness", wheel, "after")
    kept(doing.confirm(record, number, DANA, clock.tick()))
    points = [point.key for point in open_points(kept(job_state(record, number)))]
    kept(
        doing.explain(record, number, MIRO, clock.tick(), points, "no retaining screw on this rotor", decided_by="Dana")
    )
    return kept(doing.finish(record, number, MIRO, clock.tick()))


def measure(record: Record, job: int, clock: Clock, component: str, name: str, wheel: str, when: When) -> None:
    before, after, limit = FIGURES.get(component, FIGURES[name] if name in FIGURES else FIGURES["minimum thickness"])
    value = before if when == "before" else after
    bad = component == "brake pad" and when == "before"
    text = "DO NOT USE: 1.2 mm below the limit" if bad else "within the limit"
    verdict = Verdict("bad" if bad else "good", text, (Shown(limit, f"D{2000 + len(name)}", 1),))
    kept(doing.measure(record, job, DANA, clock.tick(), Measured(component, name, value, "mm", when, wheel), verdict))


def kept(done: JobState | Refused | None) -> JobState:
    assert isinstance(done, JobState), done
    return done


def papers() -> dict[str, bytes]:
    """The record of the job and its slip, as PDF files."""
    with tempfile.TemporaryDirectory(prefix="benchbot-job-") as folder:
        with open_record(f"sqlite:///{folder}/record.sqlite") as record:
            state = played(record)
        found = slip(state)
        assert not isinstance(found, Refused)
        return {
            "job-record": record_pdf(state),
            "job-record-letter": record_pdf(state, "Letter"),
            "slip": slip_pdf(found),
        }


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=HERE, metavar="FOLDER", help="where to (default: beside this)")
    into: Path = parser.parse_args().into
    for studs in STUDS:
        (into / f"studs-{studs}.png").write_bytes(tightening_picture(studs))
    (into / "rotor.png").write_bytes(rotor_picture())
    readings = [Reading(at, Decimal(v)) for at, v in (("2024-03", "19.9"), ("2025-02", "19.5"), ("2026-03", "19.1"))]
    limits = [Limit("new", Decimal("20.0")), Limit("machine to", Decimal("18.4"))]
    wear = wear_picture("Rotor thickness, front left", "mm", readings, limits, Limit("discard", Decimal("18.0")),
                       note="Invented demo data")  # fmt: skip
    (into / "wear.png").write_bytes(wear)
    for name, file in papers().items():
        with pypdfium2.PdfDocument(file) as document:
            pages = list(document) if "letter" not in name else [document[0]]
            for number, page in enumerate(pages, 1):
                last = "" if name == "slip" else f"-{number}"
                page.render(scale=1.5, grayscale=True).to_pil().save(into / f"{name}{last}.png", optimize=True)
                page.close()


if __name__ == "__main__":
    main()
