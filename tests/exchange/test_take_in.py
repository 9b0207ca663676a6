"""A sheet becomes lines of yarn; what cannot be taken is a finding with a way out."""

from __future__ import annotations

import csv
import io
import time
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import BadInput
from stash.exchange.take_in import Sheet, read_sheet
from stash.measures.colour import Colour
from stash.measures.length import Length, metres, yards
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.parsing.headings import SYNONYMS
from stash.stock.incoming import Incoming
from stash.stock.yarn import Dyed, LotState, Surface

FIXTURES = Path(__file__).parents[2] / "fixtures"
TODAY = date(2025, 3, 1)


def sheet(text: str, currency: str = "") -> Sheet:
    return read_sheet("a.csv", text.encode(), TODAY, currency)


def only(**cells: str) -> Sheet:
    """A sheet of one row; a whole 50 g skein unless the cells say otherwise."""
    row = {"yarn": "Dunmarle", "full": "50g/125m", **cells}
    return sheet("\t".join(row) + "\n" + "\t".join(row.values()) + "\n")


def taken(**cells: str) -> Incoming:
    read = only(**cells)
    assert read.findings == ()
    return read.rows[0][1]


def found(**cells: str) -> str:
    read = only(**cells)
    assert read.rows == ()
    assert [finding.line for finding in read.findings] == [2]
    return str(read.findings[0])


def test_a_row_of_all_columns_is_taken_whole() -> None:
    line = taken(
        number="12",
        maker="Ottermeade",
        colour="tide  pool",
        colour_no="#941",
        hex="#1D6F78/#e3d9c6",
        lot="48213/B",
        thickness="3-4",
        fibre="75% wool, 25% nylon",
        full_from="measured",
        left="43g",
        tare="12 g",
        place="blue crate",
        owner="the market",
        bought="2024-02-01",
        paid="4,95",
        note="heel yarn",
    )

    assert line == Incoming(
        name="Dunmarle",
        maker="Ottermeade",
        colour="tide pool",
        colour_no="941",
        colours=(Colour("#1d6f78"), Colour("#e3d9c6")),
        lot="48213/B",
        lot_state=LotState.NUMBERED,
        thickness_from=3,
        thickness_to=4,
        fibre="75% wool, 25% nylon",
        full_mass=grams(50),
        full_length=metres(125),
        measured=True,
        left=grams(43),
        tare=grams(12),
        place="blue crate",
        owner="the market",
        bought=date(2024, 2, 1),
        paid=Money(495),
        note="heel yarn",
        number=12,
        typed=line.typed,
    )


def test_what_was_typed_is_kept() -> None:
    assert taken(left="1½ oz").typed == "yarn: Dunmarle; full: 50g/125m; left: 1½ oz"


# An ounce is 28.349523125 g and a yard 0.9144 m (NIST Handbook 44, appendix C).
@pytest.mark.parametrize(
    ("typed", "mass", "length"),
    [
        ("100g/200m", Mass(100_000), Length(200_000_000)),
        ("3.5 oz, 220 yds", Mass(99_223), Length(201_168_000)),
        ("3,5 oz / 220 yd", Mass(99_223), Length(201_168_000)),
        ("1¾ oz / 230 yd", Mass(49_612), Length(210_312_000)),
        ("100g", Mass(100_000), None),
        ("150 m", None, Length(150_000_000)),
        ("about 200 yd", None, Length(182_880_000)),
    ],
)
def test_put_ups_as_people_write_them(typed: str, mass: Mass | None, length: Length | None) -> None:
    line = taken(full=typed)

    assert (line.full_mass, line.full_length) == (mass, length)


@pytest.mark.parametrize(
    ("typed", "left"),
    [("43g", grams(43)), ("42,5 g", Mass(42_500)), ("80yd", yards(80)), ("~1 oz", Mass(28_350))],
)
def test_what_is_left_may_be_a_weight_or_a_length(typed: str, left: Mass | Length) -> None:
    assert taken(left=typed).left == left


def test_a_rough_figure_stays_rough() -> None:
    assert taken(full="about 200 yd").about
    assert not taken(full="200 yd").about


