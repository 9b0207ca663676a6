"""What to make of the shelf before a market: the best whole plan, and where every ball is cut.

One way in: `plan_batch.planned`. `model/` the batch in whole numbers · `optimiser/` its best plan ·
`shopping/` what to buy.

Decisions:

- Planner: columns (want, a lot for each role) from the prices of a linear program, dived to
  whole articles, leftovers gathered by changing lots; up to 4,000 parts times lots then whole
  numbers, see below; the linear program is tight and quick; the solver on the columns alone left
  2-3 % after 12 s.
- Part balls used up: metres of need out of opened skeins, tails not counted; more joins must not
  look better.
- What may go wrong side by side: look-alikes, bleeding and felting are notes of each set of a
  batch; what holds of all is said once; navy with navy was planned without a word.

May import: matching, requirements, stock, trade, measures, errors.
"""
