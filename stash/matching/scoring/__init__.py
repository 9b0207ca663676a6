"""Whether a lot covers a role and what speaks for and against it, in whole thousandths.

`coverage.role_fit` says of every lot what keeps it out or the least it can cost; only what the
search takes up is weighed in full by `coverage.weigh`, and only what is answered gets its reasons.
"""