@pytest.mark.parametrize("typed", ["", "-", "n/a", "?", "N/A", "unknown", "lot: ?", "Lot:"])
def test_a_lot_nobody_knows_is_unknown(typed: str) -> None:
    line = taken(lot=typed)

    assert (line.lot_state, line.lot) == (LotState.UNKNOWN, "")


@pytest.mark.parametrize("typed", ["none", "no dye lot", "No Dye Lot"])
def test_a_band_that_claims_no_lot_is_not_unknown(typed: str) -> None:
    assert taken(lot=typed).lot_state is LotState.CLAIMED_NONE


@pytest.mark.parametrize(
    ("typed", "lot"),
    [
        ("48213/B", "48213/B"),
        ("Lot: 007", "007"),
        ("dl 1125 9210", "1125 9210"),
        ("lot no. 7", "7"),
        ("Dyelot#7", "7"),
        ("lotus", "lotus"),
        ("aB 12", "aB 12"),
    ],
)
def test_a_lot_is_kept_as_printed(typed: str, lot: str) -> None:
    assert taken(lot=typed).lot == lot


def test_a_doubtful_lot_is_unknown_and_the_doubt_stays_in_the_note() -> None:
    line = taken(lot="as last time (?)", note="scarf")

    assert (line.lot_state, line.note) == (LotState.UNKNOWN, "scarf; lot: as last time (?)")


@pytest.mark.parametrize("typed", ["12-Mar", "Mar-24", "1E+05", "48213.0", "2024-03-12"])
def test_a_lot_a_spreadsheet_may_have_spoilt_is_a_note_and_is_taken(typed: str) -> None:
    read = only(lot=typed)

    assert [line.lot for _, line in read.rows] == [typed]
    assert [(note.line, note.column) for note in read.notes] == [(2, "lot")]


def test_lots_kept_as_numbers_or_days_in_a_workbook_are_pointed_at() -> None:
    name = "spoilt_lots.xlsx"

    read = read_sheet(name, (FIXTURES / "sheets" / name).read_bytes(), TODAY)

    assert [line.lot for _, line in read.rows] == ["7", "2024-03-12", "48213", "007"]
    assert [note.line for note in read.notes if note.column == "lot"] == [3, 4, 5]
    assert read.rows[0][1].bought == date(2024, 2, 1)


@pytest.mark.parametrize(
    ("typed", "paid"),
    [("12", 1200), ("4,95", 495), ("4,95 € each", 1485), ("€4.95 ea", 1485), ("0", 0)],
)
def test_a_price_is_for_the_row_unless_it_says_each(typed: str, paid: int) -> None:
    assert taken(count="3", paid=typed).paid == Money(paid)


def test_a_blank_price_is_not_known() -> None:
    assert taken(paid="").paid is None


def test_the_first_price_sign_decides_and_another_is_a_finding() -> None:
    read = sheet("yarn;put up;paid\nA;50g;3\nB;50g;€4\nC;50g;£5\n")

    assert read.currency == "EUR"
    assert [(finding.line, finding.column) for finding in read.findings] == [(4, "paid")]


def test_the_currency_of_the_book_comes_first() -> None:
    # the yen has no smaller coin (ISO 4217)
    read = sheet("yarn;put up;paid\nA;50g;300\nB;50g;€4\n", currency="JPY")

    assert [line.paid for _, line in read.rows] == [Money(300)]
    assert [finding.line for finding in read.findings] == [3]


@pytest.mark.parametrize("typed", ["3", "3 skeins", "x3", "3 x", "3 balls"])
def test_counts_as_people_write_them(typed: str) -> None:
    assert taken(count=typed).count == 3


