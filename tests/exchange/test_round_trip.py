"""The shelf given out and taken into an empty file is the same, number by number."""

from __future__ import annotations

import csv
import io
import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from books import a_book, a_design, a_full_book, a_line, aside, g
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.actions import (
    add,
    change,
    check,
    done,
    export,
    log,
    split,
    unravel,
    use,
    value,
    weigh,
)
from stash.actions import shelf as shelf_action
from stash.actions.book import Book, open_book
from stash.actions.change import Changes
from stash.actions.settings import change_setting, read_settings
from stash.actions.shelf import Filters
from stash.costing.pools import Method
from stash.errors import StashError
from stash.exchange import booking, readers
from stash.exchange.take_in import read_sheet
from stash.measures.colour import Colour
from stash.measures.length import Length, metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein, SkeinState
from stash.stock.incoming import Incoming
from stash.stock.yarn import Condition, Dyed, FullFrom, Lot, LotState, Surface
from stash.trade.colour_words import colour_of

TODAY = date(2030, 1, 1)
SHEETS = pytest.mark.parametrize("suffix", [".csv", ".xlsx"])

_Facts = tuple[Lot, HeldSkein, date | None, Money | None, str]


def picture(book: Book) -> dict[int, _Facts]:
    """All that a sheet is to carry, by number; promises and what only entries know left out."""
    facts, _ = export.skeins(book)
    return {
        skein.number: (
            replace(
                lot,
                yarn=replace(lot.yarn, id=0),
                pair=skein.pair,
                full_mass=None,
                note="",
                colours=lot.colours or colour_of(lot.colour),  # a word means its value in a sheet
            ),
            replace(
                skein, promised=NO_MASS, tare_open=False, arrived_opened=skein.opened, paid=None
            ),
            bought,
            paid,
            note,
        )
        for lot, skein, bought, paid, note in facts
    }


def again(book: Book, suffix: str) -> Book:
    """The shelf of a book, given out as a sheet and taken into a file that is begun by it."""
    sheet = book.path.with_name(f"{book.path.stem} given out{suffix}")
    booking.give_out(book, sheet, over=False)
    data = readers.bytes_of(sheet)
    read = read_sheet(sheet.name, data, TODAY)
    assert read.findings == ()
    new = open_book(book.path.with_name(f"{book.path.stem} again.stash"), begin=True)
    booking.book_sheet(new, read, data)
    return new


def with_lines(folder: Path, *lines: Incoming) -> Book:
    book = a_book(folder)
    add.receive(book, lines, habits={"currency": "EUR"})
    return book


LINES = {
    "several of one unknown lot": a_line(count=3, lot="", lot_state=LotState.UNKNOWN),
    "a lot claimed to be none": a_line(count=2, lot="", lot_state=LotState.CLAIMED_NONE),
    "dyed by hand": a_line(count=2, hand_dyed=True, paid=Money(2999)),
    "a measured pair": a_line(
        measured=True, full_mass=Mass(99_223), full_length=Length(200_123_457)
    ),
    "priced": a_line(count=3, paid=Money(2_000)),
    "a gift": a_line(paid=Money(0)),
    "a priced part ball": a_line(left=Mass(33_333), paid=Money(499)),
    "about right": a_line(about=True, left=grams(50)),
    "a length alone": a_line(full_mass=None, count=2, thickness_from=None, thickness_to=None),
    "part of a length alone": a_line(full_mass=None, left=Length(61_234_567)),
    "a weight alone": a_line(full_length=None, count=2),
    "part of a weight alone": a_line(full_length=None, left=Mass(43_217)),
    "no more than what is left": a_line(full_mass=None, full_length=None, left=Mass(12_345)),
    "opened and full": a_line(left=grams(100)),
    "on a core": a_line(tare=Mass(12_500), left=Length(80_000_000)),
    "all facts": a_line(
        maker="Otter & Sons",
        colour="tide, pool; \"dark\"",
        colour_no="007",
        colours=(Colour("#1d6f78"), Colour("#e3d9c6")),
        lot="=1+1",
        thickness_from=3,
        fibre="75% wool, 25% nylon",
        place="top shelf",
        owner="?",
        bought=date(2024, 2, 1),
        paid=Money(0),
        care="hand wash",
        note="half\nof it for Sam",
        conditions=(Condition.FADED, Condition.SMOKE),
        daylight=True,
        dyed=Dyed.SPECKLED,
        surface=Surface.CABLED,
        count=3,
    ),
}  # fmt: skip


@SHEETS
@pytest.mark.parametrize("line", LINES.values(), ids=[*LINES])
def test_a_line_of_each_kind_comes_back(tmp_path: Path, line: Incoming, suffix: str) -> None:
    book = with_lines(tmp_path, line)

    assert picture(again(book, suffix)) == picture(book)


