"""The page: the same actions and the same rendering as the commands, drawn and laid out as HTML.

`serve` is the one way in. A request becomes a `Visit`; a function of `screens` answers it with a
page (`visit.page`), or acts on what was pressed and says where to go on (`Done`).

Decisions:
- The server draws, and every form works without scripts. `static/page.js` only saves a wait: it
  asks for the same page and puts the new part of it in the place of the old one.
- What was pressed is answered by a redirect (303), and what there is to say of it, or what was
  wrong with it, is kept for a while under a number that the address bears: so a reload never acts
  twice, and what she typed stands in its fields again.
- Each form has a token that works once. A second press is led to where the first one went.
- One lock round whatever writes: two pages of this process wait for one another; other processes
  are kept out by the file itself.
- Pages are sent packed: the shelf of 3,000 skeins is 91 kB, 10 kB packed. Its tokens are new on
  every page, so that their size gives nothing away.
- A shelf, designs and answers are kept as long as the file is unchanged (`store.memory`).
- A design is drawn in its best set of today wherever it stands alone. That set is part of what
  `ideas` works out (`ideas.best_sets`), so Tonight, the designs and the editor look for it once:
  0.1 to 0.2 s for 900 skeins and ten designs, where all of `ideas` takes 0.8 s.
- Shared (`serve --share`), the page listens at one more address, that of this computer in its
  network, and what it lets in stands in `safety` and `sharing`. Sessions are in memory. What a
  phone writes keeps its name: a `Visit` gives it to the book, and the book to the entry.
- A phone that is renamed has the new name in what it writes from then on. An entry is never
  changed, so what it wrote before keeps the old one; Undo in its bar still finds that (`former`),
  and no other phone can be called so while it is paired.
- A form's token knows what was the newest entry on its page; so a refusal can say who changed what
  meanwhile (`meanwhile`), of the skeins it is about.
- Starlette, Jinja2, uvicorn and python-multipart are imported here alone, and this package by the
  command `serve` alone.
- The page of pairs looks for as many sets as the command does, and for more only when asked: all
  of them would cost many times the match.
- A design that a fix would change is not in the address: the address names the near miss and the
  kind of fix, which is worked out anew; where the shelf has changed, that is said.
- What stands in a field of a fact is hers only where it is not what the page had put there: so a
  label line can be written on, and what she has changed stays. Such a fact is read as a cell of
  the sheet's column is (`exchange.label_lines`), never by a second reader.
- A sheet lies in memory between its preview and bringing it in, under a number nobody can guess;
  its name is shown and leads nowhere. What she answers of it stands in the address.
- A photograph is opened and shrunk in her browser: only the pixels of the rings she puts on it are
  sent, are looked at (`parsing.photo`) and forgotten. No picture is shown from an address, so the
  policy allows none. What is sent so is no form: it writes nothing and needs no token (`ANSWERS`).
- A plan for a market is looked for in a thread that holds neither the lock nor a view of the file,
  and only while somebody looks at it (75 s: a page in the background asks once a minute). What is
  asked stands in the address; a plan is kept under it until it is looked for anew, so that the one
  she saw is the one that is set aside, and the file says whether that still can be. While one of
  3,000 skeins is looked for, another page is answered in 0.12 s (the median; at most 0.45 s).
- A sheet of paper is the same as in the file of its command, set by the same style (`/paper.css`);
  what is round it on the page is not printed, and what is not known is said there.
- The words of a page stand in its template, those of an answer in `rendering` as ever.
"""