@pytest.mark.parametrize(
    ("cells", "column", "way_out"),
    [
        ({"yarn": ""}, "yarn", "write one"),
        ({"full": ""}, "full", "100g/200m"),
        ({"full": "100"}, "full", "100 g or 100 m"),
        ({"full": "50/125"}, "full", "50g/125m"),
        ({"full": "1.200 yds"}, "full", "1200 yds or 1.2 yds"),
        ({"full": "2x50g"}, "full", "`count`"),
        ({"full": "0 g"}, "full", "what one skein holds"),
        ({"count": "-2"}, "count", "write 1 to"),
        ({"count": "0"}, "count", "write 1 to"),
        ({"count": "1,5"}, "count", "its own row"),
        ({"count": "5000"}, "count", "write 1 to"),
        ({"count": "3", "left": "20g"}, "left", "its own row"),
        ({"count": "3", "number": "7"}, "number", "its own row"),
        ({"left": "80g"}, "left", "more than"),
        ({"left": "130 m"}, "left", "more than"),
        ({"left": "0 g"}, "left", "used up"),
        ({"left": "some"}, "left", "like 43g"),
        ({"full": "50g", "left": "40 m"}, "left", "as 100g/200m"),
        ({"full": "125 m", "left": "20 g"}, "left", "as 100g/200m"),
        ({"number": "0"}, "number", "whole number"),
        ({"number": "twelve"}, "number", "whole number"),
        ({"hex": "#12345"}, "hex", "#rrggbb"),
        ({"hex": "green"}, "hex", "#rrggbb"),
        ({"thickness": "9"}, "thickness", "0 to 7"),
        ({"thickness": "lumpy"}, "thickness", "0 to 7"),
        ({"lot": "mixed 3+2"}, "lot", "one line for each lot"),
        ({"tare": "12 m"}, "tare", "g or oz"),
        ({"bought": "2030-01-01"}, "bought", "use a day up to"),
        ({"bought": "1/12/24"}, "bought", " or "),
        ({"paid": "dear"}, "paid", "like 3.20"),
        ({"full_from": "memory"}, "full_from", "measured"),
        ({"full_from": "band", "full": "100g"}, "full_from", "100g/200m"),
        ({"full_from": "assumed", "full": "100g"}, "full_from", "needs a length"),
        ({"full_from": "missing"}, "full_from", "has none"),
        ({"hand_dyed": "partly"}, "hand_dyed", "write yes"),
        ({"record": "seven"}, "record", "L12"),
        ({"dyed": "by hand"}, "dyed", "heathered"),
        ({"surface": "green"}, "surface", "brushed"),
    ],
)
def test_a_bad_cell_is_one_line_with_a_way_out(
    cells: dict[str, str], column: str, way_out: str
) -> None:
    told = found(**cells)

    assert told.startswith(f"row 2, {column}: ")
    assert way_out in told
    assert "\n" not in told


@pytest.mark.parametrize(
    ("cells", "dyed", "surface"),
    [
        ({"dyed": "Marl", "surface": "boucle"}, Dyed.HEATHERED, Surface.LOOPED),
        ({"dyed": "?", "surface": "-"}, None, None),
        ({"yarn": "Fern Brushed Tweed"}, Dyed.TWEED, Surface.BRUSHED),
        ({"yarn": "Fern Tweed", "colour": "solid navy"}, Dyed.SOLID, None),
        ({"yarn": "Fern Tweed", "dyed": "striping"}, Dyed.STRIPING, None),
        ({"label": "Fern DK, brushed, 50g/120m, navy", "yarn": ""}, None, Surface.BRUSHED),
    ],
)
def test_a_row_says_how_its_yarn_looks_in_a_column_or_in_its_words(
    cells: dict[str, str], dyed: Dyed | None, surface: Surface | None
) -> None:
    line = taken(**cells)

    assert (line.dyed, line.surface) == (dyed, surface)


def test_all_that_is_wrong_with_a_row_is_one_finding() -> None:
    told = found(hex="green", left="some", count="0")

    assert told.startswith("row 2, hex, left, count: ")


def test_an_unreadable_put_up_is_not_also_said_to_be_missing() -> None:
    assert found(full="a lot").count("cannot read") == 1


def test_a_skein_number_used_twice_is_a_finding_that_names_the_first_row() -> None:
    read = sheet("number;yarn;put up\n7;A;50g\n8;B;50g\n7;C;50g\n")

    assert [line.number for _, line in read.rows] == [7, 8]
    assert "row 2" in str(read.findings[0])


def test_good_rows_are_kept_beside_bad_ones() -> None:
    name = "broken_rows.csv"

    read = read_sheet(name, (FIXTURES / "sheets" / name).read_bytes(), TODAY)

    assert [line for line, _ in read.rows] == [2]
    assert [finding.line for finding in read.findings] == list(range(3, 15))


def test_the_same_bytes_give_the_same_sheet() -> None:
    data = (FIXTURES / "demo" / "shelf.csv").read_bytes()

    assert read_sheet("a.csv", data, TODAY) == read_sheet("a.csv", data, TODAY)


