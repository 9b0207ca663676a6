"""A line off a label, as somebody typed it, read whole into the yarn it describes.

The one way in is `label.read`. A line is cut into tokens (`text`); every fact proposes the spans it
could be (`amounts`, `holding_spans`, `lots`, `prices`, `fibres`, `looks`, `names`, `remarks`,
`places`, `strand`); the best way to cover the whole line is found by adding up scores (`cover`);
and what the spans say is put together, or asked about (`settle_holding`, `settle_facts`,
`strand`, `settle_price`). No span is cut out before the others have had their say.

What was understood, and what is in doubt, are notes: `read_weight`, `guessed_share`. A reading that
is offered in a question is a text to type, and is made here.

Decisions:

- A label line: every fact proposes spans over the tokens; the sum of scores over a whole cover
  decides; names and colours are spans like any other; readers that took one part after another
  got 10 of 100 ordinary lines right: whoever came first took the words.
- A reading no skein can have: over 5 kg, 20 km, or beyond 3 to 12,000 m per 100 g is none; only
  where it is the only one, refused; `2/8 240 g` is not 8 kg, `4,480 yds` on a pound is not 4.48.
- Shares by word of mouth: nearly full 90 %, hardly used 90 %, nearly gone 10 %, a few yards 3 %,
  an opened one of several 50 %, each marked rough (our choice); an amount with its doubt, never
  whole.
- How yarn is dyed and made: a word of the name, the colour or a remark stays there and is read as
  well; between two commas it is a fact of its own, unless it is all that is said of the colour; of
  72 lines whose keys were fixed before, 70 were read right at the first run.
- A bare sum behind the number of a lot (`lot 9 7.99`) is its price where nothing measures or counts
  behind it; of 20 lines held back 19 were read so at the first run, one rightly asked about.
  Elsewhere a bare sum is asked about: a shell may have taken `$1` out of `$17.99`.
- Patterns of a label: compiled when first looked for, most behind a cheap hint; compiling all of
  some 200 took 0.4 s, a plain line needs a third of them.
"""

from stash.parsing.label.holding import ShareOfWhat
from stash.parsing.label.reading import Label, read
from stash.stock.incoming import NO_NAME

__all__ = ["NO_NAME", "Label", "ShareOfWhat", "read"]
