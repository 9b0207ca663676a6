"""What lies on the shelf and how it comes and goes: yarn, lot, skein, entry, movement, promise,
and the items and orders it is for.

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
- How a lot is dyed and its surface: kept where it was said, and else worked out by `looks` from its
  colours and fibre whenever it is asked for; None stays None in the file.
- A skein's own pair: kept on the skein, shown as *measured*; a weighed skein and a re-read band
  differ from the record without changing it.
- The day yarn arrives: that of its purchase, where it lies before the entry; an entry of kind
  *opening* keeps its own day, the one before `--opening`; an arrival is never moved behind a
  use, so no balance can fall below nothing.
- Opened skeins beside whole ones: one line, one lot: `Incoming.part_balls`; a price for each is
  shared by what they hold; she types "2.5 balls".
- A weighed length: kept as the skein's own pair as it was measured (10 m, 4.3 g); known by its
  length, which is not the band's; the step it was read to and its size say how good it is; no
  column more.
- An order holds no yarn until it has an item: promises belong to items, and a second kind of
  promise would break "no gram twice". How many are filled is counted from its items.
- Picking: exact search over sets of skeins of one lot, in whole micrometres, cut short after
  20,000 steps; proved equal to brute force; only dozens of part balls of different lengths reach
  the limit.

May import: trade, measures, errors.
"""
