"""The record of a job on paper, for the file: what was measured, each fastener, each step, who did it and when."""

from __future__ import annotations

import re
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from benchbot.jobs import paper
from benchbot.jobs.paper import FRAME, MARGIN, SMALL_SIZE, PageSize, cell
from benchbot.jobs.record_json import plain_record, record_bytes, record_digest
from benchbot.jobs.state import JobState
from benchbot.jobs.terms import WHEELS

_POINTS = {"A4": (595.28, 841.89), "Letter": (612.0, 792.0)}
_SIGN = {"good": "OK", "bad": "BAD", "not judged": "not judged"}


def record_pdf(state: JobState, size: PageSize = "A4") -> bytes:
    """The PDF; its foot bears the digest of the JSON record. SettingError when what makes it is not installed."""
    paper.installed()
    told = plain_record(state)
    digest = record_digest(record_bytes(state))
    page = _POINTS[size]
    room = page[0] - 2 * (MARGIN + FRAME)
    return paper.set_pages(_parts(told, room), page, MARGIN, lambda number, pages: _foot(told, digest, number, pages))


def _foot(told: dict[str, Any], digest: str, number: int, pages: int) -> str:
    state = "" if told["finished"] else "  ·  NOT FINISHED"
    return f"Job {told['job']}{state}  ·  page {number} of {pages}\nSHA-256 of the JSON record: {digest}"


def _parts(told: dict[str, Any], room: float) -> list[Any]:
    from reportlab.platypus import Spacer

    zone = ZoneInfo(told["location"]["zone"])
    parts: list[Any] = [cell(f"Job record {told['job']}", heavy=True, size=17), Spacer(0, 10)]
    left = len({one["point"] for one in told["explained"]})
    if told["finished"] and left:
        points = "1 point" if left == 1 else f"{left} points"
        parts += [cell(f"Finished with {points} left open; they stand below, with why.", heavy=True, size=11)]
        parts.append(Spacer(0, 6))
    if not told["finished"]:
        count = len(told["open_points"])
        parts += [cell(f"NOT FINISHED: {count} points are open.", heavy=True, size=11), Spacer(0, 6)]
    parts.append(paper.table((), _facts(told, zone), (22, 78), room))
    for title, head, rows, widths in (
        (
            "Measured",
            ("Wheel", "What", "When", "Figure", "Judged", "By"),
            _measured(told, zone),
            (13, 21, 9, 17, 24, 16),
        ),
        (
            "Tightened",
            ("Wheel", "Fastener", "Book's value", "Set to", "Tool", "By", "Second person"),
            _tightened(told, zone),
            (11, 16, 18, 13, 12, 15, 15),
        ),
        ("Left open, and why", ("What", "Why", "By"), _explained(told, zone), (40, 42, 18)),
        ("Open", ("What",), [(one["text"],) for one in told["open_points"]], (1,)),
        ("Steps", ("", "Step", "State", "By"), _steps(told, zone), (5, 41, 26, 28)),
        ("Course", ("What", "By"), _course(told, zone), (40, 60)),
    ):
        if rows:
            parts += [Spacer(0, 12), *_titled(title, paper.table(head, rows, widths, room))]
    parts += [Spacer(0, 12), cell(_MAKER_FIRST, size=SMALL_SIZE)]
    return parts


_MAKER_FIRST = (
    "The vehicle maker's current service information, local codes and licensed practice come first. "
    "This record holds nothing about a customer."
)


def _titled(title: str, table: Any) -> list[Any]:
    """The title never stands alone at the foot of a page."""
    from reportlab.platypus import CondPageBreak, Spacer

    return [CondPageBreak(80), cell(title, heavy=True, size=12), Spacer(0, 4), table]


def _facts(told: dict[str, Any], zone: ZoneInfo) -> list[tuple[Any, str]]:
    procedure = told["procedure"]
    book = f", book {procedure['book_version']}" if procedure["book_version"] is not None else ""
    rows = [
        ("Vehicle", _vehicle(told["vehicle"])),
        ("Repair order", told["repair_order"] or "none"),
        ("Procedure", f"{procedure['title']} ({procedure['id']}{book})"),
        ("Worked on", ", ".join(one for one in (*procedure["wheels"], *procedure["fitted"]))),
        ("Shop", told["location"]["name"] or "not said"),
        ("Begun", _by(told["begun"], zone)),
        ("Finished", _by(told["finished"], zone) if told["finished"] else "not finished"),
        ("Times", f"by the clock of {told['location']['zone']}"),
    ]
    if told["re_torque"]:
        rows.append(("Re-torque of wheels", _re_torque(told["re_torque"])))
    return [(cell(name, heavy=True), text) for name, text in rows]


