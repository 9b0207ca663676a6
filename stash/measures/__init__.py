"""Exact quantities, standard library only: mass, length, put-up, money, colour, estimate, rounding.

`note` holds what is to be said as a kind and facts; `written` has texts that read back exactly.

Decisions:

- The books hold whole milligrams, micrometres and smallest coins; a yard is 914,400 um exactly.
- Estimates are floats in metres; `estimate.to_books` is the one crossing, and rounds up.
- Shares of a whole are made by largest remainder (`rounding.shared_out`), so that they add up.
- Sums of floats: `math.fsum`; a test swaps `sum` for both ways of summing; from Python 3.12 on
  `sum` is compensated, and answers differed.
- Colours of a photograph (`colour_clusters`, `adaptation`): k-means in Lab with lightness at 0.35,
  no chance in it, sets joined under 11. Of 28 made-up pictures under three lights the number of
  colours is right in 28, half of the colours are within 5.0 by CIEDE2000 and nine in ten within 9.3
  with white paper in the picture, 7.7 and 13.5 without (`tests/parsing/test_photo.py`).

May import: nothing of ours but `stash.errors`.
"""
