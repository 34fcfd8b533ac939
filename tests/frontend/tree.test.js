// The lesson's tree with a reader's own layer: walking, coming back, keeping, exporting.

import assert from "node:assert/strict";
import test from "node:test";

import { exported, plant, triesOf } from "../../chessnb/widgets/frontend/keeping.js";
import { Lines } from "../../chessnb/widgets/frontend/lines.js";
import { movetext } from "../../chessnb/widgets/frontend/movetext.js";
import { START } from "../../chessnb/widgets/frontend/rules.js";
import { Tree, movesTo } from "../../chessnb/widgets/frontend/tree.js";
import { Walk } from "../../chessnb/widgets/frontend/walk.js";
import { wayTo } from "../../chessnb/widgets/frontend/way.js";

/** @typedef {import("../../chessnb/widgets/frontend/tree.js").Row} Row */

/** 1. e4 e5 (1... c5 {Open <b>.}) 2. Nf3, and one more move that is hidden. @type {Row[]} */
const ROWS = [
  [-1, "", "", "", "", "", 0],
  [0, "e2e4", "e4", "!", "", "", 0],
  [1, "e7e5", "e5", "", "", "", 0],
  [1, "c7c5", "c5", "±", "Sicilian", "Open <b>.", 0],
  [2, "g1f3", "Nf3", "", "", "", 1],
];

/** @param {Row[]} nodes @param {"all" | "so far" | "ask"} reveal */
const data = (nodes = ROWS, reveal = "all") =>
  ({ key: "k", title: "First moves", reveal, roots: { 0: { name: "", fen: START } }, nodes });

const names = (/** @type {any[]} */ nodes) => nodes.map((node) => node.san);

test("the movetext breaks off for a sideline, escapes what is written, and takes the line up again", () => {
  const text = movetext(new Tree(data()).roots).replace(/<button[^>]*>/g, "[").replaceAll("</button>", "]").replaceAll("&nbsp;", " ");
  assert.equal(text,
    '<p class="deep0">[1. e4!] [e5]</p>' +
    '<p class="deep1"><i>Sicilian:</i> [1... c5 ±] <span class="said">Open &lt;b&gt;.</span></p>' +
    '<p class="deep0">[2. Nf3]</p>');
});

test("while a position is asked about, neither what follows it nor what is said of it is printed", () => {
  const plain = (/** @type {number} */ at) => {
    const tree = new Tree(data([...ROWS, [3, "g1f3", "Nf3", "", "", "", 0]]));
    const text = movetext(tree.roots, undefined, tree.nodes[at]);
    return text.replace(/<[^>]*>/g, " ").replaceAll("&nbsp;", " ").replace(/\s+/g, " ").trim();
  };
  assert.equal(plain(0), "");
  assert.equal(plain(1), "1. e4!");
  assert.equal(plain(2), "1. e4! e5 Sicilian: 1... c5 ± Open &lt;b&gt;. 2. Nf3");
  assert.equal(plain(3), "1. e4! e5 Sicilian: 1... c5 ± 2. Nf3", "the main line's 2. Nf3; its own is left out");
});

test("the way back names where lines were left, and ends where one stands", () => {
  const tree = new Tree(data());
  assert.deepEqual(wayTo(tree.nodes[4]), []);
  assert.deepEqual(names(wayTo(tree.nodes[3])), ["e4", "c5"]);
  const own = tree.follow(tree.follow(tree.nodes[3], "b1c3"), "b8c6");
  assert.deepEqual(names(wayTo(own)), ["e4", "c5", "Nc3", "Nc6"]);
});

test("to the lesson: from a try to where it left, from a sideline to where the main line was", () => {
  const tree = new Tree(data());
  const walk = new Walk(tree, 4);
  walk.to(tree.nodes[3]);
  walk.move("g1f3");
  walk.move("d7d6");
  assert.equal(walk.current.own, true);
  walk.toLesson();
  assert.equal(walk.current, tree.nodes[3]);
  walk.toLesson();
  assert.equal(walk.current, tree.nodes[4]);
  assert.equal(walk.canReturn, false);
});

test("forward goes along the line that was visited last", () => {
  const tree = new Tree(data());
  const walk = new Walk(tree, 3);
  walk.back();
  walk.on();
  assert.equal(walk.current, tree.nodes[3]);
  walk.beside(-1);
  assert.equal(walk.current, tree.nodes[2]);
  walk.beside(-1);
  assert.equal(walk.current, tree.nodes[2], "there is nothing before the first");
});

test("from the lesson going on follows the lesson, whatever was tried; inside a try it goes on in the try", () => {
  const tree = new Tree(data());
  const walk = new Walk(tree, 2);
  walk.move("b1c3");
  walk.move("b8c6");
  const end = walk.current;
  walk.back();
  walk.on();
  assert.equal(walk.current, end, "inside the try");
  walk.toLesson();
  assert.equal(walk.current, tree.nodes[2]);
  assert.deepEqual(walk.line.moves, ["e2e4", "e7e5", "g1f3"]);
  walk.on();
  assert.equal(walk.current, tree.nodes[4]);
  walk.to(tree.nodes[3]); // a sideline that was visited stays the way on, a try beside it does not
  walk.back();
  walk.move("d7d5");
  walk.toLesson();
  walk.on();
  assert.equal(walk.current, tree.nodes[3]);
});

