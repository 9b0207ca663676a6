"""What a person can do: one module for each command, named as the command.

An action opens the file through a `Book`, in one frozen view (`Book.reading`) or as one numbered
entry (`Book.entry`, written by an `EntryWriter`), and closes it again: either all of it happened or
nothing. It finds yarn, lots, items and designs by what was typed (`parsing.names`), asks the
packages below, and returns facts: numbers, records, `Note`s. Whoever shows them finds the words.

Decisions:

- Taking back: refused if a later entry stands on it: its skeins moved, its item went on, the
  same fact was put right again, a gram was promised since; the books must be right on every day,
  not only today.
- A weighed fall of a *whole* skein: more than 12 % off asks `--opened` or `--recount`, except
  where exactly one begun item holds the skein: then it is use; asking her whether she opened
  the ball she is knitting from costs typing and tells nothing.
- `done --left`: the difference is booked to the milligram, without the 1 % in which scale and
  books "agree"; 1 % of a cone is a whole band of B.
- Several items: one entry, all or nothing; the refusal names the item, a list from a file names
  every row that is wrong, because it is put right in one go.
- A ball weighed once for several items: what it lost is shared by what was set aside of it for
  each, and marked as estimated; by equal parts a large hat would teach too little.
- A design in a market's list: its lowest unsold number goes; hats of one design are alike to
  whoever noted "hat, 28".
- Hours: what was noted with `done --hours` outranks what is set for a design, as own grams do;
  the mean of all, because a single evening says little.
- A dropped design still teaches and is still what its items are of; only lists and matches leave
  it out.
- A record under another name joins the one of that name with its colour and dye lot, as with
  `change --lot`; two records of one lot would never share a role.
- At the scale nothing is written until the end, so that Ctrl-C can leave all as it was; each
  reading is tried at once in an entry that is not kept, so that a slip is asked again there.
- Stock-taking: notes in tables of their own, free to change, booked by one entry at the end; a
  count whose entry is taken back is under way again; a count takes more than one sitting; the
  books only learn what was found.
- Grams after own items: of the yarn the newest of them was weighed in, where the design names
  no put-up; 79.4 g used became 80 g of another yarn.
- A count's losses: by number, or all that is missing beside something seen; a closed count is
  closed; `--close` and then `--lost` wrote a whole bin off.
- Filling in from known yarn: only where all records of that yarn agree, and always said; a guess
  between two put-ups would be silent.
- A weighed item (`--weighed 80g`): what is not booked yet goes to the roles by what each
  still lacks of its expected share; a role weighed before gets no more; with nothing booked it
  is the plain share.
- Name with and without its thickness: asked about (`Undecided`): `--like L1 "…"` or `--new "…"`;
  in a sheet pointed at; neither merged nor doubled in silence.
- Another thickness or fibre under one name, colour and lot: asked about, refused in a sheet; two
  yarns of a maker often share a lot number.
- Undoing a step: an item stands again as it stood, with how it was weighed; an unravelling
  taken back must teach again (found by the random tests of the books).
- `batch --aside`: refused on any change of free yarn or of a planned design; the plan is proved
  for that shelf only.
- A take that would leave an order short is a note, not a refusal; it is given up after 3 s, and
  what is not certain by then is not said. `sold` asks whether the price of an order was paid, and
  never takes it by itself.
- `log --sum`: by the method of the year in which its span ends, like `value`; two closing values
  under one method cannot both be right.
- File begun: only by commands that bring something in; a mistyped `--file` must not answer with
  an empty shelf.

May import everything below (store, matching, planning, costing, requirements, stock, trade,
measures, errors) and `parsing.names`.

Decisions: an entry keeps facts, not a sentence, so that the log can be shown in another unit or by
another name; entries of before 0006 keep the sentence they were written with. `booked` looks into
the file for the newest entry, because a command that breaks off cannot know whether it was kept.
"""
