// Answering made easier to the hand: steps moved by buttons or dragged, a place pointed at on its drawing, buttons that
// stand still.
// Without this script the same answers are given by lists of places and by readings off the rulers.
"use strict";
(() => {
  const ink = "http://www.w3.org/2000/svg";

  function changed(field) {
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  // a text with its named places filled
  function filled(text, places) {
    return text.replace(/\{(\w+)\}/g, (whole, name) => name in places ? String(places[name]) : whole);
  }

  // -- steps in order: the lists stay in the form and carry the answer, buttons or dragging move the rows
  function moveSteps(list) {
    const status = list.parentElement.querySelector("[data-steps-status]");
    const says = list.dataset;  // in the language of the page
    const rows = () => [...list.children];

    function move(row, by) {
      const all = rows();
      const to = all.indexOf(row) + by;
      if (to < 0 || to >= all.length) {
        return;
      }
      list.insertBefore(row, by < 0 ? all[to] : all[to].nextSibling);
      keep(row);
    }

    // the order as it stands is the answer; says where the moved row stands now
    function keep(row) {
      const all = rows();
      all.forEach((one, place) => { one.querySelector("select").value = String(place + 1); });
      list.dataset.steps = "moved";
      const step = row.querySelector("label").textContent;
      status.textContent = filled(says.saysPlace, { step, place: all.indexOf(row) + 1, all: all.length });
    }

    function middle(row) {
      const box = row.getBoundingClientRect();
      return box.top + box.height / 2;
    }

    // the list holds the pointer, since a row that is put elsewhere would lose it
    function drag(row, start) {
      const pointer = start.pointerId;
      const before = rows();
      const held = start.clientY - middle(row);
      const focused = list.contains(document.activeElement) ? document.activeElement : null;
      const stop = new AbortController();

      function put(event) {
        const below = rows().find((one) => one !== row && event.clientY - held < middle(one));
        if ((below || null) !== row.nextElementSibling) {
          list.insertBefore(row, below || null);
        }
      }

      function follow(event) {
        const edge = 48, y = event.clientY;
        scrollBy(0, y < edge ? -12 : y > innerHeight - edge ? 12 : 0);
        put(event);
      }

      function end(event) {
        stop.abort();
        row.classList.remove("is-dragged");
        if (event.type === "pointercancel") {
          list.append(...before);
        } else {
          put(event);
        }
        if (focused) {  // what is put elsewhere in the page loses it
          focused.focus({ preventScroll: true });
        }
        if (rows().some((one, place) => one !== before[place])) {
          keep(row);
          changed(row.querySelector("select"));
        }
      }

      list.setPointerCapture(pointer);
      row.classList.add("is-dragged");
      for (const [name, act] of [["pointermove", follow], ["pointerup", end], ["pointercancel", end]]) {
        list.addEventListener(name, (event) => event.pointerId === pointer && act(event), { signal: stop.signal });
      }
    }

    rows().forEach((row) => {
      const select = row.querySelector("select");
      const label = row.querySelector("label");
      select.hidden = true;
      label.removeAttribute("for");
      const grip = document.createElement("span");
      grip.className = "step-grip";
      grip.setAttribute("aria-hidden", "true");  // the buttons do the same for keyboard and screen reader
      row.prepend(grip);
      row.addEventListener("pointerdown", (event) => {
        const byHand = event.pointerType === "mouse" ? !event.target.closest("button") : event.target === grip;
        if (byHand && event.isPrimary && event.button === 0 && !select.matches(":disabled")) {
          event.preventDefault();
          drag(row, event);
        }
      });
      const buttons = document.createElement("span");
      buttons.className = "step-moves";
      for (const [words, by] of [[says.saysUp, -1], [says.saysDown, 1]]) {
        const button = document.createElement("button");
        button.type = "button";
        button.className = "button button--quiet";
        button.textContent = words;
        button.setAttribute("aria-label", filled(says.saysMove, { move: words, step: label.textContent }));
        button.addEventListener("click", () => {
          move(row, by);
          button.focus();
          changed(select);
        });
        buttons.append(button);
      }
      row.append(buttons);
    });
  }

  // -- a place on the drawing: a point fills in both readings, and what is read is shown as a cross
  function pointAt(box) {
    const question = box.closest(".question");
    const svg = question && question.querySelector(".figure svg");
    if (!svg) {
      return;
    }
    const [left, low, width, height] = box.dataset.rulers.split(" ").map(Number);
    const [across, up] = box.querySelectorAll("input");
    const inches = box.dataset.unit === "in";
    const one = inches ? 25.4 : 1; // mm
    const parts = inches ? 32 : 2; // to which a point is read

    // a reading as it is typed, "1 5/8" or "41.5", in mm; NaN for anything else
    function read(text) {
      const found = text.trim().match(/^(?:(\d+(?:[.,]\d+)?)|(?:(\d+)\s+)?(\d+)\/(\d+))$/);
      if (!found) {
        return NaN;
      }
      return one * (found[1] ? Number(found[1].replace(",", ".")) : Number(found[2] || 0) + found[3] / found[4]);
    }

    // the nearest mark to so many mm, as one writes it
    function written(mm) {
      const count = Math.round((mm / one) * parts);
      if (!inches) {
        return String(count / parts);
      }
      let above = count % parts, below = parts;
      while (above && above % 2 === 0) {
        above /= 2;
        below /= 2;
      }
      const whole = Math.floor(count / parts);
      return above ? `${whole ? `${whole} ` : ""}${above}/${below}` : String(whole);
    }

    const cross = document.createElementNS(ink, "path");
    cross.setAttribute("fill", "none");
    cross.setAttribute("stroke", "#f5c400");
    cross.setAttribute("stroke-width", String(width * 0.012));
    const edge = cross.cloneNode();
    edge.setAttribute("stroke", "#211f1d");
    edge.setAttribute("stroke-width", String(width * 0.02));
    svg.append(edge, cross);
    svg.classList.add("is-markable");

    function show() {
      const x = left + read(across.value), y = low - read(up.value), arm = width * 0.03;
      const there = Number.isFinite(x) && Number.isFinite(y);
      const d = there ? `M${x - arm} ${y}H${x + arm}M${x} ${y - arm}V${y + arm}` : "";
      edge.setAttribute("d", d);
      cross.setAttribute("d", d);
    }

    svg.addEventListener("click", (event) => {
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const x = at.x - left, y = low - at.y;
      if (across.disabled || x < 0 || x > width || y < 0 || y > height) {
        return;
      }
      across.value = written(x);
      up.value = written(y);
      show();
      changed(up);
    });
    for (const field of [across, up]) {
      field.addEventListener("input", show);
    }
    show();
  }

  function prepare(root) {
    for (const list of root.querySelectorAll("[data-steps='']")) {
      list.dataset.steps = "ready";
      moveSteps(list);
    }
    for (const box of root.querySelectorAll("[data-rulers]:not([data-ready])")) {
      box.dataset.ready = "";
      pointAt(box);
    }
  }

  // what is said of saving may get shorter while a finger is down on a button: the buttons must not move under it
  document.addEventListener("htmx:beforeSwap", (event) => {
    const said = event.detail.target;
    if (said && said.id === "saved") {
      said.parentElement.style.minHeight = `${said.parentElement.offsetHeight}px`;
    }
  });

  // htmx tells of each element it has put in, the whole page first
  document.addEventListener("DOMContentLoaded", () => prepare(document));
  document.addEventListener("htmx:load", (event) => prepare(event.target));
})();
