// At the scale: a keypad for a thumb, what Save says, and a machine that does not answer.
"use strict";

const keys = document.querySelector(".keypad");
if (keys) {
  const fields = [...document.querySelectorAll("[data-keys]")];
  const thumb = matchMedia("(pointer: coarse), (max-width: 600px)").matches;
  let into = fields[0];
  keys.hidden = false;
  for (const field of fields) {
    if (thumb) field.inputMode = "none"; // the keypad stands below: no second one over it
    field.addEventListener("focus", () => { into = field; });
  }
  keys.addEventListener("click", (event) => {
    const key = event.target.closest("button")?.dataset.keyOf;
    if (!key) return;
    into.value = key === "rub out" ? into.value.slice(0, -1) : into.value + key;
    into.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

// Another figure is another try.
document.addEventListener("input", (event) => {
  const failed = event.target.form?.querySelector(".not-sent");
  if (failed) failed.hidden = true;
});

document.addEventListener("renewed", ({ detail }) => {
  const save = document.querySelector(".save");
  if (save && detail.dataset.save) save.textContent = detail.dataset.save;
});

// A form marked data-send is sent from here, so that it stays with its figure if nobody answers.
// Sent again it bears the same token: what was recorded is not recorded twice.
async function send(form) {
  if (form.dataset.sending) return;
  form.dataset.sending = "yes";
  const failed = form.querySelector(".not-sent") || document.querySelector(".not-sent");
  if (failed) failed.hidden = true;
  try {
    const answer = await fetch(form.action, { method: "POST", body: new URLSearchParams(new FormData(form)) });
    if (!answer.ok) throw new Error(answer.statusText);
    const part = form.dataset.send && document.getElementById(form.dataset.send);
    if (part) renewed(part, await answer.text());
    else location.assign(answer.url);
  } catch {
    if (failed) failed.hidden = false;
    failed?.querySelector("button")?.focus();
  } finally {
    delete form.dataset.sending;
  }
}

function renewed(part, text) {
  const fresh = new DOMParser().parseFromString(text, "text/html").getElementById(part.id);
  const kept = document.activeElement?.id;
  part.replaceWith(document.adoptNode(fresh));
  (document.getElementById(kept) || fresh).focus({ preventScroll: true });
}

document.addEventListener("submit", (event) => {
  if (!event.target.matches("[data-send]") || event.submitter?.formMethod === "get") return;
  event.preventDefault();
  send(event.target);
}, true);
