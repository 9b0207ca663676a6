"""Facts put right; the old value stays in the entry."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, a_line, a_skein_story, add, aside, g, promises, refuses, skein

from stash.actions import (
    add as add_action,
)
from stash.actions import (
    change,
    check,
    log,
    unravel,
    use,
    weigh,
)
from stash.actions import (
    done as done_action,
)
from stash.actions.book import Book
from stash.actions.change import Changes
from stash.errors import NotFound
from stash.measures.colour import Colour
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.yarn import Dyed, FullFrom, Lot, LotState, Surface
from stash.trade.colour_words import colour_of


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Skeins 1 and 2 of navy in lot 1 (L1), skein 3 of navy in lot 2 (L2)."""
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(count=2), a_line(lot="2")])
    return made


def lot(book: Book, number: int) -> Lot:
    return a_skein_story(book, str(number)).lot


def numbered(text: str) -> tuple[str, LotState]:
    return text, LotState.NUMBERED


def test_the_old_value_stays_in_the_entry(book: Book) -> None:
    entry = change.change(book, ["1"], Changes(place="attic", tare=grams(12))).entry

    facts = a_skein_story(book, "1").history.facts
    assert [(f.entry, f.name, f.old, f.new) for f in facts] == [
        (entry, "place", "", "attic"),
        (entry, "tare_mg", None, "12000"),
    ]


def test_facts_of_a_skein_are_its_own(book: Book) -> None:
    change.change(book, ["1"], Changes(place="attic"))

    assert (skein(book, 1).place, skein(book, 2).place) == ("attic", "")


def test_facts_of_the_band_are_those_of_the_whole_record(book: Book) -> None:
    change.change(book, ["1"], Changes(colour="teal", fibre="100% wool", thickness=(3, 4)))

    assert lot(book, 2).colour == "teal"
    assert (lot(book, 2).thickness_from, lot(book, 2).thickness_to) == (3, 4)
    assert lot(book, 3).colour == "navy"


def test_facts_of_skeins_asked_of_a_record_are_put_right_on_each(book: Book) -> None:
    change.change(book, ["L1"], Changes(place="attic", colours=(Colour("#123456"),)))

    assert (skein(book, 1).place, skein(book, 2).place) == ("attic", "attic")
    assert lot(book, 1).colours == (Colour("#123456"),)


def test_what_is_so_already_is_refused(book: Book) -> None:
    for changes in (Changes(), Changes(place=""), Changes(lot=numbered(" 1 "))):
        with refuses("so_already"):
            change.change(book, ["1"], changes)


def test_no_such_record(book: Book) -> None:
    for asked in ("L9", "9", "L99999999999999999999999"):
        with pytest.raises(NotFound):
            change.change(book, [asked], Changes(place="attic"))


def test_a_skein_goes_to_the_record_of_its_dye_lot(book: Book) -> None:
    change.change(book, ["1"], Changes(lot=numbered("2")))

    assert skein(book, 1).lot_id == skein(book, 3).lot_id
    assert skein(book, 2).lot_id != skein(book, 3).lot_id


def test_a_dye_lot_not_met_before_is_a_new_record_like_the_old(book: Book) -> None:
    change.change(book, ["1"], Changes(lot=numbered("3")))

    assert (lot(book, 1).lot, lot(book, 1).colour) == ("3", "navy")
    assert skein(book, 1).held_length == metres(200)


def test_what_was_paid_for_a_lot_is_shared_by_what_each_skein_came_with(book: Book) -> None:
    # 100 g, 100 g and a part ball of 50 g for 20.00
    part = add(book, left=grams(50))
    use.use(book, "1", g(40))

    change.change(book, ["L1"], Changes(paid=Money(2000)))

    assert [skein(book, n).paid for n in (1, 2, part)] == [Money(800), Money(800), Money(400)]


