"""Exact quantities, standard library only: mass, length, put-up, money, colour, estimate, rounding.

`note` holds what is to be said as a kind and facts; `written` has texts that read back exactly.

Decisions:

- The books hold whole milligrams, micrometres and smallest coins; a yard is 914,400 um exactly.
- Estimates are floats in metres; `estimate.to_books` is the one crossing, and rounds up.
- Shares of a whole are made by largest remainder (`rounding.shared_out`), so that they add up.
- Sums of floats: `math.fsum`; a test swaps `sum` for both ways of summing; from Python 3.12 on
  `sum` is compensated, and answers differed.

May import: nothing of ours but `stash.errors`.
"""
