"""A bare sum after a dye lot, as on a shelf's slip: `lot 9 7.99`.

The lines were written before the rule; it was settled on the first half, the second was held back:
at the first run 19 of its 20 were read so, and the other, with two weights, is rightly asked about.
"""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous, BadInput
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.parsing.label import read
from stash.stock.yarn import LotState

#: A line, its lot, what was paid in coins (None: nothing).
Row = tuple[str, str, int | None]
SETTLED_ON: list[Row] = [
    ("Quarrel DK 50g/120m rust lot 9 7.99", "9", 799),
    ("Quarrel DK 50g/120m, rust, lot 9, 7.99", "9", 799),
    ("Quarrel DK 50g/120m rust lot 4471 12.50 wool", "4471", 1250),
    ("Pipkin aran 100g/180m teal lot 22 6,40", "22", 640),
    ("Pipkin aran 100g/180m teal dye lot A12 5.50", "A12", 550),
    ("Pipkin aran 100g/180m, teal, dyelot 7B 5.50, blue box", "7B", 550),
    ("Hob sock 100g/400m moss lot: 318 14.00", "318", 1400),
    ("Hob sock 100g/400m lot 318 14.00 moss", "318", 1400),
    ("lot 31 3.99 Hob sock 100g/400m moss", "31", 399),
    ("Quarrel DK rust lot 12 100g", "12", None),
    ("Quarrel DK 50g/120m rust lot 4.50", "4.50", None),
    ("Quarrel DK 50g/120m rust lot 7 x3", "7", None),
    ("Quarrel DK 50g/120m rust lot 99 2 skeins", "99", None),
    ("Quarrel DK 50g/120m rust lot 12 45", "12 45", None),
    ("Quarrel DK rust lot 12 1.75 oz", "12", None),
    ("Quarrel DK 50g/120m rust lot 12 3.50 mm hook", "12", None),
    ("Quarrel DK 50g/120m rust lot 12 4.00mm", "12", None),
    ("Quarrel DK 50g/120m rust lot 9 £7.99", "9", 799),
    ("Quarrel DK 50g/120m rust lot 1125 9210", "1125 9210", None),
    ("Quarrel DK 50g/120m rust no dye lot", "", None),
]
HELD_BACK: list[Row] = [
    ("Wherry chunky 100g/100m, plum, lot 60 8.25", "60", 825),
    ("Wherry chunky 100g/100m plum lot 060 8.25, attic", "060", 825),
    ("Wherry chunky plum lot 5 8.25 100g/100m", "5", 825),
    ("Sallow lace 50g/400m ivory batch 71 9.95", "71", 995),
    ("Sallow lace 50g/400m ivory lot no. 71 9.95", "71", 995),
    ("Sallow lace 50g/400m ivory lot#71 9.95", "71", 995),
    ("Sallow lace 50g/400m ivory lot 7/1 9,95", "7/1", 995),
    ("Tarn fingering 100g/400m fern LOT 8802 21.00", "8802", 2100),
    ("Tarn fingering 100g/400m fern dl 88 0.99", "88", 99),
    ("Tarn fingering 100g/400m fern lot 88 paid 3.50", "88", 350),
    ("Tarn fingering 400m fern lot 88 50g", "88", None),
    ("Tarn fingering 100g/400m fern lot 2.25", "2.25", None),
    ("Tarn fingering 100g/400m fern lot 88 x 2", "88", None),
    ("Tarn fingering 100g/400m fern lot 88 3 balls", "88", None),
    ("Tarn fingering 100g/400m fern lot 88 2.75mm needles", "88", None),
    ("Tarn fingering 100g/400m fern lot 88 4", "88 4", None),
    ("Tarn fingering 100g/400m fern lot 88 75% wool, 25% nylon", "88", None),
    ("Tarn fingering 100g/400m fern lot A 12 5.50", "A 12", 550),
    ("Tarn fingering 100g/400m fern lot 88 7.99 each", "88", 799),
]


def held(row: Row) -> None:
    line, lot, paid = row
    known = read(line, currency="EUR" if "£" not in line else "GBP").incoming
    assert known.lot == lot
    assert known.lot_state is (LotState.NUMBERED if lot else LotState.CLAIMED_NONE)
    assert known.paid == (None if paid is None else Money(paid))


@pytest.mark.parametrize("row", SETTLED_ON, ids=lambda row: row[0])
def test_the_number_after_the_lot_word_is_the_lot_and_a_sum_behind_it_the_price(row: Row) -> None:
    held(row)


@pytest.mark.parametrize("row", HELD_BACK, ids=lambda row: row[0])
def test_lines_held_back_are_read_alike(row: Row) -> None:
    held(row)


def test_a_weight_behind_the_lot_beside_another_is_asked_about() -> None:
    with pytest.raises(Ambiguous):
        read("Tarn fingering 100g/400m fern lot 88 2.25 oz", currency="EUR")


def test_the_price_of_several_is_still_asked_about() -> None:
    with pytest.raises(BadInput):
        read("Quarrel DK, 2 x 50g/120m, rust, lot 9 7.99", currency="EUR")


def test_a_sum_without_a_lot_before_it_is_still_asked_about() -> None:
    with pytest.raises(BadInput):
        read("Quarrel DK 50g/120m rust 7.99", currency="EUR")


def test_what_a_full_skein_holds_is_not_taken_for_a_price() -> None:
    known = read("Quarrel DK rust lot 12 100.00 g", currency="EUR").incoming
    assert (known.full_mass, known.paid) == (grams(100), None)
