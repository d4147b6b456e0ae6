// Says on every page of a person that something of theirs on this device is not sent yet, and asks before they log out.
"use strict";
(() => {
  const form = document.querySelector("[data-unsent-of]");
  if (!form || !self.localStorage) {
    return;
  }
  const start = `unsent/${form.dataset.unsentOf}/`;

  function places() {
    return [localStorage, sessionStorage].flatMap((store) =>
      Object.keys(store).filter((key) => key.startsWith(start)).map((key) => store.getItem(key)));
  }

  form.addEventListener("submit", (event) => {
    if (places().length && !confirm(form.dataset.saysLeave)) {
      event.preventDefault();
    } else {
      dispatchEvent(new Event("casing:leaves"));
    }
  });

  const [place] = places();
  if (place && place.startsWith("/") && !document.getElementById("kept")) {
    const line = document.createElement("div");
    line.className = "notice notice--warning";
    line.setAttribute("role", "status");
    const words = document.createElement("p");
    const link = document.createElement("a");
    link.href = place;
    link.textContent = form.dataset.saysSend;
    words.append(`${form.dataset.saysThere} `, link);
    line.append(words);
    document.getElementById("main").prepend(line);
  }
})();
