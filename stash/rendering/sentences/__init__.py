"""The words for every kind of note and error, package by package.

A table has a sentence for each kind: a text with the names of facts in braces, or a function of the
facts. `say.sentence` is the one way in.
"""
