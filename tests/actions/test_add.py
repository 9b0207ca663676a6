"""Yarn comes onto the shelf."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from books import a_book, a_line, a_skein_story, add, g, refuses, rows, skein

from stash.actions import add as add_action
from stash.actions import change, check, log, use, weigh
from stash.actions import shelf as shelf_action
from stash.actions.book import Book
from stash.actions.change import Changes
from stash.actions.settings import change_setting, read_settings
from stash.errors import Refusal, Undecided
from stash.measures.length import metres, yards
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.incoming import Incoming
from stash.stock.yarn import Dyed, FullFrom, LotState, Surface
from stash.store import skein_rows

UNKNOWN = {"lot": "", "lot_state": LotState.UNKNOWN}
NONE = {"lot": "", "lot_state": LotState.CLAIMED_NONE}


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return a_book(tmp_path)


def test_skeins_are_tracked_singly_each_with_a_number(book: Book) -> None:
    came = add_action.receive(book, [a_line(count=12), a_line(colour="cream")])

    assert [a.skeins for a in came.arrived] == [tuple(range(1, 13)), (13,)]
    assert skein(book, 12).held == grams(100)


def test_a_numbered_lot_is_the_same_record_whenever_it_comes(book: Book) -> None:
    add(book, lot="7")
    add(book, lot=" 7 ", name="fellside ")

    assert skein(book, 1).lot_id == skein(book, 2).lot_id


@pytest.mark.parametrize("other", [{"lot": "07"}, {"colour": "cream"}, {"name": "Ottermeade"}])
def test_another_text_is_another_record(book: Book, other: dict[str, str]) -> None:
    add(book, lot="7")
    add(book, **{"lot": "7", **other})

    assert skein(book, 1).lot_id != skein(book, 2).lot_id


@pytest.mark.parametrize("lot", [UNKNOWN, NONE])
def test_an_unknown_lot_equals_nothing_not_even_another_unknown(
    book: Book, lot: dict[str, object]
) -> None:
    came = add_action.receive(book, [a_line(count=2, **lot), a_line(**lot)])

    together, alone = (a.lot.id for a in came.arrived)
    assert skein(book, 1).lot_id == skein(book, 2).lot_id == together
    assert alone != together


@pytest.mark.parametrize("lot", [{}, UNKNOWN])
def test_hand_dyed_yarn_has_one_record_a_skein(book: Book, lot: dict[str, object]) -> None:
    add_action.receive(
        book, [a_line(count=3, hand_dyed=True, **lot), a_line(hand_dyed=True, **lot)]
    )

    assert len({skein(book, number).lot_id for number in (1, 2, 3, 4)}) == 4


def test_a_difference_from_the_record_is_a_note_and_no_overwrite(book: Book) -> None:
    add(book)
    came = add_action.receive(book, [a_line(full_length=metres(210))])

    (note,) = came.arrived[0].notes
    assert (note.kind, note.facts["different"]) == ("joins_lot_unlike", ("put-up",))
    assert skein(book, 1).held_length == metres(200)
    assert skein(book, 2).held_length == metres(210)


def test_another_look_than_that_of_the_record_is_a_note_too(book: Book) -> None:
    add(book, dyed=Dyed.SOLID, surface=Surface.SMOOTH)
    line = a_line(dyed=Dyed.STRIPING, surface=Surface.BRUSHED)
    (came,) = add_action.receive(book, [line]).arrived

    assert came.notes[0].facts["different"] == ("dyeing", "surface")
    assert (came.lot.dyed, came.lot.surface) == (Dyed.SOLID, Surface.SMOOTH)


@pytest.mark.parametrize(
    "facts", [{"fibre": "75% wool, 25% nylon"}, {"thickness_from": 1, "thickness_to": 1}]
)
def test_another_fibre_or_thickness_of_one_lot_is_asked_about(
    book: Book, facts: dict[str, Any]
) -> None:
    add(book, fibre="100% wool", thickness_from=3, thickness_to=3)

    with pytest.raises(Undecided) as asked:
        add_action.receive(book, [a_line(**facts)])
    assert [typed.kind for _, typed in asked.value.ways if isinstance(typed, Note)] == [
        "typed_with_like",
        "typed_with_other_name",
    ]
    assert len(rows(book)["skein"]) == 1


def test_a_typed_length_alone_is_exact_and_its_mass_is_not_known(book: Book) -> None:
    add(book, full_mass=None, full_length=yards(180), **UNKNOWN)

    held = skein(book, 1)
    assert held.held_length == yards(180)
    assert held.pair.origin is FullFrom.ASSUMED
    assert not held.mass_known


def test_without_a_thickness_thickness_4_is_assumed(book: Book) -> None:
    for known in ({"thickness_from": None, "thickness_to": None}, {}):
        add(book, full_mass=None, **UNKNOWN, **known)

    assert skein(book, 1).held == skein(book, 2).held


def test_a_mass_alone_has_no_length(book: Book) -> None:
    add(book, full_length=None, **UNKNOWN)

    assert skein(book, 1).held == grams(100)
    assert skein(book, 1).held_length is None
    assert skein(book, 1).pair.origin is FullFrom.MISSING


def test_a_guess_gives_way_to_the_pair_of_its_record(book: Book) -> None:
    add(book)
    add(book, full_mass=None, full_length=None, left=metres(80))

    assert skein(book, 2).held == grams(40)
    assert skein(book, 2).mass_known


@pytest.mark.parametrize("first", [{}, {"full_mass": None}])
def test_what_was_typed_is_kept_when_a_line_joins_a_record(
    book: Book, first: dict[str, object]
) -> None:
    add(book, **first)
    add(book, full_mass=None, full_length=metres(160))

    length = skein(book, 2).held_length
    assert length
    assert abs(length.um - metres(160).um) < 1000  # less than a milligram of it


def test_a_typed_weight_is_kept_when_a_line_joins_a_record(book: Book) -> None:
    add(book)
    add(book, full_mass=grams(94), full_length=None)

    assert skein(book, 2).held == grams(94)


def test_a_part_skein_is_opened_even_when_full(book: Book) -> None:
    add(book, left=grams(43))
    add(book, left=grams(100))

    assert skein(book, 1).held_length == metres(86)
    assert skein(book, 1).opened
    assert skein(book, 2).opened


def test_a_gift_is_not_a_price_unknown(book: Book) -> None:
    add(book, paid=Money(0))
    add(book, paid=None)

    with book.reading() as db:
        paid = {n: p for n, (_, p, *_) in skein_rows.bought_and_paid(db).items()}
    assert paid == {1: Money(0), 2: None}


@pytest.mark.parametrize("dyed", [False, True])
def test_the_price_of_a_line_is_shared_to_the_last_coin(book: Book, dyed: bool) -> None:
    add(book, count=3, paid=Money(1000), hand_dyed=dyed)

    with book.reading() as db:
        paid = [p.coins for _, p, *_ in skein_rows.bought_and_paid(db).values() if p]
    assert paid == [334, 333, 333]


def test_one_currency_a_file_set_by_the_first_prices(book: Book) -> None:
    add_action.receive(book, [a_line()], habits={"currency": "EUR"})
    add_action.receive(book, [a_line()], habits={"currency": "GBP"})

    assert read_settings(book).currency == "EUR"


YARDS = {"length": "yd", "weight": "oz", "size": "in"}


@pytest.mark.parametrize(
    ("typed", "units"),
    [
        ({"length": "m", "weight": "g", "size": "cm"}, ("m", "g", "cm")),
        (YARDS, ("yd", "oz", "in")),
        ({"length": "yd", "weight": "g", "size": "in"}, ("yd", "g", "in")),
        ({"length": "yd", "size": "in"}, ("yd", "g", "in")),
        ({"weight": "oz"}, ("yd", "oz", "in")),
    ],
)
def test_the_first_yarn_whose_units_say_it_decides_all_three(
    book: Book, typed: dict[str, str], units: tuple[str, str, str]
) -> None:
    received = add_action.receive(book, [a_line()], habits=typed)

    assert (received.habits["length"], *her_units(book)[1:]) == units
    assert her_units(book) == units


def test_later_yarn_never_changes_the_units(book: Book) -> None:
    add_action.receive(book, [a_line()], habits={"length": "m", "weight": "g", "size": "cm"})

    assert dict(add_action.receive(book, [a_line()], habits=YARDS).habits) == {}
    assert her_units(book) == ("m", "g", "cm")


def test_grams_alone_decide_nothing_yet(book: Book) -> None:
    add_action.receive(book, [a_line()], habits={"weight": "g"})
    assert her_units(book) == ("", "", "")

    add_action.receive(book, [a_line()], habits=YARDS)
    assert her_units(book) == ("yd", "oz", "in")


def test_what_she_has_chosen_is_not_completed_from_what_she_types(book: Book) -> None:
    change_setting(book, "length", "yd")
    add_action.receive(book, [a_line()], habits={"length": "m", "weight": "oz", "size": "cm"})

    assert her_units(book) == ("yd", "", "")


def her_units(book: Book) -> tuple[str, str, str]:
    settings = read_settings(book)
    return settings.length, settings.weight, settings.size


def test_neither_weight_nor_length_is_refused_with_a_way_out(book: Book) -> None:
    with refuses("neither_weight_nor_length"):
        add(book, full_mass=None, full_length=None)


def test_a_length_left_of_a_weight_alone_is_refused(book: Book) -> None:
    with refuses("left_without_put_up", left=metres(30)):
        add(book, full_length=None, left=metres(30), **UNKNOWN)


@pytest.mark.parametrize("lines", [[], [a_line(count=0)], [a_line(number=0)]])
def test_nothing_to_add_is_refused(book: Book, lines: list[Incoming]) -> None:
    with pytest.raises(Refusal):
        add_action.receive(book, lines)


def test_one_bad_line_and_nothing_is_taken_in(book: Book) -> None:
    with pytest.raises(Refusal):
        add_action.receive(book, [a_line(), a_line(lot="2", full_mass=None, full_length=None)])

    assert log.log(book) == []
    assert add(book) == 1


def test_numbers_asked_for_are_given_and_the_others_keep_out_of_their_way(book: Book) -> None:
    came = add_action.receive(book, [a_line(), a_line(number=1), a_line(number=9), a_line()])

    numbers = [n for a in came.arrived for n in a.skeins]
    assert numbers[1:3] == [1, 9]
    assert len({*numbers}) == 4


def test_a_number_in_use_is_refused(book: Book) -> None:
    add(book)
    with refuses("skein_number_in_use", skein=1):
        add_action.receive(book, [a_line(number=1)])
    with refuses("skein_number_in_use", skein=5):
        add_action.receive(book, [a_line(number=5), a_line(number=5)])


def test_numbers_of_skeins_taken_back_are_never_used_again(book: Book) -> None:
    add(book, count=3)
    log.undo(book)

    assert add(book) == 4
    with refuses("skein_number_in_use", skein=2):
        add_action.receive(book, [a_line(number=2)])


def test_a_record_taken_back_is_joined_by_nobody(book: Book) -> None:
    add(book, fibre="100% wool")
    log.undo(book)
    came = add_action.receive(book, [a_line(fibre="100% cotton")])

    assert came.arrived[0].lot.fibre == "100% cotton"


def test_a_record_that_others_joined_outlives_the_entry_that_made_it(book: Book) -> None:
    add(book)
    add(book)
    log.undo(book, 1)
    add(book)

    assert skein(book, 3).lot_id == skein(book, 2).lot_id
    assert len(shelf_action.shelf(book, shelf_action.Filters()).lots) == 1


def test_a_name_in_any_letters_comes_again(book: Book) -> None:
    add(book, name="Ölgarn", maker="Åsmund")
    add(book, name="Ölgarn", maker="Åsmund")

    assert skein(book, 1).lot_id == skein(book, 2).lot_id


def test_the_first_weighing_settles_the_pair_and_changes_no_length(book: Book) -> None:
    add(book, full_mass=None, full_length=yards(180), **UNKNOWN)
    weigh.weigh(book, "1", weigh.ScaleReading(grams(73)))

    held = skein(book, 1)
    assert (held.held, held.held_length, held.mass_known) == (grams(73), yards(180), True)
    assert held.pair.origin is FullFrom.MEASURED
    assert not held.opened


def test_a_put_up_given_later_restates_a_typed_length(book: Book) -> None:
    add(book, full_mass=None, full_length=None, left=metres(80), **UNKNOWN)
    change.change(book, ["L1"], Changes(put_up=PutUp(grams(50), metres(100))))

    held = skein(book, 1)
    assert (held.held, held.held_length, held.mass_known) == (grams(40), metres(80), True)
    assert check.check(book) == []


def test_what_was_typed_stands_beside_the_movement(book: Book) -> None:
    add(book, typed="Fellside navy 100g/200m")
    use.use(book, "1", g(20))

    moved = a_skein_story(book, "1").history.moved
    assert [b.movement.typed for b in moved] == ["Fellside navy 100g/200m", "20g"]
    assert [b.movement.change for b in moved] == [grams(100), Mass(-20_000)]


def test_a_ball_with_nothing_left_is_not_added(book: Book) -> None:
    before = rows(book)

    with refuses("nothing_of_it_to_add"):
        add(book, left=Mass(0))
    assert rows(book) == before


def test_what_is_foreseen_is_what_comes_and_nothing_is_booked(book: Book) -> None:
    add(book, lot="7")
    lines = [
        a_line(lot="7", count=2),
        a_line(lot="8", colour="cream"),
        a_line(name="Ottermeade", lot="8", part_balls=(grams(40),)),
    ]
    before = len(log.log(book, None))
    foreseen = add_action.foresee(book, lines)
    assert len(log.log(book, None)) == before
    assert [one.skeins for one in foreseen] == [(2, 3), (4,), (5, 6)]

    came = add_action.receive(book, lines).arrived
    alike = [(one.skeins, one.lot.id, one.held, one.length, one.notes) for one in foreseen]
    assert alike == [(one.skeins, one.lot.id, one.held, one.length, one.notes) for one in came]
    held = [skein(book, number).held.mg for number in foreseen[2].skeins]
    assert foreseen[2].held == Mass(sum(held))


def test_what_would_be_refused_is_refused_when_it_is_foreseen(book: Book) -> None:
    with pytest.raises(Refusal, match="neither_weight_nor_length"):
        add_action.foresee(book, [Incoming("Otter")])
