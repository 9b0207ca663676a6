"""The facts that `stash change` puts right, as they are typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

import typer

from stash.cli.shared_options import optional, text, texts, written_in


@dataclass(frozen=True, slots=True)
class ChangeWords:
    """What was typed of each fact; None, or nothing, leaves it as it is."""

    place: str | None = None
    owner: str | None = None
    name: str | None = None
    maker: str | None = None
    lot: str = ""
    colour: str | None = None
    colour_no: str | None = None
    hexes: str = ""
    thickness: str = ""
    fibre: str | None = None
    put_up: str = ""
    left: str = ""
    tare: str = ""
    note: str | None = None
    condition: tuple[str, ...] = ()
    daylight: bool | None = None
    bought: str = ""
    paid: str = ""
    postage: str = ""
    care: str | None = None
    asked: str = ""
    hours: str = ""


#: By the fields of `ChangeWords`.
OPTIONS: dict[str, Any] = {
    "place": optional(words="Where it lies."),
    "owner": optional(words="Whose it is."),
    "name": optional(words="The name of the yarn."),
    "maker": optional(words="Who makes the yarn."),
    "lot": text(words="The dye lot; without numbers, the one to change."),
    "colour": optional(words="The colour in words."),
    "colour_no": optional("--colour-no", words="The number of the colour."),
    "hexes": text("--hex", words="#rrggbb, several with slashes."),
    "thickness": text("--thickness", words="Thickness class or name."),
    "fibre": optional(words="The fibre content."),
    "put_up": text("--full", words="What a full skein holds."),
    "left": Annotated[
        str, typer.Option("--left", metavar="AMOUNT", help="What is really left, as 43g or 80yd.")
    ],
    "tare": text(words="Weight of its core or bag."),
    "note": optional("--note", words="Anything else."),
    "condition": texts("--condition", "faded, quarantined, smoke, pets; none clears them."),
    "daylight": Annotated[
        bool | None, typer.Option("--daylight/--no-daylight", help="Looked at in daylight.")
    ],
    "bought": text(words="The day it was bought."),
    "paid": text(words="What was paid for all of it."),
    "postage": text(words="Postage or tax, spread by what was paid."),
    "care": optional(words="What the band says of care, as 'machine wash 30, dry flat'."),
    "asked": Annotated[
        str, typer.Option("--asked", metavar="MONEY", help="Of an item: the price to ask.")
    ],
    "hours": text(words="Of an item: what it took, or is planned to take."),
}


def says_what_to_change(command: Callable[..., None]) -> Callable[..., None]:
    """The command with an option for every fact in place of its parameter `words`."""
    return written_in(command, OPTIONS, ChangeWords)
