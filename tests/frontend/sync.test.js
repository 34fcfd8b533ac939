// What is shown while Python has not heard of it yet, and what happens when it has.

import assert from "node:assert/strict";
import test from "node:test";

import { START } from "../../chessnb/widgets/frontend/rules.js";
import { Sync, marksOf } from "../../chessnb/widgets/frontend/sync.js";

const EMPTY = { told: 0, epoch: 1, start: START, last: "", after: "", moves: [], ply: 0, marks: {}, acks: {}, trouble: "" };

/** A model whose other side is the test. */
function model() {
  /** @type {Record<string, (given?: any) => void>} */
  const listeners = {};
  return {
    /** @type {any} */ state: structuredClone(EMPTY),
    /** @type {any[]} */ sent: [],
    get() { return this.state; },
    on(/** @type {string} */ name, /** @type {() => void} */ listener) { listeners[name] = listener; },
    send(/** @type {any} */ message) { this.sent.push(message); },
    publish(/** @type {any} */ change) {
      this.state = { ...this.state, told: this.state.told + 1, ...change };
      listeners["change:state"]();
    },
    answer(/** @type {any} */ content) { listeners["msg:custom"](content); },
  };
}

test("moves show at once, and each is sent by itself, in order", () => {
  const python = model();
  const sync = new Sync(python, "page");
  for (const uci of ["e2e4", "e7e5", "g1f3", "b8c6"]) sync.move(uci);
  assert.deepEqual(sync.line.moves, ["e2e4", "e7e5", "g1f3", "b8c6"]);
  assert.equal(sync.line.ply, 4);
  assert.deepEqual(python.sent.map((step) => [step.seq, step.ply, step.line, step.uci]), [
    [1, 0, "", "e2e4"],
    [2, 1, "e2e4", "e7e5"],
    [3, 2, "e2e4 e7e5", "g1f3"],
    [4, 3, "e2e4 e7e5 g1f3", "b8c6"],
  ]);
});

test("an acknowledgement half-way changes nothing that is shown", () => {
  const python = model();
  const sync = new Sync(python, "page");
  for (const uci of ["e2e4", "e7e5", "g1f3"]) sync.move(uci);
  python.publish({ moves: ["e2e4"], ply: 1, acks: { page: 1 } });
  assert.deepEqual(sync.line.moves, ["e2e4", "e7e5", "g1f3"]);
  assert.equal(sync.waiting.length, 2);
  python.publish({ moves: ["e2e4", "e7e5", "g1f3"], ply: 3, acks: { page: 3 } });
  assert.equal(sync.waiting.length, 0);
  assert.equal(sync.line.ply, 3);
});

test("a state that comes late, after a newer one, takes nothing back", () => {
  const python = model();
  const sync = new Sync(python, "page");
  for (const uci of ["e2e4", "e7e5", "g1f3"]) sync.move(uci);
  python.publish({ moves: ["e2e4", "e7e5", "g1f3"], ply: 3, acks: { page: 3 } });
  python.publish({ told: 0, moves: ["e2e4"], ply: 1, acks: { page: 1 } });
  assert.deepEqual(sync.line.moves, ["e2e4", "e7e5", "g1f3"]);
  python.publish({ told: 2, moves: ["e2e4", "e7e5"], ply: 2, acks: { page: 3 } });
  assert.deepEqual(sync.line.moves, ["e2e4", "e7e5"]);
});

test("a refused move falls back to what Python published, with all that was built on it", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.move("e2e4");
  sync.move("e7e5");
  python.publish({ acks: { page: 1 } });
  assert.deepEqual(sync.line.moves, []);
  assert.equal(sync.line.ply, 0);
});

test("what Python plays itself stands under the moves on their way", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.move("e2e4");
  python.publish({ moves: ["d2d4"], ply: 1 });
  assert.deepEqual(sync.line.moves, ["d2d4"]);
});

test("moves meant for a position that was set up before are not replayed on a new one", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.move("e2e4");
  python.publish({ epoch: 2 });
  assert.deepEqual(sync.line.moves, []);
});