def test_unravelled_yarn_is_paid_for_with_the_skein_it_was_of(book: Book) -> None:
    a_design(book, A=60)
    done_action.done(book, {str(aside(book, A=3)): done_action.Known(left={"3": grams(60)})})
    back = unravel.unravel(book, ["1"], back=1.0)[0].returned[0].skein.number

    change.change(book, ["L2"], Changes(paid=Money(2000)))

    assert (skein(book, 3).paid, skein(book, back).paid) == (Money(2000), None)


IVORY, BLACK = colour_of("ivory"), colour_of("black")


@pytest.mark.parametrize("known", [IVORY, ()], ids=["by the old word", "not at all"])
def test_a_new_colour_word_brings_its_own_value(book: Book, known: tuple[Colour, ...]) -> None:
    number = add(book, colour="ivory", colours=known, lot="9")

    done = change.change(book, [str(number)], Changes(colour="black")).done

    assert lot(book, number).colours == BLACK
    assert Note("fact_now", fact="colours_hex", value="#161616") in done


def test_a_word_that_is_no_colour_known_leaves_no_value_of_the_old_one(book: Book) -> None:
    number = add(book, colour="ivory", colours=IVORY, lot="9")

    change.change(book, [str(number)], Changes(colour="Tidewrack"))

    assert lot(book, number).colours == ()


@pytest.mark.parametrize(
    ("facts", "why"),
    [({"colours": (Colour("#123456"),)}, "given"),
     ({"colours": IVORY, "daylight": True}, "daylight")],
)  # fmt: skip
def test_a_value_given_or_seen_in_daylight_outranks_the_word(
    book: Book, facts: dict[str, object], why: str
) -> None:
    number = add(book, colour="ivory", lot="9", **facts)

    done = change.change(book, [str(number)], Changes(colour="black")).done

    assert (lot(book, number).colour, lot(book, number).colours) == ("black", facts["colours"])
    assert why in [one.facts["why"] for one in done if one.kind == "value_stays"]


def test_a_value_given_with_the_word_is_the_one_kept(book: Book) -> None:
    number = add(book, colour="ivory", colours=IVORY, daylight=True, lot="9")

    change.change(book, [str(number)], Changes(colour="black", colours=(Colour("#202020"),)))

    assert lot(book, number).colours == (Colour("#202020"),)


def test_lot_and_colour_together_are_put_right_on_the_record_it_goes_to(book: Book) -> None:
    change.change(book, ["1"], Changes(lot=numbered("3"), colour="teal"))

    assert (lot(book, 1).colour, lot(book, 2).colour) == ("teal", "navy")


def test_a_blank_number_is_a_lot_not_known(book: Book) -> None:
    change.change(book, ["1"], Changes(lot=numbered(" ")))

    assert lot(book, 1).lot_state is LotState.UNKNOWN


def test_a_record_that_gets_the_number_of_another_becomes_one_with_it(book: Book) -> None:
    change.change(book, ["L2"], Changes(lot=numbered("1")))

    assert skein(book, 3).lot_id == skein(book, 1).lot_id
    log.undo(book)
    assert skein(book, 3).lot_id != skein(book, 1).lot_id


def test_a_record_alone_keeps_its_reference_when_it_is_renumbered(book: Book) -> None:
    change.change(book, ["L2"], Changes(lot=numbered("5")))

    assert (lot(book, 3).ref, lot(book, 3).lot) == ("L2", "5")


def test_a_skein_keeps_its_own_pair_in_another_record(book: Book) -> None:
    add(book, lot="9", full_length=metres(180))
    change.change(book, ["1"], Changes(lot=numbered("9")))

    assert skein(book, 1).held_length == metres(200)


def test_a_guessed_pair_gives_way_to_that_of_the_record_it_goes_to(book: Book) -> None:
    add(book, lot="9", full_mass=None)
    change.change(book, ["4"], Changes(lot=numbered("1")))

    held = skein(book, 4)
    assert (held.held, held.held_length, held.mass_known) == (grams(100), metres(200), True)


