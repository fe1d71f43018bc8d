"""`python -m tests.telegram.standin --port 8081`, or this file by its path; prints where it listens, in JSON."""

from __future__ import annotations

import sys
from pathlib import Path

if not __package__:
    # Started by its path: the folder above is where the package lies.
    sys.path[0] = str(Path(__file__).resolve().parent.parent)
    from standin.serving import main
else:
    from .serving import main

if __name__ == "__main__":
    sys.exit(main())
