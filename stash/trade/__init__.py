"""Published tables as data with their source: thickness classes, fibres, hooks, colour words.

May import: measures, errors.
"""
