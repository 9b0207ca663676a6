"""A batch that was set aside: its articles, and what to pick for them place by place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from stash.rendering.amounts import Page, counted
from stash.rendering.columns import columns
from stash.rendering.pick_list import PickList, fetch_keys, list_keys, list_lines

Keys = dict[str, Any]


def keys(entry: int, articles: Sequence[tuple[int, str]], picked: PickList) -> Keys:
    """The articles, and what to pick by place and by role."""
    return {
        "entry": entry,
        "articles": [{"article": number, "piece": name} for number, name in articles],
        **list_keys(picked),
    }


def rows(picked: PickList) -> list[Keys]:
    """What to pick, one row for each skein and role of an article."""
    return [fetch_keys(fetch) for fetch in picked.fetches]


def text(
    entry: int,
    articles: Sequence[tuple[int, str]],
    picked: PickList,
    page: Page,
) -> str:
    """The same for reading."""
    head = page.strong(f"Set aside for {counted(len(articles), 'article')}")
    named = columns([[f"article {number}", name] for number, name in articles], "  ")
    lines = list_lines(picked, page.units, page.patch, page.strong)
    return "\n".join([f"{head}  (entry {entry})", named, "to pick:", *lines])
