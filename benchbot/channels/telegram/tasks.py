"""Parts of the service that must not end by themselves."""

from __future__ import annotations

import logging
from collections.abc import Coroutine
from typing import Any

from benchbot.channels.telegram.leaving import ACT, AGAIN, Leave
from benchbot.channels.telegram.logs import fault
from benchbot.errors import BenchbotError, RecordBusyError

_log = logging.getLogger(__name__)


async def kept(part: Coroutine[Any, Any, None], leave: Leave) -> None:
    """Runs a part; when it fails, the process leaves and says why."""
    try:
        await part
    except RecordBusyError as error:
        leave(AGAIN, str(error))
    except BenchbotError as error:
        leave(ACT, str(error))
    except Exception as error:
        fault(_log, "stopped by an error of ours", logging.CRITICAL)
        leave(AGAIN, type(error).__name__)
