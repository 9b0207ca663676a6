"""What is said of a need, whole sentences chosen for their plurals and optional parts."""

from __future__ import annotations

import pytest

from stash.measures.length import Length, metres, yards
from stash.measures.note import Note
from stash.rendering.sentences.phrases import source_words
from stash.rendering.sentences.requirements import basis
from stash.rendering.sentences.say import sentence
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.shapes import Shape
from stash.requirements.yarn.need import ExtraYarn, Source
from stash.requirements.yarn.printed import PrintedPlace
from stash.trade.thickness import CLASSES


def cm(length: float) -> Length:
    return Length(round(10_000 * length))


@pytest.mark.parametrize(
    ("note", "said"),
    [
        (
            Note(
                "worked_out_as",
                shape=Shape.SIDEWAYS_HAT,
                sides=(cm(57.1), cm(29.7)),
                asked=(cm(57.1), cm(30)),
                rounds=False,
                parts=(("body", 38, 90),),
                made=1,
            ),
            "57 cm around, 29.5 cm tall (30 asked): 38 stitches by 90 rows",
        ),
        (
            Note(
                "worked_out_as",
                shape=Shape.SOCK,
                sides=(cm(21), cm(36)),
                asked=(cm(21), cm(36)),
                rounds=True,
                parts=(("body", 60, 110), ("heel", 60, 16)),
                made=2,
            ),
            "21 cm around, 36 cm from cuff to toe: 60 stitches by 110 rounds; heel 60 by 16; "
            "make 2",
        ),
        (
            Note("repeat_does_not_meet", repeat=3, rows=98),
            "The last row meets the first after row 2 of the 3 rows of your fabric; "
            "96 or 99 rows end with a whole repeat.",
        ),
        (
            Note("repeat_does_not_meet", repeat=5, rows=2),
            "The last row meets the first after row 2 of the 5 rows of your fabric; "
            "5 rows end with a whole repeat.",
        ),
        (
            Note("figure_for_buying", role="A", skeins=1),
            "A: 1 skein is what to buy; it uses some of it, at most 1.",
        ),
        (
            Note("figure_for_buying", role="A", skeins=3),
            "A: 3 skeins is what to buy; it uses more than 2, at most 3.",
        ),
        (
            Note(
                "printed_beside_estimate",
                role="A",
                printed=yards(232),
                place=PrintedPlace.BETWEEN,
                source=Source.GAUGE,
                expected_m=181.0,
                set_aside_m=232.3,
            ),
            "A: the pattern's 212 m is between the 181 m expected from your gauge and the 233 m "
            "to set aside.",
        ),
        (
            Note("margin_leaves_chance", role="A", margin=0.15, spread=0.241, chance=0.734),
            "A: a margin of 15% is enough in 73% of cases, as the estimate varies by 24%.",
        ),
        (
            Note(
                "sources_far_apart",
                role="A",
                source=Source.STATED,
                expected_m=438.9,
                other_source=Source.GAUGE,
                other_expected_m=181.2,
            ),
            "A: 439 m from the figure you gave, but 181 m from your gauge. Too far apart: "
            "check both.",
        ),
        (
            Note("learned_from_items", count=1, stitches=("sc",), thickness=(4, 4), more=-0.061),
            f"Counts in your 1 finished item in sc, {CLASSES[4].name} yarn: it took 6% less than "
            "the gauge says.",
        ),
        (
            Note("learned_from_items", count=4, stitches=(), thickness=None, more=0.001),
            "Surer, as your 4 finished items in other stitches took what the gauge says.",
        ),
        (
            Note("items_carried_over", count=2),
            "2 items were another size; worked out for this one.",
        ),
        (
            Note("strands_together", strands=2, m_per_100g=99.6, thickness=5),
            "2 strands held together are about chunky (100 m per 100 g); "
            "lengths are of all strands.",
        ),
        (
            Note("colours_carried", times=3, takes=1.2),
            "A colour is carried up the edge 3 times, 1.2 times what it passes.",
        ),
        (
            Note("mixed_rows", roles=("B", "C")),
            "In mixed rows B, C and the colour around it are carried along.",
        ),
    ],
)
def test_what_is_to_be_known_of_a_need(note: Note, said: str) -> None:
    assert sentence(note) == said


def test_every_extra_says_what_its_figure_rests_on() -> None:
    beside = [ExtraYarn(Extra(kind, "A", (metres(1),)), "A", 1.0) for kind in Kind]

    assert all(basis(one) for one in beside)
    assert basis(ExtraYarn(Note("joined_squares", count=4), "A", 1.0)) == "by geometry"


@pytest.mark.parametrize(
    ("source", "said"),
    [
        (Source.OWN_ITEMS, "from your finished ones"),
        (Source.SWATCH, "from a swatch"),
        (Source.STATED, "from the figure you gave"),
        (Source.GAUGE, "from your gauge"),
        (Source.THICKNESS, f"rough: from typical {CLASSES[3].name}"),
    ],
)
def test_every_source_is_said_in_her_words(source: Source, said: str) -> None:
    assert source_words(source, 3, 3) == said
