"""Fixes by another plan: each lets the lots fit, and one step less would not."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from requirements.some_designs import SC, SLIP_RIB, cm, designs, gauge
from shelves import a_lot, a_shelf, put_up

from stash.errors import Refusal
from stash.matching.answer.fix import Fix
from stash.matching.answer.proposal import NearMiss
from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.near_misses.redesigns import LEAST_SHARE
from stash.matching.question.wish import Contrast, Fixed, Wish
from stash.measures.colour import Colour
from stash.measures.length import metres
from stash.requirements.design.bands import Band, Place, Rows, Stitches
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.fit_to_yarn import band_in_cells, steps
from stash.requirements.yarn.by_rows import by_rows, finished
from stash.requirements.yarn.design_context import DesignContext
from stash.stock.holding import HeldLot

HAT = Design(
    name="hat",
    shape=Shape.ROUND_HAT,
    size=Size(cm(54), cm(28)),
    gauge=gauge(20, 28),
    fabric=PLAIN,
    bands=(Band("B", cm(4)),),
    brim=cm(6),
    thickness_from=4,
    thickness_to=4,
)
SIDEWAYS = replace(HAT, shape=Shape.SIDEWAYS_HAT, fabric=SLIP_RIB, brim=None)
#: So much of what is to be set aside is there, over so many balls.
Amount = tuple[float, int]


def lot_of(number: int, length_m: float, balls: int = 1, **facts: object) -> HeldLot:
    """A lot of part balls of equal length, 2 m to the gram, of a dye lot of its own."""
    return a_lot(
        number,
        (length_m / 2 / balls,) * balls,
        opened=tuple(range(balls)),
        lot=str(number),
        **facts,
    )


def shelf_for(known: DesignContext, amounts: dict[str, Amount], *others: HeldLot) -> Shelf:
    """A lot for each role, numbered from 1, and the others after them."""
    roles = known.need(known.design).roles
    lots = [
        lot_of(at, amounts[one.role][0] * one.set_aside_m, amounts[one.role][1])
        for at, one in enumerate(roles, start=1)
    ]
    return a_shelf(*lots, *others)


def misses(known: DesignContext, shelf: Shelf, wish: Wish | None = None) -> tuple[NearMiss, ...]:
    need = known.need(known.design)
    return match(shelf, need, wish or Wish(top=1), known).near_misses


def named(known: DesignContext, amounts: dict[str, Amount], *others: HeldLot) -> NearMiss:
    """The one answer where the first lots are named for the roles."""
    fixed = {role: Fixed(frozenset({at})) for at, role in enumerate(sorted(amounts), start=1)}
    (miss,) = misses(known, shelf_for(known, amounts, *others), Wish(fixed=fixed))
    return miss


def fixes(miss: NearMiss) -> dict[str, Fix]:
    return {fix.change: fix for fix in miss.fixes}


def fits(
    shelf: Shelf, known: DesignContext, made: Design, lots: dict[str, int], tied: bool
) -> bool:
    """Whether the matcher proposes these lots for the design made so, named by her or by itself."""
    try:
        need = known.need(made)
    except Refusal:
        return False
    wanted = {one.role: lots[one.role] for one in need.roles if one.role in lots}
    wish = Wish(top=None)
    if tied:
        wish = replace(wish, fixed={role: Fixed(frozenset({lot})) for role, lot in wanted.items()})
    only = replace(shelf, lots=tuple(lot for lot in shelf.lots if lot.lot.id in wanted.values()))
    found = match(only, need, wish).proposals
    return any({f.role: f.lot.lot.id for f in one.roles} == wanted for one in found)


def holds(shelf: Shelf, known: DesignContext, miss: NearMiss, fix: Fix, *, tied: bool) -> None:
    """The way fits, and one step less does not."""
    lots = {role: lot.lot.id for role, lot in (*miss.roles, *fix.joining)}
    assert not fits(
        shelf, known, known.design, {role: lot.lot.id for role, lot in miss.roles}, tied
    )
    if fix.kind == "lower_margin":
        margin = fix.facts["margin"]
        lower, higher = (replace(known, margin=margin + more) for more in (0.0, 0.01))
        assert fits(shelf, lower, known.design, lots, tied)
        assert not fits(shelf, higher, known.design, lots, tied)
    if fix.made is not None:
        assert fits(shelf, known, fix.made, lots, tied)
        for nearer in one_step_less(known.design, fix):
            assert not fits(shelf, known, nearer, lots, tied), fix


def one_step_less(planned: Design, fix: Fix) -> Iterator[Design]:
    """The design as it would be made, changed by one row, stitch or step of size less."""
    made = fix.made
    assert made is not None
    if fix.change in ("shorter", "smaller"):
        word = planned.build.words[1] if fix.change == "shorter" else ""
        in_steps = steps(planned, word)
        able = [n for n in range(1, in_steps.planned + 1) if in_steps.at(n) == made]
        yield in_steps.at(able[-1] + 1)
    if fix.change == "narrower_bands":
        changed = [at for at, b in enumerate(made.bands) if b != planned.bands[at]]
        if len([b for b in made.bands if b.role == made.bands[changed[0]].role]) == 1:
            yield recounted(made, changed[0], +1)
    if fix.change in ("top_in_other_colour", "one_colour_more"):
        at = len(made.bands) - 1
        if made.bands[:-1] == planned.bands and band_in_cells(made, at)[0] > 1:
            yield recounted(made, at, -1)


def recounted(design: Design, at: int, more: int) -> Design:
    count, unit, _ = band_in_cells(design, at)
    extent = {"rows": Rows, "stitches": Stitches}[unit](count + more)
    bands = [*design.bands]
    bands[at] = replace(bands[at], extent=extent)
    return replace(design, bands=tuple(bands))


_SHARES = st.tuples(st.floats(0.45, 1.6), st.integers(1, 3))
_OTHERS = st.lists(st.tuples(st.floats(3, 150), st.integers(1, 2)), max_size=3)


@settings(max_examples=120, deadline=None)
@given(designs(), st.tuples(*[_SHARES] * 3), _OTHERS, st.booleans())
def test_every_fix_fits_and_one_step_less_does_not(
    design: Design, amounts: tuple[Amount, ...], others: list[Amount], folded: bool
) -> None:
    if folded and design.shape in (Shape.ROUND_HAT, Shape.FLAT_HAT, Shape.SIDEWAYS_HAT):
        design = replace(design, brim=cm(design.needed_size.up.m * 100 / 4))
    if len(design.build.words) == 1:  # a square, a circle: as it is typed, with one side
        design = replace(design, size=Size(design.needed_size.across, design.needed_size.across))
    known = DesignContext(design)
    extra = [lot_of(at, m, balls) for at, (m, balls) in enumerate(others, start=7)]
    shelf = shelf_for(known, dict(zip("ABC", amounts, strict=True)), *extra)

    roles = [one.role for one in known.need(design).roles]
    for miss in misses(known, shelf):
        whole = [role for role, _ in miss.roles] == roles
        for fix in miss.fixes:
            if whole:
                holds(shelf, known, miss, fix, tied=False)
            else:  # where a role has no lot at all, no other plan is promised
                assert fix.made is None


ENOUGH = (1.5, 1)
EXAMPLES = {
    "lower_margin": (HAT, {"A": (0.95, 1), "B": ENOUGH}),
    "narrower_bands": (HAT, {"A": ENOUGH, "B": (0.6, 1)}),
    "no_brim": (HAT, {"A": (0.85, 2), "B": ENOUGH}),
    "top_in_other_colour": (HAT, {"A": (0.8, 1), "B": (4.0, 2)}),
    "shorter": (HAT, {"A": (0.9, 1), "B": ENOUGH}),
    "one_colour_more": (HAT, {"A": (0.8, 1), "B": ENOUGH}),
    "smaller": (HAT, {"A": (0.8, 1), "B": (0.85, 2)}),
}


@pytest.mark.parametrize("kind", EXAMPLES)
@pytest.mark.parametrize("shape", [Shape.ROUND_HAT, Shape.SIDEWAYS_HAT])
def test_each_kind_is_found_fits_and_is_the_nearest(kind: str, shape: Shape) -> None:
    plan, amounts = EXAMPLES[kind]
    known = DesignContext(replace(plan, shape=shape))
    spare = lot_of(7, 150)
    shelf = shelf_for(known, amounts, spare)

    miss = named(known, amounts, spare)

    holds(shelf, known, miss, fixes(miss)[kind], tied=True)


def test_a_narrower_band_says_both_widths_and_its_rows() -> None:
    miss = named(DesignContext(HAT), {"A": ENOUGH, "B": (0.6, 1)})

    made = fixes(miss)["narrower_bands"].made
    assert made is not None
    rows = band_in_cells(made, 0)[0]
    # 28 rows to 4 in: a row is 0.363 cm, the planned 11 of them come to 4.0 cm
    facts = fixes(miss)["narrower_bands"].facts
    assert (facts["counts"], facts["planned_counts"], facts["unit"]) == ((rows,), (11,), "rows")
    widths = facts["widths"][0].m, facts["planned_widths"][0].m
    assert widths == pytest.approx((rows * 0.1016 / 28, 11 * 0.1016 / 28), abs=1e-4)


def test_without_its_brim_is_said_with_how_much_that_is() -> None:
    miss = named(DesignContext(HAT), {"A": (0.85, 1), "B": ENOUGH})

    assert fixes(miss)["no_brim"].facts["brim"] == cm(6)


def test_the_crown_goes_to_b_only_where_b_has_enough() -> None:
    plenty = fixes(named(DesignContext(HAT), {"A": (0.8, 1), "B": (4.0, 1)}))
    scarce = fixes(named(DesignContext(HAT), {"A": (0.8, 1), "B": (1.0, 1)}))

    assert plenty["top_in_other_colour"].facts["role"] == "B"
    assert "top_in_other_colour" not in scarce


def test_of_a_top_that_is_in_b_already_more_goes_to_b() -> None:
    topped = replace(HAT, bands=(Band("B", Rows(8), Place.TOP),))
    miss = named(DesignContext(topped), {"A": (0.85, 1), "B": (20.0, 2)})

    made = fixes(miss)["top_in_other_colour"].made
    assert made is not None
    (band,) = made.bands
    assert isinstance(band.extent, Rows)
    assert band.extent.count > 8
    assert band.place is Place.TOP


def test_a_third_colour_is_told_with_its_lot_and_where_it_lies() -> None:
    miss = named(DesignContext(HAT), {"A": (0.8, 1), "B": ENOUGH}, lot_of(7, 100, colour="rust"))

    fix = fixes(miss)["one_colour_more"]
    facts = fix.facts
    assert (facts["colours"], facts["role"], facts["lot"].ref) == (3, "C", "L7")
    assert [(role, lot.lot.ref) for role, lot in fix.joining] == [("C", "L7")]


def test_a_third_colour_fits_by_the_same_rules() -> None:
    """Wrong class, too near in lightness, or not enough of it: no fix."""
    grey = (Colour("#777777"),)
    far = {"A": Colour("#000000"), "B": Colour("#ffffff")}
    known = DesignContext(HAT)
    amounts = {"A": (0.8, 1), "B": ENOUGH}

    def offered(**facts: object) -> bool:
        length_m = facts.pop("length_m", 100.0)
        assert isinstance(length_m, float)
        shelf = shelf_for(known, amounts)
        lots = [
            replace(lot, lot=replace(lot.lot, colours=(far[role],)))
            for role, lot in zip("AB", shelf.lots, strict=True)
        ]
        usual: dict[str, object] = {"colours": grey}
        joining = lot_of(7, length_m, **{**usual, **facts})
        fixed = {"A": Fixed(frozenset({1})), "B": Fixed(frozenset({2}))}
        wish = Wish(contrast=Contrast.BOLD, fixed=fixed)
        (miss,) = misses(known, a_shelf(*lots, joining), wish)
        return "one_colour_more" in fixes(miss)

    assert offered()  # L* of #777777 is 50 (standard formula): 50 from black and from white
    assert not offered(thickness_from=1, thickness_to=1)
    assert not offered(colours=(Colour("#333333"),))
    assert not offered(length_m=3.0)


def test_where_rows_run_up_the_design_a_stripe_is_whole_rows() -> None:
    known = DesignContext(SIDEWAYS)

    fix = fixes(named(known, {"A": (0.8, 1), "B": ENOUGH}, lot_of(7, 150)))["one_colour_more"]

    assert fix.made is not None
    before, after = (by_rows(design) for design in (SIDEWAYS, fix.made))
    assert before
    assert after
    own = [row for row in after.layout.rows if row.counts[0][0] == "C"]
    assert (fix.facts["count"], fix.facts["unit"], fix.facts["upright"]) == (len(own), "rows", True)
    assert all(len(row.counts) == 1 for row in own)


def test_a_design_of_one_colour_gets_a_second_one() -> None:
    known = DesignContext(replace(HAT, bands=(), fabric=SC))

    fix = fixes(named(known, {"A": (0.8, 1)}, lot_of(7, 150)))["one_colour_more"]

    assert (fix.facts["colours"], fix.facts["role"], fix.facts["lot"].ref) == (2, "B", "L7")


def test_sizes_are_told_against_the_finished_plan() -> None:
    known = DesignContext(HAT)
    found = fixes(named(known, {"A": (0.8, 1), "B": (0.85, 2)}))

    small = found["smaller"].made
    assert small is not None
    facts = found["smaller"].facts
    assert facts["sides"] == ("around", "tall")
    assert (facts["lengths"], facts["planned"]) == (finished(small).sides, finished(HAT).sides)


def test_no_size_is_told_that_is_another_design() -> None:
    known = DesignContext(HAT)
    for share in (0.3, 0.5, 0.7, 0.9):
        for fix in named(known, {"A": (share, 1), "B": ENOUGH}).fixes:
            if fix.change in ("shorter", "smaller"):
                assert fix.made is not None
                sides = zip(fix.made.needed_size.sides, HAT.needed_size.sides, strict=True)
                assert all(Fraction(now.um, old.um) >= LEAST_SHARE for now, old in sides)


def test_a_plan_of_figures_alone_is_offered_only_what_holds() -> None:
    known = DesignContext(Design(name="figures", stated=(("A", metres(300)), ("B", metres(40))),
                        thickness_from=4, thickness_to=4))  # fmt: skip

    miss = named(known, {"A": (0.97, 1), "B": ENOUGH}, lot_of(7, 300))

    assert {fix.change for fix in miss.fixes} == {"lower_margin", "more_skeins"}


def test_figures_of_one_size_are_carried_to_a_smaller_one() -> None:
    """No fabric, no gauge: sizes go by area and no rows are spoken of."""
    known = DesignContext(Design(shape=Shape.SCARF, size=Size(cm(20), cm(150)),
                        stated=(("A", metres(300)),),
                        thickness_from=4, thickness_to=4))  # fmt: skip
    miss = named(known, {"A": (0.9, 1)})

    # nine tenths of the yarn make nine tenths of the scarf
    facts = fixes(miss)["shorter"].facts
    assert (facts["side"], facts["planned"], facts["fewer"]) == ("long", cm(150), None)
    assert facts["length"].m == pytest.approx(1.35, abs=0.001)
    assert "one_colour_more" not in fixes(miss)


def test_two_short_lots_are_one_near_miss_with_fixes_for_both() -> None:
    known = DesignContext(HAT)
    shelf = shelf_for(known, {"A": (0.9, 1), "B": (0.9, 1)})

    miss = next(m for m in misses(known, shelf) if [lot.lot.id for _, lot in m.roles] == [1, 2])

    assert [role for role, _ in miss.roles] == ["A", "B"]
    assert [blocker.kind for blocker in miss.blockers] == ["lot_short", "lot_short"]
    each = fixes(miss)["more_skeins"].facts["fixes"]
    assert [(fix.facts["count"], fix.facts["lot"].ref) for fix in each] == [(1, "L1"), (1, "L2")]
    for fix in miss.fixes:
        holds(shelf, known, miss, fix, tied=False)


def test_without_a_partner_on_the_shelf_no_other_plan_is_promised() -> None:
    known = DesignContext(HAT)
    need = known.need(HAT)
    shelf = a_shelf(lot_of(1, 0.9 * need.roles[0].set_aside_m))

    for miss in misses(known, shelf):
        assert not Counter(fix.change for fix in miss.fixes if fix.made is not None)


def test_of_a_skein_to_buy_lot_and_put_up_are_told() -> None:
    known = DesignContext(HAT)
    need = known.need(HAT)
    small = a_lot(1, (10, 50), of=put_up(50, 100), opened=(0,), lot="A 7")
    shelf = a_shelf(small, lot_of(2, 2 * need.roles[1].set_aside_m))

    miss = misses(known, shelf)[0]

    facts = fixes(miss)["more_skeins"].facts
    assert (facts["lot"].lot, facts["put_up"]) == ("A 7", put_up(50, 100))
