"""A plan of a batch as it was written, read with what she has: her designs, sizes and currency."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stash.actions import clock, designs
from stash.actions.batch import BatchAsked
from stash.actions.book import Book
from stash.matching.question.wish import Wish
from stash.parsing.batch.lines import PlanLines
from stash.parsing.batch.plan import PlanRead, Surroundings, plan_read
from stash.planning.model.asked import WantAsked


def batch_read(
    book: Book, lines: PlanLines, aim: str = "", ordered: Sequence[WantAsked] = ()
) -> PlanRead:
    """What such a plan means; what is ordered comes first."""
    hers = designs.her_designs(book)
    settings = hers.settings
    around = Surroundings(
        hers.plan, settings.own_size, settings.currency, clock.today(), tuple(ordered)
    )
    return plan_read(lines, aim, around)


def batch_asked(read: PlanRead, wish: Wish) -> BatchAsked:
    """The same as it is asked of the shelf; a contrast of the wish outweighs the plan's."""
    contrast = wish.contrast or read.contrast
    return BatchAsked(read.wants, read.terms, replace(wish, contrast=contrast), read.kept_out)
