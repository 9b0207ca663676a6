// Saves a wait, nothing more: without it every link and form works.
"use strict";

// A form marked data-live shows its answer as she types: the same page is asked for, and the part
// that its value names is put in the place of the old one, with what is marked data-with that part.
const PAUSE_MS = 120;

function partOf(form) {
  return document.getElementById(form.dataset.live);
}

async function renew(form, signal) {
  const address = new URL(form.getAttribute("data-from") || form.action, location.href);
  address.search = new URLSearchParams(
    [...new FormData(form)].filter(([name, value]) => typeof value === "string" && name !== "token" && name !== "back")
  );
  const answer = await fetch(address, { signal, headers: { "X-Part": form.dataset.live } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.getElementById(form.dataset.live);
  if (!fresh) return;
  const typing = keptTyping(partOf(form));
  partOf(form).replaceWith(document.adoptNode(fresh));
  typing(fresh);
  // counts and the like that stand elsewhere and go with that part
  for (const one of page.querySelectorAll(`[data-with="${form.dataset.live}"]`)) {
    document.getElementById(one.id)?.replaceWith(document.adoptNode(one));
  }
  if (form.method === "get") history.replaceState(null, "", address);
  document.dispatchEvent(new CustomEvent("renewed", { detail: fresh }));
}

// A field she is typing in may lie in the part that is renewed: she goes on typing where she was.
function keptTyping(part) {
  const field = document.activeElement;
  if (!field?.id || !part.contains(field)) return () => {};
  return () => {
    const now = document.getElementById(field.id);
    if (!now) return;
    if ("value" in field) now.value = field.value;
    now.focus({ preventScroll: true });
    try { now.setSelectionRange(field.selectionStart, field.selectionEnd); } catch { /* a field without letters has none */ }
  };
}

function listen(form) {
  let timer, asking;
  const ask = () => {
    asking?.abort();
    asking = new AbortController();
    const part = partOf(form);
    part?.setAttribute("aria-busy", "true");
    renew(form, asking.signal).catch((why) => {
      if (why.name !== "AbortError") part?.removeAttribute("aria-busy");
    });
  };
  form.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(ask, PAUSE_MS); });
  form.addEventListener("ask", () => { clearTimeout(timer); ask(); });
  if (form.method === "get") form.addEventListener("submit", (event) => {
    if (event.submitter?.name) return; // a button that says more than the fields do
    event.preventDefault(); clearTimeout(timer); ask();
  });
}

// A second press while the first is on its way does nothing.
document.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || form.method !== "post") return;
  if (form.dataset.pressed) { event.preventDefault(); return; }
  form.dataset.pressed = "yes";
});
addEventListener("pageshow", () => {
  for (const form of document.querySelectorAll("form[data-pressed]")) delete form.dataset.pressed;
});

// Keys. Single letters never act in a field, and can be switched off in the settings.
function inField(target) {
  return target.closest("input, select, textarea, [contenteditable]") !== null;
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (!inField(event.target) && document.body.dataset.letters !== "off") {
    if (event.key === "/") {
      const find = document.querySelector("[data-find-here]") || document.getElementById("find");
      if (find && find.offsetParent) { event.preventDefault(); find.focus(); find.select(); }
      return;
    }
    const link = document.querySelector(`[data-key="${CSS.escape(event.key)}"]`);
    if (link) { event.preventDefault(); link.click(); return; }
  }
  const card = event.target.closest?.("[data-card]");
  if (card && !inField(event.target)) walk(event, card);
});

// Arrows go from card to card as they lie on the page.
function walk(event, from) {
  const cards = [...document.querySelectorAll("[data-card]")];
  const at = cards.indexOf(from);
  let to = null;
  if (event.key === "ArrowRight") to = cards[at + 1];
  else if (event.key === "ArrowLeft") to = cards[at - 1];
  else if (event.key === "ArrowDown" || event.key === "ArrowUp") to = nearest(cards, from, event.key === "ArrowDown");
  if (!to) return;
  event.preventDefault();
  (to.querySelector("[data-card-link]") || to).focus();
}

function nearest(cards, from, below) {
  const here = from.getBoundingClientRect();
  const middle = (box) => box.left + box.width / 2;
  let best = null, least = Infinity;
  for (const card of cards) {
    const box = card.getBoundingClientRect();
    const away = below ? box.top - here.top : here.top - box.top;
    if (away < 4) continue;
    const far = away * 4 + Math.abs(middle(box) - middle(here));
    if (far < least) { least = far; best = card; }
  }
  return best;
}

// What is not saved yet survives a reload of the page.
for (const form of document.querySelectorAll("form[data-keep]")) {
  const name = `unsaved ${form.dataset.keep}`;
  form.addEventListener("input", () => {
    const left = [...new FormData(form)].filter(([key, value]) => typeof value === "string" && key !== "token" && key !== "back");
    try { sessionStorage.setItem(name, JSON.stringify(left)); } catch { /* a browser may refuse to keep anything */ }
  });
  form.addEventListener("submit", () => { try { sessionStorage.removeItem(name); } catch { /* likewise */ } });
  let left = null;
  try { left = JSON.parse(sessionStorage.getItem(name)); } catch { /* likewise */ }
  for (const [key, value] of left || []) {
    const field = form.elements.namedItem(key);
    if (field && "value" in field && !field.value) field.value = value;
  }
}

for (const form of document.querySelectorAll("form[data-live]")) listen(form);

for (const button of document.querySelectorAll("button[data-print]")) {
  button.hidden = false;
  button.addEventListener("click", () => print());
}

// What another device changed is said on a page that is open, while somebody looks at it.
const LOOK_EVERY_MS = 10_000;

async function sayChanges() {
  const since = document.body.dataset.newest, line = document.getElementById("changed");
  if (since === undefined || !line || document.visibilityState !== "visible") return;
  const answer = await fetch(`/changed?since=${since}`);
  if (answer.redirected) { location.reload(); return; }
  const { words } = await answer.json();
  if (!words || line.dataset.words === words) return;
  line.dataset.words = words;
  const here = new URL(location.href);
  here.searchParams.delete("said");
  here.hash = "";
  const link = Object.assign(document.createElement("a"), { href: here.href, textContent: "show it" });
  line.replaceChildren(`${words} – `, link);
}
setInterval(() => sayChanges().catch(() => { /* the computer cannot be reached just now */ }), LOOK_EVERY_MS);
document.addEventListener("visibilitychange", () => sayChanges().catch(() => { /* likewise */ }));
