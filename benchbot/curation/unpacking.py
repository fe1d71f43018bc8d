"""Opens a backup file that may be damaged or hostile, and unpacks from it only what its manifest vouches for."""

from __future__ import annotations

import hashlib
import os
import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import IO, Self

from benchbot.curation.home_files import MOST
from benchbot.curation.manifest import MANIFEST, Manifest, Part
from benchbot.errors import RecordError

CHUNK = 1 << 20
_MOST_FILES = 3 + MOST
# A line or so for each file.
_MOST_MANIFEST = 8 << 20
# An honest database shrinks to a tenth or so; a few empty pages more do not matter.
_MOST_SHRUNK = 200
_SLACK = 4 << 20
_END = struct.Struct("<4s4H2LH")
_FAR_END = struct.Struct("<4sQ2H2L4Q")
_FAR_PLACE = struct.Struct("<4sLQL")
_BROKEN = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, NotImplementedError, RuntimeError, ValueError)


class Backup:
    """An open backup file: its names, sizes and manifest were checked; its parts are when they are unpacked."""

    def __init__(self, path: Path, archive: zipfile.ZipFile, manifest: Manifest) -> None:
        self.path = path
        self.manifest = manifest
        self._archive = archive

    @classmethod
    def open(cls, path: Path) -> Self:
        """RecordError: the file is no backup, is not whole, or is not what it seems to be. Nothing is unpacked."""
        try:
            if not stat.S_ISREG(path.stat().st_mode):
                raise _refused(path, "it is no plain file")
            _check_end(path)
            archive = zipfile.ZipFile(path)
        except OSError as error:
            raise RecordError(f"{path}: the backup cannot be read ({error.strerror}); name a file that can") from error
        except _BROKEN as error:
            raise _refused(path, str(error)) from error
        try:
            return cls(path, archive, _manifest(path, archive))
        except BaseException:
            archive.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._archive.close()

    @property
    def size(self) -> int:
        """Bytes of all parts, unpacked."""
        return sum(part.size for part in self.manifest.parts)

    def unpack(self, part: Part, to: Path) -> None:
        """Writes a part into the new file `to`, for this account only. RecordError: it is not what was packed."""
        handle = os.open(to, os.O_CREAT | os.O_EXCL | os.O_WRONLY | getattr(os, "O_BINARY", 0), 0o600)
        with os.fdopen(handle, "wb") as target:
            for chunk in self._chunks(part):
                target.write(chunk)
            target.flush()
            os.fsync(target.fileno())

    def verify(self) -> None:
        """Reads every part through. RecordError: one is not what was packed."""
        for part in self.manifest.parts:
            self.look_at(part)

    def look_at(self, part: Part) -> None:
        """Reads one part through. RecordError: it is not what was packed."""
        for _ in self._chunks(part):
            pass

    def _chunks(self, part: Part) -> Iterator[bytes]:
        file, sha, size = part.file, hashlib.sha256(), 0
        with _reading(self.path, self._archive, file) as packed:
            while chunk := packed.read(CHUNK):
                size += len(chunk)
                if size > part.size:
                    raise _refused(self.path, f"{file} unpacks to more than the manifest says")
                sha.update(chunk)
                yield chunk
        if size != part.size or sha.hexdigest() != part.sha256:
            raise _refused(self.path, f"{file} is not what the manifest says: its digest or its size differs")


def _manifest(path: Path, archive: zipfile.ZipFile) -> Manifest:
    entries = archive.infolist()
    names = [entry.filename for entry in entries]
    if MANIFEST not in names:
        raise _refused(path, f"it has no {MANIFEST}")
    listed = archive.getinfo(MANIFEST)
    if listed.file_size > _MOST_MANIFEST:
        raise _refused(path, f"its {MANIFEST} has {listed.file_size:,} bytes")
    with _reading(path, archive, MANIFEST) as packed:
        text = packed.read(_MOST_MANIFEST + 1)
    try:
        manifest = Manifest.from_text(text.decode("utf-8"))
    except ValueError as error:
        raise _refused(path, f"its {MANIFEST} is wrong: {error}") from error
    wanted = {*manifest.files, MANIFEST}
    for name in names:
        if name not in wanted:
            raise _refused(path, f"it holds {name[:80]!r}, which does not belong there")
        # a second one of the same name finds it gone
        wanted.remove(name)
    for part in manifest.parts:
        if part.file in wanted:
            raise _refused(path, f"its {part.file} is missing")
        entry = archive.getinfo(part.file)
        if entry.file_size != part.size:
            raise _refused(path, f"{part.file} has {entry.file_size:,} bytes, the manifest says {part.size:,}")
        if entry.file_size > entry.compress_size * _MOST_SHRUNK + _SLACK:
            raise _refused(path, f"{part.file} would grow from {entry.compress_size:,} to {entry.file_size:,} bytes")
    return manifest


@contextmanager
def _reading(path: Path, archive: zipfile.ZipFile, name: str) -> Iterator[IO[bytes]]:
    try:
        entry = archive.getinfo(name)
        if entry.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise _refused(path, f"{name} is packed in a way that benchbot does not use")
        with archive.open(entry) as packed:
            yield packed
    except (*_BROKEN, OSError) as error:
        # A place that no file has, in the list of contents, is an error of the system's.
        raise _refused(path, f"{name} cannot be unpacked ({error})") from error


def _check_end(path: Path) -> None:
    """Looks at the list of contents before anything is made of it: one of a million entries would fill the memory."""
    with path.open("rb") as file:
        head = file.read(16)
        if head.startswith(b"SQLite format 3"):
            raise _refused(path, "it is a bare database file, not one written by: benchbot backup")
        size = file.seek(0, os.SEEK_END)
        file.seek(max(0, size - _END.size))
        end = file.read()
        if len(end) != _END.size or end[:4] != b"PK\x05\x06":
            raise _refused(path, "it is no backup file, or its end is missing")
        counts = [_END.unpack(end)[4]]
        at = size - _END.size - _FAR_PLACE.size
        if at >= 0:
            file.seek(at)
            place = file.read(_FAR_PLACE.size)
            if place[:4] == b"PK\x06\x07":
                file.seek(max(0, at - _FAR_END.size))
                counts.append(_FAR_END.unpack(file.read(_FAR_END.size))[7])
        if max(counts) > _MOST_FILES:
            raise _refused(path, f"it lists {max(counts):,} files")


def _refused(path: Path, wrong: str) -> RecordError:
    return RecordError(f"{path}: {wrong}. Nothing was changed; name a backup that is whole")
