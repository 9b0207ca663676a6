"""The options that ask the shelf, written once for the commands that take them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.shared_options import flag, text, texts, written_in

if TYPE_CHECKING:
    from stash.matching.question.wish import Wish
    from stash.parsing.wish.typed import WishWords

Margin = Annotated[str, typer.Option("--margin", help="Added to what is expected, as 15%.")]
#: By the fields of `WishWords`.
OPTIONS: dict[str, Any] = {
    "margin": Margin,
    "contrast": text(
        words="bold, clear, soft, tonal or any; or a gap in lightness: 30 at least, 20-40."
    ),
    "fix": texts("--with", "Fix a role: A=12 (a skein), A=L4 (a lot), A='navy'; repeat it."),
    "colours": texts(
        "--colour",
        "A colour a role must have: A=blue, B='teal,rust'; repeat it.",
        metavar="ROLE=COLOUR",
    ),
    "not_colours": texts("--not-colour", "A colour to leave out: red, or A=red; repeat it."),
    "fineness": text("--per-100g", words="Metres per 100 g: 200-260, or 15% around the design's."),
    "without": texts("--without", "A fibre to leave out: wool, animal, …; repeat it."),
    "wash": text(words="together (felting apart from what does not), hot, or any."),
    "no_bleeding": flag("--no-bleeding", "No strong darks or reds beside very light colours."),
    "owner": text(words="Only this person's yarn; mine is yours."),
    "not_in": texts("--not-in", "Part of a place to leave out; repeat it."),
    "also": texts("--also", "quarantined: let such yarn take part."),
    "apart": texts(
        "--strands-apart", "Let each strand held together in a role be of its own yarn: A."
    ),
    "two_lots": texts(
        "--two-lots",
        "Two lots of a colour in one role: A=brim, A=change, A=alternate, or A; repeat it.",
    ),
    "assume": flag("--assume", "Reckon yarn without a length by its class's usual one."),
}


def asks_the_shelf(command: Callable[..., None]) -> Callable[..., None]:
    """The command with an option for every part of a wish in place of its parameter `words`."""
    return written_in(command, OPTIONS, _gathered)


def _gathered(**typed: Any) -> WishWords:
    from stash.parsing.wish.typed import WishWords

    return WishWords(**typed)


def wish_typed(words: WishWords) -> Wish:
    """The wish these words say."""
    from stash.parsing.wish.wish import wish

    return wish(words)
