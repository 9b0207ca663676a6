"""A design goes into JSON and comes back the same."""

from __future__ import annotations

import json
from dataclasses import replace

from hypothesis import given
from requirements.some_designs import cm, designs, gauge, sideways_hat

from stash.measures.length import yards
from stash.measures.mass import Mass, grams, ounces
from stash.parsing.design.fabric import fabric
from stash.requirements.design.bands import Band, Place, Rows, Stitches
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import Swatch
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.serialise import deserialise, serialise
from stash.requirements.design.shapes import Crown, Seam, Start


def there_and_back(design: Design) -> Design:
    return deserialise(json.loads(json.dumps(serialise(design))))


def test_a_design_with_everything_comes_back_the_same() -> None:
    full = replace(
        sideways_hat(),
        bands=(
            Band("B", Stitches(5)),
            Band("C", Rows(4), Place.MIDDLE),
            Band("D", cm(1.5), cm(7.25)),
        ),
        crown=Crown.GATHERED,
        seam=Seam.SINGLE_CROCHET,
        strands=2,
        swatch=Swatch(ounces(1), cm(15), cm(14), Mass(100)),
        stated=(("A", yards(200)), ("B", yards(18))),
        weighed=(("A", grams(71)), ("B", grams(9))),
        start=Start.CROWN,
        count=2,
        brim=cm(6),
        extras=(Extra(Kind.FLAP, "A", (cm(9), cm(10)), 2), Extra(Kind.EDGING, "B")),
        fits="woman",
    )

    assert there_and_back(full) == full


def test_an_empty_design_comes_back_empty() -> None:
    assert there_and_back(Design()) == Design()


def test_a_plan_kept_by_an_older_version_is_read() -> None:
    """The keys that the first version wrote, and no others."""
    first = {
        "name", "shape", "size", "gauge", "fabric", "bands", "thickness_from", "thickness_to",
        "put_up",
        "strands", "crown", "seam", "swatch", "stated_um", "weighed_mg",
    }  # fmt: skip
    kept = {key: value for key, value in serialise(sideways_hat()).items() if key in first}

    assert set(kept) == first
    assert set(kept["size"]) == {"across_um", "up_um"}
    assert deserialise(kept) == sideways_hat()


def test_rows_of_several_stitches_and_a_gauge_of_plain_come_back() -> None:
    mixed = fabric("2 (sc, ch 1) blo, 1 fpdc, 1 (2 sc, 2 dc)")
    design = Design(fabric=mixed, gauge=replace(gauge(14, 16), plain=True))

    assert there_and_back(design) == design


def test_a_gauge_kept_before_plain_was_asked_is_the_fabrics_own() -> None:
    kept = serialise(sideways_hat())
    del kept["gauge"]["plain"]

    assert deserialise(kept) == sideways_hat()


@given(designs())
def test_any_design_comes_back_the_same(design: Design) -> None:
    assert there_and_back(design) == design
