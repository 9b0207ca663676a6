"""Asking what today's shelf can become: how often the file is asked."""

from pathlib import Path

import pytest
from books import a_book, a_design, a_line
from sqlalchemy import event

from stash.actions.add import receive
from stash.actions.match import NeedAsked, propose
from stash.measures.colour import Colour


def statements(folder: Path, lots: int) -> list[str]:
    """Everything that is asked of the file to match a shelf of so many lots."""
    book = a_book(folder)
    colours = [Colour(f"#{24 * (i % 10):02x}{40 + i % 7:02x}40") for i in range(lots)]
    receive(book, [a_line(lot=str(i), colours=(colour,)) for i, colour in enumerate(colours)])
    a_design(book, A=60, B=20)
    asked: list[str] = []
    with book.reading() as db:
        event.listen(db.engine, "before_cursor_execute", lambda *told: asked.append(told[2]))
        answer = propose(book, NeedAsked("hat"))
    assert answer.match.looked_at == lots
    assert answer.match.proposals
    return asked


def test_a_large_shelf_is_loaded_in_as_few_statements_as_a_small_one(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    few, many = (statements(tmp_path_factory.mktemp("book"), lots) for lots in (5, 200))

    assert many == few
    assert len(many) <= 12
