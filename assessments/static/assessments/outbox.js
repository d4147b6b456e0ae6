// Answers of one attempt on their way to the server: kept before they are sent, sent one at a time, never doubled, and
// nothing that another window saved is overwritten unasked.
//
// A record has: `known`, what this browser last saw saved, with its revision; `tried`, a choice that was sent and of
// which nothing was heard; `next`, a later choice; `problem`, what the server said against it.
"use strict";
(() => {
  const site = self.SoundCasing = self.SoundCasing || {};

  function same(one, other) {
    return JSON.stringify(one || null) === JSON.stringify(other || null);
  }

  function isUnsent(record) {
    return Boolean(record && (record.tried || record.next));
  }

  class Outbox {
    // `post(position, choice, revision)` tells {state, ...}; its states beside the server's own: lost, login, other
    constructor(store, post) {
      this.store = store;
      this.post = post;
      this.state = "";  // of the last sending
    }

    async change(position, act) {
      return this.store.alone("record", async () => {
        const record = await this.store.read(String(position)) || { known: { revision: 0, choice: null }, tried: null, next: null, problem: null };
        const kept = act(record) || record;
        await this.store.write(String(position), kept, isUnsent(kept));
        return kept;
      });
    }

    read(position) {
      return this.store.read(String(position));
    }

    // what the page came with: another window may have saved since
    see(position, revision) {
      return this.change(position, (record) => {
        if (revision > record.known.revision && !isUnsent(record)) {
          record.known = { revision, choice: null };
        }
      });
    }

    choose(position, choice) {
      return this.change(position, (record) => {
        record.problem = record.problem && record.problem.state === "stale" ? record.problem : null;
        if (record.tried) {
          record.next = same(record.tried, choice) ? null : choice;
        } else {
          record.next = same(record.known.choice, choice) ? null : choice;
        }
      });
    }

    // of both answers the one chosen here, or the other
    async settle(position, isMine) {
      await this.change(position, (record) => {
        if (!record.problem || record.problem.state !== "stale") {
          return;
        }
        const revision = record.problem.revision;
        record.problem = null;
        if (isMine) {
          record.known = { revision, choice: null };
        } else {
          Object.assign(record, { known: { revision, choice: null }, tried: null, next: null });
        }
      });
      return this.send();
    }

    async unsent() {
      const found = [];
      for (const name of this.store.names()) {
        const record = /^\d+$/.test(name) && await this.store.read(name);
        if (isUnsent(record)) {
          found.push({ position: Number(name), record });
        }
      }
      return found.sort((one, other) => one.position - other.position);
    }

    // sends all there is, one at a time in all tabs; what could not be sent stays
    send() {
      return this.store.alone("send", async () => {
        this.state = "";
        for (const { position } of await this.unsent()) {
          while (await this.sendOne(position)) { /* a later choice may stand behind it */ }
          if (["lost", "login", "other"].includes(this.state)) {
            break;
          }
        }
        return this.state;
      });
    }

    // true where there is more to send of this question
    async sendOne(position) {
      const before = await this.change(position, (record) => {
        if (!record.problem && !record.tried) {
          Object.assign(record, { tried: record.next, next: null });
        }
      });
      if (before.problem || !before.tried) {
        return false;
      }
      const told = await this.post(position, before.tried, before.known.revision);
      this.state = told.state;
      const after = await this.change(position, (record) => {
        if (!same(record.tried, before.tried)) {
          return;
        }
        if (told.state === "saved") {
          record.known = { revision: told.revision, choice: record.tried, words: told.words };
          record.tried = null;
        } else if (told.state === "late") {
          Object.assign(record, { late: told.words, tried: null });
        } else if (told.state === "refused") {
          record.problem = record.next ? null : told;
          Object.assign(record, { next: record.next || record.tried, tried: null });
        } else if (told.state === "stale") {
          // what is kept is the latest choice: it is told beside the other, so it is asked about once more
          record.problem = record.next ? null : told;
          Object.assign(record, { next: record.next || record.tried, tried: null });
        }
      });
      return isUnsent(after) && !after.problem && !["lost", "login", "other"].includes(told.state);
    }
  }

  site.Outbox = Outbox;
  site.isUnsent = isUnsent;
})();
