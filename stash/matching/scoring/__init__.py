"""Whether a lot covers a role and what speaks for and against it, in whole thousandths.

`coverage.role_fit` says of every lot what keeps it out or the least it can cost; only what the
search takes up is weighed in full by `coverage.weigh`, and only what is answered gets its reasons.

Decisions:

- Oldest first: relative to the shelf: oldest 0, today 1; the day it was bought, else the day it
  came onto the books; no span of years to choose; a shelf that came in one day is not reordered.
- Price of a lot: p / (p + middle price a metre), times the role's share of the yarn; unknown
  counts as the middle, a gift as nothing; independent of the currency; not knowing is not
  rewarded.
"""
