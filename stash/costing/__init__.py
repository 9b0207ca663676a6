"""What yarn and items cost, what is to be asked for them, and what a tag must say.

Ways in: `pools.priced_by` (what movements cost), `valuation.valuation` (a span of days at cost),
`price.Costing` (an item and its price), `label.content` (the fibres of a tag). Money stays in
whole coins from end to end.

Decisions:

- First in first out and moving average have one pool a yarn (maker and name, any colour), in
  millionths of a coin, day by day: many small uses round no coin away, and no movement is priced by
  a later one, so that last year's figures do not move.
- One method a year (IAS 2: the same formula for similar goods).
- Unravelled yarn costs what the skein cost that it was of, for it left at that price.
- Care of several yarns: the most sparing of each scale; where one yarn says nothing only bans
  are sure; the silent one may bear less.
- Shares of a tag: whole percents by largest remainder, tenths where a fibre would vanish; both
  worked examples of the Regulation come out as printed.
- Cost of an item in `value`: its yarn; hours and sundries are told by `cost`; they are not in
  the books.

May import: stock, trade, measures, errors.
"""
