// A size of the gauge fills its field at once. Without this script its button sends the page, which comes back filled in.
"use strict";
(() => {
  function mark(box) {
    const typed = box.querySelector("input:not([type=radio])").value.trim();
    const unit = box.querySelector("input[type=radio]:checked")?.value;
    for (const one of box.querySelectorAll(".size")) {
      one.classList.toggle("is-chosen", one.dataset.size === typed && one.dataset.unit === unit);
    }
  }

  document.addEventListener("click", (event) => {
    const size = event.target.closest("button.size");
    if (!size) {
      return;
    }
    event.preventDefault();
    const box = size.closest(".measured");
    const field = box.querySelector("input:not([type=radio])");
    field.value = size.dataset.size;
    for (const unit of box.querySelectorAll("input[type=radio]")) {
      unit.checked = unit.value === size.dataset.unit;
    }
    field.dispatchEvent(new Event("change", { bubbles: true }));  // how it was read is asked for as after typing
  });
  for (const kind of ["input", "change"]) {
    document.addEventListener(kind, (event) => {
      const box = event.target.closest(".measured:has(.size)");
      if (box) {
        mark(box);
      }
    });
  }
})();
