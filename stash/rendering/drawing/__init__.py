"""Drawing: from rows and yarns to shapes, given as SVG and to the terminal.

Ways in, each giving text that is ready for a page or a terminal:

- `yarn_look.look_of(lot)`: how a lot looks, and `yarn_look.needed_grey`: the grey as light.
- `swatch.yarn_swatch(look, left, shown)`: a yarn as a card, an opened one, a bobbin, a chip; its
  page has `defs.page_defs(looks)` once.
- `piece.piece(laid, looks, shown)`: a design as the piece it becomes, with all that it needs;
  `piece.px_per_cm_for` for several at one scale, `piece.size_px` for their room.
- `board.board(laid, looks, bands, shown)`: a piece with a ruler and a handle at each edge of its
  bands (`handles`), with all that a script needs to move one by whole rows.
- `bars.skein_bar`, `bars.need_axis`, `signs.sign`, `running_down.running_down`.
- `characters.drawing`: a design at a terminal, from the same rows.

Under them: `svg` (text, escaping, the classes that follow a page's scheme), `strand` (colours along
a yarn), `texture`, `fabric` and `surface` (light and shade over them), `patches` (where each role
lies, in stitches and rows), `outlines` (of each shape), `cloth` (what a role of a piece is filled
with), `edge` (of a piece, with the halo of a brushed yarn).

Decisions:
- Same yarn, same drawing: chance is seeded by the lot; ids are made of what is drawn.
- The mean of what is drawn lies within 4 L* of the yarn's own, which is the mean of its colours by
  their shares. So light and shade come in three strengths, colours in runs have equal shares, and a
  drawing holds a whole number of them.
- Ground under all other roles, and each role as one path: no seam shows between two bands.
- A piece carries its fabric with it, as it is as large as its stitches; only what is alike for
  yarns of one kind is defined once a page.
- The halo of a piece is three lines behind its edge in the yarn's own paint, no filter: so a piece
  still needs nothing else on its page, and each yarn has a halo only where it comes to the edge.
- Rounds about a middle are a wedge of level rows turned about it; runs of colour are drawn along
  each round, as they lie in it, for a tile cannot be turned.
- A folded brim takes its height from the hat, as it does in life, and shows its first row on top.
"""
