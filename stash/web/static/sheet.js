// A file dropped on its field, and a word before one is sent that is too large.
"use strict";
{
  const field = document.getElementById("sheet");
  const place = document.querySelector("[data-drop]");
  const hint = document.getElementById("sheet-hint");
  const usual = hint.textContent;
  for (const kind of ["dragover", "drop"]) document.addEventListener(kind, (event) => event.preventDefault());
  place.addEventListener("dragover", () => place.classList.add("over"));
  for (const kind of ["dragleave", "drop"]) place.addEventListener(kind, () => place.classList.remove("over"));
  document.addEventListener("drop", (event) => {
    if (!event.dataTransfer.files.length) return;
    field.files = event.dataTransfer.files;
    field.dispatchEvent(new Event("change"));
  });
  field.addEventListener("change", () => {
    const large = field.files[0]?.size > Number(field.dataset.most);
    field.setCustomValidity(large ? "That file is larger than 4 MB. Save a part of it as a file of its own." : "");
    hint.textContent = large ? field.validationMessage : usual;
    hint.classList.toggle("lacks", large);
  });
}
