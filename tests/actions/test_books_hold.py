"""Whatever is done in whatever order, the books hold: a machine that does everything at random."""

from __future__ import annotations

import tempfile
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta
from functools import cache
from pathlib import Path
from typing import Any

from books import a_book, a_line
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from stash.actions import (
    add,
    change,
    check,
    clock,
    designs,
    gone_item,
    log,
    log_sum,
    sold,
    unravel,
    value,
    weigh,
)
from stash.actions import (
    aside as aside_action,
)
from stash.actions import (
    count as count_action,
)
from stash.actions import (
    done as done_action,
)
from stash.actions import release as release_action
from stash.actions import (
    split as split_action,
)
from stash.actions import (
    use as use_action,
)
from stash.actions.book import open_book
from stash.actions.change import Changes
from stash.actions.done import Known
from stash.actions.done_list import BallRow, done_listed
from stash.actions.settings import change_setting
from stash.actions.several import Listed
from stash.actions.use import Amount
from stash.costing.pools import Method
from stash.costing.valuation import HERS, Where
from stash.errors import StashError
from stash.matching.question.wish import Wish
from stash.measures.length import NO_LENGTH, Length, metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.rendering.sentences.say import sentence
from stash.requirements.design.design import Design
from stash.stock.holding import HeldSkein
from stash.stock.item import Item
from stash.stock.movement import LEAVING
from stash.stock.promise import Promised, shortages
from stash.stock.sale import SaleKind
from stash.stock.turnover import Way
from stash.stock.yarn import Lot, LotState
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.engine import Connection

