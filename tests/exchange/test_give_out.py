"""The shelf given out as a sheet, and taken in again as the same shelf."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from stash.exchange.give_out import exact, sheet_row, sheet_rows, to_csv, to_xlsx
from stash.exchange.shapes import SheetSkein
from stash.exchange.take_in import read_sheet
from stash.measures.colour import Colour
from stash.measures.length import Length, metres, yards
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.parsing.headings import COLUMNS
from stash.stock.holding import HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.yarn import Dyed, FullFrom, Lot, LotState, Pair, Surface, Yarn

TODAY = date(2025, 3, 1)
BAND = Pair(PutUp(grams(50), metres(125)), FullFrom.BAND)
MISSING = Pair(None, FullFrom.MISSING)


def a_skein(
    held: Mass, pair: Pair = BAND, opened: bool = False, lot: Lot | None = None
) -> SheetSkein:
    lot = lot or Lot(3, Yarn(2, "Ottermeade", "Dunmarle"), lot="007", lot_state=LotState.NUMBERED)
    return SheetSkein(lot, HeldSkein(12, lot.id, held, NO_MASS, pair, opened))


def again(*skeins: SheetSkein, currency: str = "EUR") -> list[Incoming]:
    """What comes in when the sheet that went out is read."""
    read = read_sheet("a.csv", to_csv(sheet_rows(skeins, currency)), TODAY, currency)
    assert read.findings == ()
    return [line for _, line in read.rows]


def held_again(line: Incoming) -> Mass | None:
    """What an incoming line puts on the books: the whole skein, or what is left of it."""
    if line.left is None:
        return line.full_mass
    if isinstance(line.left, Mass):
        return line.left
    assert line.full_mass
    assert line.full_length
    return PutUp(line.full_mass, line.full_length).mass_of(line.left)


@pytest.mark.parametrize(
    ("amount", "written"),
    [
        (grams(100), "100g"),
        (Mass(42_500), "42.5g"),
        (Mass(43_217), "43.2170g"),
        (yards(100), "91.44m"),
        (yards(1), "0.9144m"),
        (Length(123_456_789), "123.456789m"),
    ],
)
def test_amounts_are_written_to_the_last_digit(amount: Mass | Length, written: str) -> None:
    # three digits after a point could be read as thousands, hence 43.2170
    assert exact(amount) == written


def test_a_whole_skein_leaves_left_blank() -> None:
    assert sheet_row(a_skein(grams(50)))["left"] == ""


def test_an_opened_skein_says_what_is_left_even_when_full() -> None:
    assert sheet_row(a_skein(grams(50), opened=True))["left"] == "50g"


def test_a_skein_without_a_length_is_written_by_its_mass() -> None:
    whole = sheet_row(a_skein(grams(96), MISSING))

    assert (whole["full"], whole["full_from"], whole["left"]) == ("96g", "missing", "")


def test_an_opened_skein_without_a_length_keeps_its_full_mass() -> None:
    lot = Lot(3, Yarn(2, "", "Dunmarle"), full_mass=grams(100))

    row = sheet_row(a_skein(grams(43), MISSING, opened=True, lot=lot))

    assert (row["full"], row["left"]) == ("100g", "43g")


def test_a_skein_of_inferred_mass_is_left_in_metres() -> None:
    pair = Pair(PutUp(grams(60), metres(120)), FullFrom.ASSUMED)

    row = sheet_row(a_skein(grams(30), pair, opened=True))

    assert (row["full_from"], row["left"]) == ("assumed", "60m")


@pytest.mark.parametrize(
    ("state", "cell"), [(LotState.UNKNOWN, ""), (LotState.CLAIMED_NONE, "none")]
)
def test_lots_are_told_apart(state: LotState, cell: str) -> None:
    lot = Lot(3, Yarn(2, "", "Dunmarle"), lot_state=state)

    assert sheet_row(a_skein(grams(50), lot=lot))["lot"] == cell


def test_rows_stand_in_order_of_their_numbers() -> None:
    one, two = a_skein(grams(50)), a_skein(grams(50))
    two = replace(two, skein=replace(two.skein, number=3))

    assert [row["number"] for row in sheet_rows([one, two])] == ["3", "12"]


def test_the_csv_has_our_columns_first_and_ends_lines_plainly() -> None:
    data = to_csv(sheet_rows([a_skein(grams(50))]))

    assert b"\r" not in data
    headings = next(csv.reader(io.StringIO(data.decode("utf-8"))))
    assert headings == [*COLUMNS, "record"]


def test_an_empty_shelf_is_a_sheet_of_headings() -> None:
    assert to_csv([]).decode().strip() == ",".join(COLUMNS)


def test_every_cell_of_the_workbook_is_text() -> None:
    lot = Lot(3, Yarn(2, "", "=1+1"), lot="007", lot_state=LotState.NUMBERED, colour="a\x07b")

    book = load_workbook(io.BytesIO(to_xlsx(sheet_rows([a_skein(grams(50), lot=lot)]))))

    cells = {cell.value for cell in book.worksheets[0][2] if cell.value}
    assert {"007", "=1+1", "ab", "12"} <= cells
    assert {cell.data_type for cell in book.worksheets[0][2] if cell.value} == {"s"}


def test_a_workbook_given_out_reads_like_the_csv() -> None:
    rows = sheet_rows([a_skein(Mass(43_217), opened=True)])

    by_xlsx = read_sheet("a.xlsx", to_xlsx(rows), TODAY)
    by_csv = read_sheet("a.csv", to_csv(rows), TODAY)

    assert by_xlsx.rows == by_csv.rows
    assert by_xlsx.notes == ()


def test_a_skein_heavier_than_its_band_comes_back() -> None:
    # books may hold it: a correction upwards, or two ends wound into one
    assert held_again(again(a_skein(grams(58), opened=True))[0]) == grams(58)


def test_money_of_a_currency_without_small_coins_comes_back() -> None:
    # the yen has none (ISO 4217)
    paid = replace(a_skein(grams(50)), paid=Money(1200))

    assert again(paid, currency="JPY")[0].paid == Money(1200)


_words = st.text("abcXYZé0189 ,;/'&.=+-", min_size=1, max_size=12).map(
    lambda text: " ".join(text.split())
)
_word = _words.filter(bool)
_mg = st.integers(1, 2_000_000).map(Mass)
_put_up = st.builds(PutUp, _mg, st.integers(1_000_000, 2_000_000_000).map(Length))
_with_put_up = st.sampled_from([FullFrom.BAND, FullFrom.MEASURED, FullFrom.ASSUMED])
_pair = st.builds(Pair, _put_up, _with_put_up) | st.just(MISSING)
_lot_text = _word.map(lambda text: f"B{text}")
_colours = st.lists(st.integers(0, 0xFFFFFF), max_size=3).map(
    lambda values: tuple(Colour(f"#{value:06x}") for value in values)
)


@st.composite
def _skeins(draw: st.DrawFn) -> SheetSkein:
    lot_state = draw(st.sampled_from(LotState))
    classes = draw(st.none() | st.tuples(st.integers(0, 7), st.integers(0, 7)).map(sorted))
    pair = draw(_pair)
    lot = Lot(
        id=draw(st.integers(1, 999)),
        yarn=Yarn(1, draw(_words), draw(_word)),
        colour=draw(_words),
        colour_no=draw(_words),
        colours=draw(_colours),
        lot=draw(_lot_text) if lot_state is LotState.NUMBERED else "",
        lot_state=lot_state,
        thickness_from=classes[0] if classes else None,
        thickness_to=classes[1] if classes else None,
        fibre=draw(_words),
        full_mass=draw(st.none() | _mg) if pair is MISSING else None,
        hand_dyed=draw(st.booleans()),
        care=draw(_words),
        dyed=draw(st.none() | st.sampled_from(Dyed)),
        surface=draw(st.none() | st.sampled_from(Surface)),
    )
    opened = draw(st.booleans())
    held = draw(_mg) if opened or pair.put_up is None else pair.put_up.mass
    number, tare = draw(st.integers(1, 99_999)), draw(st.none() | _mg)
    place, owner = draw(_words), draw(_words)
    skein = HeldSkein(number, lot.id, held, NO_MASS, pair, opened, place, owner, tare)
    bought = draw(st.none() | st.dates(date(1990, 1, 1), TODAY))
    paid = draw(st.none() | st.integers(0, 10**7).map(Money))
    return SheetSkein(lot, skein, bought, paid, draw(_words))


@given(_skeins())
def test_what_goes_out_comes_in_again_with_every_fact(one: SheetSkein) -> None:
    lot, skein = one.lot, one.skein

    (line,) = again(one)

    assert held_again(line) == skein.held
    assert (line.left is not None) == skein.opened
    assert line == Incoming(
        name=lot.yarn.name,
        maker=lot.yarn.maker,
        colour=lot.colour,
        colour_no=lot.colour_no,
        colours=lot.colours,
        lot=lot.lot,
        lot_state=lot.lot_state,
        thickness_from=lot.thickness_from,
        thickness_to=lot.thickness_to,
        fibre=lot.fibre,
        full_mass=line.full_mass,
        full_length=skein.pair.put_up.length if skein.pair.put_up else None,
        measured=skein.pair.origin is FullFrom.MEASURED,
        assumed=skein.pair.origin is FullFrom.ASSUMED,
        left=line.left,
        tare=skein.tare,
        place=skein.place,
        owner=skein.owner,
        bought=one.bought,
        paid=one.paid,
        care=lot.care,
        note=one.note,
        hand_dyed=lot.hand_dyed,
        dyed=lot.dyed,
        surface=lot.surface,
        number=skein.number,
        record=lot.id,
        typed=line.typed,
    )


@given(_put_up)
def test_a_put_up_comes_back_to_the_milligram_and_the_micrometre(put_up: PutUp) -> None:
    written = sheet_row(a_skein(put_up.mass, Pair(put_up, FullFrom.BAND)))["full"]
    mass, length = written.split("/")

    # the decimal fractions themselves, by the standard library
    assert Fraction(mass.removesuffix("g")) * 1000 == put_up.mass.mg
    assert Fraction(length.removesuffix("m")) * 1_000_000 == put_up.length.um
