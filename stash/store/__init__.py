"""The stash file: what is kept, read and written; the only package that imports sqlalchemy.

The ways in are `upgrade.open_file` and `upgrade.open_or_begin`, which give a `StashFile`: its
`reading`, `writing` and `remaking` are the only transactions. Each `*_rows` module asks and writes
the rows of one subject through the connection that these give, a question a statement.

- Names for the shell's Tab are read by the standard library in `names_kept`, read-only: a key press
  is answered in less time than sqlalchemy takes to load.
- SQLAlchemy Core, rows put into frozen slotted dataclasses by hand: mapping needs unfrozen classes.
  For 3,000 skeins and 15,000 movements lazy ORM took 2,083 ms, eager ORM 433 ms, one grouped SELECT
  18 ms.
- No balance is stored, because a stored balance can be wrong: a covering index on (skein, change)
  sums 200,000 movements in about 50 ms.
- STRICT tables, the unit in a column's name, rules as named constraints and triggers (`guards`).
  SQLite otherwise takes "12 g" into an INTEGER column.
- The driver begins nothing by itself: BEGIN IMMEDIATE to write, BEGIN to read, so that of two
  programs that take the last 80 g one gets it. Journal DELETE: the stash is one file.
- An upgrade happens in place, in one transaction, with the guards lifted and a copy made first.
  Replacing the file makes another program's next write fail; under BEGIN EXCLUSIVE the copy cannot
  be read (it hung).
- A file is put back row by row (`put_back`): SQLite's backup takes its lock anew, so that 44 of 60
  races lost an entry, and waits for ever while another program reads.
- A file with a name of hers is written beside its place and moved there when whole (`files`);
  never over a database, nor over anything else unasked.
- A list of numbers goes into a statement as one JSON text (`in_list`): SQLite takes 32,766 values
  at most, and a sheet may bring more.
- SQLite's errors are recognised by their codes, and what is wrong with a file has a kind and facts.
- Promises: an append-only table of changes, like movements; taking back, restating and using
  then are all the same: one more row.
- How an opposite is marked: it keeps the kind of what it answers and names it in `undoes`; "was
  it opened?" and "what did the item use?" are plain sums in which the wrong and its opposite
  cancel.
- Reading a file's revision: opened for writing, though nothing is written; a read-only opening
  cannot put back what a killed program left half written, and then the file could not be opened
  at all.
- Foreign keys: every referencing column has an index; without one on `skein.parent` each new
  skein was looked for among all others; a sheet of 20,000 rows took minutes.
- A file begun in vain: taken away under its write lock; whoever waited for that lock sees that
  the file under the name is another; what was booked in a file that another process took away
  was lost.
- A sale: a row of its own beside the item's steps, append-only, guarded: sold once until
  returned; a state *sold* would hide *done*, and a return would need a third.
"""
