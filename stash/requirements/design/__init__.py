"""What is to be made: shape, size, bands, fabric, gauge; `layout.laid_out` makes rows of it.

Decisions:

- A shape is parts with a profile: full width, and a straight slope at either end. One rule lays out
  every shape, and a larger item never takes less.
- Rows are to the nearest whole one, a half upwards; the repeat may end part-way. Taken up to whole
  repeats, one of 8 rows added up to 28 %.
- Colours are painted in one order: A below, stripes over it, bands over both, upright ones on top,
  so that every stitch has one colour.
- A fold-up brim is part of the height; a hat is two fifths of the head tall (a maker's chart holds
  within a tenth of an inch from newborn to child).
- A mitten is a tube with a cap and a thumb without gusset, a sock one tube with a second cap as its
  heel: our own geometry, within one spread of weighed pairs (58 to 62 g).
- Cautions go by whom it is for and name no rule by number: the scopes of those that come to mind
  leave hats, mittens and scarves out, the hazards are there all the same.
- What a size was made from is kept as facts; plans of before have it in words, and are read so.
- Brim: part of *tall*; added only where the height follows from `--size`; *tall* includes a
  fold-up brim, and a size knows none.
- Two colours in a row: a band with a share; each colour is carried along every stitch it does
  not work; stranded and tapestry differ only in how long the carried strand is.
- Ends of stripes: carried up the edge over an inch or less, 1.2 times what is passed; else two
  tails; common practice; `--ends` says otherwise.
"""
