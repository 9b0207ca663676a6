"""Colours out of made-up photographs, held against what was photographed (see `photographs`)."""

from __future__ import annotations

import time
from collections.abc import Sequence
from itertools import permutations
from statistics import median, quantiles

import pytest
from photographs import LIGHTS, photograph, truth

from stash.errors import BadInput
from stash.measures.colour import Colour, ciede2000, lab
from stash.measures.colour_clusters import ColourShare, clusters
from stash.parsing.photo import MOST_PIXELS, yarn_colours
from stash.trade.colour_words import PLAIN

#: Yarns of one to four colours, seven of each; each lies under one of the three lights.
YARNS = tuple(
    tuple(PLAIN[word] for word in words.split(", "))
    for words in (
        *("navy", "cream", "red", "sage", "charcoal", "mustard", "lilac"),
        *("navy, cream", "red, grey", "teal, orange", "forest, pink", "brown, aqua"),
        *("purple, yellow", "black, white"),
        *("navy, cream, red", "teal, rust, cream", "green, lemon, brown", "plum, pink, grey"),
        *("blue, orange, white", "olive, coral, navy", "turquoise, purple, gold"),
        *("navy, red, yellow, green", "cream, teal, rust, plum", "white, black, red, blue"),
        *("pink, lime, purple, orange", "brown, sky blue, gold, green"),
        *("burgundy, mint, navy, apricot", "charcoal, yellow, magenta, turquoise"),
    )
)


def off(found: Sequence[ColourShare], colours: Sequence[str]) -> list[float]:
    """How far each colour that was found is from the true one it goes best with, CIEDE2000."""
    seen, true = [lab(one.colour) for one in found], [truth(one) for one in colours]
    ways = ([ciede2000(a, b) for a, b in zip(way, true, strict=True)] for way in permutations(seen))
    return min(ways, key=sum)


def all_found(paper: bool, balanced: float) -> tuple[int, list[float]]:
    """In how many of the pictures the number of colours is right, and how far off those are."""
    right, differences = 0, []
    for number, colours in enumerate(YARNS):
        taken = photograph(colours, LIGHTS[number % 3], number, balanced=balanced)
        found = yarn_colours(taken.yarn, taken.paper if paper else b"")
        if len(found) == len(colours):
            right += 1
            differences += off(found, colours)
    return right, differences


# How far is our choice, held where a trial was: 5 is a near shade, 10 another shade of the colour.
@pytest.mark.parametrize(
    ("paper", "balanced", "least_right", "most_median", "most_of_nine_in_ten"),
    [
        (True, 0.7, 28, 6, 10),  # a camera that takes most of a cast away, as they do
        (False, 0.7, 28, 9, 15),
        (True, 0.0, 28, 6, 10),  # one that takes none away
        (False, 0.0, 26, 12, 28),  # as which paper is for
    ],
)
def test_the_colours_of_a_yarn_are_found_under_daylight_a_bulb_and_a_tube(
    paper: bool, balanced: float, least_right: int, most_median: float, most_of_nine_in_ten: float
) -> None:
    right, differences = all_found(paper, balanced)
    print(
        f"paper {paper}, cast taken away {balanced:.0%}: right number {right} of {len(YARNS)}, "
        f"median {median(differences):.1f}, nine in ten {quantiles(differences, n=10)[-1]:.1f}, "
        f"worst {max(differences):.1f}"
    )
    assert len(YARNS) == 28
    assert right >= least_right
    assert median(differences) <= most_median
    assert quantiles(differences, n=10)[-1] <= most_of_nine_in_ten


def test_paper_makes_a_bulb_s_light_truer() -> None:
    cream = (PLAIN["cream"],)
    taken = photograph(cream, "A", 1, balanced=0.3)
    with_paper, without = (yarn_colours(taken.yarn, paper) for paper in (taken.paper, b""))
    assert off(with_paper, cream)[0] < 6 < 15 < off(without, cream)[0]


