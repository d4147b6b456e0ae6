// Keeps lessons that were opened, and the questions of one's own open assessment, for when there is no connection.
// What is kept is shown only when there is none. No other page is kept. Whoever logs in or out finds nothing kept.
"use strict";

const QUESTIONS = "questions-1", LESSONS = "lessons-1", LOOKS = "looks-1";
const AHEAD = "Kept-Ahead";
const question = /^\/shop\/[\w-]+\/assessment\/[\da-f-]{36}\/\d+\/$/;
const questionPicture = /^\/shop\/[\w-]+\/assessment\/[\da-f-]{36}\/\d+\/picture\/\d+\/$/;
const ended = /^\/shop\/[\w-]+\/assessment\/[\da-f-]{36}\/result\/$/;
const lesson = /^\/shop\/[\w-]+\/course\/(?!pictures\/)[\w-]+\/[\w-]+\/$/;
const lessonPicture = /^\/shop\/[\w-]+\/(course\/pictures\/[\w-]+|photographs\/[\da-f-]{36}\/picture)\/$/;
const anotherPerson = /^\/(accounts\/(login|logout)|join\/[^/]+)\/$/;
const PATIENCE_MS = 8000;  // with a kept page at hand

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

function forget(...names) {
  return Promise.all(names.map((name) => caches.delete(name)));
}

function path(request) {
  return new URL(request.url).pathname;
}

async function keep(name, request, response) {
  const page = response.clone();
  await (await caches.open(name)).put(path(request), page);
}

async function kept(name, request) {
  return (await caches.has(name)) && (await caches.open(name)).match(path(request), { ignoreVary: true });
}

function isWhole(response) {
  return response.status === 200 && !response.redirected && response.type === "basic";
}

// a kept page says so itself: its line is written, and only has to be uncovered
async function asKept(response) {
  const since = response.headers.get("date") || "";
  const text = (await response.text())
    .replaceAll('data-kept-since=""', `data-kept-since="${since}"`)
    .replaceAll("data-kept-line hidden", "data-kept-line");
  const headers = new Headers(response.headers);
  headers.delete("Content-Encoding");
  headers.delete("Content-Length");
  return new Response(text, { headers });
}

async function fromNetwork(request, isPatient) {
  if (isPatient) {
    return fetch(request);
  }
  let late;
  const patience = new Promise((_, refuse) => { late = setTimeout(() => refuse(new TypeError("late")), PATIENCE_MS); });
  try {
    return await Promise.race([fetch(request), patience]);
  } finally {
    clearTimeout(late);
  }
}

// the page as it is now; as it was kept where there is no connection
async function page(name, request, event, may) {
  const there = await kept(name, request) && await may();
  let response;
  try {
    response = await fromNetwork(request, !there);
  } catch (lost) {
    if (!there) {
      throw lost;
    }
    return asKept(await kept(name, request));
  }
  if (response.status === 403) {
    event.waitUntil(forget(LESSONS));  // an assessment is open: no lesson, kept or not
  } else if (isWhole(response)) {
    event.waitUntil(keep(name, request, response));
    if (name === LESSONS) {
      event.waitUntil(forget(QUESTIONS));  // a lesson is given to nobody who sits an assessment
    }
  }
  return response;
}

async function file(name, request, event) {
  try {
    const response = await fetch(request);
    if (isWhole(response)) {
      event.waitUntil(keep(name, request, response));
    }
    return response;
  } catch (lost) {
    const found = await kept(name, request);
    if (!found) {
      throw lost;
    }
    return found;
  }
}

const always = async () => true;
const sitsNothing = async () => !(await caches.has(QUESTIONS));

self.addEventListener("fetch", (event) => {
  const request = event.request, where = path(request);
  if (new URL(request.url).origin !== self.location.origin) {
    return;
  }
  if (request.method === "POST" && anotherPerson.test(where)) {
    event.waitUntil(forget(QUESTIONS, LESSONS));
  }
  if (request.method !== "GET") {
    return;
  }
  const isOpened = request.mode === "navigate";
  if (question.test(where) && (isOpened || request.headers.has(AHEAD))) {
    event.waitUntil(forget(LESSONS));
    event.respondWith(isOpened ? page(QUESTIONS, request, event, always) : file(QUESTIONS, request, event));
  } else if (questionPicture.test(where)) {
    event.respondWith(file(QUESTIONS, request, event));
  } else if (ended.test(where) && isOpened) {
    event.waitUntil(forget(QUESTIONS));
  } else if (lesson.test(where) && isOpened) {
    event.respondWith(page(LESSONS, request, event, sitsNothing));
  } else if (lessonPicture.test(where) && request.destination === "image") {
    event.respondWith(file(LESSONS, request, event));
  } else if (where.startsWith("/static/")) {
    event.respondWith(file(LOOKS, request, event));
  }
});
