"""The sets that almost fit: what keeps them out (`blocked`) and what would make them fit.

`near_misses.near_misses(by_role, context, any_fits)` is the one way in. Fixes that leave the design
as it is are in `fixes`; those that make it otherwise in `redesigns`, each the nearest of its kind
and tried with the rules again before it is offered.

Decisions:

- What is no near miss: a lot known to be other than asked for; unknown facts and quarantine are
  near misses; what she ruled out is no surprise, what nobody knows can be mended.
- One more skein: numbered lots only; the design must need more than the new skein alone; a bought
  skein of an unknown lot is of no lot; what it covers alone says nothing of the lot.
- Ways out of a shortage: reckoned by the calculator for what the lots really give, each the
  nearest of its kind; held by a test that makes every way and one step less of it; a guess by
  rows promised bands that did not fit.
- A design of another size: no side under three quarters of the plan; a stripe at most half of
  where it lies; below that it is another design (our choice).
- Only the margin is short: a near miss that says so, `holds_expected`; never "Enough: no."; she
  holds exactly what the leaflet asks for.
"""
