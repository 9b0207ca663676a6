// The code and the phones are shown as they are now; without this, a reload shows them.
"use strict";

const EVERY_MS = 4000;

async function showPhones() {
  const old = document.getElementById("phones");
  if (document.visibilityState !== "visible" || !old || old.contains(document.activeElement)) return;
  if (old.querySelector("[data-typing]")) return; // a name is being typed there
  const answer = await fetch(location.href);
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.getElementById("phones");
  if (fresh) old.replaceWith(document.adoptNode(fresh));
}
setInterval(() => showPhones().catch(() => {}), EVERY_MS);
