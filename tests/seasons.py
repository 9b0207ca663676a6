"""Invented seasons of a seller: whatever befalls yarn and items at random, told twice.

Once to the program, and once as plain rows that an independent calculation reads. The same seed
gives the same season. A yarn's skeins have odd prices and weights, so that nothing comes out even.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, timedelta
from random import Random

from books import a_line

from stash.actions import add, aside, done, gone_item, sold, unravel, use
from stash.actions.book import Book
from stash.measures.length import metres
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.stock.movement import Kind
from stash.stock.sale import SaleKind


@dataclass(frozen=True, slots=True)
class Happened:
    """One row of a season: what, on which day, to which skein or item, and the amounts."""

    what: str
    on: date
    skein: int = 0
    item: int = 0
    mg: int = 0
    coins: int = 0
    fee: int = 0
    was: int = 0


@dataclass(slots=True)
class Season:
    """A season as it goes on; `told` are its rows in the order in which they were booked."""

    book: Book
    random: Random
    day: date
    told: list[Happened] = field(default_factory=list)
    yarn_of: dict[int, str] = field(default_factory=dict)
    held: dict[int, int] = field(default_factory=dict)
    used: dict[int, dict[int, int]] = field(default_factory=dict)
    hers: set[int] = field(default_factory=set)
    away: dict[int, str] = field(default_factory=dict)

    def go_on(self, count: int, until: date) -> None:
        """So many things happen, spread over the days up to one."""
        step = (until - self.day).days / count
        begin = self.day
        for i in range(count):
            self.day = begin + timedelta(days=round(step * (i + 1)))
            chance = self.random.random()
            for limit, act in (
                (0.16, self._buy), (0.46, self._make), (0.60, self._yarn_goes),
                (0.76, self._sell), (0.84, self._comes_back), (0.93, self._item_goes),
                (1.00, self._comes_apart),
            ):  # fmt: skip
                if chance < limit:
                    act()
                    break

    def _tell(self, what: str, **facts: int) -> None:
        self.told.append(Happened(what, self.day, **facts))

    def _buy(self) -> None:
        mg, coins = self.random.randint(60_000, 140_000), self.random.choice((0, 417, 795, 1203))
        coins += self.random.randint(0, 300) if coins else 0
        name = self.random.choice(("Fellside", "Ottermeade"))
        line = a_line(name=name, full_mass=Mass(mg), full_length=metres(220), paid=Money(coins))
        number = add.receive(self.book, [line], on=self.day).arrived[0].skeins[0]
        self.yarn_of[number], self.held[number] = name, mg
        self._tell("bought", skein=number, mg=mg, coins=coins)

    def _some_of(self, least: int) -> int | None:
        able = [n for n, mg in sorted(self.held.items()) if mg > least]
        return self.random.choice(able) if able else None

    def _make(self) -> None:
        skein = self._some_of(45_000)
        if skein is None:
            return self._buy()
        made = aside.aside_own_choice(self.book, "hat", {"A": [skein]}, on=self.day).item.number
        mg = self.random.randint(5_000, 40_000)
        left = Mass(self.held[skein] - mg)
        done.done(self.book, {str(made): done.Known(left={str(skein): left})}, on=self.day)
        self.held[skein] -= mg
        self.used[made] = {skein: mg}
        self.hers.add(made)
        self._tell("used", skein=skein, item=made, mg=mg)
        return None

    def _yarn_goes(self) -> None:
        skein = self._some_of(3_000)
        if skein is None:
            return
        mg = self.random.choice((self.held[skein], self.random.randint(1, self.held[skein])))
        why = self.random.choice((Kind.SOLD, Kind.SOLD, Kind.GIVEN, Kind.LOST, Kind.SPOILT))
        price, fee = (self.random.randint(100, 900), 37) if why is Kind.SOLD else (0, 0)
        paid = use.YarnPrice(Money(price), Money(fee)) if why is Kind.SOLD else None
        amount = use.Amount("", Mass(mg))
        use.gone(self.book, str(skein), amount, why, paid=paid, on=self.day)
        self.held[skein] -= mg
        self._tell(f"yarn {why}", skein=skein, mg=mg, coins=price, fee=fee)

    def _an_item(self, among: set[int]) -> int | None:
        return self.random.choice(sorted(among)) if among else None

    def _sell(self) -> None:
        item = self._an_item(self.hers)
        if item is None:
            return
        price, fee = self.random.randint(900, 4000), self.random.randint(0, 300)
        sold.sell(self.book, {str(item): sold.Price(Money(price), Money(fee))}, on=self.day)
        self.hers.discard(item)
        self.away[item] = "sold"
        self._tell("sold", item=item, coins=price, fee=fee)

    def _item_goes(self) -> None:
        item = self._an_item(self.hers)
        if item is None:
            return
        how = self.random.choice((SaleKind.GIVEN, SaleKind.LOST))
        gone_item.item_gone(self.book, str(item), how, on=self.day)
        self.hers.discard(item)
        self.away[item] = how.value
        self._tell(how.value, item=item)

    def _comes_back(self) -> None:
        item = self._an_item(set(self.away))
        if item is None:
            return
        paid = [x for x in self.told if x.item == item and x.what == "sold"]
        sale = paid[-1] if self.away[item] == "sold" else None
        fee = self.random.randint(0, sale.fee) if sale else 0
        sold.take_back(self.book, [str(item)], Money(fee), on=self.day)
        self._tell(f"back from {self.away.pop(item)}", item=item, coins=sale.coins if sale else 0,
                   fee=fee)  # fmt: skip
        self.hers.add(item)

    def _comes_apart(self) -> None:
        item = self._an_item(self.hers)
        if item is None:
            return
        mg = self.random.randint(1, sum(self.used[item].values()))
        (came,) = unravel.unravel(self.book, [str(item)], back=Mass(mg), on=self.day)
        self.hers.discard(item)
        self._tell("apart", item=item)
        for one in came.returned:
            number = one.skein.number
            self.yarn_of[number], self.held[number] = self.yarn_of[one.was], one.mass.mg
            self._tell("unravelled", skein=number, item=item, mg=one.mass.mg, was=one.was)
