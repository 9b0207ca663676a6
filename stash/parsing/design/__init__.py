"""A design as a maker types it: shape, size, gauge, fabric, bands and figures.

Decisions:

- "moss stitch": asked about, like "rib"; a fabric of both crafts, about 50 % apart in yarn.
"""
