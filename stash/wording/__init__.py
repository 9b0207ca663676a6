"""Between people's words and measures: reading what makers type, and showing what we know.

Pint lives only in `quantities`, RapidFuzz only in `names`. May import the value packages
(measures, trade, stock, requirements, matching), never store or actions.
"""