def test_paper_makes_the_exposure_count_for_nothing() -> None:
    """Half the light on both is the same yarn (linear light: IEC 61966-2-1 puts 0.5 at 188)."""
    bright, half = (bytes((step, step, step, 255)) * 500 for step in (255, 188))
    grey, dark_grey = (bytes((step, step, step, 255)) * 500 for step in (188, 137))
    (one,), (other,) = yarn_colours(grey, bright), yarn_colours(dark_grey, half)
    assert ciede2000(lab(one.colour), lab(other.colour)) < 1


def test_shares_are_of_the_whole_and_largest_first() -> None:
    navy, cream = (bytes.fromhex(PLAIN[word][1:]) + b"\xff" for word in ("navy", "cream"))
    found = yarn_colours(navy * 300 + cream * 700)
    assert [(one.colour, one.share) for one in found] == [
        (Colour(PLAIN["cream"]), 0.7),
        (Colour(PLAIN["navy"]), 0.3),
    ]


def test_a_stray_fibre_is_no_colour_of_a_yarn_and_a_fleck_is() -> None:
    navy, cream = (bytes.fromhex(PLAIN[word][1:]) + b"\xff" for word in ("navy", "cream"))
    assert len(yarn_colours(navy * 950 + cream * 50)) == 1
    assert len(yarn_colours(navy * 920 + cream * 80)) == 2


def test_the_shade_of_a_strand_is_no_second_colour() -> None:
    red = [0.52, 0.015, 0.03]
    lit_and_shaded = [tuple(part * step / 100 for part in red) for step in range(30, 101)]
    assert len(clusters(lit_and_shaded)) == 1


def test_the_same_pixels_give_the_same_colours_in_whatever_order() -> None:
    taken = photograph(YARNS[20], "FL2", 3)
    pixels = [taken.yarn[at : at + 4] for at in range(0, len(taken.yarn), 4)]
    found = yarn_colours(taken.yarn)
    assert found == yarn_colours(taken.yarn)
    assert found == yarn_colours(b"".join(reversed(pixels)))


def test_what_is_clear_is_not_looked_at() -> None:
    navy = bytes.fromhex(PLAIN["navy"][1:])
    (found,) = yarn_colours((navy + b"\xff") * 50 + b"\xff\xff\xff\x00" * 400)
    assert found == ColourShare(Colour(PLAIN["navy"]), 1.0)


@pytest.mark.parametrize(
    ("yarn", "paper", "kind"),
    [
        (b"", b"", "photo_in_part"),
        (b"\xff" * 401, b"", "photo_in_part"),
        (b"\xff" * 400, b"\xff" * 3, "photo_in_part"),
        (b"\xff" * (4 * MOST_PIXELS + 4), b"", "photo_too_large"),
        (b"\xff" * 400, b"\xff" * (4 * MOST_PIXELS + 4), "photo_too_large"),
        (b"\x80\x80\x80\x00" * 100, b"", "photo_clear"),
        (b"\xff" * 400, b"\x10\x10\x10\xff" * 100, "photo_dark_paper"),
    ],
)
def test_what_is_no_picture_of_yarn_is_refused(yarn: bytes, paper: bytes, kind: str) -> None:
    with pytest.raises(BadInput) as refused:
        yarn_colours(yarn, paper)
    assert refused.value.kind == kind


def test_the_largest_ring_is_looked_at_in_two_seconds() -> None:
    taken = photograph(YARNS[-1], "A", 9, balanced=0)
    most = (taken.yarn * 4)[: 4 * MOST_PIXELS]
    before = time.process_time()
    yarn_colours(most, taken.paper)
    assert time.process_time() - before < 2


def test_one_pixel_is_one_colour() -> None:
    assert yarn_colours(b"\x1d\x25\x44\xff") == [ColourShare(Colour("#1d2544"), 1.0)]
