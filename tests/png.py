"""The pixels of a screenshot."""

from __future__ import annotations

import struct
import zlib

import numpy as np
from numpy.typing import NDArray


def pixels(png: bytes) -> NDArray[np.uint8]:
    """The pixels of a PNG of 8 bits a channel, not interlaced (PNG specification, section 9)."""
    at, packed, width, height, channels = 8, b"", 0, 0, 3
    while at < len(png):
        (length,), kind = struct.unpack(">I", png[at : at + 4]), png[at + 4 : at + 8]
        data = png[at + 8 : at + 8 + length]
        if kind == b"IHDR":
            width, height, depth, colours = struct.unpack(">IIBB", data[:10])
            assert depth == 8
            channels = {2: 3, 6: 4}[colours]
        packed += data if kind == b"IDAT" else b""
        at += length + 12
    rows = np.frombuffer(zlib.decompress(packed), np.uint8).reshape(height, width * channels + 1)
    found = np.zeros((height + 1, (width + 1) * channels), np.int64)
    for y, (how, *line) in enumerate(rows.tolist(), start=1):
        unfiltered = found[y]
        above = found[y - 1]
        unfiltered[channels:] = _unfiltered(how, np.array(line), above, channels)
    return found[1:, channels:].reshape(height, width, channels)[:, :, :3].astype(np.uint8)


def _unfiltered(
    how: int, line: NDArray[np.int64], above: NDArray[np.int64], channels: int
) -> NDArray[np.int64]:
    if how == 0:
        return line
    if how == 2:
        return (line + above[channels:]) % 256
    if how == 1:
        return np.cumsum(line.reshape(-1, channels), axis=0).reshape(-1) % 256
    row, up, wide = [0] * channels + line.tolist(), above.tolist(), channels
    for x in range(wide, len(row)):
        left, over, corner = row[x - wide], up[x], up[x - wide]
        if how == 3:
            guess = (left + over) // 2
        else:
            base = left + over - corner
            guess = min((left, over, corner), key=lambda one: abs(base - one))
        row[x] = (row[x] + guess) % 256
    return np.array(row[wide:])
