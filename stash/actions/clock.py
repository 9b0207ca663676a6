"""The only place that reads the clock."""

from __future__ import annotations

from datetime import UTC, date, datetime


def today() -> date:
    """The day on her calendar."""
    return date.today()


def now_utc() -> str:
    """The instant, for the entry."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
