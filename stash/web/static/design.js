// Moves the edges of bands by handle and key at once; the server draws them and works out the need.
"use strict";

const editor = document.querySelector("form[data-editor]");
const REST_MS = 350;
let before = null, dragged = null, held = "", later = 0;

function onBoard(name) {
  return JSON.parse(document.getElementById("board").dataset[name]);
}

// The fields of the n-th band that is filled in, as the server counts them.
function fieldsOf(band) {
  const rows = [...document.querySelectorAll("[data-band-row]")];
  const filled = rows.filter((row) => row.querySelector("[name$=_extent]").value.trim());
  const row = filled[band - 1];
  return row && { extent: row.querySelector("[name$=_extent]"), place: row.querySelector("[name$=_place]") };
}

function write(band, extent, place) {
  const fields = fieldsOf(band);
  if (!fields) return;
  fields.extent.value = extent;
  fields.place.value = place;
  editor.dispatchEvent(new Event("ask"));
}

function extentOf(count) {
  const one = document.getElementById("board").dataset.one;
  return one === "stitch" ? `${count} sts` : count === 1 ? "1 row" : `${count} rows`;
}

function move(handle, to) {
  const low = Number(handle.ariaValueMin), high = Number(handle.ariaValueMax);
  const from = Number(handle.ariaValueNow), at = Math.max(low, Math.min(high, to));
  if (at === from) return;
  const { band, side, other } = handle.dataset;
  const ends = side === "begins" ? [at, Number(other)] : [Number(other), at];
  const was = side === "begins" ? [from, Number(other)] : [Number(other), from];
  show(handle, at, ends);
  patch(was, ends);
  write(Number(band), extentOf(ends[1] - ends[0]), onBoard("typed")[ends[0]]);
}

// The handle goes where its edge goes, and the other one of its band is told.
function show(handle, at, ends) {
  const board = document.getElementById("board"), rows = onBoard("rows"), places = onBoard("says");
  const cell = handle.dataset.side === "begins" ? at : at - 1;
  const number = board.dataset.down ? rows.length - 1 - cell : cell + 1;
  const row = `${board.dataset.one} ${number}`;
  handle.ariaValueNow = at;
  handle.setAttribute("aria-valuetext", `${handle.getAttribute("aria-label")} at ${places[at]}, ${row}`);
  const x = handle.getAttribute("transform").match(/\(([-\d.]+)/)[1];
  handle.setAttribute("transform", `translate(${x} ${rows[at]})`);
  handle.querySelector(".leader").setAttribute("d", "M-6 0H26");
  handle.querySelector(".where").textContent = places[at];
  handle.querySelector(".row-words").textContent = row;
  const side = handle.dataset.side === "begins" ? "ends" : "begins";
  const twin = document.getElementById(`edge-${handle.dataset.band}-${side}`);
  if (!twin) return;
  twin.dataset.other = at;
  if (side === "begins") twin.ariaValueMax = ends[1] - 1;
  else twin.ariaValueMin = ends[0] + 1;
}

// The patch of the band on the piece, where it is drawn as a rectangle; else the server's drawing
// follows in a moment.
function patch(was, now) {
  const rows = onBoard("rows"), off = Number(document.getElementById("board").dataset.off);
  const near = (one, two) => Math.abs(one - two) < 0.25;
  for (const path of document.querySelectorAll("#piece path[fill^='#'], #piece path[fill^='url']")) {
    const parts = path.getAttribute("d").split(/(?=M)/);
    const moved = parts.map((part) => {
      const found = part.match(/^M(\S+) (\S+)h(\S+)v(\S+)h-\S+z$/);
      if (!found || !near(Number(found[2]), rows[was[1]] - off) || !near(Number(found[4]), rows[was[0]] - rows[was[1]])) return part;
      const tall = (rows[now[0]] - rows[now[1]]).toFixed(1);
      return `M${found[1]} ${(rows[now[1]] - off).toFixed(1)}h${found[3]}v${tall}h-${found[3]}z`;
    });
    if (moved.join() !== parts.join()) path.setAttribute("d", moved.join(""));
  }
}

function rowNear(y) {
  const rows = onBoard("rows");
  let best = 0;
  rows.forEach((one, at) => { if (Math.abs(one - y) < Math.abs(rows[best] - y)) best = at; });
  return best;
}

// As many rows as are nearest to a centimetre, or half an inch, one at least.
function large() {
  const rows = onBoard("rows"), says = onBoard("says");
  const inches = says[0].endsWith("in");
  const whole = rows.length - 1, tall = parseFloat(document.getElementById("board").dataset.tall);
  return Math.max(1, Math.round((inches ? 1.27 : 1) * whole / tall));
}

editor?.addEventListener("focusin", (event) => {
  const handle = event.target.closest(".handle");
  held = event.target.id;
  if (!handle || before?.id === handle.id) { if (!handle) before = null; return; }
  const fields = fieldsOf(Number(handle.dataset.band));
  before = { id: handle.id, band: Number(handle.dataset.band), extent: fields?.extent.value, place: fields?.place.value };
});

editor?.addEventListener("keydown", (event) => {
  const handle = event.target.closest(".handle");
  if (!handle || event.ctrlKey || event.metaKey || event.altKey) return;
  const at = Number(handle.ariaValueNow), step = event.shiftKey ? large() : 1;
  const to = {
    ArrowUp: at + step, ArrowRight: at + step, ArrowDown: at - step, ArrowLeft: at - step,
    Home: Number(handle.ariaValueMin), End: Number(handle.ariaValueMax),
  }[event.key];
  if (to !== undefined) move(handle, to);
  else if (event.key === "Delete" || event.key === "Backspace") askToRemove(handle);
  else if (event.key === "Escape" && before) write(before.band, before.extent, before.place);
  else return;
  event.preventDefault();
});

function askToRemove(handle) {
  const box = document.getElementById("ask-remove"), { band, role } = handle.dataset;
  const words = document.createElement("p"), choices = document.createElement("div");
  words.textContent = `Take the band of ${role} off?`;
  choices.className = "choices";
  const button = (text, act) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", act);
    choices.append(made);
    return made;
  };
  const yes = button("Take it off", () => { fieldsOf(Number(band)).extent.value = ""; renewAll(); });
  button("Leave it", () => { box.hidden = true; document.getElementById(handle.id)?.focus(); });
  box.replaceChildren(words, choices);
  box.hidden = false;
  yes.focus();
}

