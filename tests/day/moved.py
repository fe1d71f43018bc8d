"""A process of the shop on a clock that a test moves, which dies when it passes a point that the test has named.

    python moved.py WORDS ...       as benchbot WORDS ...
    python moved.py --phones        the bot, as the shop of the messenger's tests starts it

Variables: DAY_CLOCK names a file with seconds to add to this machine's clock (the bot has its own), DAY_DIES a file
that holds the name of a point of POINTS; it is removed when the process dies there.
"""

from __future__ import annotations

import os
import runpy
import signal
import sys
from collections.abc import Callable
from datetime import datetime, timedelta, tzinfo
from functools import wraps
from importlib import import_module
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder
from pathlib import Path
from types import ModuleType
from typing import Any

CLOCK, DIES = "DAY_CLOCK", "DAY_DIES"
# Each a function of ours and whether the process dies before it begins; otherwise once it has returned something.
POINTS: dict[str, tuple[str, str, bool]] = {
    "line kept": ("benchbot.records.arrivals", "keep", False),
    "line handled": ("benchbot.records.arrivals", "handled", True),
    "message claimed": ("benchbot.records.outbox", "claim", False),
    "message out": ("benchbot.records.outbox", "sent", True),
    "message noted": ("benchbot.records.outbox", "sent", False),
    "errand claimed": ("benchbot.records.errands", "claim", False),
    "errand done": ("benchbot.records.errands", "ended", True),
    "errand ended": ("benchbot.records.errands", "ended", False),
    "told and not on record": ("benchbot.records.waiting", "put_followed", False),
    "book on record": ("benchbot.book.place", "put_in_place", True),
    "book in place": ("benchbot.book.place", "put_in_place", False),
}


class Moved(datetime):
    """Tells the time that the test has made it."""

    __slots__ = ()

    @classmethod
    def now(cls, tz: tzinfo | None = None) -> Moved:
        return super().now(tz) + timedelta(seconds=float(Path(os.environ[CLOCK]).read_text(encoding="utf-8")))


class Rooms(MetaPathFinder):
    """Gives that time to our own modules, as they are loaded, and to no library."""

    def find_spec(self, fullname: str, path: Any, target: ModuleType | None = None) -> ModuleSpec | None:
        spec = PathFinder.find_spec(fullname, path, target) if fullname.startswith("benchbot.") else None
        if spec is not None and spec.loader is not None:
            as_made = spec.loader.exec_module

            def exec_module(module: ModuleType) -> None:
                as_made(module)
                if vars(module).get("datetime") is datetime:
                    vars(module)["datetime"] = Moved

            spec.loader.exec_module = exec_module  # type: ignore[method-assign]
        return spec


def mark_points() -> None:
    for point, (module, name, before) in POINTS.items():
        room = import_module(module)
        setattr(room, name, _dying(getattr(room, name), point, before))


def _dying(as_made: Callable[..., Any], point: str, before: bool) -> Callable[..., Any]:
    wanted = Path(os.environ[DIES])

    @wraps(as_made)
    def passing(*given: Any, **named: Any) -> Any:
        if before:
            _die_at(wanted, point)
        made = as_made(*given, **named)
        # a claim of nothing is none
        if not before and (made or as_made.__name__ != "claim"):
            _die_at(wanted, point)
        return made

    return passing


def _die_at(wanted: Path, point: str) -> None:
    if wanted.is_file() and wanted.read_text(encoding="utf-8") == point:
        wanted.unlink()
        os.kill(os.getpid(), signal.SIGKILL)


if __name__ == "__main__":
    if sys.argv[1] == "--phones":
        mark_points()
        script = Path(__file__).parent.parent / "telegram" / "running_bot.py"
        sys.path.insert(0, str(script.parent))
        runpy.run_path(str(script), run_name="__main__")
    else:
        sys.meta_path.insert(0, Rooms())
        mark_points()
        from benchbot.__main__ import main

        sys.exit(main())
