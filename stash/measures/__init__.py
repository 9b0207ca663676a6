"""Exact quantities, standard library only: mass, length, put-up, money, colour, estimate, rounding.

May import: nothing of ours but `stash.errors`.
"""
