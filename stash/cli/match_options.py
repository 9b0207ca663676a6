"""The options that ask the shelf, written once for the commands that take them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.shared_options import flag, text, texts, written_in

if TYPE_CHECKING:
    from stash.matching.question.wish import Wish
    from stash.parsing.wish.typed import WishWords

Margin = Annotated[str, typer.Option("--margin", help="Extra yarn on top of the estimate, as 15%.")]
#: By the fields of `WishWords`.
OPTIONS: dict[str, Any] = {
    "margin": Margin,
    "contrast": text(
        words="bold, clear, soft, tonal or any; or a gap from dark to light: 30, 20-40."
    ),
    "fix": texts("--with", "Choose a yarn: A=12 (skein), A=L4 (lot), A=navy. Repeat for more."),
    "colours": texts(
        "--colour",
        "What it should look like: A=blue, B='teal,rust'. Repeat for more.",
        metavar="A=COLOUR",
    ),
    "not_colours": texts("--not-colour", "A colour to leave out: red, or A=red. Repeat for more."),
    "fineness": text(
        "--per-100g", words="Metres in 100 g: 200-260, or within 15% of the design's."
    ),
    "without": texts("--without", "A fibre to leave out: wool, animal … Repeat for more."),
    "wash": text(words="together: all felt or none does; hot: all can be washed hot; any."),
    "no_bleeding": flag("--no-bleeding", "No strong darks or reds next to very light colours."),
    "owner": text(words="Only this person's yarn; mine for your own."),
    "not_in": texts("--not-in", "A place to leave out, as 'attic'. Repeat for more."),
    "also": texts("--also", "quarantined: use yarn in quarantine as well."),
    "apart": texts("--strands-apart", "The strands of colour A may be different yarns."),
    "two_lots": texts(
        "--two-lots",
        "Two dye lots for colour A: A=brim (one for the brim), A=change (from one row on), "
        "A=alternate (in turns), or A (any way).",
    ),
    "assume": flag("--assume", "Assume the usual length where the band is lost."),
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
