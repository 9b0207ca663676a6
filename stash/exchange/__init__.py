"""Files in and out: sheets read and written, with findings row by row.

May import: wording, actions, errors.
"""