// The whole page anew, where other fields are to stand on it.
function renewAll() {
  const left = [...new FormData(editor)].filter(([name]) => name !== "back" && name !== "token");
  location.assign(`${editor.action.split("?")[0]}?${new URLSearchParams(left)}`);
}

editor?.addEventListener("pointerdown", (event) => {
  const handle = event.target.closest(".handle");
  if (!handle || event.button) return;
  event.preventDefault();
  handle.focus();
  dragged = handle.id;
});
document.addEventListener("pointermove", (event) => {
  const handle = dragged && document.getElementById(dragged);
  if (!handle) return;
  const board = document.getElementById("board"), box = board.getBoundingClientRect();
  move(handle, rowNear((event.clientY - box.top) * board.viewBox.baseVal.height / box.height));
});
for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, () => { dragged = null; });

editor?.addEventListener("click", (event) => {
  const button = event.target.closest("[data-move], [data-choose]");
  if (!button) return;
  event.preventDefault();
  if (button.dataset.choose) {
    editor.querySelector("input[name=band]").value = button.dataset.choose;
    editor.dispatchEvent(new Event("ask"));
  } else {
    const [band, extent, place] = button.dataset.move.split("|");
    if (place) write(Number(band), extent, place);
  }
});
editor?.addEventListener("change", (event) => { if (event.target.name === "shape") renewAll(); });

// What was asked for has come: the focus stays where it was, fields say what is wrong with them,
// and what may come later is asked for once she pauses.
document.addEventListener("renewed", (event) => {
  if (event.detail.id !== "shown") return;
  const again = held && document.getElementById(held);
  if (again && document.activeElement === document.body) again.focus();
  const wrong = JSON.parse(event.detail.dataset.wrong);
  for (const words of editor.querySelectorAll(".field-wrong[id]")) {
    const name = words.id.replace(/-wrong$/, "");
    words.textContent = wrong[name === "general" ? "" : name] || "";
    words.hidden = !words.textContent;
    const field = editor.elements.namedItem(name);
    if (!field?.setAttribute) continue;
    if (words.hidden) field.removeAttribute("aria-invalid");
    else field.setAttribute("aria-invalid", "true");
  }
  const unsaved = document.getElementById("unsaved");
  if (unsaved) unsaved.textContent = event.detail.dataset.changed ? unsaved.dataset.unsaved : "";
  clearTimeout(later);
  later = setTimeout(renewRest, REST_MS);
});

async function renewRest() {
  const answer = await fetch(location.href, { headers: { "X-Part": "rest" } });
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("rest");
  const rest = document.getElementById("rest");
  if (fresh && rest && !rest.contains(document.activeElement)) rest.replaceWith(document.adoptNode(fresh));
}
