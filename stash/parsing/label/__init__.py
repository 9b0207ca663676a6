"""A line off a label, as somebody typed it, read whole into the yarn it describes.

The one way in is `label.read`. A line is cut into tokens (`text`); every fact proposes the spans it
could be (`amounts`, `holding_spans`, `lots`, `prices`, `fibres`, `looks`, `names`, `remarks`,
`places`); the best way to cover the whole line is found by adding up scores (`cover`); and what the
spans say is put together, or asked about (`settle_holding`, `settle_facts`, `settle_price`). No
span is cut out before the others have had their say.

What was understood, and what is in doubt, are notes: `read_weight`, `guessed_share`. A reading that
is offered in a question is a text to type, and is made here.
"""

from stash.parsing.label.holding import ShareOfWhat
from stash.parsing.label.reading import NO_NAME, Label, read

__all__ = ["NO_NAME", "Label", "ShareOfWhat", "read"]