def test_a_put_up_of_the_record_makes_whole_skeins_full_ones_of_it(book: Book) -> None:
    change.change(book, ["L1"], Changes(put_up=PutUp(grams(50), metres(90))))

    assert [(skein(book, n).held, skein(book, n).held_length) for n in (1, 2)] == [
        (grams(50), metres(90))
    ] * 2


def test_a_pair_that_was_measured_at_the_start_is_put_right_too(book: Book) -> None:
    add(book, lot="9", measured=True)
    change.change(book, ["L3"], Changes(put_up=PutUp(grams(50), metres(90))))

    assert (skein(book, 4).held, skein(book, 4).held_length) == (grams(50), metres(90))


def test_a_pair_of_its_own_is_kept_when_the_record_changes(book: Book) -> None:
    weigh.weigh(book, "1", weigh.ScaleReading(grams(93)))
    change.change(book, ["L1"], Changes(put_up=PutUp(grams(50), metres(90))))

    assert (skein(book, 1).held, skein(book, 1).held_length) == (grams(93), metres(200))


def test_grams_that_were_weighed_stay_and_promises_keep_their_metres(book: Book) -> None:
    add(book, lot="9", left=grams(60))
    a_design(book, A=40)
    aside(book, A=4)
    before = promises(book, 4)[0].length
    change.change(book, ["4"], Changes(put_up=PutUp(grams(100), metres(160))))

    held = skein(book, 4)
    assert held.held == grams(60)
    assert held.pair.origin is FullFrom.BAND
    assert promises(book, 4)[0].length == before
    assert held.pair.put_up
    assert promises(book, 4)[0].mass == held.pair.put_up.mass_covering(before or metres(0))


def test_a_put_up_that_makes_the_yarn_shorter_names_who_is_short(book: Book) -> None:
    add(book, lot="9", left=grams(60))
    a_design(book, A=100)
    made = aside(book, A=4)
    changed = change.change(book, ["4"], Changes(put_up=PutUp(grams(100), metres(150))))

    assert [short.facts["item"].number for short in changed.shorts] == [made]
    assert skein(book, 4).short > Mass(0)
    assert check.check(book) == []


def test_a_put_up_and_a_lot_together(book: Book) -> None:
    add(book, lot="9", full_length=metres(180))
    change.change(book, ["1"], Changes(put_up=PutUp(grams(100), metres(210)), lot=numbered("9")))

    assert skein(book, 1).held_length == metres(210)


def test_a_record_that_holds_no_skein_any_more_is_no_lot(book: Book) -> None:
    add(book, colour="rust", lot="9")
    log.undo(book)
    change.change(book, ["3"], Changes(lot=numbered("1")))

    for record in ("L2", "L3"):
        with refuses("lot", asked=record):
            change.change(book, [record], Changes(paid=Money(100)))


def test_how_a_lot_looks_is_changed_cleared_and_changed_back(book: Book) -> None:
    change.change(book, ["L1"], Changes(dyed=Dyed.TWEED, surface=Surface.BRUSHED))
    cleared = change.change(book, ["L1"], Changes(dyed="")).entry
    assert (lot(book, 1).dyed, lot(book, 1).surface) == (None, Surface.BRUSHED)

    log.undo(book, cleared)

    assert lot(book, 1).dyed is Dyed.TWEED
    assert check.check(book) == []


def test_a_skein_takes_how_it_looks_to_the_record_of_its_dye_lot(book: Book) -> None:
    change.change(book, ["L1"], Changes(dyed=Dyed.TWEED, surface=Surface.BRUSHED))

    change.change(book, ["1"], Changes(lot=numbered("33")))

    assert (lot(book, 1).dyed, lot(book, 1).surface) == (Dyed.TWEED, Surface.BRUSHED)


def test_the_entry_says_what_was_changed(book: Book) -> None:
    done = change.change(book, ["L1"], Changes(dyed=Dyed.TWEED)).done

    assert done == [Note("fact_now", fact="dyed", value="tweed")]