test("back and on keep the moves; another move replaces them; the same move keeps them", () => {
  const sync = new Sync(model(), "page");
  for (const uci of ["e2e4", "e7e5", "g1f3"]) sync.move(uci);
  sync.go(1);
  assert.deepEqual([sync.line.ply, sync.line.moves.length], [1, 3]);
  sync.move("e7e5");
  assert.deepEqual([sync.line.ply, sync.line.moves.length], [2, 3]);
  sync.go(1);
  sync.move("c7c5");
  assert.deepEqual(sync.line.moves, ["e2e4", "c7c5"]);
  sync.go(99);
  assert.equal(sync.line.ply, 2);
  sync.go(-1);
  assert.equal(sync.line.ply, 0);
});

test("only answers to this page are passed on", () => {
  const python = model();
  const sync = new Sync(python, "page");
  /** @type {string[]} */
  const heard = [];
  sync.answered.add((answer) => heard.push(answer.text));
  python.answer({ kind: "answer", client: "another", seq: 1, text: "no" });
  python.answer({ kind: "something else", client: "page", seq: 1, text: "no" });
  python.answer({ kind: "answer", client: "page", seq: 1, text: "yes" });
  assert.deepEqual(heard, ["yes"]);
});

const FORCE = { role: "force", square: "c3", to: "f6" };
const BLOCKED = { role: "blocked", square: "c3", to: "f6" };
const RING = { role: "actor", square: "f6", to: null };

test("strokes show at once, each is sent by itself, and they stay with their position", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.stroke("draw", FORCE);
  sync.stroke("draw", RING);
  sync.move("e2e4");
  assert.deepEqual(marksOf(sync.line), []);
  sync.stroke("draw", BLOCKED);
  assert.deepEqual(marksOf(sync.line), [BLOCKED]);
  sync.go(0);
  assert.deepEqual(marksOf(sync.line), [FORCE, RING]);
  sync.stroke("erase", FORCE);
  assert.deepEqual(marksOf(sync.line), [RING]);
  sync.wipe();
  assert.deepEqual(marksOf(sync.line), []);
  assert.deepEqual(python.sent.map((step) => [step.kind, step.line, step.mark]), [
    ["draw", "", FORCE],
    ["draw", "", RING],
    ["move", "", undefined],
    ["draw", "e2e4", BLOCKED],
    ["go", undefined, undefined],
    ["erase", "", FORCE],
    ["wipe", "", undefined],
  ]);
});

test("a line takes the place of a line, and what Python published stands under what is on its way", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.stroke("draw", FORCE);
  sync.stroke("draw", BLOCKED);
  assert.deepEqual(marksOf(sync.line), [BLOCKED]);
  python.publish({ marks: { "": [RING, FORCE] }, acks: { page: 1 } });
  assert.deepEqual(marksOf(sync.line), [RING, BLOCKED]);
  python.publish({ acks: { page: 2 } });
  assert.deepEqual(marksOf(sync.line), [RING, FORCE], "refused: the board falls back");
});

test("a question about a position changes nothing", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.move("e2e4");
  assert.equal(sync.place("judge", "8/8/8/8/8/8/8/8 w - - 0 1"), 2);
  assert.equal(sync.place("setup", START), 3);
  assert.deepEqual(sync.line.moves, ["e2e4"]);
  assert.deepEqual(python.sent.slice(1).map((step) => step.kind), ["judge", "setup"]);
});

test("when nobody listens any more, the board goes on by itself and says so", () => {
  const python = model();
  const sync = new Sync(python, "page");
  sync.move("e2e4");
  assert.equal(sync.deaf, false);
  python.send = () => { throw new Error("Cannot send"); };
  sync.move("e7e5");
  assert.equal(sync.deaf, true);
  assert.deepEqual(sync.line.moves, ["e2e4", "e7e5"]);
  sync.go(1);
  assert.equal(sync.line.ply, 1);
  sync.stroke("draw", { role: "force", square: "e4", to: "e5" });
  assert.deepEqual(marksOf(sync.line), [{ role: "force", square: "e4", to: "e5" }]);
});

test("what a deaf board held is played and drawn again on the next one", () => {
  const old = new Sync({ ...model(), send() { throw new Error("Cannot send"); } }, "page");
  for (const uci of ["e2e4", "e7e5", "g1f3"]) old.move(uci);
  old.stroke("draw", { role: "actor", square: "f3", to: null });
  old.go(2);
  const python = model();
  const sync = new Sync(python, "page");
  sync.bringBack(old.line);
  assert.deepEqual(sync.line, { ...sync.line, moves: old.line.moves, ply: 2, marks: old.line.marks });
  assert.deepEqual(python.sent.map((step) => step.kind), ["move", "move", "move", "draw", "go"]);
});
