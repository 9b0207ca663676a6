"""A batch that was set aside: its articles, and what to pick for them place by place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.rendering.amounts import Page, counted
from stash.rendering.columns import columns
from stash.rendering.pick_list import list_keys, list_lines, list_rows, of_articles

if TYPE_CHECKING:
    from stash.actions.batch_aside import BatchAside


def keys(made: BatchAside) -> dict[str, Any]:
    """The articles, and what to pick by place and by role."""
    return {
        "entry": made.entry,
        "articles": [{"article": number, "piece": name} for number, name in made.articles],
        **list_keys(of_articles(made.picked)),
    }


def rows(made: BatchAside) -> list[dict[str, Any]]:
    """What to pick, one row for each skein and role of an article."""
    return list_rows(of_articles(made.picked))


def text(made: BatchAside, page: Page) -> str:
    """The same for reading."""
    head = page.strong(f"Set aside for {counted(len(made.articles), 'article')}")
    named = columns([[f"article {number}", name] for number, name in made.articles], "  ")
    to_pick = list_lines(of_articles(made.picked), page)
    return "\n".join([f"{head}  (entry {made.entry})", named, "to pick:", *to_pick])
