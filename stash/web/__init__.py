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
- A shelf, designs and answers are kept as long as the file is unchanged (`store.memory`).
- Starlette, Jinja2, uvicorn and python-multipart are imported here alone, and this package by the
  command `serve` alone.
- The page of pairs looks for as many sets as the command does, and for more only when asked: all
  of them would cost many times the match.
- A design that a fix would change is not in the address: the address names the near miss and the
  kind of fix, which is worked out anew; where the shelf has changed, that is said.
- The words of a page stand in its template, those of an answer in `rendering` as ever.
"""
