"""Files in and out: sheets read and written, plans kept, with findings row by row.

The ways in: `take_in.read_sheet` reads a csv or xlsx into lines of yarn, `booking` books what was
read and writes the shelf or everything, `saved_plan` keeps a batch. A sheet is read and written by
people, so its findings are sentences; what a reader raised is said by `rendering.sentences`.

A file is read in stages, each in its module: bytes to rows (`readers`, `workbooks`), the headings
(`header`, `cell_kinds`), rows under our columns (`tables`), one cell (`cells`), the cells of a row
together (`row_merge`, `prices`, `row_checks`), the whole sheet (`warnings`, `take_in`).

`typed_facts` puts facts of yarn that were typed, by an option or in a field of a page, into what
the actions take, `batch_read` the plan of a batch; they are here because they need both `parsing`
and `actions`.

Decisions:

- All or nothing: one entry for a sheet, after a copy of the file, or none; `--good-rows` leaves out
  rows with a finding. One mistake stops a command, many in a file become a list.
- What is written out reads back to the same milligram, micrometre and coin; every cell of an xlsx
  is text, because a spreadsheet turns a lot into a day, and no cell is a formula.
- A heading is taken by a word that is known, or by one at least 85 of 100 like it and 5 ahead of
  the next (tried on misspelt headings); a guess is always named, and what she says is remembered.
- A file has bounds (32 MB, 100,000 rows, 64 MB unpacked), so that none can fill the memory.
- Lot records in sheets: our sheets carry a column `record` beside the agreed ones; skeins of one
  line whose lot is unknown belong together, and no other column says so.
- What `export` writes as *paid*: the cost of what the row holds, by the method of the year;
  where yarn of one name is interchangeable its cost is shared over the skeins by weight; written
  as what was paid, a part ball came back at the cost of a full one.
- Prices in a sheet: columns `paid` (of the line), `price` (of a full skein), `cost` (either:
  asked wherever it matters); one column with a flag could not hold a sheet that has both.
"""
