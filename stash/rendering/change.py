"""Facts that were changed, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering.amounts import Page
from stash.rendering.sentences.say import sentence

if TYPE_CHECKING:
    from stash.actions.change import Changed


def text(changed: Changed, page: Page) -> str:
    """What was changed, and of which skein or lot."""
    done = "; ".join(map(sentence, changed.done))
    return f"{page.strong(changed.what)}: {done}  (entry {changed.entry})"
