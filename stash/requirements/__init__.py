"""How much yarn a piece needs of each colour, with its spread and its source.

May import: trade, measures, errors.
"""
