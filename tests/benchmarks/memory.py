"""How much memory this process holds, and the most it ever held."""

from __future__ import annotations

import re
import resource
from pathlib import Path

import psutil

_STATUS = Path("/proc/self/status")


def resident_mb() -> float:
    return float(psutil.Process().memory_info().rss) / 1e6


def peak_mb() -> float:
    """Since this program was started; where the system does not say, since its process was."""
    if _STATUS.is_file():
        # getrusage would count what the parent held before this program took its place
        found = re.search(r"VmHWM:\s+(\d+) kB", _STATUS.read_text(encoding="ascii"))
        if found:
            return int(found[1]) * 1024 / 1e6
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024 / 1e6