@SHEETS
def test_all_kinds_together_come_back(tmp_path: Path, suffix: str) -> None:
    book = with_lines(tmp_path, *LINES.values())

    new = again(book, suffix)

    assert picture(new) == picture(book)
    assert [held.lot.id for held in shelf_action.shelf(new, Filters()).lots] == [
        held.lot.id for held in shelf_action.shelf(book, Filters()).lots
    ]


@SHEETS
def test_promised_yarn_comes_back_held_and_free(tmp_path: Path, suffix: str) -> None:
    book = with_lines(tmp_path, a_line(), a_line(colour="cream", lot="7"))
    a_design(book, A=60, B=20)
    aside(book, A=1, B=2)

    new = again(book, suffix)

    assert picture(new) == picture(book)
    assert all(
        skein.set_aside == NO_MASS
        for lot in shelf_action.shelf(new, Filters()).lots
        for skein in lot.skeins
    )
    assert shelf_action.set_aside(new).lines == ()


def test_a_skein_of_its_own_pair_leaves_the_pairs_of_its_record_alone(tmp_path: Path) -> None:
    unknown = {"lot": "", "lot_state": LotState.UNKNOWN}
    book = with_lines(
        tmp_path, a_line(count=3, **unknown), a_line(count=2, full_length=None, **unknown)
    )
    change.change(book, ["1"], Changes(put_up=PutUp(grams(50), metres(111))))
    weigh.weigh(book, "2", weigh.ScaleReading(grams(93)))
    change.change(book, ["4"], Changes(put_up=PutUp(grams(50), metres(111))))

    new = picture(again(book, ".csv"))

    assert new == picture(book)
    assert new[3][1].pair.origin is FullFrom.BAND
    assert new[5][1].pair.origin is FullFrom.MISSING


def test_a_whole_skein_that_holds_more_than_its_pair_says_stays_whole(tmp_path: Path) -> None:
    book = with_lines(tmp_path, a_line(), a_line(full_mass=None, full_length=metres(300)))

    new = picture(again(book, ".csv"))

    assert new == picture(book)
    assert (new[2][1].held, new[2][1].state) == (grams(150), SkeinState.WHOLE)


@pytest.mark.parametrize("currency", ["EUR", "USD", "JPY", "CNY", "SEK", "KWD", ""])
def test_prices_and_their_currency_come_back(tmp_path: Path, currency: str) -> None:
    # smallest coins of each: ISO 4217 (the yen has none, the Kuwaiti dinar a thousandth)
    book = a_book(tmp_path)
    add.receive(book, [a_line(paid=Money(1234))], habits={"currency": currency})

    new = again(book, ".csv")

    assert picture(new)[1][3] == Money(1234)
    assert read_settings(new).currency == currency


def _weigh(book: Book, random: Random, skein: str) -> None:
    asked = weigh.ScaleReading(
        Mass(random.randint(1, 120_000)),
        recount=random.random() < 0.5,
        opened=random.random() < 0.3,
    )
    weigh.weigh(book, skein, asked)


def _put_up(book: Book, random: Random, skein: str) -> None:
    pair = PutUp(grams(random.choice((40, 50))), metres(random.choice((111, 125))))
    change.change(book, [random.choice((skein, f"L{skein}"))], Changes(put_up=pair))


def _lot(book: Book, random: Random, skein: str) -> None:
    to = random.choice((("9", LotState.NUMBERED), ("", LotState.UNKNOWN)))
    change.change(book, [random.choice((skein, f"L{skein}"))], Changes(lot=to))


def _gone(book: Book, random: Random, skein: str) -> None:
    amount = random.choice((g(random.randint(1, 60)), None))
    use.gone(book, skein, amount, use.Kind.GIVEN)


def _done(book: Book, random: Random, skein: str) -> None:
    item = aside(book, A=int(skein))
    done.done(book, {str(item): done.Known(left={skein: Mass(random.randint(0, 90_000))})})


def _unravel(book: Book, random: Random, skein: str) -> None:
    unravel.unravel(book, [skein], back=random.choice((1.0, 0.9, 0.31)))


def _price(book: Book, random: Random, skein: str) -> None:
    money = Money(random.choice((0, 1, 499, 12_345)))
    change.change(book, [random.choice((skein, f"L{skein}"))], Changes(paid=money))


DOINGS: tuple[Callable[[Book, Random, str], object], ...] = (
    _weigh,
    _put_up,
    _lot,
    _gone,
    _done,
    _done,
    _unravel,
    _unravel,
    _price,
    lambda book, random, skein: use.use(book, skein, g(random.randint(1, 30))),
    lambda book, random, skein: split.split(book, skein, g(random.randint(1, 30))),
    lambda book, random, skein: aside(book, A=int(skein)),
    lambda book, random, skein: log.undo(book),
)