@pytest.fixture(scope="module")
def demo() -> Sheet:
    return read_sheet("shelf.csv", (FIXTURES / "demo" / "shelf.csv").read_bytes(), TODAY)


def test_the_demo_sheet_reads_without_a_finding(demo: Sheet) -> None:
    assert demo.findings == ()
    assert [note.column for note in demo.notes if note.column] == ["lot"]


def test_the_demo_sheet_is_as_large_as_a_small_workshop(demo: Sheet) -> None:
    lines = [line for _, line in demo.rows]
    numbered = {
        (line.maker, line.name, line.colour, line.lot)
        for line in lines
        if line.lot_state is LotState.NUMBERED
    }
    others = [line for line in lines if line.lot_state is not LotState.NUMBERED]

    assert len(numbered) + len(others) >= 48
    assert sum(line.count for line in lines) >= 125


def test_the_totals_of_the_demo_sheet_are_those_its_keeper_added_up(demo: Sheet) -> None:
    last = (FIXTURES / "demo" / "shelf.csv").read_text("utf-8-sig").strip().splitlines()[-1]

    assert last.strip(";").split(";")[-1] == str(sum(line.count for _, line in demo.rows))


def test_the_demo_sheet_holds_every_kind_of_gap(demo: Sheet) -> None:
    lines = [line for _, line in demo.rows]

    assert {line.lot_state for line in lines} == set(LotState)
    assert any(line.full_length is None for line in lines)
    assert any(line.full_mass is None for line in lines)
    assert any(len(line.colours) == 2 for line in lines)
    assert {type(line.left) for line in lines} == {Mass, Length, type(None)}


def test_a_long_sheet_of_unlike_rows_is_read_fast() -> None:
    # the goal is 5,000 rows a second; a fifth of it leaves room for a busy machine
    body = "".join(
        f"Dunmarle {i % 300};#{i % 4096:06x};{i};{50 + i % 50} g / {100 + i % 200} m;"
        f"{10 + i % 40},{i % 9} g;{1 + i % 9},{i % 100:02} €\n"
        for i in range(4000)
    )

    begun = time.process_time()
    read = sheet("yarn;hex;lot;put up;left;paid\n" + body)
    rate = 4000 / (time.process_time() - begun)

    assert len(read.rows) == 4000
    assert rate > 1000


_BITS = st.sampled_from(
    (
        *(
            "50g",
            "125m",
            "half",
            "2/3",
            "~",
            "1.200",
            "yds",
            "DK",
            "lot 7",
            "3 x",
            "left",
            "-",
            "?",
        ),
        *("1,5", "½", "£3 each", "/", "12/1/24", '"', "no dye lot", "4 ply", "#", "navy", "Fell"),
        *("+ a bit", "\u2009", "see above", "Total", "=1+1", "mixed", "0", "é", "1e5", "core 5g"),
    )
)
_CELLS = st.lists(_BITS, max_size=4).map(" ".join)
_HEADINGS = st.sampled_from((*SYNONYMS, "Weight", "Colur", "left g", "yardage", "price each", ""))


@given(st.lists(st.tuples(_HEADINGS, _CELLS, _CELLS), min_size=1, max_size=8))
def test_whatever_stands_in_a_sheet_each_row_is_taken_or_told(
    columns: list[tuple[str, str, str]],
) -> None:
    out = io.StringIO()
    csv.writer(out).writerows(zip(*columns, strict=True))
    try:
        read = read_sheet("a.csv", out.getvalue().encode(), TODAY)
    except BadInput:
        return

    told = {note.line for note in (*read.findings, *read.notes) if note.line > 1}
    lines = {line for line, _ in read.rows} | told
    filled = {line for line in (2, 3) if any(column[line - 1].strip() for column in columns)}
    headings = [heading for heading, _, _ in columns]
    # a row that names more columns than the first one is the row of headings itself
    named = [head.theirs for head in read.headings]
    rows = {line: [column[line - 1] for column in columns] for line in filled}
    meant = {line for line, row in rows.items() if row != headings and not {*named} <= {*row}}
    assert meant <= lines
    for _, line in read.rows:
        assert line.name
        assert line.full_mass or line.full_length or line.left
