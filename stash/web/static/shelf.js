// On a phone the choices fold away and come without a wait; without this the link does the same.
"use strict";

document.querySelector("[data-fold]")?.addEventListener("click", (event) => {
  event.preventDefault();
  const open = document.querySelector(".shelf").classList.toggle("narrowing");
  event.currentTarget.textContent = open ? "Close" : "Narrow";
});
