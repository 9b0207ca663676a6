// On a phone the reasons of a set fold behind its name; on a desk there is room for them.
"use strict";

const narrow = matchMedia("(max-width: 600px)");
function fold() {
  for (const why of document.querySelectorAll("details.why")) why.open = !narrow.matches;
}
narrow.addEventListener("change", fold);
document.addEventListener("renewed", fold);
fold();
