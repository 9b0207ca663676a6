"""Two lots of one yarn and colour in one role, only where she asks for that.

`couples.candidates_for` gives the choices for a role, alone and in pairs; `plans` finds the nearest
split by which both cover their part. Which splits a design allows is known to `requirements`.

Decisions:

- Which way two lots share a role: first of brim, change, turns that works, then the cheaper
  order; two lots are one choice in the role's line; by cost alone, carried yarn would decide.
- Key of two lots: `L3/L9-brim`: main lot, then the odd one; it books by itself, by the very
  split, or is refused.
- The same colourway: same yarn; the number where both have one, else the name; two numbers told
  are two colours.
"""
