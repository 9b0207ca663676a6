"""What the whole shelf can become: every kept piece asked of it at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from stash.actions import pieces
from stash.actions.book import Book
from stash.actions.match import AS_SET, plan_of, shelf_of, wish_of
from stash.actions.preferences import Preferences
from stash.matching.shelf_survey import Question, ShelfSurvey, survey
from stash.measures.note import Note


@dataclass(frozen=True, slots=True)
class FromShelf:
    """What each kept piece hears from the shelf, and what one more skein of a lot would do."""

    as_of: date
    lots: int
    found: ShelfSurvey
    settings: Preferences


def from_shelf(book: Book, report: Callable[[str | Note], None]) -> FromShelf:
    """Which kept pieces the shelf allows today, each as `match` would answer it without options.

    `report` hears the name of each piece as it is looked at.
    """
    with book.reading() as db:
        preferences = Preferences.read(db)
        shelf = shelf_of(db, preferences)
        kept = pieces.listed_within(db, preferences)
        questions = [
            Question(
                one.piece.name,
                one.need,
                wish_of(db, preferences, AS_SET, one.need, shelf),
                plan_of(one, preferences),
            )
            for one in kept
        ]
    return FromShelf(shelf.as_of, len(shelf.lots), survey(shelf, questions, report), preferences)
