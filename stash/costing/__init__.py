"""What yarn and articles cost, what is to be asked for them, and what a tag must say.

May import: stock, trade, measures, errors. Money stays in whole coins from end to end.
"""
