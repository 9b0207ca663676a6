"""Values into words: every answer as text to read, as keys for scripts and as rows of a sheet.

There is one module for each answer, named as the command or the action that gives it. It has `keys`
(stable keys, the unit in the name, None for what is not known), `rows` (the same flat, for csv) and
`text` (for a person), as far as the answer is given so; each takes what the action gave and nothing
else but a `Page`. What an answer is made of lies beside them: `figures` (amounts in her units),
`amounts` (`Page`, colours), `columns`, `first_screen` (what fits a terminal), `drawing`
(pictures, at a terminal and as SVG), `pick_list`, `care`, `keys` (lots, skeins, proposals). Notes
and errors become sentences in `sentences`, whose one way in is `say.sentence`.

Nothing here reads the stash, a setting or what was typed: an answer of an action is named for the
type checker alone. A page shows the same answers in its own way by another `Page`.

Decisions:
- A `Page` carries her units, her currency, how a headline is set and how a patch of colour is
  drawn; only `paint` knows the terminal, and only `cli` asks it. So every text can be tested plain.
- Estimates to two figures, what is set aside up, what is on the books to the metre and the tenth of
  a gram: more figures would be false, fewer would not balance.
- A drawing has a mark of its own weight for each role, and plain letters where blocks are lacking:
  it must be read in grey and in any encoding.
- Rows of an answer are set out in columns all at once, so that they run through under every
  headline; paint takes no room in them.
- A cell of a csv that a spreadsheet would run gets an apostrophe, which our own reader takes off.
- Small drawbacks: under 0.3 in JSON only, so that how new or dear a yarn is fills no line unless
  she ranks by it; the text line holds what decides.
- A match at a terminal: the most telling of several views that fits 24 lines once they are broken;
  in a pipe the whole of the first five sets, as a reader there can scroll and search.
- Lightness in words, as nobody knows numbers for it; the number with `--all` and in JSON.
- Look-alikes in JSON: for all three kinds of eyes, whatever her setting; a shop or a page serves
  other eyes than hers.
- A near miss: what the lot has for the role and what is short add up to what is to be set aside;
  its bar is left out where the lot's free yarn does not show what is short, as with a skein tied
  by `--with`, or ends too short to join.
- What holds of every set or every yarn shown: said once below them; five times "compare in
  daylight" is not read.
"""
