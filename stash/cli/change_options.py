"""The facts that `stash change` changes, as they are typed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

import typer

from stash.cli.common import Hexes, Thick
from stash.cli.shared_options import optional, text, texts, written_in
from stash.exchange.typed_facts import ChangeWords

#: By the fields of `ChangeWords`.
OPTIONS: dict[str, Any] = {
    "place": optional(words="Where you keep it, as 'blue box'."),
    "owner": optional(words="Whose yarn it is."),
    "name": optional(words="The name of the yarn."),
    "maker": optional(words="Who makes the yarn."),
    "lot": text(words="The dye lot; with no skein named, the one to change."),
    "colour": optional(words="The colour in words, as 'dark teal'."),
    "colour_no": optional("--colour-no", words="The number of the colour on the band."),
    "hexes": Hexes,
    "thickness": Thick,
    "fibre": optional(words="As '75% wool, 25% nylon'."),
    "dyed": optional(words="How its colours lie; unknown clears it."),
    "surface": optional(words="What its strand is like; unknown clears it."),
    "put_up": text("--full", words="A full skein, as 100g/180m."),
    "left": Annotated[
        str, typer.Option("--left", metavar="AMOUNT", help="What is really left, as 43g or 80yd.")
    ],
    "tare": text(words="What its core or bag weighs, as 12g."),
    "note": optional("--note", words="Anything else to remember."),
    "condition": texts("--condition", "faded, quarantined, smoke, pets; none clears them."),
    "daylight": Annotated[
        bool | None, typer.Option("--daylight/--no-daylight", help="Looked at in daylight.")
    ],
    "bought": text(words="The day you bought it, as 2026-05-31."),
    "paid": text(words="What you paid for all of it, as 9.60."),
    "postage": text(words="Postage or tax on top, as 4.50."),
    "care": optional(words="What the band says of care, as 'machine wash 30, dry flat'."),
    "asked": Annotated[
        str, typer.Option("--asked", metavar="MONEY", help="Of an item: the price to ask, as 28.")
    ],
    "hours": text(words="Of an item: how long it took, or is planned to take, as 2h10."),
    "order": text(words="Of an item: the order it is for, as 2; or none."),
}


def says_what_to_change(command: Callable[..., None]) -> Callable[..., None]:
    """The command with an option for every fact in place of its parameter `words`."""
    return written_in(command, OPTIONS, ChangeWords)
