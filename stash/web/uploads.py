"""Sheets that were dropped in, kept in memory between their preview and bringing them in."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock

from stash.rendering.printable import plain

#: So many sheets are kept, and so many bytes of them all; the oldest goes first.
MOST, MOST_BYTES = 8, 16 * 1024 * 1024
#: A name is only shown; longer ones are cut.
_LONGEST_NAME = 80


@dataclass(frozen=True, slots=True)
class Upload:
    """A file as it was sent: its name without any folder, and its bytes."""

    name: str
    data: bytes


class Uploads:
    """Files by a number that nobody can guess. Safe for several threads."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Upload] = OrderedDict()
        self._lock = Lock()

    def keep(self, name: str, data: bytes) -> str:
        """The number under which it is found again; nothing of it is written anywhere."""
        number = secrets.token_urlsafe(9)
        bare = plain(name.replace("\\", "/").rpartition("/")[2]).strip()[-_LONGEST_NAME:]
        with self._lock:
            self._kept[number] = Upload(bare or "sheet", data)
            while len(self._kept) > MOST or self._bytes() > MOST_BYTES:
                self._kept.popitem(last=False)
        return number

    def _bytes(self) -> int:
        return sum(len(one.data) for one in self._kept.values())

    def find(self, number: str) -> Upload | None:
        """The file of that number, if it is still kept."""
        return self._kept.get(number)
