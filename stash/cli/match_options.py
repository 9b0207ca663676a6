"""The options that ask the shelf, written once for the commands that take them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import ROLES, by_role, refuse
from stash.cli.shared_options import flag, text, texts, written_in

if TYPE_CHECKING:
    from stash.actions.limits import Narrowing
    from stash.actions.match import Ask
    from stash.matching.question.two_lots_asked import TwoLotsAsked
    from stash.matching.question.wish import Wished
    from stash.parsing.wish.typed import WishWords

Margin = Annotated[str, typer.Option("--margin", help="Added to what is expected, as 15%.")]
#: By the fields of `typed_wish.WishWords`.
OPTIONS: dict[str, Any] = {
    "margin": Margin,
    "contrast": text(
        words="bold, clear, soft, tonal or any; or a gap in lightness: 30 at least, 20-40."
    ),
    "fix": texts("--with", "Fix a role: A=12 (a skein), A=L4 (a lot), A='navy'; repeat it."),
    "colours": texts("--colour", "A colour a role must have: A=blue, B='teal,rust'; repeat it."),
    "not_colours": texts("--not-colour", "A colour to leave out: red, or A=red; repeat it."),
    "fineness": text(words="Metres per 100 g: 200-260, or 15% about the piece's own."),
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


def asked(words: WishWords) -> Ask:
    """The question these words ask, for no piece yet."""
    from stash.actions.match import Ask

    return Ask(
        margin=margin_typed(words.margin),
        contrast=_contrast(words.contrast),
        fixed=by_role(words.fix, "--with", strands=bool(words.apart)),
        assume=words.assume,
        narrowing=_narrowing(words),
        two_lots=_two_lots(words.two_lots),
        apart=_apart(words.apart),
    )


# each reads its own words only when there are some: pint and the patterns take their time to load


def margin_typed(text: str) -> float | None:
    """The margin asked for, None where none was."""
    if not text:
        return None
    from stash.parsing.design import piece

    return piece.margin(text)


def _apart(texts: tuple[str, ...]) -> tuple[str, ...]:
    roles = tuple(text.strip().upper() for text in texts)
    for role in roles:
        if role not in ROLES:
            refuse(f"cannot read {role!r} after --strands-apart: name a role, as in A")
    return roles


def _two_lots(texts: tuple[str, ...]) -> dict[str, TwoLotsAsked]:
    if not texts:
        return {}
    from stash.parsing.wish.two_lots import two_lots

    return two_lots(texts)


def _contrast(text: str) -> Wished | None:
    if not text:
        return None
    from stash.parsing.settings import contrast

    return contrast(text)


def _narrowing(words: WishWords) -> Narrowing:
    from stash.actions.limits import NOT_NARROWED, Narrowing

    if not words.narrow:
        return NOT_NARROWED
    from stash.actions.preferences import fineness
    from stash.parsing import settings
    from stash.parsing.wish import limits

    span = fineness(settings.fineness(words.fineness)) if words.fineness else None
    return Narrowing(limits.limits(words), span, words.owner.strip(), words.not_in)
