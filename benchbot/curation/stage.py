"""Checked rows that wait in a nameless temporary file until the whole table has passed."""

from __future__ import annotations

import marshal
import struct
import tempfile
from collections.abc import Iterable, Iterator
from types import TracebackType
from typing import Any, Self

BATCH = 5_000
_LENGTH = struct.Struct("<Q")


class Stage:
    """Rows of texts and numbers, written once and then read from the start; the file goes with the process."""

    def __init__(self) -> None:
        self._file = tempfile.TemporaryFile(prefix="benchbot-")  # noqa: SIM115 (closed when the stage is left)
        self.rows = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._file.close()

    def put(self, rows: Iterable[tuple[Any, ...]]) -> None:
        batch: list[tuple[Any, ...]] = []
        for row in rows:
            batch.append(row)
            if len(batch) == BATCH:
                self.put_batch(batch)
                batch = []
        self.put_batch(batch)

    def put_batch(self, batch: list[tuple[Any, ...]]) -> None:
        if batch:
            packed = marshal.dumps(batch)
            self._file.write(_LENGTH.pack(len(packed)) + packed)
            self.rows += len(batch)

    def batches(self) -> Iterator[list[tuple[Any, ...]]]:
        self._file.seek(0)
        while length := self._file.read(_LENGTH.size):
            # Reading a batch at once: marshal.load would ask the file for every few bytes.
            batch: list[tuple[Any, ...]] = marshal.loads(self._file.read(*_LENGTH.unpack(length)))
            yield batch
