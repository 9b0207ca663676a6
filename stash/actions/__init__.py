"""What a person can do: one module for each command, named as the command.

An action opens the file through a `Book`, in one frozen view (`Book.reading`) or as one numbered
entry (`Book.entry`, written by an `EntryWriter`), and closes it again: either all of it happened or
nothing. It finds yarn, lots, items and designs by what was typed (`parsing.names`), asks the
packages below, and returns facts: numbers, records, `Note`s. Whoever shows them finds the words.

May import everything below (store, matching, planning, costing, requirements, stock, trade,
measures, errors) and `parsing.names`.

Decisions: an entry keeps facts, not a sentence, so that the log can be shown in another unit or by
another name; entries of before 0006 keep the sentence they were written with. `booked` looks into
the file for the newest entry, because a command that breaks off cannot know whether it was kept.
"""
