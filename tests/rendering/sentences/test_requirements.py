"""What is said of a need, whole sentences chosen for their plurals and optional parts."""

from __future__ import annotations

import pytest

from stash.measures.length import Length, metres, yards
from stash.measures.note import Note
from stash.rendering.sentences.requirements import basis
from stash.rendering.sentences.say import sentence
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.shapes import Shape
from stash.requirements.yarn.need import ExtraYarn, Source
from stash.requirements.yarn.printed import PrintedPlace


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
            "worked out as 38 stitches by 90 rows: 57.1 cm around, 29.7 cm tall (30.0 cm asked)",
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
            "worked out as 60 stitches by 110 rounds: 21.0 cm around, 36.0 cm from cuff to toe; "
            "heel 60 by 16; 2 of them",
        ),
        (
            Note("repeat_does_not_meet", repeat=3, rows=98),
            "the repeat of 3 rows ends after row 2 where the last row meets the first: "
            "96 or 99 rows close it",
        ),
        (
            Note("repeat_does_not_meet", repeat=5, rows=2),
            "the repeat of 5 rows ends after row 2 where the last row meets the first: "
            "5 rows close it",
        ),
        (
            Note("figure_for_buying", role="A", skeins=1),
            "A: 1 whole skein is a figure for buying: some of one and no more than 1 will go "
            "into it",
        ),
        (
            Note("figure_for_buying", role="A", skeins=3),
            "A: 3 whole skeins is a figure for buying: more than 2 and no more than 3 will go "
            "into it",
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
            "A: the pattern's own 212 m (232 yd) lies between expected and set aside by gauge: "
            "181 m (198 yd) and 232 m (254 yd)",
        ),
        (
            Note("margin_leaves_chance", role="A", margin=0.15, spread=0.241, chance=0.734),
            "A: a margin of 15% on a spread of 24% leaves a chance of 73% that it is enough",
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
            "A: stated says 440 m, gauge 180 m, more than two spreads apart: look at both again",
        ),
        (
            Note("learned_from_items", count=1, stitches=("sc", "class 4"), more=-0.061),
            "your 1 finished item in sc, class 4 say 6% less than the model: counted in",
        ),
        (
            Note("learned_from_items", count=4, stitches=(), more=0.001),
            "your 4 finished items in other stitches agree with the model: counted in, it is "
            "surer by that",
        ),
        (
            Note("items_carried_over", count=2),
            "2 items were made in another size: carried over as the model goes",
        ),
        (
            Note("strands_together", strands=2, m_per_100g=99.6, thickness=5),
            "2 strands together: 100 m to 100 g, about class 5 as a hint; "
            "the lengths are of all strands added up",
        ),
        (
            Note("colours_carried", times=3, takes=1.2),
            "a colour is carried up the edge 3 times, 1.2 x what it passes",
        ),
        (
            Note("mixed_rows", roles=("B", "C")),
            "B, C and what is there go along unworked in mixed rows",
        ),
    ],
)
def test_what_is_to_be_known_of_a_need(note: Note, said: str) -> None:
    assert sentence(note) == said


def test_every_extra_says_what_its_figure_rests_on() -> None:
    beside = [ExtraYarn(Extra(kind, "A", (metres(1),)), "A", 1.0) for kind in Kind]

    assert all(basis(one) for one in beside)
    assert basis(ExtraYarn(Note("joined_squares", count=4), "A", 1.0)) == "by geometry"
