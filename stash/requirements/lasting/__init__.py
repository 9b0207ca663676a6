"""Whether a ball lasts: `lasting.lasting`, from what it weighed after so many rows.

Decisions:

- Generalised least squares as a filter of two states, the spread of rows averaged over a prior: a
  95 % bound holds 95 times in 100; a plain line's held 76.
- Each ball counts to the row at which it was last weighed, and the answer speaks from the earliest
  of them: one row for all spread 10 g of 20 rows over 50, a false yes.
- Of readings between which no row has the yarn the later one stands for both: a hat that begins
  with another colour was refused for ever after one early weighing.
"""
