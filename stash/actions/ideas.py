"""What the whole shelf can become: every kept design asked of it at once."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from stash.actions import designs
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.match import AS_SET, shelf_of, wish_of
from stash.matching.shelf_survey import Question, ShelfSurvey, survey
from stash.measures.note import Note


@dataclass(frozen=True, slots=True)
class FromShelf:
    """What each kept design hears from the shelf, and what one more skein of a lot would do."""

    as_of: date
    lots: int
    found: ShelfSurvey
    settings: Settings


def from_shelf(book: Book, report: Callable[[str | Note], None]) -> FromShelf:
    """Which kept designs the shelf allows today, each as `match` would answer it without options.

    `report` hears the name of each design as it is looked at.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        shelf = shelf_of(db, settings)
        kept = designs.listed_within(db, settings)
        questions = [
            Question(
                one.design.name,
                one.need,
                wish_of(db, settings, AS_SET, one.need, shelf),
                one.known,
            )
            for one in kept
        ]
    return FromShelf(shelf.as_of, len(shelf.lots), survey(shelf, questions, report), settings)
