"""Makers for tests that open a stash file: a fresh book, and a line of yarn with usual facts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import text

from stash.actions import (
    add as add_action,
)
from stash.actions import (
    aside as aside_action,
)
from stash.actions import (
    clock,
    designs,
    done,
    order,
    show,
    sold,
    use,
    weigh,
)
from stash.actions import (
    count as count_action,
)
from stash.actions.book import Book, open_book
from stash.actions.settings import change_setting
from stash.actions.use import Amount
from stash.errors import StashError
from stash.measures.colour import Colour
from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.requirements.design.design import Design
from stash.stock.holding import HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.promise import Promised
from stash.stock.yarn import LotState
from stash.store import item_rows, skein_rows


def a_book(folder: Path) -> Book:
    """A fresh, empty book."""
    return open_book(folder / "shelf.stash", begin=True)


def a_skein_story(book: Book, asked: str) -> show.SkeinStory:
    """All that the books say of one skein."""
    story = show.story(book, asked)
    assert isinstance(story, show.SkeinStory)
    return story


def a_line(**facts: object) -> Incoming:
    """One skein of 100 g / 200 m, class 4, lot 1, of an invented yarn."""
    usual: dict[str, object] = {
        "name": "Fellside",
        "colour": "navy",
        "lot": "1",
        "lot_state": LotState.NUMBERED,
        "thickness_from": 4,
        "thickness_to": 4,
        "full_mass": grams(100),
        "full_length": metres(200),
    }
    return Incoming(**{**usual, **facts})  # type: ignore[arg-type]


def add(book: Book, **facts: object) -> int:
    """Add one line; the number of its first skein."""
    return add_action.receive(book, [a_line(**facts)]).arrived[0].skeins[0]


def g(count: int | str) -> Amount:
    """An amount in grams, as typed."""
    return Amount(f"{count}g", grams(int(count)))


def m(count: int) -> Amount:
    """An amount in metres, as typed."""
    return Amount(f"{count}m", metres(count))


def skein(book: Book, number: int) -> HeldSkein:
    """One skein as it stands."""
    with book.reading() as db:
        return skein_rows.held_skeins(db, [number])[0]


def promises(book: Book, number: int) -> list[Promised]:
    """What is promised of one skein."""
    with book.reading() as db:
        return item_rows.promises(db, skeins=[number])


def a_design(book: Book, name: str = "hat", **lengths: int) -> None:
    """Keep a design by a pattern's figures in metres, margin 5 %: A=60, B=20."""
    stated = tuple(sorted((role, metres(m)) for role, m in lengths.items()))
    designs.add_design(book, Design(name=name, stated=stated, thickness_from=4, thickness_to=4))


def aside(book: Book, design: str = "hat", **skeins: int) -> int:
    """Set her own choice aside, one skein a role; the item's number."""
    chosen: Mapping[str, list[int]] = {role: [number] for role, number in skeins.items()}
    return aside_action.aside_own_choice(book, design, chosen).item.number


def an_order(book: Book, days: int = 7, **facts: object) -> int:
    """Take in an order of a hat, for so many days from today; its number."""
    usual: dict[str, object] = {"who": "blue, for Friday", "design": "hat"}
    by = clock.today() + timedelta(days=days)
    typed = order.OrderTyped(**{**usual, "by": by, **facts})  # type: ignore[arg-type]
    return order.add_order(book, typed).order.number


def rows(book: Book) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table; in what order they lie in the file means nothing."""
    with book.reading() as db:
        names = [
            row[0]
            for row in db.execute(
                text("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
            )
        ]
        return {
            name: sorted(map(tuple, db.execute(text(f"SELECT * FROM {name}"))), key=repr)
            for name in names
        }


@contextmanager
def refuses(kind: str, **facts: object) -> Iterator[None]:
    """What is done inside is refused: of this kind, and with these facts among others."""
    with pytest.raises(StashError) as refused:
        yield
    error = refused.value
    assert (error.kind, {name: error.facts[name] for name in facts}) == (kind, facts)


def a_full_book(path: Path) -> Book:
    """A book with rows in every table: the dumps of old schemas are made from one like it."""
    book = open_book(path, begin=True)
    stamp = add_action.SheetStamp("shelf.csv", "00ff")
    lines = [
        a_line(count=2, paid=Money(1390), colours=(Colour("#203050"),), place="basket"),
        a_line(colour="cream", lot="7", left=Length(80_000_000), tare=Mass(12_500)),
        a_line(name="Ottermeade", full_mass=None, lot_state=LotState.UNKNOWN, lot=""),
    ]
    add_action.receive(book, lines, sheet=stamp, habits={"currency": "EUR"})
    a_design(book, A=60, B=20)
    an_order(book, colours={"A": "navy"}, price=Money(3200))
    made = str(aside(book, A=1, B=3))
    aside_action.begin(book, [made])
    weigh.weigh(book, "1", weigh.ScaleReading(grams(80), row=20))
    use.gone(book, "2", g(30), use.Kind.GIVEN)
    change_setting(book, "units", "us")
    done.done(book, {made: done.Known(left={"1": grams(68), "3": grams(41)})})
    aside(book, A=1, B=3)
    sold.sell(book, {made: sold.Price(Money(2800), Money(120))})
    count_action.note(book, "basket", ["1"], {})
    return book
