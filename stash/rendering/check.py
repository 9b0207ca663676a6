"""What is wrong with a file, or that all is good."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stash.measures.note import Note
from stash.rendering.sentences.say import sentence

Findings = Sequence[Note | str]


def keys(findings: Findings) -> dict[str, Any]:
    """Whether the file is sound, and what is not."""
    return {"ok": not findings, "findings": list(map(sentence, findings))}


def rows(findings: Findings) -> list[dict[str, Any]]:
    """One row for each finding."""
    return [{"finding": sentence(one)} for one in findings]


def text(findings: Findings) -> str:
    """The same for reading."""
    return "\n".join(map(sentence, findings)) or "All good: every gram adds up."
