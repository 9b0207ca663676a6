"""A piece: every shape, each role in its own rows, at one scale, said in words."""

from __future__ import annotations

import re
from collections import Counter
from xml.etree import ElementTree

import numpy as np
import pytest
from rendering.drawing.some_looks import DESIGNS, HEXES, MANY, laid
from rendering.drawing.svg_sampler import Sampler

from stash.rendering.drawing.patches import TUBES, patches, rings
from stash.rendering.drawing.piece import (
    Laid,
    PieceShown,
    piece,
    px_per_cm_for,
    size_px,
)
from stash.rendering.drawing.yarn_look import YarnLook, needed_grey
from stash.requirements.design.layout import Row
from stash.requirements.design.shapes import BUILDS, HATS, Shape
from stash.stock.yarn import Dyed, Surface

#: Colours so far apart that light and shade over them do not matter.
APART = {"A": "#f0f0f0", "B": "#101010", "C": "#d01010", "D": "#1010d0"}
LOOKS = {role: YarnLook((one,), name=f"yarn {role}") for role, one in APART.items()}


def roles_at(found: Laid, places: list[tuple[float, float]], shown: PieceShown) -> list[str]:
    """Which role is drawn at each place."""
    colours, shows = Sampler(piece(found, LOOKS, shown)).colours(np.array(places))
    assert shows.min() > 0.999
    known = {role: np.array([*bytes.fromhex(one[1:])]) for role, one in APART.items()}
    return [min(known, key=lambda role: float(np.abs(known[role] - rgb).sum())) for rgb in colours]


def main_role(row: Row) -> str:
    return max(row.counts, key=lambda run: run[1])[0]


def test_every_shape_is_drawn() -> None:
    assert {Shape(shape) for shape in DESIGNS} == set(BUILDS)


@pytest.mark.parametrize("shape", DESIGNS)
def test_a_piece_is_well_formed_needs_nothing_else_and_has_its_size_in_the_markup(
    shape: str,
) -> None:
    found = laid(shape)
    for shown in (PieceShown(7.6, title="it"), PieceShown(2, grey=True)):
        drawn = piece(found, LOOKS, shown)
        root = ElementTree.fromstring(drawn)
        ids = [one.attrib["id"] for one in root.iter() if "id" in one.attrib]
        used = re.findall(r'url\(#([^)]+)\)|href="#([^"]+)"', drawn)

        assert len(ids) == len(set(ids))
        assert {one or other for one, other in used} <= set(ids)
        size = (float(root.get("width", 0)), float(root.get("height", 0)))
        assert size == size_px(found, shown.px_per_cm)
        assert not any("style" in one.attrib for one in root.iter())
        assert drawn == piece(found, LOOKS, shown)


@pytest.mark.parametrize("shape", ["scarf", "blanket", "sideways hat", "cowl", "headband"])
def test_tiles_by_role_are_the_layouts_stitches_by_role(shape: str) -> None:
    """Of a tube its front, which is half of every round, or half of the rows."""
    found = laid(shape)
    layout = found[1]
    rows = layout.body.rows
    front = rows[: round(len(rows) / 2)] if layout.sideways else rows
    share = 0.5 if found[0] in TUBES and not layout.sideways else 1.0
    stitches: Counter[str] = Counter()
    for row in front:
        for role, count in row.counts:
            stitches[role] += count
    tiles: Counter[str] = Counter()
    for one in patches(*found):
        tiles[one.role] += one.wide * one.tall

    assert tiles == {role: pytest.approx(count * share) for role, count in stitches.items()}


def test_a_mixed_band_has_so_many_tiles_of_each_role_as_its_rows_have_stitches() -> None:
    found = laid("blanket", stripes=(), bands=("B 40% of 10cm",), fabric="stranded")
    stitches: Counter[str] = Counter()
    for row in found[1].body.rows:
        for role, count in row.counts:
            stitches[role] += count
    tiles: Counter[str] = Counter()
    for one in patches(*found):
        other, share = one.mixed or ("", 0.0)
        tiles[one.role] += one.wide * one.tall * (1 - share)
        tiles[other] += one.wide * one.tall * share
    del tiles[""]

    assert stitches["B"] > 0
    assert tiles == {role: pytest.approx(count) for role, count in stitches.items()}


