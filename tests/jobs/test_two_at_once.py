"""Two people in one job at the same moment, and a process that is killed in the middle of it: nothing is lost."""

from __future__ import annotations

import multiprocessing
import os
import random
import signal
from datetime import timedelta
from multiprocessing.connection import Connection
from pathlib import Path

from job_bay import DANA, GOOD, LEFT, MIRO, RIGHT, START, Bay, measured, tightened, url_in

from benchbot.jobs import doing
from benchbot.jobs.open_points import open_points
from benchbot.jobs.record_json import plain_record
from benchbot.jobs.rules import set_second_person
from benchbot.jobs.state import JobState, job_state
from benchbot.jobs.terms import Refused, Who
from benchbot.records.record import open_record

_CONTEXT = multiprocessing.get_context("fork")
_EACH = 15


def work(folder: Path, job: int, who: Who, wheel: str, told: Connection) -> None:
    """Tells what is on record only once it is."""
    with open_record(url_in(folder)) as record:
        for number in range(_EACH):
            line = measured(value=f"{20 + number}.{len(who.name)}", wheel=wheel)
            state = doing.measure(
                record, job, who, START + timedelta(minutes=number), line, GOOD, once=f"{who} {number}"
            )
            assert isinstance(state, JobState)
            told.send(number)


def values(state: JobState, who: Who) -> list[str]:
    return [line.body["value"] for line in state.measured if line.person == who.person]


def test_two_at_once_lose_nothing_and_see_each_other(bay: Bay, tmp_path: Path) -> None:
    job = bay.begin().number
    here, there = _CONTEXT.Pipe()
    both = [
        _CONTEXT.Process(target=work, args=(tmp_path, job, who, wheel, there))
        for who, wheel in ((DANA, LEFT), (MIRO, RIGHT))
    ]
    for one in both:
        one.start()
    for one in both:
        one.join()
    here.close()
    assert [one.exitcode for one in both] == [0, 0]
    for who in (DANA, MIRO):
        assert values(bay.state, who) == [f"{20 + n}.{len(who.name)}" for n in range(_EACH)]


def test_of_two_who_finish_at_once_one_does(bay: Bay, tmp_path: Path) -> None:
    bay.begin("bedding-and-road-test", wheels=(LEFT,))
    bay.all_steps()

    with open_record(url_in(tmp_path)) as other:
        one = doing.finish(bay.record, bay.job, DANA, bay.tick())
        two = doing.finish(other, bay.job, MIRO, bay.tick())
    assert isinstance(one, JobState)
    assert isinstance(two, Refused)
    assert two.about == "finished"
    assert [event.what for event in bay.state.events].count("finished") == 1


def test_killed_at_any_moment_what_was_told_is_on_record(bay: Bay, tmp_path: Path) -> None:
    chance = random.Random(7)
    job = bay.begin().number
    for _ in range(5):
        here, there = _CONTEXT.Pipe(duplex=False)
        process = _CONTEXT.Process(target=work, args=(tmp_path, job, DANA, LEFT, there))
        process.start()
        there.close()
        told = [here.recv() for _ in range(chance.randint(1, 4))]
        assert process.pid is not None
        os.kill(process.pid, signal.SIGKILL)
        process.join()
        held = values(bay.state, DANA)
        assert held[: len(told)] == [f"{20 + n}.4" for n in told]
        assert len(held) == len(set(held))
    here, there = _CONTEXT.Pipe()
    work(tmp_path, job, DANA, LEFT, there)
    assert values(bay.state, DANA) == [f"{20 + n}.4" for n in range(_EACH)]


def test_a_whole_front_brake_job_by_two_on_two_days(bay: Bay, tmp_path: Path) -> None:
    """Begun by one, paused, resumed on another connection by the other, finished by the first."""
    set_second_person(bay.record, None, True, "telegram 1", START)
    bay.begin(repair_order="RO-77")
    entered: list[tuple[str, str, str]] = []
    for step in bay.state.sheet.steps[:20]:
        for want in bay.state.missing_lines(step.key):
            if want.where:
                bay.do("measure", DANA, measured(want.component, want.name, "11.4", want.wheel), GOOD)
                entered.append((want.component, want.wheel, "11.4"))
        bay.do("done", DANA, step.key)
    bay.do("pause")
    bay.now += timedelta(days=1)
    with open_record(url_in(tmp_path)) as phone:
        other = Bay(phone, bay.now, bay.job)
        other.do("resume", MIRO)
        for step in other.state.sheet.steps[20:]:
            for want in other.state.missing_lines(step.key):
                if want.where:
                    other.do("measure", MIRO, measured(want.component, want.name, "0.02", want.wheel), GOOD)
                    entered.append((want.component, want.wheel, "0.02"))
                else:
                    other.do("tighten", MIRO, tightened(want.component, want.wheel))
            other.do("done", MIRO, step.key)
        assert isinstance(doing.finish(phone, bay.job, MIRO, other.tick()), Refused)
        bay.now = other.now
    assert {point.kind for point in open_points(bay.state)} == {"second person"}
    bay.do("confirm", DANA)
    bay.do("finish", DANA)
    told = plain_record(bay.state)
    assert [(one["component"], one["wheel"], one["value"]) for one in told["measurements"]] == entered
    assert {one["name"] for one in told["tightened"]} == {"Miro"}
    assert {one["confirmed"]["name"] for one in told["tightened"] if one["component"] == "wheel nut"} == {"Dana"}
    assert [one["name"] for one in told["steps"]] == ["Dana"] * 20 + ["Miro"] * (len(told["steps"]) - 20)
    state = job_state(bay.record, bay.job)
    assert state is not None
    assert state.finished is not None


def test_a_whole_rear_drum_job(bay: Bay) -> None:
    bay.begin("drum-brake")
    bay.all_lines()
    bay.all_steps(MIRO)
    bay.do("finish", MIRO)
    told = plain_record(bay.state)
    assert {one["wheel"] for one in told["tightened"]} == {"rear left", "rear right"}
    assert {"brake drum", "brake shoe"} <= {one["component"] for one in told["measurements"]}
