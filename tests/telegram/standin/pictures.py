"""Whether bytes are a picture that the messenger takes, and how large it is."""

from __future__ import annotations

import base64
import struct

from .refusals import bad

# The smallest PNG there is: one grey pixel.
PIXEL = base64.b64decode("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==")
# https://core.telegram.org/bots/api#sendphoto
BYTES_AT_MOST = 10 * 1024 * 1024
SIDES_AT_MOST = 10_000
RATIO_AT_MOST = 20
_FRAMES = {0xC0, 0xC1, 0xC2, 0xC3, 0xC5, 0xC6, 0xC7, 0xC9, 0xCA, 0xCB, 0xCD, 0xCE, 0xCF}


def size_of(content: bytes) -> tuple[int, int]:
    """Width and height in pixels. Wording of the refusals: value from memory."""
    if not content:
        raise bad("file must be non-empty")
    if len(content) > BYTES_AT_MOST:
        raise bad("file is too big")
    found = _png(content) or _jpeg(content)
    if found is None:
        raise bad("IMAGE_PROCESS_FAILED")
    width, height = found
    if not width or not height or width + height > SIDES_AT_MOST or max(found) > RATIO_AT_MOST * min(found):
        raise bad("PHOTO_INVALID_DIMENSIONS")
    return found


def _png(content: bytes) -> tuple[int, int] | None:
    """PNG specification, 11.2.2: IHDR comes first, width and height are its first two fields."""
    if not content.startswith(b"\x89PNG\r\n\x1a\n") or content[12:16] != b"IHDR" or len(content) < 24:
        return None
    width, height = struct.unpack(">II", content[16:24])
    return width, height


def _jpeg(content: bytes) -> tuple[int, int] | None:
    """ITU-T T.81, B.2.2: a frame header holds the height and then the width."""
    if not content.startswith(b"\xff\xd8"):
        return None
    at = 2
    while at + 9 <= len(content) and content[at] == 0xFF:
        length = struct.unpack(">H", content[at + 2 : at + 4])[0]
        if content[at + 1] in _FRAMES:
            height, width = struct.unpack(">HH", content[at + 5 : at + 9])
            return width, height
        at += 2 + length
    return None
