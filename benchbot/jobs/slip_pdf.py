"""The slip that goes with the vehicle: when its wheels are tightened again, to what, and room to sign for it."""

from __future__ import annotations

from typing import Any

from benchbot.jobs import paper
from benchbot.jobs.paper import FRAME, SMALL_SIZE, cell
from benchbot.jobs.retorque import Slip

# ISO 216, A6: 105 by 148 mm, in points of 1/72 in.
A6 = (297.64, 419.53)
_MARGIN = 22.0


def slip_pdf(slip: Slip) -> bytes:
    """One small page. SettingError when what makes it is not installed."""
    paper.installed()
    from reportlab.platypus import Spacer

    room = A6[0] - 2 * (_MARGIN + FRAME)
    parts: list[Any] = [
        cell("Wheels: tighten again", heavy=True, size=17, centred=True),
        Spacer(0, 8),
        cell(_when(slip), heavy=True, size=14, centred=True),
        Spacer(0, 8),
        paper.table((), _facts(slip), (32, 68), room),
        Spacer(0, 7),
        paper.table(
            ("Wheel", "Fastener", "Book's value", "Set to", "Done"),
            [(*line, "") for line in _lines(slip)],
            (20, 19, 24, 22, 15),
            room,
        ),
        Spacer(0, 7),
        cell("Wheels cold, on the ground, each in order, by torque wrench. A nut that turns far: show the lead tech."),
        Spacer(0, 12),
        cell("Date ____________   By ____________________"),
    ]
    return paper.set_pages(parts, A6, _MARGIN, lambda number, pages: f"Job {slip.job}")


def _when(slip: Slip) -> str:
    """Both where both are set: whichever comes first."""
    if slip.distance and slip.on:
        return f"at {slip.distance}, or by {slip.on},\nwhichever comes first"
    return f"at {slip.distance}" if slip.distance else f"by {slip.on}"


def _facts(slip: Slip) -> list[tuple[Any, str]]:
    rows = [
        ("Vehicle", slip.vehicle),
        ("Repair order", slip.repair_order),
        ("Shop", slip.shop),
        ("Wheels fitted", str(slip.finished)),
    ]
    return [(cell(name, heavy=True, size=SMALL_SIZE), text) for name, text in rows if text]


def _lines(slip: Slip) -> list[tuple[str, str, str, str]]:
    return [
        (wheel, fastener, value or "ask the shop", was or "not entered") for wheel, fastener, value, was in slip.lines
    ]
