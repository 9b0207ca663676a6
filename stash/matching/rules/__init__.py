"""What must hold of a lot in a role, and between the lots of different roles.

`fits.role_query` puts the question for a role and `fits.pair_rules` the rules between lots;
`blockers` names what can keep a lot out. What is only worth noting of two colours is in
`colour_pairs`; none of it keeps lots apart.
"""