def _vehicle(vehicle: dict[str, Any]) -> str:
    read = " ".join(str(one) for one in (vehicle["year"], vehicle["make"], vehicle["model"]) if one)
    narrowed = "; ".join(f"{key} {value}" for key, value in vehicle["only_if"].items())
    more = ", ".join(one for one in (read, narrowed) if one)
    return vehicle["said"] if not more or more == vehicle["said"] else f"{vehicle['said']} (read as {more})"


def _re_torque(planned: dict[str, Any]) -> str:
    said = [f"at {planned['distance']}"] if planned["distance"] else []
    said += [f"by {planned['on']}"] if planned["on"] else []
    return " or ".join(said) or "the shop has not set when"


def _measured(told: dict[str, Any], zone: ZoneInfo) -> list[tuple[Any, ...]]:
    lines = sorted(told["measurements"], key=lambda one: (_place(one["wheel"]), one["component"], one["entry"]))
    return [
        (
            one["wheel"] or "-",
            _text(one, f"{one['component']}, {one['property']}"),
            one["when"],
            _text(one, f"{one['value']} {one['unit']}"),
            _judged(one),
            _by(one, zone),
        )
        for one in lines
    ]


def _judged(one: dict[str, Any]) -> Any:
    if one["struck"]:
        return _struck_cells(one)
    limits = [f"{limit['text']} ({limit['spec']}, rev. {limit['revision']})" for limit in one["limits"]]
    told = [f"{_SIGN[one['judged']]}{': ' if one['verdict'] else ''}{_first_sentence(one['verdict'])}", *limits]
    return "\n".join(told)


def _tightened(told: dict[str, Any], zone: ZoneInfo) -> list[tuple[Any, ...]]:
    lines = sorted(told["tightened"], key=lambda one: (_place(one["wheel"]), one["component"], one["entry"]))
    return [
        (
            one["wheel"] or "-",
            [_text(one, f"{one['which']} {one['component']}".strip()), *_struck_cells(one)],
            _target(one["target"]),
            _set_to(one),
            one["tool"],
            _by(one, zone),
            _by(one["confirmed"], zone) if one["confirmed"] else "-",
        )
        for one in lines
    ]


def _set_to(one: dict[str, Any]) -> Any:
    if not one["differs"] or one["struck"]:
        return _text(one, one["set_to"])
    return cell(f"{one['set_to']}\nNOT THE BOOK'S VALUE", heavy=True)


def _text(line: dict[str, Any], text: str) -> Any:
    """Of a line that was struck out, with a line through it."""
    return cell(text, struck=bool(line["struck"]))


def _target(target: dict[str, Any] | None) -> str:
    return "NOT IN THE BOOK" if target is None else f"{target['text']}\n({target['spec']}, rev. {target['revision']})"


def _first_sentence(verdict: str) -> str:
    """What decides; all of it stands in the JSON record."""
    return re.split(r"(?<=[.!])\s+(?=[A-Z¿¡])", verdict, maxsplit=1)[0]


def _struck_cells(one: dict[str, Any]) -> list[Any]:
    told = f"STRUCK OUT by {one['struck']['name']}: {one['struck']['reason']}" if one["struck"] else ""
    return [cell(told, heavy=True)] if told else []


def _explained(told: dict[str, Any], zone: ZoneInfo) -> list[tuple[Any, ...]]:
    return [
        (
            one["text"],
            "\n".join([one["reason"], *([f"Decided by {one['decided_by']}"] if one["decided_by"] else [])]),
            _by(one, zone),
        )
        for one in told["explained"]
    ]


def _steps(told: dict[str, Any], zone: ZoneInfo) -> list[tuple[Any, ...]]:
    return [
        (
            str(one["number"]),
            one["title"],
            f"{one['state']}: {one['reason']}" if one["reason"] else one["state"],
            _by(one, zone).replace("\n", ", ") if one["at"] else "-",
        )
        for one in told["steps"]
    ]


def _course(told: dict[str, Any], zone: ZoneInfo) -> list[tuple[Any, ...]]:
    return [
        (f"{one['what']}{' to ' if one['to'] else ''}{one['to']}", _by(one, zone).replace("\n", ", "))
        for one in told["course"]
    ]


def _by(one: dict[str, Any], zone: ZoneInfo) -> str:
    at = datetime.fromisoformat(one["at"]).astimezone(zone)
    return f"{one['name']}\n{at:%Y-%m-%d %H:%M}"


def _place(wheel: str) -> int:
    return WHEELS.index(wheel) if wheel in WHEELS else len(WHEELS)
