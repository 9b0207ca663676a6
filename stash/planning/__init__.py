"""What to make of the shelf before a market: the best whole plan, and where every ball is cut.

May import: matching, requirements, stock, trade, measures, errors.
"""
