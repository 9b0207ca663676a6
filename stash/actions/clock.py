"""The only place that reads the clock."""

from __future__ import annotations

import time
from datetime import UTC, date, datetime


def today() -> date:
    """The day on her calendar."""
    return date.today()


def now_utc() -> str:
    """The instant, for the entry."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def seconds() -> float:
    """Seconds that pass, for how long something may take."""
    return time.monotonic()