SKEINS = st.one_of(st.integers(1, 6), st.integers(1, 12)).map(str)
ITEMS = st.one_of(st.integers(1, 2), st.integers(1, 6)).map(str)
ENTRIES = st.integers(1, 30)
MASSES = st.one_of(
    st.integers(1, 25).map(grams),
    st.integers(0, 120).map(grams),
    st.integers(1, 120_000).map(Mass),
)
LENGTHS = st.one_of(st.integers(1, 40), st.integers(1, 250)).map(metres)
AMOUNTS = st.one_of(MASSES, LENGTHS).map(lambda v: Amount(str(v), v))
LOTS = st.sampled_from([("1", LotState.NUMBERED), ("2", LotState.NUMBERED), ("", LotState.UNKNOWN)])
DAYS = st.sampled_from([None, None, None, 0, 1, 3, 9]).map(
    lambda ago: None if ago is None else clock.today() - timedelta(days=ago)
)
DESIGNS = {
    "hat": Design(name="hat", stated=(("A", metres(60)), ("B", metres(25)))),
    "band": Design(name="band", stated=(("A", metres(35)),)),
}
KNOWN = st.one_of(
    st.just(Known(as_planned=True)),
    MASSES.map(lambda mass: Known(total=mass)),
    st.fixed_dictionaries({"A": MASSES}, optional={"B": MASSES}).map(lambda b: Known(by_role=b)),
    st.dictionaries(SKEINS, MASSES, min_size=1, max_size=3).map(lambda left: Known(left=left)),
)
#: Plans that a design may be changed to, or added as.
PLANS = st.sampled_from(
    [
        Design(name="hat", stated=(("A", metres(80)), ("B", metres(10)))),
        Design(name="cap", stated=(("A", metres(45)),)),
        Design(name="Band", stated=(("A", metres(20)), ("B", metres(5)), ("C", metres(5)))),
    ]
)
PLACES = st.sampled_from(["attic", "Attic", "basket"])
TICKS = st.lists(SKEINS, max_size=3)
SETTINGS = st.sampled_from(
    [("units", "us"), ("units", None), ("margin", "0.3"), ("scale step", "5000"),
     ("useful end", "10000000")]
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Picture:
    """What is on the shelf: every skein, promise, item and fact, as a person would see it."""

    skeins: list[HeldSkein]
    promises: list[Promised]
    items: list[Item]
    planned: list[Any]
    lots: dict[int, Lot]
    designs: list[Any]
    settings: dict[str, str]


def picture(db: Connection) -> Picture:
    skeins = skein_rows.held_skeins(db)
    items = item_rows.items(db)
    return Picture(
        skeins,
        [replace(p, since=0) for p in item_rows.promises(db)],
        items,
        [item_rows.planned_roles(db, a.number) for a in items],
        skein_rows.lots(db, sorted({s.lot_id for s in skeins})),
        item_rows.designs(db),
        entry_rows.settings(db),
    )


#: A day in the midst of those on which things are done, and what was held when it began.
THEN = clock.today() - timedelta(days=2)
_HELD_BEFORE = (
    "SELECT COALESCE(SUM(m.change_mg), 0) FROM movement m "
    "JOIN entry e ON e.number = m.entry_number WHERE e.on_day < ? AND m.undoes IS NULL "
    "AND NOT EXISTS (SELECT 1 FROM movement o WHERE o.undoes = m.id)"
)


@cache
def begun_shelf() -> bytes:
    """The file every machine starts from: some yarn, two designs, a hat under way, a band done."""
    with tempfile.TemporaryDirectory() as folder:
        book = a_book(Path(folder))
        lines = [
            a_line(count=2, paid=Money(1001), place="attic"),
            a_line(colour="cream", left=grams(60), paid=Money(333), place="basket"),
            a_line(lot="", lot_state=LotState.UNKNOWN, full_mass=None),
            a_line(lot="", lot_state=LotState.UNKNOWN, full_length=None),
        ]
        add.receive(book, lines, on=clock.today() - timedelta(days=5))
        for design in DESIGNS.values():
            designs.add_design(book, design)
        aside_action.aside_own_choice(book, "hat", {"A": [1], "B": [3]})
        use_action.use(book, "1", Amount("12g", grams(12)), item="1")
        four_ago = clock.today() - timedelta(days=4)
        aside_action.aside_own_choice(book, "band", {"A": [2]}, on=four_ago)
        done_action.done(book, {"2": Known(left={"2": grams(81)})}, on=four_ago)
        return book.path.read_bytes()


#: How often each action was done and how often refused, over all runs.
DONE: Counter[str] = Counter()
REFUSED: Counter[str] = Counter()


class Shelf(RuleBasedStateMachine):
    """One small shelf, and everything that can be done to it."""

    @initialize()
    def begin(self) -> None:
        self.folder = tempfile.TemporaryDirectory()
        path = Path(self.folder.name) / "shelf.stash"
        path.write_bytes(begun_shelf())
        self.book = open_book(path)
        self.newest = None
        #: What the shelf was before each entry, and after it; by the entry's number.
        self.before: dict[int, Picture] = {}
        self.after: dict[int, Picture] = {}
        self.look()

    def teardown(self) -> None:
        if hasattr(self, "folder"):
            self.folder.cleanup()

    def look(self) -> None:
        """The shelf as it is now, in one view."""
        with self.book.reading() as db:
            self.now = picture(db)
            self.ordered = item_rows.promises(db)
            before, self.newest = self.newest, entry_rows.entries(db, 1)[0]
            moved = "SELECT skein_number, SUM(change_mg) FROM movement GROUP BY 1"
            self.moved = {row[0]: Mass(row[1]) for row in db.exec_driver_sql(moved)}
            self.findings = check.findings(db)
            self.held_then = Mass(db.exec_driver_sql(_HELD_BEFORE, (str(THEN),)).scalar())
        if self.newest != before:
            self.account = log_sum.log_sum(self.book, THEN).whole
            self.values = [
                value.value(self.book, clock.today(), THEN, method).valuation for method in Method
            ]

    def do(self, action: Callable[..., Any], *given: Any, **named: Any) -> bool:
        """Do it, or be refused in one of our own ways and leave everything as it was."""
        name = f"{action.__module__.rpartition('.')[2]}.{action.__name__}"
        before, number = self.now, self.newest.number
        refused: StashError | None = None
        try:
            action(self.book, *given, **named)
        except StashError as told:
            refused = told
        self.look()
        if refused:
            REFUSED[name] += 1
            assert len(sentence(refused).splitlines()) == 1
        if refused or self.newest.number == number:
            assert (self.newest.number, self.now) == (number, before)
            return False
        DONE[name] += 1
        assert self.newest.number == number + 1, "one command, one entry"
        self.before[number + 1], self.after[number + 1] = before, self.now
        return True

    @rule(count=st.integers(1, 2), lot=LOTS, left=st.none() | MASSES, dyed=st.booleans(), on=DAYS)
    def receive(
        self, count: int, lot: tuple[str, LotState], left: Mass | None, dyed: bool, on: Any
    ) -> None:
        text, state = lot
        line = a_line(count=count, lot=text, lot_state=state, left=left, hand_dyed=dyed)
        self.do(add.receive, [line], on=on)

    @rule(left=st.integers(1, 300).map(metres), pair=st.booleans())
    def receive_a_length(self, left: Length, pair: bool) -> None:
        full = {} if pair else {"full_mass": None, "full_length": None}
        self.do(add.receive, [a_line(left=left, **full)])

    @rule(skein=SKEINS, amount=AMOUNTS, item=st.none() | ITEMS, on=DAYS)
    def use(self, skein: str, amount: Amount, item: str | None, on: Any) -> None:
        self.do(use_action.use, skein, amount, item=item, on=on)

    @rule(skein=SKEINS, amount=st.none() | AMOUNTS, why=st.sampled_from(LEAVING), on=DAYS)
    def gone(self, skein: str, amount: Amount | None, why: Any, on: Any) -> None:
        self.do(use_action.gone, skein, amount, why, on=on)

    @rule(
        skein=SKEINS,
        gross=MASSES,
        item=st.none() | st.none() | ITEMS,
        said=st.sampled_from([{}, {}, {"opened": True}, {"recount": True}, {"tare": grams(5)}]),
        on=DAYS,
    )
    def weigh(
        self, skein: str, gross: Mass, item: str | None, said: dict[str, Any], on: Any
    ) -> None:
        self.do(weigh.weigh, skein, weigh.ScaleReading(gross, item, **said), on=on)

    @rule(
        what=SKEINS | st.integers(1, 6).map(lambda n: f"L{n}"),
        place=st.sampled_from([None, "attic", ""]),
        lot=st.none() | LOTS,
        put_up=st.none()
        | st.builds(PutUp, st.integers(20, 120).map(grams), st.integers(30, 300).map(metres)),
        paid=st.none() | st.integers(0, 2000).map(Money),
    )
    def change(
        self,
        what: str,
        place: str | None,
        lot: tuple[str, LotState] | None,
        put_up: PutUp | None,
        paid: Money | None,
    ) -> None:
        self.do(change.change, [what], Changes(place=place, lot=lot, put_up=put_up, paid=paid))

    @rule(
        skeins=st.lists(SKEINS, min_size=1, max_size=3, unique=True),
        name=st.sampled_from([None, "Fellside", "Loamy"]),
        left=st.none() | AMOUNTS,
        on=DAYS,
    )
    def change_many(
        self, skeins: list[str], name: str | None, left: Amount | None, on: Any
    ) -> None:
        self.do(change.change, skeins, Changes(name=name, left=left), on=on)

    @rule(skein=SKEINS, amount=AMOUNTS, place=st.none() | PLACES, on=DAYS)
    def split(self, skein: str, amount: Amount, place: str | None, on: Any) -> None:
        self.do(split_action.split, skein, amount, place=place, on=on)

    @rule(
        item=ITEMS,
        into=st.dictionaries(st.integers(1, 12), st.integers(1, 12), max_size=1),
        back=st.sampled_from([0.95, 1.0, grams(10), Mass(33_333)]),
        on=DAYS,
    )
    def unravel(self, item: str, into: dict[int, int], back: float | Mass, on: Any) -> None:
        self.do(unravel.unravel, [item], into=into, back=back, on=on)

    @rule(place=PLACES, ticks=TICKS, read=st.dictionaries(SKEINS, MASSES, max_size=2))
    def count(self, place: str, ticks: list[str], read: dict[str, Mass]) -> None:
        readings = {skein: weigh.ScaleReading(gross) for skein, gross in read.items()}
        self.do(count_action.note, place, ticks, readings)

    @rule(place=PLACES, ticks=TICKS, lost=st.booleans(), on=DAYS)
    def close_the_count(self, place: str, ticks: list[str], lost: bool, on: Any) -> None:
        self.do(count_action.note, place, ticks, {})
        self.do(count_action.close, place, lost=count_action.Lost(all_missing=lost), on=on)

    @rule(place=PLACES)
    def drop_the_count(self, place: str) -> None:
        self.do(count_action.drop, place)

    @rule(plan=PLANS)
    def add_a_design(self, plan: Design) -> None:
        self.do(designs.add_design, plan)

    @rule(name=st.sampled_from(["hat", "band", "cap"]), plan=PLANS)
    def change_a_design(self, name: str, plan: Design) -> None:
        self.do(designs.change_design, name, plan)

    @rule(design=st.sampled_from([*DESIGNS]), rank=st.integers(1, 3), assume=st.booleans())
    def aside(self, design: str, rank: int, assume: bool) -> None:
        self.do(aside_action.aside, design, str(rank), Wish(assume=assume))

    @rule(
        design=st.sampled_from([*DESIGNS]),
        a=st.lists(st.integers(1, 9), min_size=1, max_size=3),
        b=st.lists(st.integers(1, 9), min_size=1, max_size=2),
        on=DAYS,
    )
    def aside_own_choice(self, design: str, a: list[int], b: list[int], on: Any) -> None:
        chosen = {"A": a, "B": b} if design == "hat" else {"A": a}
        self.do(aside_action.aside_own_choice, design, chosen, on=on)

    @rule(skein=SKEINS, amount=st.none() | AMOUNTS)
    def aside_note(self, skein: str, amount: Amount | None) -> None:
        self.do(aside_action.aside_note, "for a gift", skein, amount)

    @rule(item=ITEMS)
    def release(self, item: str) -> None:
        self.do(release_action.release, [item])

    @rule(item=ITEMS, on=DAYS)
    def begin_item(self, item: str, on: Any) -> None:
        self.do(aside_action.begin, [item], on=on)

    @rule(item=ITEMS, known=KNOWN, on=DAYS)
    def done(self, item: str, known: Known, on: Any) -> None:
        self.do(done_action.done, {item: known}, on=on)

    @rule(
        items=st.lists(ITEMS, min_size=1, max_size=3, unique=True),
        ball=SKEINS,
        reading=MASSES,
        on=DAYS,
    )
    def done_by_a_shared_ball(self, items: list[str], ball: str, reading: Mass, on: Any) -> None:
        listed = Listed("list", [(2, BallRow(tuple(items), ball, reading))])
        self.do(done_listed, listed, minutes=90, on=on)

    @rule(item=ITEMS, price=st.integers(0, 3000).map(Money), on=DAYS)
    def sell(self, item: str, price: Money, on: Any) -> None:
        self.do(sold.sell, {item: sold.Price(price)}, on=on)

    @rule(item=ITEMS, on=DAYS)
    def take_back(self, item: str, on: Any) -> None:
        self.do(sold.take_back, [item], on=on)

    @rule(item=ITEMS, how=st.sampled_from(gone_item.UNSOLD_WAYS), on=DAYS)
    def item_goes(self, item: str, how: SaleKind, on: Any) -> None:
        self.do(gone_item.item_gone, item, how, on=on)

    @rule(setting=SETTINGS)
    def prefer(self, setting: tuple[str, str | None]) -> None:
        self.do(change_setting, *setting)

    @rule()
    def undo_the_newest(self) -> None:
        self.undo(None)

    @rule(entry=ENTRIES)
    def undo_one(self, entry: int) -> None:
        self.undo(entry)

    def undo(self, entry: int | None) -> None:
        before = self.now
        if not self.do(log.undo, entry):
            return
        wrong = self.newest.takes_back
        # where nothing that shows happened since, all is as it was before the entry
        if wrong in self.before and self.after[wrong] == before:
            assert self.now == self.before[wrong]

    @invariant()
    def the_file_is_sound(self) -> None:
        assert self.findings == []

    @invariant()
    def what_is_held_is_the_sum_of_the_movements(self) -> None:
        for skein in self.now.skeins:
            assert skein.held == self.moved.get(skein.number, NO_MASS)
            assert skein.held >= NO_MASS

    @invariant()
    def a_span_balances_and_ends_with_what_is_held(self) -> None:
        found = self.account
        moved = sum((found.of(way) for way in Way), found.opening)
        assert (moved.mass, moved.length, moved.cost) == (
            found.closing.mass,
            found.closing.length,
            found.closing.cost,
        )
        assert found.opening.mass == self.held_then
        assert found.closing.mass == sum((s.held for s in self.now.skeins), NO_MASS)
        lengths = (s.held_length or NO_LENGTH for s in self.now.skeins)
        assert found.closing.length == sum(lengths, NO_LENGTH)

    @invariant()
    def opening_and_bought_are_used_gone_and_closing_by_every_method(self) -> None:
        for found in self.values:
            opening, closing = found.opening, found.closing
            came = opening.stock.cost + found.bought.cost + found.found.cost
            assert came == found.used.cost + found.gone.cost + closing.stock.cost
            hers = [
                w.of(Where.UNDER_WAY).cost + w.of(Where.FINISHED).cost for w in (opening, closing)
            ]
            went = sum((found.went_to(w) for w in Where if w not in HERS), Money(0))
            assert hers[0] + found.made.cost == hers[1] + went
        specific = self.values[0]
        assert specific.closing.stock.cost == self.account.closing.cost
        assert specific.opening.stock.cost == self.account.opening.cost
        assert all(v.closing.stock.mass == specific.closing.stock.mass for v in self.values)

    @invariant()
    def held_is_set_aside_and_free(self) -> None:
        for skein in self.now.skeins:
            assert skein.held == skein.set_aside + skein.free
            assert skein.free >= NO_MASS

    @invariant()
    def no_gram_is_promised_twice_unless_it_is_said_to_be_short(self) -> None:
        for skein in self.now.skeins:
            mine = [p for p in self.ordered if p.skein == skein.number]
            assert skein.promised == sum((p.mass for p in mine), NO_MASS)
            short = sum((missing for _, missing in shortages(skein.held, mine)), NO_MASS)
            assert skein.short == short
            assert skein.promised - short <= skein.held

    @invariant()
    def a_promise_is_more_than_nothing(self) -> None:
        for promise in self.now.promises:
            assert promise.mass > NO_MASS
            assert promise.length is None or promise.length.um >= 0


Shelf.TestCase.settings = settings(
    max_examples=25,
    stateful_step_count=25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
TestTheBooksHold = Shelf.TestCase
