// While a plan is looked for, the page asks for what is new in it; a number typed ticks its design.
"use strict";

const ASK_EVERY_MS = 700, ASK_LATER_MS = 20_000;

function looking() {
  return document.querySelector("#plan[data-look]");
}

async function askAgain() {
  const part = looking();
  if (!part) return;
  const answer = await fetch(location.href, { headers: { "X-Part": "plan" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.getElementById("plan");
  if (!fresh) { location.reload(); return; }
  // what is as it was stays, so that a button is not taken from under a finger
  if (fresh.dataset.look === part.dataset.look) return;
  const at = document.activeElement?.id;
  part.replaceWith(document.adoptNode(fresh));
  if (at) document.getElementById(at)?.focus({ preventScroll: true });
}

function keepAsking() {
  if (!looking()) return;
  const wait = document.visibilityState === "visible" ? ASK_EVERY_MS : ASK_LATER_MS;
  setTimeout(() => askAgain().catch(() => { /* the computer cannot be reached just now */ }).finally(keepAsking), wait);
}
document.getElementById("look-again")?.setAttribute("hidden", "");
keepAsking();

// An address of fields that say nothing would be long where there are many designs.
document.querySelector(".asks-plan")?.addEventListener("formdata", ({ formData }) => {
  for (const [name, value] of [...formData]) if (!value) formData.delete(name);
});

document.addEventListener("input", (event) => {
  if (!event.target.matches(".numbers input, .of-design input") || !event.target.value) return;
  event.target.closest("[data-want]").querySelector("input[type=checkbox]").checked = true;
});
