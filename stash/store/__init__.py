"""The stash file: the only package that imports sqlalchemy or alembic.

May import: matching.shelf, requirements, stock, measures, errors.
"""
