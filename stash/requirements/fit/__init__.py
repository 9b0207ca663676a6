"""What so much yarn makes of a design: how large, how wide a band, how far along its rows.

Ways in: `reach.reach` (all of it), `grading.graded_rows` (one design over sizes),
`splitting.ways` (two lots in one colour), `recoloured` (a part in another colour).

Decisions:

- How large is found by halving over whole rows and stitches with the estimate itself: a larger
  item never takes less, so what fits is exact, with the same margin as forwards.
- Of two lots the brim comes first, then the smallest band; a change lies at the last hiding row
  that the first lot reaches; turns take the longest stretch. Held against trying all.
- Two lots leave one tail a side at each change; there is no margin on tails.
"""
