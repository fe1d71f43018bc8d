"""The one tree of errors, all of them for curators and operators; what a technician can meet is an outcome instead.

BenchbotError
├── SettingError           a setting or a path is wrong
├── QuantityError          a text is no quantity we can hold
│   └── UnitError          the unit is unknown, missing or of another kind
├── KnowledgeError         a file in knowledge/ is wrong; it refuses to load
├── TableError             a table handed to an import has faults; nothing was written
├── RecordError            the shop record cannot be opened, migrated or written
│   └── RecordBusyError    it is kept busy, or its server is out of reach: later it may work
└── BookError              there is no book, or the file is not one, or it is damaged
"""

from __future__ import annotations

from dataclasses import dataclass


class BenchbotError(Exception):
    """Every error of ours; its text says where, what, and what to do."""


class SettingError(BenchbotError):
    """A setting or a path is wrong."""


class QuantityError(BenchbotError):
    """A text is no quantity we can hold."""


class UnitError(QuantityError):
    """The unit is unknown, missing, or of another kind than asked for."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in a file: where it is, what is wrong, what would be right."""

    where: str
    column: str
    wrong: str
    mend: str

    def __str__(self) -> str:
        place = f"{self.where}, {self.column}" if self.column else self.where
        return f"{place}: {self.wrong}. {self.mend}"


class _FaultyFileError(BenchbotError):
    """Carries every fault found in one file."""

    def __init__(self, file: str, faults: list[Fault]) -> None:
        self.file = file
        self.faults = faults
        count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
        super().__init__("\n".join([f"{file}: {count}", *(f"  {fault}" for fault in faults)]))


class KnowledgeError(_FaultyFileError):
    """A file in knowledge/ is wrong; nothing loads until it is mended."""


class TableError(_FaultyFileError):
    """A table handed to an import has faults; nothing of it was written."""


class RecordError(BenchbotError):
    """The shop record cannot be opened, migrated or written."""


class RecordBusyError(RecordError):
    """The record is kept busy, or its server is out of reach: the same may work later."""


class BookError(BenchbotError):
    """There is no book, or the file is not one, or it is damaged."""