test("where the lesson ends or hides how it goes on, going on leads into no try", () => {
  for (const reveal of /** @type {const} */ (["all", "ask"])) {
    const tree = new Tree(data(ROWS, reveal));
    const walk = new Walk(tree, 4);
    let told = 0;
    walk.waits = () => { told += 1; };
    walk.reveal = () => assert.fail("nobody asked");
    walk.move("d7d6");
    walk.toLesson();
    assert.equal(walk.canGoOn, false);
    walk.on();
    assert.equal(walk.current, tree.nodes[4]);
    assert.equal(told, 1);
  }
});

test("a try that becomes the lesson's does not lead on into what was tried after it", () => {
  const tree = new Tree(data());
  const walk = new Walk(tree, 4);
  walk.move("b8c6");
  walk.move("f1b5");
  tree.update(data([...ROWS, [4, "b8c6", "Nc6", "", "", "", 0]]));
  walk.refreshed();
  walk.toLesson();
  assert.equal(walk.current, tree.nodes[5]);
  assert.equal(walk.canGoOn, false);
});

test("beside a board without a lesson every line leads on, and one's own moves too", () => {
  const lines = new Lines(START, [["e2e4", "e7e5"], ["d2d4", "d7d5"]]);
  lines.on();
  assert.deepEqual(movesTo(lines.current), ["e2e4"]);
  lines.to(lines.root);
  lines.move("c2c4");
  lines.back();
  assert.equal(lines.canGoOn, true);
  lines.on();
  assert.deepEqual(movesTo(lines.current), ["c2c4"]);
});

test("at the edge of what is shown, only “so far” asks for more by going on", () => {
  for (const [reveal, asked] of /** @type {const} */ ([["so far", 1], ["ask", 0]])) {
    const walk = new Walk(new Tree(data(ROWS, reveal)), 4);
    let count = 0;
    walk.reveal = () => { count += 1; };
    walk.on();
    assert.equal(count, asked);
    assert.equal(walk.canGoOn, asked === 1);
  }
});

test("a try that turns out to be the lesson's becomes it, and what follows stays one's own", () => {
  const tree = new Tree(data());
  const walk = new Walk(tree, 4);
  walk.move("b8c6");
  walk.move("f1b5");
  tree.update(data([...ROWS, [4, "b8c6", "Nc6", "", "", "", 1]]));
  walk.refreshed();
  assert.deepEqual(names(tree.tries), ["Bb5"]);
  assert.equal(walk.current.parent, tree.nodes[5]);
  walk.toLesson();
  assert.equal(walk.current, tree.nodes[5]);
});

test("an answer's line hangs on the try, is no try itself, and becomes one when it is played on", () => {
  const tree = new Tree(data());
  const own = tree.follow(tree.nodes[2], "d1h5");
  tree.answer(own, { kind: "refuted", sentence: "It loses.", line: ["d1h5", "g8f6", "h5e5", "zzzz"] });
  assert.deepEqual(names(own.children), ["Nf6"]);
  assert.equal(triesOf(tree)[0].moves.next.length, 0);
  tree.follow(own.children[0], "b1c3");
  assert.deepEqual(triesOf(tree)[0].moves.next.map((next) => next.uci), ["g8f6"]);
});

test("what is kept comes back as it was, and what has no place waits", () => {
  const tree = new Tree(data());
  const first = tree.follow(tree.nodes[4], "d7d6");
  first.name = "Quiet";
  tree.answer(first, { kind: "open", sentence: "Not proved.", line: ["d7d6"] });
  tree.follow(first, "d2d4");
  tree.follow(first, "f1c4");
  tree.follow(tree.nodes[0], "c2c4");
  const kept = JSON.parse(JSON.stringify(triesOf(tree)));
  const again = new Tree(data());
  assert.deepEqual(plant(again, kept), []);
  assert.deepEqual(triesOf(again), triesOf(tree));
  const shorter = new Tree(data(ROWS.slice(0, 3)));
  assert.deepEqual(plant(shorter, kept).map((one) => one.name), ["Quiet"]);
  assert.deepEqual(names(shorter.tries), ["c4"]);
  assert.deepEqual(plant(new Tree(data()), [{ ...kept[0], fen: "8/8/8/8/8/8/8/8 w - - 0 1" }]).length, 1);
});

test("tries are exported as games of less than 80 columns, a comment's braces left out", () => {
  const tree = new Tree(data());
  const own = tree.follow(tree.nodes[4], "d7d6");
  tree.answer(own, { kind: "open", sentence: `A {long} sentence ${"on and on ".repeat(12)}`, line: ["d7d6"] });
  tree.follow(tree.follow(own, "d2d4"), "e5d4");
  tree.follow(own, "f1c4");
  const pgn = exported(tree);
  assert.ok(pgn.includes("1. e4 e5 2. Nf3 d6"));
  assert.ok(pgn.includes("( 3. Bc4 )"));
  assert.ok(pgn.trimEnd().endsWith("*"));
  assert.equal(pgn.match(/[{}]/g)?.length, 2);
  assert.ok(pgn.split("\n").every((line) => line.length < 80));
});

test("a move is taken away with all that follows it; the lesson's cannot be", () => {
  const tree = new Tree(data());
  const own = tree.follow(tree.nodes[0], "c2c4");
  tree.follow(own, "c7c5");
  tree.remove(tree.nodes[1]);
  assert.equal(tree.nodes[0].children.length, 2);
  tree.remove(own);
  assert.deepEqual(tree.tries, []);
  assert.deepEqual(movesTo(tree.nodes[4]), ["e2e4", "e7e5", "g1f3"]);
});
