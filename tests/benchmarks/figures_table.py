"""Prints the figures of a run as plain tables."""

from __future__ import annotations

from typing import Any

TARGETS = (
    "Targets on 2 cores: p50 1 ms, p99 5 ms, at most 2 x the time at 1,000 rows, below 400 MB resident, "
    "30,000 rows/s imported, cold ask of the demo below 0.5 s."
)
_MAKING = ("rows", "models", "import s", "rows/s", "peak MB", "publish s", "peak MB", "book MB", "record MB")
_ASKING = (
    "rows", "engine", "asked", "build s", "p50 ms", "p99 ms", "longest", "p99 cpu", "x 1st", "MB", "right",
    "asked back", "missed", "wrong", "held back", "wrong",
)  # fmt: skip
_KINDS = ("kind of question", "right", "asked back", "missed", "wrong")


def print_figures(figures: dict[str, Any]) -> None:
    """The tables of one run, in the layout that `lookup.py --json` writes."""
    sizes = figures["sizes"]
    _print("Making the book", _MAKING, [_making(one) for one in sizes])
    first = sizes[0]["book"]["look_up"]["p50"]
    rows = []
    for one in sizes:
        rows.append(_engine(one["rows"], "book: read + look up", one["book"], one["book"]["look_up"], first))
        rows.append(_engine(one["rows"], "book: whole turn", one["book"], one["book"]["say"], None))
        rows += [_engine(one["rows"], name, peer, peer["look_up"], None) for name, peer in one["peers"].items()]
    _print("Asking; the last two columns: questions that no row may answer", _ASKING, rows)
    for one in sizes:
        counts = one["book"]["counts"]
        _print(f"The book of {one['rows']:,} rows, by kind", _KINDS, [_kind(kind, counts[kind]) for kind in counts])
    cold = [(name, *(f"{one[key]:.2f}" for key in ("median", "least", "most"))) for name, one in _cold(figures)]
    _print("benchbot ask, whole process, seconds", ("book", "median", "least", "most"), cold)
    print(f"\n{TARGETS}")


def _cold(figures: dict[str, Any]) -> list[tuple[str, dict[str, float]]]:
    return [("demo", figures["demo_cold_start"]), *((f"{s['rows']:,} rows", s["cold_start"]) for s in figures["sizes"])]


def _making(one: dict[str, Any]) -> tuple[str, ...]:
    brought, published = one["import"], one["publish"]
    return (
        f"{one['rows']:,}", f"{one['table']['models']:,}", f"{brought['seconds']:.1f}",
        f"{brought['rows_per_second']:,.0f}", f"{brought['peak_mb']:.0f}", f"{published['seconds']:.1f}",
        f"{published['peak_mb']:.0f}", f"{one['book_mb']:.1f}", f"{one['record_mb']:.1f}",
    )  # fmt: skip


def _engine(rows: int, name: str, told: dict[str, Any], took: dict[str, float], first: float | None) -> tuple[str, ...]:
    can, cannot = told["counts"]["answerable"], told["counts"]["not answerable"]
    return (
        f"{rows:,}", name, str(told["questions"]), f"{told['build_seconds']:.1f}" if "build_seconds" in told else "",
        f"{took['p50']:.2f}", f"{took['p99']:.2f}", f"{took['longest']:.1f}",
        f"{told['cpu']['p99']:.2f}" if first else "",
        f"{took['p50'] / first:.2f}" if first else "", f"{told['resident_mb']:.0f}",
        *(str(can.get(came, 0)) for came in ("right", "asked", "missed", "wrong")),
        str(cannot.get("right", 0)), str(cannot.get("wrong", 0)),
    )  # fmt: skip


def _kind(kind: str, counts: dict[str, int]) -> tuple[str, ...]:
    return (kind, *(str(counts.get(came, 0)) for came in ("right", "asked", "missed", "wrong")))


def _print(title: str, head: tuple[str, ...], rows: list[tuple[str, ...]]) -> None:
    widths = [max(len(line[at]) for line in (head, *rows)) for at in range(len(head))]
    print(f"\n{title}")
    for line in (head, tuple("-" * width for width in widths), *rows):
        cells = (
            cell.ljust(width) if at < 2 and not cell[:1].isdigit() else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(line, widths, strict=True))
        )
        print("  ".join(cells).rstrip())
