"""One module per thing a person does; each function is one transaction on a stash file.

May import everything below: store, matching, requirements, stock, trade, measures, errors.
"""
