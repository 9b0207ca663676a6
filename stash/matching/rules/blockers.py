"""What can keep a lot out of a role, by name."""

from __future__ import annotations

from enum import StrEnum


class Blocker(StrEnum):
    """What keeps a lot out of a role."""

    SHORT = "short"
    NO_LENGTH = "no_length"
    NO_CLASS = "no_thickness"
    NO_COLOUR = "no_colour"
    NO_FIBRE = "no_fibre"
    NO_FINENESS = "no_fineness"
    QUARANTINED = "quarantined"
    WRONG_CLASS = "wrong_thickness"
    WRONG_FINENESS = "wrong_fineness"
    WRONG_COLOUR = "wrong_colour"
    WRONG_FIBRE = "wrong_fibre"
    NOT_FOR_HEAT = "not_for_heat"
    BARRED = "barred"


#: A lot that is known to be other than what she asked for is no near miss; one of which a fact is
#: not known, or that lacks a little, is.
RULED_OUT = frozenset(
    {
        Blocker.WRONG_CLASS,
        Blocker.WRONG_FINENESS,
        Blocker.WRONG_COLOUR,
        Blocker.WRONG_FIBRE,
        Blocker.NOT_FOR_HEAT,
        Blocker.BARRED,
    }
)
