"""Words become values: what people type, read as meant or asked about.

May import `wording`, `stock`, `trade` and `measures`.
"""
