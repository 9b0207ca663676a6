"""What a skein holds: set aside, free and short, and the state that follows."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldLot, HeldSkein, SkeinState
from stash.stock.yarn import FullFrom, Lot, Pair, Yarn

BAND = Pair(PutUp(grams(100), metres(200)), FullFrom.BAND)
MISSING = Pair(None, FullFrom.MISSING)


def a_skein(
    held: Mass, promised: Mass = NO_MASS, *, opened: bool = False, pair: Pair = BAND
) -> HeldSkein:
    return HeldSkein(1, 1, held, promised, pair, opened, remnant=opened and held < grams(1))


@given(st.integers(0, 10**6), st.integers(0, 10**6))
def test_held_is_set_aside_and_free(held: int, promised: int) -> None:
    skein = a_skein(Mass(held), Mass(promised))

    assert skein.set_aside + skein.free == skein.held
    assert skein.set_aside == Mass(min(promised, held))
    assert skein.short == Mass(max(0, promised - held))


def test_states_follow_from_what_is_held() -> None:
    assert a_skein(grams(100)).state is SkeinState.WHOLE
    assert a_skein(grams(100), opened=True).state is SkeinState.OPENED
    assert a_skein(Mass(900), opened=True).state is SkeinState.REMNANT
    assert a_skein(grams(0), opened=True).state is SkeinState.SPENT


def test_without_a_pair_there_is_no_length() -> None:
    skein = a_skein(grams(50), pair=MISSING)

    assert skein.held_length is None
    assert skein.free_length is None


def test_an_assumed_mass_is_not_known() -> None:
    assumed = Pair(BAND.put_up, FullFrom.ASSUMED)

    assert not a_skein(grams(50), pair=assumed).mass_known
    assert a_skein(grams(50)).mass_known
    assert a_skein(grams(50), pair=MISSING).mass_known


def test_a_lot_holds_what_its_skeins_hold() -> None:
    lot = HeldLot(
        Lot(1, Yarn(1, "", "Fellside")),
        (a_skein(grams(100), grams(20)), a_skein(grams(50)), a_skein(grams(9), pair=MISSING)),
    )

    assert (lot.held, lot.free) == (grams(159), grams(139))
    assert (lot.held_length, lot.free_length) == (metres(300), metres(260))


def test_a_lot_without_any_pair_has_no_length() -> None:
    lot = HeldLot(Lot(1, Yarn(1, "", "Fellside")), (a_skein(grams(9), pair=MISSING),))

    assert (lot.held_length, lot.free_length) == (None, None)
