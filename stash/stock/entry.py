"""An entry: what one writing command did, as one numbered line of the books."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the log; `taken_back_by` names the entry that answered it, if one did."""

    number: int
    on: date
    at_utc: str
    kind: str
    words: str
    takes_back: int | None = None
    taken_back_by: int | None = None
