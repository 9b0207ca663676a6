"""A swatch: its size, its silhouette, its ids, and that a hostile name stays a name."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest
from rendering.drawing.some_looks import HEXES, LOOKS, MANY

from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook, needed_grey
from stash.stock.yarn import Dyed, Surface

SOLID = YarnLook(("#a63a30",), thickness=3, seed=4, name="madder")
HOSTILE = '"><script>alert(1)</script>&\x00\n\u202e' + "x" * 500


def attributes(drawing: str) -> set[str]:
    return {key for one in ElementTree.fromstring(drawing).iter() for key in one.attrib}


def test_a_solid_swatch_takes_about_700_bytes_and_a_flecked_one_at_most_1200() -> None:
    for left in Left:
        assert len(yarn_swatch(SOLID, left, Shown(label="4–6"))) < 750
    for look in LOOKS:
        for left in Left:
            size = len(yarn_swatch(look, left, Shown(label="32–33")).encode())
            assert size <= 1250, (look, left)


def test_what_a_page_shares_is_small_and_of_its_own_yarns_only() -> None:
    assert len(page_defs(LOOKS)) < 16_000
    assert len(page_defs([SOLID])) < 1_800
    assert "brushed" not in page_defs([SOLID])


@pytest.mark.parametrize("left", Left)
def test_a_drawing_is_well_formed_and_needs_no_inline_style_or_script(left: Left) -> None:
    for look in (*LOOKS, YarnLook(seed=3)):
        drawn = yarn_swatch(look, left, Shown(title="a yarn", grey=True))

        assert {"style", "onload"}.isdisjoint(attributes(drawn))
        assert "<style" not in drawn
        assert "<script" not in drawn
        root = ElementTree.fromstring(drawn)
        assert (root.get("width"), root.get("height")) == ("184", "92")


def test_what_a_swatch_refers_to_is_defined_in_it_or_once_a_page() -> None:
    for look in LOOKS:
        shared = page_defs([look])
        drawn = yarn_swatch(look, Left.WHOLE)
        parts = [ElementTree.fromstring(text) for text in (shared, drawn)]
        ids = [one.attrib["id"] for root in parts for one in root.iter() if "id" in one.attrib]
        used = {
            value[5:-1] if value.startswith("url(") else value[1:]
            for root in parts
            for one in root.iter()
            for key, value in one.attrib.items()
            if value.startswith("url(#") or key == "href"
        }

        assert len(ids) == len(set(ids))
        assert used <= set(ids)


def test_the_same_yarn_is_drawn_the_same_and_another_lot_otherwise() -> None:
    for dyed, colours in MANY.items():
        look = YarnLook(colours, dyed, seed=11)

        assert yarn_swatch(look, Left.WHOLE) == yarn_swatch(look, Left.WHOLE)
        other = YarnLook(colours, dyed, seed=12)
        assert yarn_swatch(other, Left.WHOLE) != yarn_swatch(look, Left.WHOLE)


def test_ids_are_a_lots_own_and_of_each_drawing_where_it_is_drawn_again() -> None:
    look = YarnLook(MANY[Dyed.VARIEGATED], Dyed.VARIEGATED, seed=11)

    def ids(drawing: str) -> set[str]:
        return {
            one.attrib["id"] for one in ElementTree.fromstring(drawing).iter() if "id" in one.attrib
        }

    first = ids(yarn_swatch(look, Left.WHOLE))
    assert first
    assert first.isdisjoint(ids(yarn_swatch(look, Left.WHOLE, Shown(again="b"))))
    assert first.isdisjoint(ids(yarn_swatch(look, Left.CHIP, Shown(28, 20))))


def test_what_is_left_shows_by_a_label_a_loose_end_or_a_bobbin() -> None:
    whole, opened, remnant, chip = (yarn_swatch(SOLID, left, Shown(label="17")) for left in Left)

    assert ">17</text>" in whole
    assert "yarn-end" not in whole
    assert "yarn-end" in opened
    assert "<text" not in opened
    assert "yarn-end" in remnant
    assert remnant.count("#f1f0eb") == 1
    assert "yarn-end" not in chip
    assert "<text" not in chip


def test_a_label_widens_for_what_stands_on_it() -> None:
    def band(label: str) -> float:
        root = ElementTree.fromstring(yarn_swatch(SOLID, Left.WHOLE, Shown(label=label)))
        return max(float(r.get("width", 0)) for r in root.iter() if r.get("fill") == "#f1f0eb")

    assert band("7") < band("32–33") < band("132–133")


def test_a_colour_that_is_not_known_is_asked_for_and_no_colour_is_drawn() -> None:
    drawn = yarn_swatch(YarnLook(seed=5), Left.WHOLE)

    assert "colour?" in drawn
    assert "url(" not in drawn


def test_in_grey_no_colour_is_left() -> None:
    for look in LOOKS:
        drawn = yarn_swatch(look, Left.OPENED, Shown(grey=True))
        for colour, _ in look.shades:
            if colour != needed_grey(colour):
                assert colour not in drawn


def test_in_grey_it_refers_to_what_is_defined_for_its_colours() -> None:
    """A grey is a shade lighter or darker, which may be past the next strength of a texture."""
    for value in range(0, 256, 3):
        look = YarnLook((f"#{value:02x}{255 - value:02x}{value // 2:02x}",))
        drawn = yarn_swatch(look, Left.CHIP, Shown(grey=True))

        assert drawn.partition("url(#")[2].partition(")")[0] in page_defs([look])


def test_lays_are_as_tall_as_the_yarn_is_thick() -> None:
    heights = [
        yarn_swatch(YarnLook(HEXES[:1], thickness=thick), Left.CHIP).partition("lay-smooth-")[2][:2]
        for thick in (0, 2, 3, 4, 5, 7)
    ]

    assert heights == ["6-", "6-", "8-", "8-", "10", "10"]


def test_a_brushed_yarn_has_a_halo_and_a_fainter_edge() -> None:
    brushed = yarn_swatch(YarnLook(HEXES[:1], surface=Surface.BRUSHED), Left.WHOLE)

    assert "url(#halo)" in brushed
    assert 'stroke-opacity="0.3"' in brushed
    assert 'id="halo"' in page_defs([YarnLook(HEXES[:1], surface=Surface.BRUSHED)])


def test_a_hostile_name_stays_words() -> None:
    for shown in (Shown(title=HOSTILE), Shown(label=HOSTILE)):
        drawn = yarn_swatch(SOLID, Left.WHOLE, shown)

        assert "<script" not in drawn
        words = "".join(ElementTree.fromstring(drawn).itertext())
        assert '"><script>alert(1)</script>&' in words
        assert words.isprintable()
