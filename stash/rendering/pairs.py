"""Two colours of a set side by side, as scripts read it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations
from typing import Any

from stash.matching.answer.proposal import Filled
from stash.matching.rules.colour_pairs import colours_alike, hues_of, repeats
from stash.matching.rules.contrast import least_difference, least_gap
from stash.measures.colour import Colour, lab
from stash.measures.vision import Vision
from stash.rendering.sentences.matching import HUES


def pairs(roles: Sequence[Filled]) -> list[dict[str, Any]]:
    """Each two roles of a set: how far apart, how their hues lie, to whose eyes they look alike.

    `look_alike_to` names eyes without one kind of cone, all three of them whatever her setting is;
    empty where a colour is not known.
    """
    return [
        {
            "roles": [one.role, other.role],
            **_beside(one.lot.lot.colours, other.lot.lot.colours),
        }
        for one, other in combinations(roles, 2)
    ]


# the same two lots are side by side in many sets of three
@lru_cache(maxsize=1024)
def _beside(one: tuple[Colour, ...], other: tuple[Colour, ...]) -> dict[str, Any]:
    shades = [[lab(colour) for colour in each] for each in (one, other)]
    hues = hues_of(*shades)
    return {
        "lightness_gap": least_gap(shades),
        "colour_difference": least_difference(shades),
        "hue": hues and HUES[hues],
        "repeats": repeats(*shades),
        "look_alike_to": [eyes.value for eyes in Vision if colours_alike(one, other, eyes)],
    }
