"""Which lots of the shelf fill the roles of a design, in order of cost, and why.

One way in: `match.match(shelf, need, wish, plan)` gives the sets of lots that fit, best first, and
the near misses with their fixes. `shelf_survey.survey` asks it of many designs at once, and
`after_taking` says what a shelf looks like once yarn of it is taken. One answer travels through the
folders in this order: `question` (what is asked) and `lots` (the shelf, each lot viewed once) →
`rules` (what must hold) → `scoring` (what it costs) → `two_lots` (two in one role, on request) →
`search` (the sets in order) → `near_misses`; what comes out is in `answer`.

May import: requirements, stock, trade, measures, errors.

Decisions:

- The answer is exact: no set that fits and costs less is left out. Orders are complete: by cost,
  then by the lot numbers of the roles, A first.
- Costs are whole thousandths, so that equal sums are equal.
- Reasons, blockers and fixes are kinds with facts; `rendering.sentences` has their words.
- A choice for a role is a tuple of lots: one, or two that share it. The search knows no other
  difference between them.
- Strands of different yarns are roles of their own (A1, A2) here and strands of one role in the
  books: coverage is that of the least, and weighing, learning and cost need not know.
- A free length is rounded down: a promise of all of it must not ask for a milligram more.
"""