def test_a_mixed_band_is_drawn_in_its_share_and_stays_small() -> None:
    found = laid("blanket", stripes=(), bands=("B 40% of 60cm 10cm up",), fabric="stranded")
    width, height = size_px(found, 8.0)
    places = [(x, y) for x in np.arange(5, width - 5, 3.1) for y in np.arange(190, 380, 3.7)]
    seen = Counter(roles_at(found, places, PieceShown(8.0)))

    assert height > 400
    assert seen["B"] / seen.total() == pytest.approx(0.4, abs=0.02)
    assert len(piece(found, LOOKS, PieceShown(8.0))) < 6_000


@pytest.mark.parametrize("shape", ["round hat", "flat hat", "blanket", "headband", "triangle"])
def test_each_row_is_drawn_in_its_own_role(shape: str) -> None:
    """Looked at in the middle of every row, from the bottom up."""
    found = laid(shape)
    layout = found[1]
    shown = PieceShown(8.0)
    row_px = layout.gauge.row_m * 100 * shown.px_per_cm
    width, height = size_px(found, shown.px_per_cm)
    rows = layout.body.rows[::-1] if layout.from_top else layout.body.rows
    seen = rows[1:-1]  # the lowest and the top row may lie outside a bowed edge
    places = [(width / 2 + 1, height - 1 - (at + 1.5) * row_px) for at in range(len(seen))]

    assert roles_at(found, places, shown) == [main_role(row) for row in seen]


def test_a_hat_worked_downwards_has_its_first_row_on_top() -> None:
    found = laid("round hat", start="crown", bands=("B 4cm",))
    shown = PieceShown(8.0)
    width, height = size_px(found, shown.px_per_cm)

    assert found[1].from_top
    assert roles_at(found, [(width / 2, height - 12), (width / 2, 20)], shown) == ["B", "A"]


