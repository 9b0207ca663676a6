"""Sets of lots in order of cost, without ever holding all of them.

`best_first.best_first(by_role, rules)` is the one way in; it takes a `CandidateList` for each role.
All that serves shelves of 100,000 lots stays in this folder: sets of places kept as the bits of one
number, values that let many lots be left out at once, no garbage collection meanwhile.

Decisions, with what was measured:

- Best first with bounds instead of all pairs: the best 20 pairs of an ordinary shelf of 10,000 lots
  come 59 to 70 times as fast as from all pairs in numpy, with the same answer; with what each side
  prepares 33 times, the whole of `match` 3.2 times.
- From 10,000 to 100,000 lots the time grows 8- to 11-fold (14 where nothing can pass); memory stays
  at 292 MB as a process.
- Garbage collection is off while `match` works: it took nearly half of the time on 100,000 lots,
  and growth was 16-fold.
- For three roles and more the classes of lots say early that a branch cannot be filled: where no
  three lots stand apart as wished, every two of them would be tried in vain.
- Ranking: best first over per-role lines, queued by the least a lot can cost; never all pairs in
  memory; proved equal to a slow reference and to all pairs in numpy.
- Marks of lots: thickness, steps of lightness, sectors of hue and the wash as bits over a role's
  line; a lot is weighed only when its turn comes; nearly every lot is passed over without being
  picked from.
"""