def lived_in(folder: Path, seed: int) -> Book:
    """A book with a few lines of every kind in which much was done, some of it refused."""
    random = Random(seed)
    book = with_lines(folder, *random.choices([*LINES.values()], k=random.randint(2, 6)))
    a_design(book, A=10)
    for _ in range(random.randint(4, 18)):
        try:
            random.choice(DOINGS)(book, random, str(random.randint(1, 8)))
        except StashError:
            continue
    add.receive(book, [a_line(left=Mass(54_321))])
    return book


def worth(book: Book) -> tuple[Money, bool, Mass]:
    """What the shelf counts at, whether all of it is priced, and what it weighs."""
    stock = value.value(book).valuation.closing.stock
    return stock.cost, stock.all_priced, stock.mass


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), method=st.sampled_from(Method))
def test_a_shelf_that_was_lived_in_comes_back(seed: int, method: Method) -> None:
    with TemporaryDirectory() as folder:
        book = lived_in(Path(folder), seed)
        if method is not Method.SPECIFIC:
            change_setting(book, "valuation", method.value)

        once = again(book, ".csv")

        assert picture(once) == picture(book)
        assert picture(again(once, ".xlsx")) == picture(book)
        assert worth(once)[0] == worth(book)[0]
        assert worth(once)[2] == worth(book)[2]
        assert check.check(once) == []


def test_a_part_ball_comes_back_at_the_cost_of_what_it_holds(tmp_path: Path) -> None:
    # 10 g of 100 g at 10.00 cost 1.00; the rest was worked
    book = with_lines(tmp_path, a_line(paid=Money(1000)))
    use.use(book, "1", g(90))

    assert picture(again(book, ".csv"))[1][3] == Money(100)


def test_unravelled_yarn_comes_back_at_its_cost(tmp_path: Path) -> None:
    # 40 g of 100 g at 10.00 were worked, and all of it came back as skein 2
    book = with_lines(tmp_path, a_line(paid=Money(1000)))
    a_design(book, A=60)
    done.done(book, {str(aside(book, A=1)): done.Known(left={"1": grams(60)})})
    unravel.unravel(book, ["1"], back=1.0)

    costs = {number: facts[3] for number, facts in picture(again(book, ".csv")).items()}

    assert costs == {1: Money(600), 2: Money(400)}


@SHEETS
@pytest.mark.parametrize(
    "text", ["=1+1", "+44 20", "-", "@home", "'=1", "''", "＝1", "=cmd|' /C'!A0"]
)
def test_a_cell_that_looks_like_a_formula_is_none_and_comes_back(
    tmp_path: Path, text: str, suffix: str
) -> None:
    book = with_lines(tmp_path, a_line(name=f"x{text}", place=text, note=text, owner=text))

    new = again(book, suffix)

    assert picture(new) == picture(book)
    if suffix == ".csv":
        cells = csv.reader(io.StringIO((tmp_path / "shelf given out.csv").read_text()))
        assert not any(cell[:1] in "=+-@\t＝" for row in cells for cell in row if cell)


def test_json_carries_everything(tmp_path: Path) -> None:
    book = a_full_book(tmp_path / "full.stash")
    target = tmp_path / "all.json"
    booking.give_out(book, target, over=False)
    new = open_book(tmp_path / "new.stash", begin=True)

    export.take_in_whole(new, booking.whole_file_from(target.name, target.read_bytes()))

    assert export.whole_file(new) == export.whole_file(book)
    assert all(export.whole_file(new)["tables"].values())
    assert shelf_action.set_aside(new).lines == shelf_action.set_aside(book).lines
    assert (
        shelf_action.shelf(new, Filters(with_spent=True)).lots
        == shelf_action.shelf(book, Filters(with_spent=True)).lots
    )


DUMPS = sorted((Path(__file__).parents[2] / "fixtures" / "schemas").glob("*.sql"))


@pytest.mark.parametrize("dump", DUMPS, ids=lambda dump: dump.stem)
def test_a_whole_file_of_any_revision_comes_in(tmp_path: Path, dump: Path) -> None:
    """As an older version gave it out: with its revision, its tables and its columns."""
    old = tmp_path / "old.stash"
    with closing(sqlite3.connect(old)) as db:
        db.executescript(dump.read_text("utf-8"))
        db.row_factory = sqlite3.Row
        named = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '%sqlite%'"
        names = [row["name"] for row in db.execute(named) if row["name"] != "alembic_version"]
        tables = {n: [dict(row) for row in db.execute(f"SELECT * FROM {n}")] for n in names}
    given = json.dumps({"revision": dump.stem, "tables": tables}).encode()

    fresh = a_book(tmp_path)
    export.take_in_whole(fresh, booking.whole_file_from("old.json", given))

    assert check.check(fresh) == []
    assert export.whole_file(fresh) == export.whole_file(open_book(old))
