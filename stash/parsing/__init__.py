"""Words become values: what people type, read as meant, asked about, or refused.

Every function takes a text and gives a value of the packages below. What cannot be read is raised
as a kind and facts (`Unreadable`, `Ambiguous`, `BadInput`); the words for it are in
`rendering.sentences`. Words here are vocabulary only, in tables at the margin of a module. Imports
the packages of values; never rendering, actions or the store.

There is a module for each thing that is typed (`quantities`, `coins`, `days`, `settings`, …) and a
package where it takes several: `label` (`label.read`), `design` (`design.design`, `runs.run`),
`wish`, `batch` (`plan.plan_read`). `headings` are those of sheets; `shape_words` and `people` are
words only, for `design` and for finding a design by what it is. `photo` reads pixels, not words.

Decisions:

- Ambiguity is asked about, never guessed: `1,200 m` may be 1.2, `12/1/24` is another day elsewhere.
  So no library for days or locales is used: it would choose. Each reading that is offered can be
  typed in the place of the words, and says one thing.
- A whole line is read by the best cover of all its words, not fact by fact: a span taken out early
  is taken from whatever else it could be. Of 870 lines with a key fixed before the reader saw them
  at most 0.5 % are read wrongly and 2 % are not read as the key says (`tests/parsing/label`).
- Everyday amounts are exact products without a library; pint has what is made of several units, in
  a registry of our own. `stash add` fell from 1.33 to 1.16 s of processor time and from 86 to
  71 MiB (median of 10 runs in turn).
- Pint lives in `quantities` alone and RapidFuzz in `names` alone, imported when first needed.
- Pint: a private registry of a dozen definitions on fractions; raw text never reaches it; below
  0.26; its default registry reads `8 ply` as a length; 0.26 drops Python 3.11.
"""
