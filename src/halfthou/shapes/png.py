"""PNG pictures, written out by hand: eight bits a channel, red green blue and cover."""

from __future__ import annotations

import struct
import zlib
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

Pixels: TypeAlias = NDArray[np.uint8]

_SIGNATURE: Final = b"\x89PNG\r\n\x1a\n"
_EIGHT_BITS: Final = 8
_RGBA: Final = 6


def png_bytes(pixels: Pixels) -> bytes:
    """Return a PNG file holding ``pixels``, shape (height, width, 4), top row first.

    The same pixels always give the same bytes.
    """
    height, width, _ = pixels.shape
    header = struct.pack(">IIBBBBB", width, height, _EIGHT_BITS, _RGBA, 0, 0, 0)
    no_filter = np.zeros((height, 1), dtype=np.uint8)
    rows = np.hstack([no_filter, pixels.reshape(height, width * 4)])
    body = zlib.compress(rows.tobytes(), level=9)
    chunks = ((b"IHDR", header), (b"IDAT", body), (b"IEND", b""))
    return _SIGNATURE + b"".join(_chunk(kind, data) for kind, data in chunks)


def _chunk(kind: bytes, data: bytes) -> bytes:
    check = zlib.crc32(kind + data)
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)