def test_rows_of_a_sideways_hat_run_up_it() -> None:
    """Its level bands are stitches, and its upright ones are rows from the left."""
    found = laid("sideways hat", bands=("B 4cm", "C 3cm upright 5cm in"))
    layout, shown = found[1], PieceShown(8.0)
    _, height = size_px(found, shown.px_per_cm)
    row_px = layout.gauge.row_m * 100 * shown.px_per_cm
    front = layout.body.rows[1 : len(layout.body.rows) // 2 - 1]
    places = [(1 + (at + 1.5) * row_px, height * 0.55) for at in range(len(front))]

    expected = [row.counts[-1][0] for row in front]
    assert {"A", "C"} == set(expected)
    assert roles_at(found, places, shown) == expected
    assert "rotate(-90)" in piece(found, LOOKS, shown)


@pytest.mark.parametrize("shape", ["square", "circle"])
def test_rounds_are_drawn_from_the_centre_out(shape: str) -> None:
    found = laid(shape)
    layout, shown = found[1], PieceShown(20.0)
    row_px = layout.gauge.row_m * 100 * shown.px_per_cm
    middle = size_px(found, shown.px_per_cm)[0] / 2
    places = [(middle + (at + 0.5) * row_px, middle) for at in range(len(layout.body.rows))]

    assert roles_at(found, places, shown) == [main_role(row) for row in layout.body.rows]
    assert sum(count for _, count in rings(layout)) == len(layout.body.rows)


def test_the_band_of_a_mitten_is_at_its_cuff_and_of_a_sock_at_the_top_of_its_leg() -> None:
    shown = PieceShown(8.0)
    mitten, sock = laid("mitten"), laid("sock")
    height = size_px(mitten, 8.0)[1]

    assert roles_at(mitten, [(40, height - 20), (40, height - 60)], shown) == ["B", "A"]
    assert roles_at(sock, [(40, 20), (40, 45)], shown) == ["B", "A"]


def test_a_pair_of_mittens_is_two_and_one_is_one() -> None:
    assert "<use" in piece(laid("mitten"), LOOKS, PieceShown(8))
    pair, one = (size_px(laid("mitten", count=count), 8.0)[0] for count in ("2", "1"))
    assert 1.9 * one < pair < 2.4 * one


@pytest.mark.parametrize("shape", DESIGNS)
def test_a_piece_is_drawn_at_any_scale_and_stays_small(shape: str) -> None:
    """Down to less than a pixel for all of it, in a yarn whose colours come in runs."""
    looks = {"A": YarnLook(MANY[Dyed.STRIPING], Dyed.STRIPING, seed=30), "B": LOOKS["B"]}
    for px_per_cm in (0.02, 0.4, 2.0, 40.0):
        drawn = piece(laid(shape), looks, PieceShown(px_per_cm))

        ElementTree.fromstring(drawn)
        assert len(drawn) < 16_000


def test_pieces_at_one_scale_have_the_same_centimetres_and_fit_their_box() -> None:
    both = [laid("mitten"), laid("cowl"), laid("scarf")]
    scale = px_per_cm_for(both, 240, 200)
    sizes = [size_px(one, scale) for one in both]

    assert all(w <= 240.1 and h <= 200.1 for w, h in sizes)
    assert any(w > 239 or h > 199 for w, h in sizes)
    width_cm = both[1][1].size.across.m * 100 / 2
    assert sizes[1][0] == pytest.approx(width_cm * scale + 2, abs=0.1)


def test_a_tube_is_half_its_round_wide_and_a_long_scarf_lies_in_four() -> None:
    for shape in HATS:
        found = laid(shape.value)
        assert size_px(found, 10)[0] == pytest.approx(found[1].size.across.m * 500 + 2, abs=0.1)
    scarf = laid("scarf")
    assert size_px(scarf, 10)[1] < scarf[1].size.up.m * 1000 / 3.5


def test_a_folded_brim_takes_its_height_from_the_hat_and_shows_its_first_row_on_top() -> None:
    found = laid("round hat", bands=("B 3cm",))
    plain, folded = (PieceShown(10.0, folded_cm=fold) for fold in (0.0, 6.0))
    wide, high = size_px(found, 10.0, 6.0)

    assert size_px(found, 10.0)[1] - high == pytest.approx(60, abs=0.2)
    assert wide > size_px(found, 10.0)[0]
    low_in_it, high_in_it = (wide / 2, high - 12), (wide / 2, high - 50)
    assert roles_at(found, [low_in_it, high_in_it], folded) == ["A", "B"]
    assert piece(found, LOOKS, plain) != piece(found, LOOKS, folded)


def test_a_piece_says_its_design_size_and_colours_and_when_rows_are_drawn_together() -> None:
    found = laid("headband")
    large, small = (
        ElementTree.fromstring(piece(found, LOOKS, PieceShown(px, title="Band, 52 cm around")))
        for px in (20.0, 5.0)
    )

    assert large.get("role") == "img"
    assert large[0].text == "Band, 52 cm around: A yarn A, B yarn B"
    assert small[0].text == "Band, 52 cm around: A yarn A, B yarn B; rows drawn in threes"


def test_a_thumbnail_is_silent() -> None:
    root = ElementTree.fromstring(piece(laid("cowl"), LOOKS, PieceShown(3)))

    assert root.get("aria-hidden") == "true"
    assert "title" not in {one.tag.rpartition("}")[2] for one in root.iter()}


def test_a_hostile_name_stays_words() -> None:
    name = '"><script>alert(1)</script>&' + "\u202e\n" + "x" * 500
    looks = {"A": YarnLook(("#a63a30",), name=name)}
    drawn = piece(laid("cowl"), looks, PieceShown(5, title=name))

    assert "<script" not in drawn
    assert name[:28] in "".join(ElementTree.fromstring(drawn).itertext())


def test_a_role_without_a_yarn_or_without_a_known_colour_is_a_plain_grey() -> None:
    for looks in ({}, {"A": YarnLook(), "B": YarnLook()}):
        fills = re.findall(r'fill="(#[0-9a-f]{6})"', piece(laid("cowl"), looks, PieceShown(5)))

        assert len({*fills}) >= 2
        assert all(int(f[1:3], 16) - int(f[5:7], 16) in range(-6, 7) for f in fills)


def test_in_grey_each_colour_is_the_grey_as_light() -> None:
    looks = {
        "A": YarnLook((HEXES[3],)),
        "B": YarnLook(MANY[Dyed.STRIPING], Dyed.STRIPING, Surface.BRUSHED, 1, 5),
    }
    drawn = piece(laid("cowl"), looks, PieceShown(7, grey=True))

    for look in looks.values():
        for colour, _ in look.shades:
            assert colour not in drawn
            assert needed_grey(colour) in drawn


def filled(drawn: str, fill: str) -> set[str]:
    """The paths that are filled so, those written once and used by their id."""
    found = [one for one in ElementTree.fromstring(drawn).iter() if one.get("fill") == fill]
    return {one.get("d") or one.get("href", "") for one in found}


@pytest.mark.parametrize("surface", [one for one in Surface if one is not Surface.SMOOTH])
@pytest.mark.parametrize("shape", DESIGNS)
def test_a_surface_lies_over_the_stitches_of_its_own_role_and_no_other(
    shape: str, surface: Surface
) -> None:
    looks = {**LOOKS, "A": YarnLook(("#8797a6",), surface=surface)}
    drawn, smooth = (piece(laid(shape), one, PieceShown(7.6)) for one in (looks, LOOKS))
    (over,) = re.findall(r'id="(y\w+?smw?\w)" width', drawn)
    lies = filled(drawn, f"url(#{over})")

    assert lies
    assert not re.findall(r'id="(y\w+?smw?\w)" width', smooth)
    if not laid(shape)[1].centred:  # rounds lie one over the other, their light and shade do not
        assert lies == filled(drawn, "#8797a6")
    assert ('overflow="visible"' in drawn) is (surface is Surface.BRUSHED)
    assert len(drawn) < len(smooth) + 5_000


def test_a_halo_and_a_fainter_edge_are_where_a_brushed_yarn_comes_to_the_edge() -> None:
    """Looked at just outside the sides of a band in one yarn, and of the rest in another."""
    found, shown = laid("headband", bands=("B 4cm middle",)), PieceShown(10.0)
    width, height = size_px(found, 10.0)
    sides = [(x, y) for x in (-1.5, width + 1.5) for y in (height * 0.15, height * 0.5)]
    for fuzzy, there in (("A", [True, False]), ("B", [False, True])):
        looks = {**LOOKS, fuzzy: YarnLook((APART[fuzzy],), surface=Surface.BRUSHED)}
        drawn = piece(found, looks, shown)
        colours, shows = Sampler(_with_room(drawn)).colours(np.array(sides) + 20)

        assert (shows > 0.05).tolist() == there * 2
        halo = colours[np.array([*there, *there])].mean(axis=0)
        assert np.abs(halo - [*bytes.fromhex(APART[fuzzy][1:])]).max() < 3
        assert 'stroke-opacity="0.3"' in drawn
        assert 'stroke-opacity="0.75"' in drawn


def _with_room(drawn: str) -> str:
    """The drawing with room around it, so that what overflows is looked at too."""
    inside = drawn.partition(">")[2].rpartition("<")[0]
    return f'<svg width="999" height="999"><g transform="translate(20 20)">{inside}</g></svg>'


def test_all_in_brushed_yarn_needs_no_part_of_its_edge() -> None:
    looks = {role: YarnLook((one,), surface=Surface.BRUSHED) for role, one in APART.items()}
    drawn = piece(laid("circle", bands=()), looks, PieceShown(10.0))

    assert drawn.count("<clipPath") == 2  # its outline, and what is turned about its middle
    assert 'stroke-opacity="0.75"' not in drawn


@pytest.mark.parametrize("shape", ["square", "circle"])
def test_runs_go_round_with_the_rounds(shape: str) -> None:
    """Along a round a yarn that changes after metres seldom does, across rounds it does."""
    look = YarnLook(("#f0f0f0", "#101010"), Dyed.STRIPING, seed=4)
    found, shown = laid(shape, bands=()), PieceShown(20.0)
    drawn = piece(found, {"A": look}, shown)
    middle = size_px(found, 20.0)[0] / 2
    row = found[1].gauge.row_m * 100 * 20.0
    turns = np.linspace(0, 2 * np.pi, 160, endpoint=False)
    changes, seen = [], set()
    for at in range(1, len(found[1].body.rows) - 1):
        radius = (at + 0.5) * row
        x, y = np.cos(turns), np.sin(turns)
        far = 1.0 if shape == "circle" else 1 / np.maximum(np.abs(x), np.abs(y))
        places = np.c_[middle + radius * far * x, middle + radius * far * y]
        light = Sampler(drawn).colours(places)[0].mean(axis=1) > 128
        changes.append(int((light != np.roll(light, 1)).sum()))
        seen |= {*light.tolist()}

    assert seen == {True, False}
    assert max(changes) <= 4
    assert min(changes) == 0


@pytest.mark.parametrize("shape", ["blanket", "triangle", "scarf"])
def test_short_runs_in_a_wide_piece_leave_no_column_and_no_bare_ground(shape: str) -> None:
    """Each colour has about its share in every strip up the piece, however wide it is."""
    colours = ("#f0f0f0", "#d01010", "#1010d0")
    look = YarnLook(colours, Dyed.VARIEGATED, seed=9)
    found = laid(shape, bands=(), stripes=(), wide="140cm", long="160cm")
    width, height = size_px(found, 1.5)
    x, y = np.meshgrid(np.arange(3, width - 3, 0.7), np.arange(3, height * 0.12, 0.7))
    drawn = piece(found, {"A": look}, PieceShown(1.5))
    seen, _ = Sampler(drawn).colours(np.c_[x.ravel() * 0.5 + width / 4, y.ravel()])
    known = np.array([[*bytes.fromhex(one[1:])] for one in colours])
    nearest = np.abs(seen[:, None] - known).sum(axis=2).argmin(axis=1).reshape(x.shape)
    strips = np.array_split(nearest, 12, axis=1)

    for colour in range(3):
        shares = [float((strip == colour).mean()) for strip in strips]
        assert min(shares) > 0.15
        assert max(shares) < 0.55


@pytest.mark.parametrize("shape", DESIGNS)
def test_nothing_inside_the_edge_is_left_bare(shape: str) -> None:
    """All that lies within the outline, a little in from its edge, is covered in yarn."""
    drawn = piece(laid(shape), LOOKS, PieceShown(7.6, open_=True))
    (clip,) = re.findall(r'<clipPath id="y\w+[ors]"><path d="([^"]*)"', drawn)
    width, height = size_px(laid(shape), 7.6, open_=True)
    across, down = np.arange(0.5, width, 1.7), np.arange(0.5, height, 1.7)
    places = np.array([(x, y) for x in across for y in down])
    outline = f'<g transform="translate(1 1)"><path d="{clip}"/></g>'
    whole = f'<svg width="{width}" height="{height}">{outline}</svg>'
    inside = Sampler(whole).colours(places)[1] > 0
    shows = Sampler(drawn).colours(places)[1]

    assert inside.mean() > 0.15
    assert shows[inside].min() > 0.999
