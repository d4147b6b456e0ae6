// Lets the browser keep the lessons that were opened, to read without a connection. Without it a lesson needs one.
"use strict";
if (navigator.serviceWorker) {
  const address = document.currentScript.dataset.worker;
  addEventListener("load", () => navigator.serviceWorker.register(address).catch(() => {}));
}
