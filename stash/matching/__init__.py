"""Which lots of the shelf fill the roles of a piece, in order, and why.

May import: requirements, stock, trade, measures, errors.
"""
