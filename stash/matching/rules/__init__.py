"""What must hold of a lot in a role, and between the lots of different roles.

`fits.role_query` puts the question for a role and `fits.pair_rules` the rules between lots;
`blockers` names what can keep a lot out. What is only worth noting of two colours is in
`colour_pairs`; none of it keeps lots apart.

Decisions:

- Colour vision: what would look alike by the matrices of Machado, Oliveira and Fernandes (2009)
  is said, never a bar; names and lightness stand beside every patch.
- Wash, fibres, owner, places: limits she sets for one question; each answers yes or a reason
  with the change that would let the yarn in; nothing is left out of the shelf silently.
- Gaps among several lots: of n lots two may only lie certain steps of the least gap apart, less
  what the others need of the most (`contrast.gaps_among`); three lots "10 to 20 apart" made
  every pair be tried: 3.3 s became 0.2 s on 3,000 skeins.
"""
