// Nothing moves under a hand: how a typed number was read is told only once no pointer is down, so that the button being
// pressed stays where it is until the press has counted.
// Without this script the note comes at once, and without any the page tells it after the next press.
"use strict";
(() => {
  const moment = 400;  // [ms] after the pointer is up: on glass the click comes later than that
  const down = new Set();  // pointers
  const held = new Map();  // what puts a note in, by the field it belongs to
  let waits = null;  // for the moment to be over

  function release() {
    waits = null;
    held.forEach((put) => put());
    held.clear();
  }

  function up(event) {
    if (down.delete(event.pointerId) && !down.size) {
      waits = setTimeout(release, moment);
    }
  }

  addEventListener("pointerdown", (event) => {
    if (!event.target.closest("select")) {  // its list swallows the end of the press
      clearTimeout(waits);
      down.add(event.pointerId);
    }
  }, true);
  addEventListener("pointerup", up, true);
  addEventListener("pointercancel", up, true);
  addEventListener("pointermove", (event) => event.buttons || up(event), true);  // it was let go outside the window

  document.addEventListener("htmx:beforeRequest", (event) => held.delete(event.detail.elt));
  document.addEventListener("htmx:beforeSwap", (event) => {
    const { elt, target, shouldSwap, serverResponse } = event.detail;
    if (shouldSwap && target.matches("output") && (down.size || waits !== null)) {
      event.detail.shouldSwap = false;
      held.set(elt, () => target.isConnected && htmx.swap(target, serverResponse, { swapStyle: "outerHTML" }));
    }
  });
})();
