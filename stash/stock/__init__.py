"""What lies on the shelf and how it comes and goes: yarn, lot, skein, entry, movement, promise.

Values and rules only, no file. Ways in: `weighing.weighed` (what a reading says of the books),
`picking.best_pick` (which skeins to take), `spread.contributions` (how sure a length is),
`turnover.turnover` (what came and went over a span).

Decisions:

- A movement is the only fact about quantity; what is held is their sum.
- A whole skein keeps its length whatever it weighs: dry wool reads 4 to 8 % light with every metre
  there. More than 12 % off its band is asked about; 1 % or a step of the scale is agreement.
- How sure a length is, is a list of contributions: the shelf, `show --spread` and the matcher's
  chance add up the same ones. A ball of 100 g may lawfully be 4.5 g light, one of 50 g as well, so
  a flat 2.2 % was wrong.
- Moisture and a length by class alone are the same for all skeins of a lot and add up as they are,
  the rest as squares: one room is damp for all of them.
- A movement that was taken back is left out with its opposite, in whichever spans they lie: every
  span balances, and spans add up.

May import: trade, measures, errors.
"""
