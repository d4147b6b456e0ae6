// Marks in the rail which section of the lesson is being read and which were passed, opens the sources to a link, and
// fetches the pictures. Without this script the rail is a list of links, the browser opens the fold itself or the reader
// does, and a picture comes when it is scrolled to.
"use strict";
(() => {
  const links = [...document.querySelectorAll(".rail-parts a")];
  const parts = links.map((link) => document.querySelector(link.hash));
  const line = 0.35;  // of the window's height: what crosses it is being read

  function mark() {
    const at = parts.findLastIndex((part) => part.getBoundingClientRect().top <= innerHeight * line);
    const end = innerHeight + scrollY >= document.documentElement.scrollHeight - 2 ? links.length - 1 : at;
    links.forEach((link, place) => {
      link.classList.toggle("is-read", place < end);
      if (place === end) {
        link.setAttribute("aria-current", "location");
      } else {
        link.removeAttribute("aria-current");
      }
    });
  }

  function open() {
    const place = location.hash && document.getElementById(location.hash.slice(1));
    const fold = place && place.closest("details");
    if (fold) {
      fold.open = true;
      place.scrollIntoView({ block: "center", behavior: "instant" });
    }
  }

  let waits = false;
  function soon() {
    if (!waits) {
      waits = true;
      requestAnimationFrame(() => { waits = false; mark(); });
    }
  }

  addEventListener("scroll", soon, { passive: true });
  addEventListener("resize", soon, { passive: true });
  addEventListener("hashchange", open);
  // where the stylesheet cannot print what is folded
  const fold = document.getElementById("sources");
  let was = false;
  addEventListener("beforeprint", () => { was = fold?.open; if (fold) { fold.open = true; } });
  addEventListener("afterprint", () => { if (fold) { fold.open = was; } });
  // the pictures come once the page has: they are printed too, where nobody has scrolled to them
  addEventListener("load", () => document.querySelectorAll(".pair img").forEach((image) => { image.loading = "eager"; }));
  open();
  mark();
})();
