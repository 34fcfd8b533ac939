// A position set up by hand, as a value.

import assert from "node:assert/strict";
import test from "node:test";

import { START, readFen, squareName, squareOf, writeFen } from "../../chessnb/widgets/frontend/rules.js";
import {
  emptied, fenSetUp, isDrawable, moved, passable, put, started, toggledRight, turnedOver,
} from "../../chessnb/widgets/frontend/setup.js";

test("the start is the start, and an empty board is empty", () => {
  assert.equal(fenSetUp(started()), START);
  assert.equal(fenSetUp(emptied(started())), "8/8/8/8/8/8/8/8 w - - 0 1");
});

test("positions are values: nothing changes one that was handed over", () => {
  const position = started();
  put(position, 28, "Q");
  moved(position, 12, 28);
  toggledRight(position, "K");
  turnedOver(position);
  assert.deepEqual(position, readFen(START));
});

test("pieces are put, moved over others and taken off, rules or no rules", () => {
  let position = put(emptied(started()), squareOf("e4"), "P");
  position = put(position, squareOf("e5"), "k");
  position = moved(position, squareOf("e4"), squareOf("e5"));
  assert.equal(fenSetUp(position), "8/8/8/4P3/8/8/8/8 w - - 0 1");
  assert.equal(fenSetUp(put(position, squareOf("e5"), "")), "8/8/8/8/8/8/8/8 w - - 0 1");
});

test("rights follow king and rook, and come back with them", () => {
  const position = readFen("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1");
  const away = moved(position, squareOf("h1"), squareOf("g1"));
  assert.equal(fenSetUp(away).split(" ")[2], "Qkq");
  assert.equal(fenSetUp(moved(away, squareOf("g1"), squareOf("h1"))).split(" ")[2], "KQkq");
  const less = toggledRight(toggledRight(position, "q"), "K");
  assert.equal(fenSetUp(less).split(" ")[2], "Qk");
  assert.equal(fenSetUp(toggledRight(less, "K")).split(" ")[2], "KQk");
});

for (const [fen, squares] of /** @type {[string, string[]][]} */ ([
  ["4k3/8/8/3pP3/8/8/8/4K3 w - - 0 1", ["d6"]],
  ["4k3/8/8/2pPp3/8/8/8/4K3 w - - 0 1", ["c6", "e6"]],
  ["4k3/8/8/8/pP6/8/8/4K3 b - - 0 1", ["b3"]],
  ["4k3/8/8/3pP3/8/8/8/4K3 b - - 0 1", []],
  ["4k3/8/3n4/3pP3/8/8/8/4K3 w - - 0 1", []],
  ["4k3/3r4/8/3pP3/8/8/8/4K3 w - - 0 1", []],
  ["4k3/8/8/P6p/8/8/8/4K3 w - - 0 1", []],
])) {
  test(`passed in ${fen}: ${squares.join(" ") || "none"}`, () => {
    assert.deepEqual(passable(readFen(fen)).map(squareName), squares);
  });
}

test("what was passed is written only where it may be taken", () => {
  const position = { ...readFen("4k3/8/8/3pP3/8/8/8/4K3 w - - 0 1"), ep: squareOf("d6") };
  assert.equal(fenSetUp(position).split(" ")[3], "d6");
  assert.equal(fenSetUp(position), writeFen(position));
  assert.equal(fenSetUp(moved(position, squareOf("e5"), squareOf("f5"))).split(" ")[3], "-");
  assert.equal(fenSetUp(turnedOver(position)).split(" ")[3], "-");
});

test("only a first field that fills the board is shown", () => {
  for (const text of [START, "8/8/8/8/8/8/8/8"]) assert.equal(isDrawable(text), true);
  for (const text of ["", "8/8/8/8/8/8/8", "9/8/8/8/8/8/8/8", "8/8/8/8/8/8/8/7", "8/8/8/8/8/8/8/7x w", "hello"]) {
    assert.equal(isDrawable(text), false, text);
  }
});
