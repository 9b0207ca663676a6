"""The sets that almost fit: what keeps them out (`blocked`) and what would make them fit.

`near_misses.near_misses(by_role, context, any_fits)` is the one way in. Fixes that leave the piece
as it is are in `fixes`; those that make it otherwise in `redesigns`, each the nearest of its kind
and tried with the rules again before it is offered.
"""
