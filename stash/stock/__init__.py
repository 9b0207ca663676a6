"""What lies on the shelf and how it comes and goes: yarn, lot, skein, entry, movement, promise.

Values and rules only, no file. May import: trade, measures, errors.
"""
