"""The tags of several items, as one alone is shown, one under the other."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stash.rendering import tag
from stash.rendering.tag import Facts

#: Where one tag ends and the next begins.
_BETWEEN = f"\n\n{'=' * 60}\n\n"


def tags_keys(found: Sequence[Facts]) -> dict[str, Any] | list[dict[str, Any]]:
    """One tag with stable keys; of several a list of them."""
    each = [tag.keys(one) for one in found]
    return each[0] if len(each) == 1 else each


def tags_rows(found: Sequence[Facts]) -> list[dict[str, Any]]:
    """The fibres line by line; of several with the item of each line."""
    if len(found) == 1:
        return list(tag.rows(found[0]))
    return [{"batch": one.batch, **row} for one in found for row in tag.rows(one)]


def tags_text(found: Sequence[Facts]) -> str:
    """The sheets to print."""
    return _BETWEEN.join(map(tag.text, found))
