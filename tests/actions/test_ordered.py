"""Seasons of orders on a real shelf: nobody gets yarn that somebody before them needed.

Shelf, orders and items are generated; what must come of them is searched for here, by lengths
alone: every lot is one skein, a colour is a word on its band, so nothing is joined or chosen.
"""

from __future__ import annotations

from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from books import a_book, a_design, a_line, an_order

from stash.actions import add as add_action
from stash.actions import aside as aside_action
from stash.actions import order
from stash.actions.batch import BatchAsked, plan_batch
from stash.actions.book import Book
from stash.actions.designs import kept_named
from stash.actions.her_settings import Settings
from stash.actions.ordered import Ordered, left_short, orders_short
from stash.matching.answer.proposal import Take
from stash.measures.estimate import to_books
from stash.measures.length import Length, metres
from stash.parsing.order import order_want
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import Terms
from stash.planning.model.problem import Aim
from stash.requirements.design.design import Design

COLOURS = ("navy", "cream", "rust")


class Season:
    """A shelf with a skein of each colour, a hat of one or two colours, and some orders of it."""

    def __init__(self, folder: str, seed: int) -> None:
        random = Random(seed)
        self.book = a_book(Path(folder))
        self.room = {colour: random.randint(60, 300) * 1_000_000 for colour in COLOURS}
        add_action.receive(
            self.book,
            [
                a_line(colour=colour, lot=colour, full_length=Length(um))
                for colour, um in self.room.items()
            ],
        )
        a_design(self.book, A=random.randint(40, 90), B=random.randint(10, 40))
        for _ in range(random.randint(2, 5)):
            one, other = random.sample(COLOURS, 2)
            an_order(
                self.book,
                random.randint(0, 20),
                count=random.randint(1, 3),
                colours={"A": one, "B": other},
            )

    def needs(self) -> dict[str, int]:
        with self.book.reading() as db:
            roles = kept_named(db, Settings.read(db), "hat").need.roles
        return {role.role: to_books(role.set_aside_m).um for role in roles}

    def wants(self) -> tuple[WantAsked, ...]:
        def no_plan(name: str) -> Design:
            raise AssertionError(name)

        orders = order.orders_kept(self.book).open
        return tuple(order_want(one, no_plan, lambda name: None) for one in orders)

    def by_search(self, hours: int = 99) -> dict[int, int]:
        """How many of each order there is yarn for, and an hour each, the first in line first."""
        room, needs, made = dict(self.room), self.needs(), {}
        for one in order.orders_kept(self.book).open:
            takes = {one.colours[role]: um for role, um in needs.items()}
            most = [one.left, hours - sum(made.values())]
            made[one.number] = min([*most, *(room[c] // um for c, um in takes.items())])
            for colour, um in takes.items():
                room[colour] -= made[one.number] * um
        return made


@pytest.mark.parametrize("seed", range(25))
def test_a_batch_gives_each_order_what_those_before_it_leave(seed: int) -> None:
    with TemporaryDirectory() as folder:
        season = Season(folder, seed)
        dear = WantAsked("hat", at_least=2, at_most=9, coins=9_900)
        asked = BatchAsked((*season.wants(), dear), Terms((Aim.VALUE,)))

        batch = plan_batch(season.book, asked).batch

        made = dict.fromkeys(season.by_search(), 0)
        for one in batch.made:
            if (number := batch.wants[one.want].order) is not None:
                made[number] += len(one.items)
        assert made == season.by_search()


@pytest.mark.parametrize("seed", range(10))
def test_what_is_ordered_takes_hours_as_what_is_wanted_of_its_design(seed: int) -> None:
    with TemporaryDirectory() as folder:
        season = Season(folder, seed)
        dear = WantAsked("hat", at_least=2, at_most=9, coins=9_900, minutes=60)
        asked = BatchAsked((*season.wants(), dear), Terms((Aim.VALUE,), minutes=180))

        batch = plan_batch(season.book, asked).batch

        made = dict.fromkeys(season.by_search(), 0)
        for one in batch.made:
            if (number := batch.wants[one.want].order) is not None:
                made[number] += len(one.items)
        assert made == season.by_search(hours=3)
        assert batch.minutes == 60 * batch.items <= 180


@pytest.mark.parametrize("seed", range(25))
def test_the_list_says_what_each_order_lacks(seed: int) -> None:
    with TemporaryDirectory() as folder:
        season = Season(folder, seed)

        short = orders_short(season.book, Ordered(season.wants()), lambda: False).short

        counts = {one.number: one.left for one in order.orders_kept(season.book).open}
        lacking = {n: counts[n] - made for n, made in season.by_search().items()}
        assert {one.order: one.count for one in short} == {n: c for n, c in lacking.items() if c}


@pytest.mark.parametrize("seed", range(25))
def test_a_take_is_warned_of_exactly_where_it_leaves_an_order_with_less(seed: int) -> None:
    with TemporaryDirectory() as folder:
        season = Season(folder, seed)
        before = season.by_search()
        taken = Random(-seed).randint(10, 60)
        take = Take(1, 1, "", 1, metres(taken))

        found = left_short(season.book, Ordered(season.wants()), {"it": [take]})["it"]

        season.room["navy"] -= taken * 1_000_000
        after = season.by_search()
        assert {one.order for one in found} == {n for n in after if after[n] < before[n]}


def test_what_is_set_aside_for_orders_in_their_turn_fills_them_as_the_search_says() -> None:
    with TemporaryDirectory() as folder:
        season = Season(folder, 3)
        wanted = season.by_search()
        for number, count in wanted.items():
            for _ in range(count):
                _aside(season.book, number)

        filled = {one.number: one.filled for one in order.orders_kept(season.book).all}
        assert filled == wanted
        assert sum(filled.values()) > 0


def _aside(book: Book, number: int) -> None:
    colours = order.order_kept(book, number).colours
    skeins = {role: [1 + COLOURS.index(colour)] for role, colour in colours.items()}
    aside_action.aside_own_choice(book, "hat", skeins, order=order.ForOrder(number))
