// What a reader moves in a lesson: slider and number stand for each other, a ready move fills them in, and the verdict is
// spoken when its word changes. The server answers each move. Without this script the numbers are a form.
"use strict";
(() => {
  const form = document.getElementById("movable");
  if (!form) {
    return;
  }
  const sliders = [...form.querySelectorAll(".slide-range")];
  const said = document.getElementById("movable-said");
  const word = () => form.querySelector("[data-verdict]").dataset.verdict;
  let before = word();

  function divisor(a, b) {
    return b ? divisor(b, a % b) : a;
  }

  // So many parts as a person writes them: tenths as a decimal, 32nds of an inch as a fraction.
  function written(count, parts) {
    if (parts === 10) {
      return String(count / parts);
    }
    const whole = Math.floor(count / parts);
    const rest = count % parts;
    const most = divisor(rest, parts);
    const fraction = rest ? `${rest / most}/${parts / most}` : "";
    return [whole || (rest ? "" : "0"), fraction].filter(Boolean).join(" ");
  }

  // What was written as parts; NaN where it is no plain number, and the server says what it is.
  function counted(text, parts) {
    const found = text.trim().match(/^(?:(\d+(?:[.,]\d+)?|[.,]\d+))?(?:(?:^|\s+|(?<=\d)-)(\d+)\/([1-9]\d*))?$/);
    if (!found || !(found[1] || found[2])) {
      return NaN;
    }
    return ((found[1] ? Number(found[1].replace(",", ".")) : 0) + (found[2] ? found[2] / found[3] : 0)) * parts;
  }

  function told(slider) {
    const unit = slider.dataset.unit;
    slider.setAttribute("aria-valuetext", field(slider).value + (unit === "°" ? unit : ` ${unit}`));
  }

  function field(slider) {
    return document.getElementById(slider.dataset.of);
  }

  function follow(slider) {
    const count = counted(field(slider).value, Number(slider.dataset.parts));
    if (!Number.isNaN(count)) {
      slider.value = count;
    }
    told(slider);
  }

  form.dataset.live = "";
  for (const slider of sliders) {
    slider.hidden = false;
    follow(slider);
  }
  form.addEventListener("input", (event) => {
    const moved = event.target;
    if (moved.matches(".slide-range")) {
      field(moved).value = written(Number(moved.value), Number(moved.dataset.parts));
      told(moved);
    } else {
      sliders.filter((slider) => field(slider) === moved).forEach(follow);
    }
  }, { capture: true });  // before the form is sent

  form.addEventListener("click", (event) => {
    const move = event.target.closest("[data-move]");
    if (!move || event.ctrlKey || event.metaKey || event.shiftKey) {
      return;
    }
    event.preventDefault();
    const values = new URLSearchParams(move.dataset.start || new URL(move.href).search);
    for (const [name, value] of values) {
      form.elements[name].value = value;
    }
    sliders.forEach(follow);
    form.dispatchEvent(new Event("input", { bubbles: true }));
  });

  document.body.addEventListener("htmx:afterSettle", (event) => {
    if (!form.contains(event.target)) {
      return;
    }
    const refused = form.querySelector("[data-refused]").dataset.refused.split(" ");
    for (const input of form.querySelectorAll(".slide-number input")) {
      input.toggleAttribute("aria-invalid", false);
      if (refused.includes(input.name)) {
        input.setAttribute("aria-invalid", "true");
      }
    }
    if (word() !== before) {
      before = word();
      said.textContent = before;
    }
  });
})();
