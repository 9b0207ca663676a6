"""A design as a maker types it: shape, size, gauge, fabric, bands and figures.

Decisions:

- A shape or a size is read as people say it, or asked about. A word without an age (`toddler`,
  `teen`) and a letter are asked: heads of toddlers differ by 3 cm, and letters by maker; the
  trade's own table of heads, from memory, has women below the first of a hundred who were measured.
- A span of ages on a label is its middle; where its heads differ by more than 6 cm, what a hat
  stretches (our choice), it is asked about.
- "moss stitch": asked about, like "rib"; a fabric of both crafts, about 50 % apart in yarn.
"""
