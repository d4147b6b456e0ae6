// The pages of an assessment without a connection: a choice is kept in this browser the moment it is made, sent when
// there is a connection, and shown again after a reload; the next questions are fetched ahead, where the browser can keep
// pages. Without this script every answer is saved by its button.
"use strict";
(() => {
  const { Store, Outbox, isUnsent, tidy } = self.SoundCasing;
  const PATIENCE_MS = 15000, MOST_WAIT_MS = 30000, BETWEEN_MS = 150;
  const BEFORE_GOING_MS = 4000;  // what a press waits for its answer before it says that there is no connection
  let outbox = null, token = "", wait = 1000, timer = 0, isLeaving = false, unsentCount = 0, isSending = false, again = false;

  const told = () => document.getElementById("kept");
  const formNow = () => document.querySelector("form[data-keeps]");
  const positionNow = () => told() && Number(told().dataset.position || 0);
  const isPhone = () => matchMedia("(pointer: coarse), (max-width: 600px)").matches;

  function filled(text, places) {
    return text.replace(/\{(\w+)\}/g, (whole, name) => name in places ? String(places[name]) : whole);
  }

  function pageOf(position) {
    return told().dataset.first.replace(/1\/$/, `${position}/`);
  }

  // -- what is chosen in a form, and chosen again from what was kept
  function fieldsOf(form) {
    const left = ["csrfmiddlewaretoken", "revision", "go"];
    return [...new FormData(form)].filter(([name]) => !left.includes(name));
  }

  function fill(form, fields) {
    const values = new Map();
    for (const [name, value] of fields) {
      values.set(name, [...(values.get(name) || []), value]);
    }
    const steps = new Map();
    for (const field of form.elements) {
      if (!field.name || field.type === "hidden" || field.tagName === "BUTTON") {
        continue;
      }
      const given = values.get(field.name) || [];
      if (field.type === "radio" || field.type === "checkbox") {
        field.checked = given.includes(field.value);
      } else if (given.length) {
        field.value = given.shift();
        field.dispatchEvent(new Event("input", { bubbles: true }));
        const row = field.closest("[data-steps] > *");
        if (row) {
          steps.set(row, Number(field.value));
        }
      }
    }
    if (steps.size) {  // rows stand in the order that was chosen
      const list = steps.keys().next().value.parentElement;
      list.append(...[...steps.keys()].sort((one, other) => steps.get(one) - steps.get(other)));
    }
  }

  // -- sending
  async function post(position, choice, revision) {
    const address = `${pageOf(position)}keep/`;
    for (const isSecond of [false, true]) {
      const body = new URLSearchParams(choice.fields);
      body.set("revision", String(revision));
      body.set("csrfmiddlewaretoken", token);
      if (choice.flag) {
        body.set("go", choice.flag);
      }
      if (choice.unseen) {
        body.set("unseen", "1");
      }
      const patience = new AbortController();
      const late = setTimeout(() => patience.abort(), PATIENCE_MS);
      let answer;
      try {
        answer = await fetch(address, { method: "POST", body, keepalive: true, signal: patience.signal });
        if (answer.ok && !answer.redirected) {
          return await answer.json();
        }
      } catch (lost) {
        return { state: "lost" };
      } finally {
        clearTimeout(late);
      }
      if (answer.redirected) {
        return { state: "login" };
      }
      if (answer.status === 404) {
        return { state: "other" };
      }
      if (answer.status !== 403 || isSecond) {
        return { state: "lost" };
      }
      const state = await newToken(address);
      if (state !== "ready") {
        return { state };
      }
    }
    return { state: "lost" };
  }

  // after a new login the token of a page that was loaded before is none any more
  async function newToken(address) {
    try {
      const answer = await fetch(address);
      if (answer.redirected) {
        return "login";
      }
      if (!answer.ok) {
        return answer.status === 404 ? "other" : "lost";
      }
      token = (await answer.json()).token;
      return "ready";
    } catch (lost) {
      return "lost";
    }
  }

  async function send() {
    if (!outbox) {
      return "";
    }
    if (isSending) {
      again = true;
      return "";
    }
    isSending = true;
    clearTimeout(timer);
    let state;
    try {
      do {
        again = false;
        state = await outbox.send();
      } while (again && state !== "lost");
    } finally {
      isSending = false;
    }
    await show(state);
    if (["lost", "login"].includes(state)) {
      timer = setTimeout(send, wait);
      wait = Math.min(2 * wait, MOST_WAIT_MS);
    } else {
      wait = 1000;
      await show(state);
    }
    return state;
  }

  function soon() {
    wait = 1000;
    send();
  }

  // -- what is said of it
  function say(words, isError) {
    const saved = document.getElementById("saved");
    if (!saved) {
      return;
    }
    let place = saved.querySelector("[data-words]");
    if (!place) {
      const revision = saved.querySelector("input");
      place = document.createElement("span");
      place.dataset.words = "";
      saved.replaceChildren(revision, place);
    }
    if (place.textContent !== words) {
      saved.parentElement.style.minHeight = `${saved.parentElement.offsetHeight}px`;
      place.textContent = words;
    }
    saved.classList.toggle("error", Boolean(isError));
  }

  function button(words, act) {
    const made = document.createElement("button");
    made.type = "button";
    made.className = "button button--quiet";
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  }

  // the line for everything that is not said beside the buttons of this question
  function tell(parts) {
    const box = told();
    if (!box) {
      return;
    }
    const text = JSON.stringify(parts.map((part) => part.words || part.outerHTML));
    if (box.dataset.told === text) {
      return;
    }
    box.dataset.told = text;
    box.replaceChildren();
    box.className = "kept notice notice--warning";
    box.hidden = !parts.length;
    for (const part of parts) {
      const line = document.createElement("p");
      line.textContent = part.words;
      box.append(line);
      if (part.deeds) {
        const deeds = document.createElement("div");
        deeds.className = "actions";
        deeds.append(...part.deeds);
        box.append(deeds);
      }
    }
  }

  function link(words, href) {
    const made = document.createElement("a");
    made.className = "button button--quiet";
    made.href = href;
    made.textContent = words;
    return made;
  }

  async function show(state, extra = []) {
    const box = told();
    if (!box || !outbox) {
      return;
    }
    const says = box.dataset, here = positionNow();
    const unsent = await outbox.unsent();
    unsentCount = unsent.length;
    const unsentWords = outbox.store.isFleeting ? says.saysTab : isPhone() ? says.saysUnsentPhone : says.saysUnsent;
    const parts = [...extra];
    for (const { position, record } of unsent) {
      if (record.problem && record.problem.state === "stale") {
        parts.push({ words: record.problem.words, deeds: [
          button(says.saysMine, () => settle(position, true)), button(says.saysTheirs, () => settle(position, false)),
        ] });
      }
    }
    const waiting = unsent.filter(({ record }) => !record.problem).map(({ position }) => position);
    if (waiting.length && state === "login") {
      parts.push({ words: says.saysLogin, deeds: [link(says.saysLogIn, `${says.login}?next=${encodeURIComponent(location.pathname)}`)] });
    } else if (waiting.length && state === "other") {
      parts.push({ words: says.saysOther });
    } else if (waiting.length && state === "lost" && waiting.some((position) => position !== here)) {
      parts.push({ words: `${unsentWords} ${filled(says.saysCount, { positions: waiting.join(", ") })}` });
    }
    const late = await lateWords();
    if (late) {
      parts.push({ words: late });
    }
    tell(parts);
    if (here) {
      const record = await outbox.read(here);
      const field = document.querySelector("#saved [name=revision]");
      if (field && record) {
        field.value = String(record.known.revision);
      }
      if (record && record.problem && record.problem.state === "refused") {
        say(`${says.saysRefused} ${record.problem.words}`, true);
      } else if (isUnsent(record)) {
        say(state === "lost" || state === "login" || state === "other" ? unsentWords : says.saysSending, false);
      } else if (record && record.late) {
        say(record.late, true);
      } else if (record && record.known.words) {
        say(record.known.words, false);
      }
    }
  }

  async function lateWords() {
    for (const name of outbox.store.names()) {
      const record = await outbox.store.read(name);
      if (record && record.late) {
        return record.late;
      }
    }
    return "";
  }

  async function settle(position, isMine) {
    await outbox.settle(position, isMine);
    if (!isMine && position === positionNow()) {
      isLeaving = true;
      location.reload();
      return;
    }
    await send();
  }

  // -- going on
  async function isThere(address) {
    return Boolean(self.caches && await caches.match(address, { ignoreVary: true }));
  }

  async function go(address, isQuestion) {
    const state = outbox.state;
    if (["lost", "login", "other"].includes(state) && unsentCount) {
      if (state === "lost" && navigator.serviceWorker && navigator.serviceWorker.controller && await isThere(address)) {
        isLeaving = true;
        location.assign(address);
      } else {
        show(state, [{ words: told().dataset.saysStay }]);
      }
      return;
    }
    isLeaving = true;
    if (isQuestion && self.htmx) {
      isLeaving = false;
      htmx.ajax("GET", address, { target: "#item", swap: "outerHTML show:window:top" }).catch(() => {});
    } else {
      location.assign(address);
    }
  }

  function withinPatience(sending) {
    return Promise.race([sending, new Promise((done) => setTimeout(() => done("lost"), BEFORE_GOING_MS))]);
  }

  function choiceIn(form, flag) {
    const choice = { fields: fieldsOf(form) };
    if (flag) {
      choice.flag = flag;
    }
    if (told().dataset.keptSince) {
      choice.unseen = true;
    }
    return choice;
  }

  async function pressed(form, deed) {
    const position = positionNow(), size = Number(told().dataset.size), flag = ["flag", "unflag"].includes(deed) ? deed : "";
    if (flag || JSON.stringify(fieldsOf(form)) !== form.dataset.came) {
      form.dataset.came = JSON.stringify(fieldsOf(form));
      unsentCount += 1;  // until it is known better
      await outbox.choose(position, choiceIn(form, flag));
    }
    await withinPatience(send());
    while (isSending && !["lost"].includes(outbox.state) && unsentCount) {
      await new Promise((done) => setTimeout(done, 50));
    }
    const record = await outbox.read(position);
    if (record && (record.problem || record.late)) {
      document.getElementById("kept").scrollIntoView({ block: "nearest" });
      return;
    }
    const to = position + ({ next: 1, back: -1 }[deed] || 0);
    if (to > size) {
      await go(pageOf(1).replace(/1\/$/, "review/"), false);
    } else {
      await go(pageOf(Math.max(1, to)), true);
    }
  }

  // -- listening
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!outbox) {
      return;
    }
    if (form.matches("form[data-keeps]")) {
      event.preventDefault();
      event.stopPropagation();
      pressed(form, event.submitter && event.submitter.name === "go" ? event.submitter.value : "next");
    } else if (form.matches("[data-hands-in]") && !form.dataset.isSure) {
      event.preventDefault();
      handIn(form);
    } else if (!form.matches("[data-unsent-of]")) {
      isLeaving = true;
    }
  }, true);

  async function handIn(form) {
    await withinPatience(send());
    const unsent = await outbox.unsent();
    if (!unsent.length) {
      form.dataset.isSure = "1";
      isLeaving = true;
      form.requestSubmit();
      return;
    }
    const says = told().dataset;
    const positions = unsent.map(({ position }) => position).join(", ");
    await show(outbox.state, [{ words: filled(says.saysWait, { positions }), deeds: [button(says.saysWithout, () => {
      form.dataset.isSure = "1";
      isLeaving = true;
      form.requestSubmit();
    })] }]);
    told().scrollIntoView({ block: "nearest" });
  }

  document.addEventListener("change", async (event) => {
    const form = event.target.form || event.target.closest("form");
    if (!outbox || !form || !form.matches("[data-keeps]")) {
      return;
    }
    form.dataset.came = JSON.stringify(fieldsOf(form));
    unsentCount += 1;
    await outbox.choose(positionNow(), choiceIn(form, ""));
    send();
  });

  // htmx would send the same beside it
  document.addEventListener("htmx:beforeRequest", (event) => {
    const { elt, requestConfig } = event.detail;
    if (outbox && requestConfig && requestConfig.verb === "post" && elt.closest("form[data-keeps]")) {
      event.preventDefault();
    }
  });
  document.addEventListener("htmx:historyCacheMissError", () => location.reload());

  document.addEventListener("click", async (event) => {
    const to = event.target.closest("main a[href]");
    if (!outbox || !to || !unsentCount || event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) {
      return;
    }
    const address = new URL(to.href);
    if (address.origin !== location.origin || address.pathname === told().dataset.login || address.hash && address.pathname === location.pathname) {
      return;
    }
    event.preventDefault();
    await withinPatience(send());
    go(address.pathname + address.search, false);
  });

  addEventListener("beforeunload", (event) => {
    if (unsentCount && !isLeaving) {
      event.preventDefault();
    }
  });
  addEventListener("pageshow", () => { isLeaving = false; });
  addEventListener("casing:leaves", () => { isLeaving = true; });
  addEventListener("online", soon);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && unsentCount && soon());

  // -- the other questions, one at a time and quietly
  async function fetchAhead() {
    const box = told();
    if (!navigator.serviceWorker || !self.caches || !box) {
      return;
    }
    await navigator.serviceWorker.register(box.dataset.worker);
    await navigator.serviceWorker.ready;
    if (!navigator.serviceWorker.controller) {
      await new Promise((done) => navigator.serviceWorker.addEventListener("controllerchange", done, { once: true }));
    }
    const { first, attempt, person } = box.dataset, size = Number(box.dataset.size), here = positionNow();
    // of another person nothing is kept, whoever forgot to log out
    if (localStorage.getItem("keeper") !== person) {
      await caches.delete("questions-1");
      localStorage.setItem("keeper", person);
    }
    tidy(person, attempt);
    const order = Array.from({ length: size }, (_, at) => (here - 1 + at) % size + 1);
    for (const position of order) {
      const address = first.replace(/1\/$/, `${position}/`);
      if (!(await isThere(address))) {
        await new Promise((done) => setTimeout(done, BETWEEN_MS));
        const answer = await fetch(address, { headers: { "Kept-Ahead": "1" } });
        if (!answer.ok || answer.redirected) {
          return;
        }
        const page = new DOMParser().parseFromString(await answer.text(), "text/html");
        for (const picture of page.querySelectorAll(".shot img")) {
          await fetch(picture.getAttribute("src"));
        }
      }
    }
    document.documentElement.dataset.ahead = String(size);
  }

  // -- a page, or a question that was put into it
  async function prepare() {
    const box = told();
    if (!box || box.dataset.ready) {
      return;
    }
    box.dataset.ready = "1";
    const { person, attempt, seal } = box.dataset;
    if (!outbox) {
      const leadsTo = pageOf(1).replace(/1\/$/, "review/");
      outbox = new Outbox(new Store({ person, thing: attempt, seal, leadsTo }), post);
    }
    const form = formNow();
    const field = document.querySelector("main [name=csrfmiddlewaretoken], [name=csrfmiddlewaretoken]");
    token = (field && !box.dataset.keptSince && field.value) || token || (field ? field.value : "");
    if (form) {
      const position = positionNow(), shown = Number(document.querySelector("#saved [name=revision]").value);
      await outbox.see(position, shown);
      const record = await outbox.read(position);
      const latest = record.next || record.tried || (record.known.revision > shown && record.known.choice);
      if (latest) {
        fill(form, latest.fields);
      }
      form.dataset.came = JSON.stringify(fieldsOf(form));
    }
    await show("");
    await send();
    if (form && !self.SoundCasing.isAhead) {
      self.SoundCasing.isAhead = true;
      fetchAhead().catch(() => { self.SoundCasing.isAhead = false; });
    }
  }

  document.addEventListener("DOMContentLoaded", prepare);
  document.addEventListener("htmx:load", prepare);
})();
