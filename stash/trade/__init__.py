"""Published tables as data with their source: thickness classes, fibres, hooks, bodies, colours.

Decisions:

- Sizes of heads: WHO to 5 years, UK90 from 6, ANSUR II for the grown up; where WHO and UK90
  disagree both are given, so that no table is silently preferred (2 cm at four years).
- Nylon and polyamide are two names of one fibre, kept as typed: a shelf says what she typed, a
  label what the law says.
- A class is derived from metres in 100 g only as "about"; gauge to class is a set, as the published
  ranges overlap.
- 12 ply: class 5; the chart of its own country says so.
- A colour word: means its table value from label, sheet and `change`; a value that is not the
  old word's own was given and stays, as one looked at in daylight does; no column tells where a
  value came from, and none is needed.

May import: measures, errors.
"""
