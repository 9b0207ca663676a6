"""What to make of the shelf before a market: the best whole plan, and where every ball is cut.

Ways in, both in `plan_batch`: `planned`, and `unfilled_orders` for orders alone. `model/` the batch
in whole numbers · `optimiser/` its best plan · `shopping/` what to buy.

Decisions:

- Planner: columns (want, a lot for each role) from the prices of a linear program, dived to
  whole items, leftovers gathered by changing lots; up to 4,000 parts times lots then whole
  numbers, see below; the linear program is tight and quick; the solver on the columns alone left
  2-3 % after 12 s.
- Part balls used up: metres of need out of opened skeins, tails not counted; more joins must not
  look better.
- Orders: each in its turn (by day, then number) as often as those before it allow, itself the only
  thing of value in its turn; then they are settled, and all else is planned around them. One sum of
  what is missed would give two later orders the yarn of an earlier one. What one lacks is said by
  the matcher, on what is left once those before it have their yarn. An order counts in no mix.
- Different sets: a set counts once for all that is made, or for one want, as pairs are limited: the
  same lots in whichever order. In the programs each set is a column of at most 1 that no more than
  its items fill; a new one is worth to a price what its row is. What cannot be reached is lowered,
  and the reason is found by planning again without hours, limits and leasts, each by itself.
- Profit: millionths of a coin, of what is expected to be used at the price of its skein; less than
  half a coin is no gain. Where pieces of a lot have several prices, programs use the cheapest
  first, which no cutting beats; the plan is priced as it is cut, so the proof is wider there. What
  has no price costs nothing, so that all is "at most"; which skeins those are is said.
- What may go wrong side by side: look-alikes, bleeding and felting are notes of each set of a
  batch; what holds of all is said once; navy with navy was planned without a word.

Measured (processor time, two cores, Python 3.11): 200 generated batches under hours, to 60 lots and
6 designs in 3 sizes. A general solver with 60 s for each of seeds 110-199 ended on 58 values and 42
sums of part balls: values equal, part balls at most 0.1 % short. 189 values are proved best, the
widest proved gap of the others is 2.5 %, in part balls 2.9 %. Median 0.22 s, nine in ten under
3.9 s, the longest 8.6 s. 1,000 lots x 50 designs: gap 0.2-0.4 % in 6-7 s; 200 x 10: 0.3-0.6 % in
0.7-2.1 s; 3,000 x 150: 0.2 % in 106 s.
Seeds 100-116 for profit: median 0.5 s, longest 5.6 s, widest gap 0.5 %; with five different sets
0.2 s, 4.1 s, 3.3 %. 200 x 10: profit 1.5 % in 3.5 s, 18 % where each piece has a price of its own.

May import: matching, requirements, stock, trade, measures, errors.
"""
