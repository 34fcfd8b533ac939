// What the browser keeps: by lesson, cleared on request, and lost gracefully.

import assert from "node:assert/strict";
import test from "node:test";

import { clock } from "../../chessnb/widgets/frontend/countdown.js";
import { Kept } from "../../chessnb/widgets/frontend/storage.js";

/** A browser's storage, as the Web Storage standard has it, with an end to its room. */
class Storage {
  constructor(room = Infinity) {
    Object.defineProperty(this, "room", { value: room, enumerable: false });
  }
  getItem(/** @type {string} */ key) { return /** @type {any} */ (this)[key] ?? null; }
  setItem(/** @type {string} */ key, /** @type {string} */ text) {
    if (text.length > /** @type {any} */ (this).room) throw new Error("QuotaExceededError");
    /** @type {any} */ (this)[key] = text;
  }
  removeItem(/** @type {string} */ key) { delete /** @type {any} */ (this)[key]; }
}

const keptIn = (/** @type {any} */ storage, lesson = "one") => new Kept(lesson, storage);

test("each lesson has its own, and clearing one leaves the others", () => {
  const storage = new Storage();
  keptIn(storage, "one").save("tries", [1]);
  keptIn(storage, "two").save("tries", [2]);
  storage.setItem("somebody else's", "stays");
  assert.deepEqual(keptIn(storage, "one").load("tries", []), [1]);
  keptIn(storage, "one").clear();
  assert.deepEqual(keptIn(storage, "one").load("tries", []), []);
  assert.deepEqual(keptIn(storage, "two").load("tries", []), [2]);
  assert.equal(storage.getItem("somebody else's"), "stays");
});

test("damage is read as nothing", () => {
  const storage = new Storage();
  storage.setItem("chessnb/lesson/one/tries", "{not JSON");
  assert.deepEqual(keptIn(storage).load("tries", ["none"]), ["none"]);
});

test("a browser without storage, or a full one, keeps it as long as the page", () => {
  for (const kept of [keptIn(null), keptIn(new Storage(3))]) {
    kept.save("tries", ["a long one"]);
    assert.deepEqual(kept.load("tries", []), ["a long one"]);
    assert.equal(kept.lasts, false);
    kept.clear();
    assert.deepEqual(kept.load("tries", []), []);
  }
});

test("a clock counts minutes and seconds", () => {
  assert.deepEqual([0, 9, 60, 125, 3600].map(clock), ["0:00", "0:09", "1:00", "2:05", "60:00"]);
});
