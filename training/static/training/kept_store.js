// What this browser keeps of a thing of one person, an attempt for example, until the server has it: a record a name,
// enciphered under the seal that the page brings. Where nothing can be enciphered (no https) it is kept in this tab.
"use strict";
(() => {
  const site = self.SoundCasing = self.SoundCasing || {};

  function encoded(bytes) {
    return btoa(String.fromCharCode(...new Uint8Array(bytes)));
  }

  function decoded(text) {
    return Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
  }

  // `leadsTo`: where what is not sent can be sent from
  class Store {
    constructor({ person, thing, seal, leadsTo }) {
      this.leadsTo = leadsTo;
      this.at = `${person}/${thing}/`;
      this.isSealed = Boolean(self.crypto && crypto.subtle && self.localStorage);
      this.place = this.isSealed ? localStorage : sessionStorage;
      this.memory = new Map();  // what the browser had no room for
      this.key = this.isSealed && crypto.subtle.importKey("raw", decoded(seal), "AES-GCM", false, ["encrypt", "decrypt"]);
      this.turn = Promise.resolve();
    }

    // one at a time, in all tabs
    alone(what, act) {
      if (this.isSealed && navigator.locks) {
        return navigator.locks.request(`${this.at}${what}`, act);
      }
      this.turns = this.turns || {};
      const turn = (this.turns[what] || Promise.resolve()).then(act);
      this.turns[what] = turn.catch(() => {});
      return turn;
    }

    async read(name) {
      const text = this.memory.get(name) || this.place.getItem(`kept/${this.at}${name}`);
      if (!text) {
        return null;
      }
      if (!this.isSealed) {
        return JSON.parse(text);
      }
      const [iv, sealed] = text.split(".").map(decoded);
      try {
        const opened = await crypto.subtle.decrypt({ name: "AES-GCM", iv }, await this.key, sealed);
        return JSON.parse(new TextDecoder().decode(opened));
      } catch (unreadable) {
        return null;  // of another secret of the site
      }
    }

    // keeps a record; `isUnsent` is seen without the seal too
    async write(name, record, isUnsent) {
      let text = JSON.stringify(record);
      if (this.isSealed) {
        const iv = crypto.getRandomValues(new Uint8Array(12));
        const sealed = await crypto.subtle.encrypt(
          { name: "AES-GCM", iv }, await this.key, new TextEncoder().encode(text));
        text = `${encoded(iv)}.${encoded(sealed)}`;
      }
      try {
        this.place.setItem(`kept/${this.at}${name}`, text);
        this.memory.delete(name);
      } catch (full) {
        this.memory.set(name, text);
      }
      this.mark(name, isUnsent);
    }

    mark(name, isUnsent) {
      try {
        if (isUnsent) {
          this.place.setItem(`unsent/${this.at}${name}`, this.leadsTo);
        } else {
          this.place.removeItem(`unsent/${this.at}${name}`);
        }
      } catch (full) { /* it is in memory, and leaving the page asks */ }
    }

    remove(name) {
      this.memory.delete(name);
      this.place.removeItem(`kept/${this.at}${name}`);
      this.place.removeItem(`unsent/${this.at}${name}`);
    }

    names() {
      const start = `kept/${this.at}`;
      const there = Object.keys(this.place).filter((key) => key.startsWith(start)).map((key) => key.slice(start.length));
      return [...new Set([...there, ...this.memory.keys()])];
    }

    // is any of it kept only as long as this page is open?
    get isFleeting() {
      return !this.isSealed || this.memory.size > 0;
    }
  }

  // forgets what the server has, of all things of this person but one
  function tidy(person, thing) {
    for (const key of Object.keys(localStorage)) {
      const [kind, whose, what, name] = key.split("/");
      if (kind === "kept" && whose === person && what !== thing && !localStorage.getItem(`unsent/${whose}/${what}/${name}`)) {
        localStorage.removeItem(key);
      }
    }
  }

  site.Store = Store;
  site.tidy = tidy;
})();
