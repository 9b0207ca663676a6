"""From a batch to its best plan, with a bound: the only place that knows the solver.

Decisions:

- The first look: once no more is asked of a lot than can mostly be cut, or (part balls, with
  value kept) as many made of each as are; what is found is soon a plan; a bound is taken only
  from the second look.
- Effort of the whole numbers: how often the solver asks whether to go on, times the size of the
  program to 1.7; the same every time; its own limit of branches counts neither the root nor its
  heuristics.
- Part balls of a lot: cut by rule, and by the solver where more than 0.1 m is lost; the rules do
  not look for the most of them.
- Cutting and bound: rows of lots hold whole lengths and the joins that cannot be avoided; only
  proved clashes enter the bound; the bound is valid, and a plan is never one that the balls
  cannot give.
- Joined ends: each at least the useful end; a need under twice that is not joined; stricter than
  `match` only for needs of some 4 m.
- Stopping a plan: a question asked again and again, no clock below actions; otherwise counted
  effort; same input, same plan.
- What must be made: an aim of its own, first; what is missed is given up and the rest is
  planned; the smallest give follows from it.
"""
