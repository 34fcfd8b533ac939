// Questions to Python: numbered, dropped, and safe when nobody listens.

import assert from "node:assert/strict";
import test from "node:test";

import { Questions } from "../../chessnb/widgets/frontend/asking.js";

/** A model whose other side is the test. */
function model() {
  return {
    /** @type {any[]} */ sent: [],
    /** @type {((content: any) => void)[]} */ listeners: [],
    deaf: false,
    on(/** @type {string} */ _name, /** @type {any} */ listener) { this.listeners.push(listener); },
    off(/** @type {string} */ _name, /** @type {any} */ gone) { this.listeners = this.listeners.filter((one) => one !== gone); },
    send(/** @type {any} */ message) {
      if (this.deaf) throw new Error("Cannot send");
      this.sent.push(message);
    },
    say(/** @type {any} */ content) { for (const listener of this.listeners) listener(content); },
  };
}

test("an answer reaches the question with its number, once", () => {
  const python = model();
  const questions = new Questions(python, "page");
  /** @type {any[]} */
  const heard = [];
  const seq = questions.ask("try", { line: "e2e4" }, (answer) => heard.push(answer.text));
  assert.deepEqual(python.sent, [{ line: "e2e4", kind: "try", client: "page", seq }]);
  python.say({ kind: "try", client: "another", seq, text: "not mine" });
  python.say({ kind: "facts", client: "page", seq, text: "of another kind" });
  python.say({ kind: "try", client: "page", seq, text: "heard" });
  python.say({ kind: "try", client: "page", seq, text: "again" });
  assert.deepEqual(heard, ["heard"]);
});

test("progress is no answer", () => {
  const python = model();
  const questions = new Questions(python, "page");
  /** @type {any[]} */
  const heard = [];
  const seq = questions.ask("try", {}, () => heard.push("answer"), (positions) => heard.push(positions));
  python.say({ kind: "try", client: "page", seq, positions: 50000 });
  python.say({ kind: "try", client: "page", seq });
  assert.deepEqual(heard, [50000, "answer"]);
});

test("a dropped question, and one that another took the place of, stay unanswered", () => {
  const python = model();
  const questions = new Questions(python, "page");
  /** @type {string[]} */
  const heard = [];
  const first = questions.ask("try", {}, () => heard.push("first"));
  const second = questions.ask("try", {}, () => heard.push("second"));
  questions.ask("judge", { topic: "e2e4" }, () => heard.push("judge"));
  questions.drop("try");
  for (const seq of [first, second]) python.say({ kind: "try", client: "page", seq });
  assert.deepEqual(heard, []);
  assert.deepEqual(python.sent.at(-1), { kind: "drop", what: "try", topic: "", client: "page" });
  assert.equal(questions.waiting.size, 1, "a question of another kind waits on");
});

test("a kernel that is gone is like one that does not answer", (context) => {
  context.mock.method(console, "warn", () => {});
  const python = model();
  python.deaf = true;
  const questions = new Questions(python, "page");
  assert.equal(questions.ask("try", {}, () => assert.fail("nobody answers")), 1);
  questions.drop("try");
});
