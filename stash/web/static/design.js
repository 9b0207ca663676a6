// Moves the edges of bands by handle and key at once; the server draws them and works out the need.
"use strict";

const editor = document.querySelector("form[data-editor]");
const REST_MS = 350;
let before = null, dragged = null, held = "", later = 0;

// What the board says of the way in which a handle's bands lie; read once for each board.
function wayOf(handle) {
  const board = document.getElementById("board");
  board.ways ??= JSON.parse(board.dataset.ways);
  return board.ways[handle.dataset.way];
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

function extentOf(handle, count) {
  const { one } = wayOf(handle), { mixed = "", way } = handle.dataset;
  const much = one === "stitch" ? `${count} sts` : count === 1 ? "1 row" : `${count} rows`;
  return mixed + much + (way === "upright" ? " upright" : "");
}

function move(handle, to) {
  const low = Number(handle.ariaValueMin), high = Number(handle.ariaValueMax);
  const from = Number(handle.ariaValueNow), at = Math.max(low, Math.min(high, to));
  if (at === from) return;
  const { band, side, other } = handle.dataset;
  const endsAt = (edge) => (side === "begins" ? [edge, Number(other)] : [Number(other), edge]);
  const ends = endsAt(at), board = document.getElementById("board");
  board.drawn ??= {};
  board.drawn[band] ??= endsAt(from);
  show(handle, at, ends);
  patch(handle, board.drawn[band], ends);
  write(Number(band), extentOf(handle, ends[1] - ends[0]), wayOf(handle).typed[ends[0]]);
}

// The handle goes where its edge goes, and the other one of its band is told.
function show(handle, at, ends) {
  const way = wayOf(handle), below = at >= way.below;
  const cell = handle.dataset.side === "begins" ? at : at - 1;
  const row = `${way.one} ${way.down ? way.says.length - 1 - cell : cell + 1}`, back = cell < way.front ? "" : "at the back";
  handle.ariaValueNow = at;
  handle.setAttribute("aria-valuetext", `${handle.getAttribute("aria-label")} at ${way.says[at]}, ${row}${back && `, ${back}`}`);
  const place = below ? `${way.at[at]} ${way.low}` : `${way.side} ${way.at[at]}`;
  handle.setAttribute("transform", `translate(${place})`);
  handle.querySelector(".leader").setAttribute("d", leader(handle, way, at));
  handle.querySelector(".where").textContent = way.says[at];
  handle.querySelector(".row-words").textContent = row;
  const words = handle.querySelector(".back");
  if (words) words.textContent = back && "back";
  const side = handle.dataset.side === "begins" ? "ends" : "begins";
  const twin = document.getElementById(`edge-${handle.dataset.band}-${side}`);
  if (!twin) return;
  twin.dataset.other = at;
  if (side === "begins") twin.ariaValueMax = ends[1] - 1;
  else twin.ariaValueMin = ends[0] + 1;
}

// From the edge straight to its handle; none where the handle has gone round the heel of a sock.
function leader(handle, way, at) {
  const below = at >= way.below;
  if (below !== handle.classList.contains("below")) return "";
  return below ? "M0 -6V26" : `M${-6 - (way.leads[at] || 0)} 0H26`;
}

// What the band gains is drawn in its colour and what it leaves in A, over what the server drew, and
// inside the outline, until the server's drawing follows in a moment.
function patch(handle, was, now) {
  const group = document.getElementById("moved"), { role, band } = handle.dataset;
  if (!group) return;
  group.fills ??= JSON.parse(group.dataset.fills);
  const parts = [["A", was, now], [role, now, was]].flatMap(([inRole, these, those]) => without(these, those).map((ends) => [inRole, ends]));
  const drawn = parts.flatMap(([inRole, ends]) => (group.fills[inRole] || []).map((fill) => {
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", strip(wayOf(handle), ...ends));
    path.setAttribute("fill", fill);
    path.dataset.band = band;
    return path;
  }));
  for (const old of [...group.children]) if (old.dataset.band === band) old.remove();
  group.append(...drawn);
}

// What of one stretch lies outside another.
function without([begins, ends], [other, last]) {
  const before = [begins, Math.min(ends, other)], after = [Math.max(begins, last), ends];
  return [before, after].filter(([from, to]) => to > from);
}

// The path of what lies between two edges, as it is drawn in this piece; its outline cuts it.
function strip({ at, strip: how }, from, to) {
  const across = (left, top, wide, tall) => `M${left} ${top}h${wide}v${tall}h${-wide}z`;
  const [left, top] = how.corner;
  if (how.kind === "hanging") return across(0, from * how.unit, how.wide, (to - from) * how.unit);
  if (how.kind === "upright") return across(at[from] - left, 0, at[to] - at[from], how.tall);
  const low = at[from] - top, high = at[to] - top;
  if (how.kind === "level") return across(0, high, how.wide, low - high);
  if (how.kind === "bowed") { // lowest in the middle, as far as it sags
    const bow = (y) => `Q${how.wide / 2} ${y + 2 * how.sag} `;
    return `M0 ${high}${bow(high)}${how.wide} ${high}V${low}${bow(low)}0 ${low}z`;
  }
  const middle = how.wide / 2, ring = how.kind === "disc" ? round : frame;
  return ring(middle, middle - high, 1) + (middle - low > 0.05 ? ring(middle, middle - low, 0) : "");
}

function round(middle, radius, turn) {
  const half = `a${radius} ${radius} 0 0 ${turn} `;
  return `M${middle - radius} ${middle}${half}${2 * radius} 0${half}${-2 * radius} 0z`;
}

function frame(middle, half, turn) {
  const side = 2 * half, first = turn ? "h" : "v", then = turn ? "v" : "h";
  return `M${middle - half} ${middle - half}${first}${side}${then}${side}${first}${-side}z`;
}

// The edge between rows that is drawn nearest to a place: beside the piece by how high it is, below
// it by how far across; of a sock what is below its leg is its foot.
function edgeNear(handle, x, y) {
  const { at, below, low } = wayOf(handle), leg = below ? at[Math.min(below, at.length) - 1] : 0;
  const across = below === 0 || (below < at.length && y > Math.min(leg, low));
  const first = across ? below : 0, last = across ? at.length : below, wanted = across ? x : y;
  let best = first;
  for (let one = first; one < last; one++) if (Math.abs(at[one] - wanted) < Math.abs(at[best] - wanted)) best = one;
  return best;
}

// As many rows as are nearest to a centimetre, or half an inch, one at least.
function large(handle) {
  const { says, tall } = wayOf(handle), inches = says[0].endsWith("in");
  return Math.max(1, Math.round((inches ? 1.27 : 1) * (says.length - 1) / tall));
}

// Arrows go where they point to: on a sock, whose rows are counted down its leg, down is on.
function wayTo(handle, key, step) {
  const { at, below } = wayOf(handle), hangs = below > 1 && at[1] > at[0];
  const steps = { ArrowUp: hangs ? -step : step, ArrowDown: hangs ? step : -step, ArrowRight: step, ArrowLeft: -step };
  return steps[key];
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
  const at = Number(handle.ariaValueNow), by = wayTo(handle, event.key, event.shiftKey ? large(handle) : 1);
  const to = by ? at + by : { Home: Number(handle.ariaValueMin), End: Number(handle.ariaValueMax) }[event.key];
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
  const scale = board.viewBox.baseVal.height / box.height;
  move(handle, edgeNear(handle, (event.clientX - box.left) * scale, (event.clientY - box.top) * scale));
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
