"""An article: one made thing of a piece, with a number never used again."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.measures.money import Money


class ArticleState(StrEnum):
    """How far an article is; a sale is a separate fact."""

    PLANNED = "planned"
    BEGUN = "begun"
    DONE = "done"
    UNRAVELLED = "unravelled"


class Weighed(StrEnum):
    """How the yarn of a finished article became known, and what that teaches.

    Balls and roles teach total and split, an article teaches the total, a plan teaches nothing.
    """

    BALLS = "balls"
    ROLES = "roles"
    ARTICLE = "article"
    AS_PLANNED = "as planned"


#: Ways of knowing that teach the next estimate.
TEACHING = (Weighed.BALLS, Weighed.ROLES, Weighed.ARTICLE)


@dataclass(frozen=True, slots=True)
class AskedFor:
    """What was asked for an article when it was planned; None where nothing was said."""

    price: Money | None = None
    minutes: int | None = None


NOT_ASKED = AskedFor()


@dataclass(frozen=True, slots=True)
class Article:
    """An article as it is now; one without a piece only holds yarn aside under a note."""

    number: int
    state: ArticleState
    piece_id: int | None
    piece: str
    note: str
    how: Weighed | None = None
    set_aside: bool = False
    asked: AskedFor = NOT_ASKED

    @property
    def open(self) -> bool:
        """Whether yarn may still go into it: begun, or planned with yarn set aside."""
        return self.state is ArticleState.BEGUN or (
            self.state is ArticleState.PLANNED and self.set_aside
        )

    def __str__(self) -> str:
        return f"{self.number} ({self.piece or self.note})"
