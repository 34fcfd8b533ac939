// How strokes are typed, said, and lie on each other.

import assert from "node:assert/strict";
import test from "node:test";

import { LINES, ROLES } from "../../chessnb/widgets/frontend/marks.js";
import { INK } from "../../chessnb/widgets/frontend/pen.js";
import { isDrawn, readStrokes, strokeNews, strokeOf, strokeWords, without } from "../../chessnb/widgets/frontend/strokes.js";
import { sayer } from "../../chessnb/widgets/frontend/words.js";

/** @typedef {import("../../chessnb/widgets/frontend/marks.js").Mark} Mark */

const say = sayer();
/** @type {import("../../chessnb/widgets/frontend/strokes.js").Roles} */
const CHOSEN = { line: "force", square: "actor" };
/** @param {Mark["role"]} role @param {string} square @param {string | null} [to] @returns {Mark} */
const mark = (role, square, to = null) => ({ role, square, to });
const LINE = mark("force", "c3", "f6");
const RING = mark("actor", "f6");

for (const [text, expected] of /** @type {[string, Mark[]][]} */ ([
  ["c3-f6", [LINE]],
  ["c3f6", [LINE]],
  ["C3 F6", [LINE]],
  ["c3 – f6", [LINE]],
  ["f6", [RING]],
  ["f6-f6", [RING]],
  ["c3-f6, f6", [LINE, RING]],
  ["c3-f6, f9", []],
  ["Nf6", []],
  ["c3-f", []],
  ["", []],
  [", ;", []],
  ["<img>", []],
])) {
  test(`"${text}" is ${expected.length} strokes`, () => assert.deepEqual(readStrokes(text, CHOSEN), expected));
}

test("the roles that were chosen are drawn", () => {
  const roles = /** @type {const} */ ({ line: "blocked", square: "lure" });
  assert.deepEqual(readStrokes("a1-h8, e4", roles), [mark("blocked", "a1", "h8"), mark("lure", "e4")]);
});

test("a dashed line lies on a line of force, a ring does not lie on ticks", () => {
  const dashed = mark("blocked", "c3", "f6");
  assert.deepEqual(without([LINE, RING], dashed), [RING]);
  assert.deepEqual(without([LINE, RING], mark("target", "f6")), [LINE, RING]);
  assert.equal(isDrawn([LINE], dashed), false);
  assert.equal(isDrawn([LINE], mark("force", "f6", "c3")), false, "the way back is another line");
  assert.equal(isDrawn([{ role: "actor", square: "f6" }], RING), true, "Python may leave the end out");
});

test("every mark has a word on its button and words of its own", () => {
  for (const role of ROLES) {
    assert.equal(say(role), INK.marks[role].label);
    const stroke = strokeOf("a1", LINES.includes(role) ? "h8" : "a1", { line: role, square: role });
    assert.match(strokeWords(stroke, say), LINES.includes(role) ? /a1.*h8/ : /a1$/);
  }
});

test("the words of a mark can be translated", () => {
  const german = sayer({ force: "Linie", markForce: "Linie von {square} nach {to}" });
  assert.equal(german("force"), "Linie");
  assert.equal(strokeWords(LINE, german), "Linie von c3 nach f6");
  assert.equal(german("lure"), "lure", "what is missing stays English");
});

test("strokes are said", () => {
  assert.equal(strokeWords(LINE, say), "line of force from c3 to f6");
  assert.equal(strokeNews([], [LINE], say), "line of force from c3 to f6 drawn");
  assert.equal(strokeNews([LINE, RING], [LINE], say), "ring on f6 taken away");
  assert.equal(strokeNews([LINE], [mark("blocked", "c3", "f6")], say), "dashed line from c3 to f6 drawn");
  assert.equal(strokeNews([LINE, RING], [], say), "the drawing is wiped away");
  assert.equal(strokeNews([LINE], [LINE], say), "");
});
