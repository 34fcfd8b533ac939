// What the typed-move field understands by itself, and what is said aloud.

import assert from "node:assert/strict";
import test from "node:test";

import { numbered, readTyped, spoken, squareLabel } from "../../chessnb/widgets/frontend/notation.js";
import { START, moveOf, readFen, squareOf, uciOf } from "../../chessnb/widgets/frontend/rules.js";
import { ENGLISH, sayer } from "../../chessnb/widgets/frontend/words.js";

const say = sayer();
const CASTLING = "r3k2r/pppq1ppp/8/8/8/8/PPPQ1PPP/R3K2R w KQkq - 0 1";
const PROMOTION = "r3k3/1P6/8/8/8/8/8/4K3 w - - 0 1";

/** @param {string} fen @param {string} text */
const read = (fen, text) => readTyped(readFen(fen), text).map(uciOf).sort();

for (const [fen, text, moves] of [
  [START, "Nf3", ["g1f3"]],
  [START, "nf3", ["g1f3"]],
  [START, "1. e4!", ["e2e4"]],
  [START, "e2e4", ["e2e4"]],
  [START, "e2-e4", ["e2e4"]],
  [START, "Ng1-f3", ["g1f3"]],
  [START, "Ngf3", ["g1f3"]],
  [START, "♘f3", ["g1f3"]],
  [START, "e5", []],
  [START, "Nxf3", []],
  [START, "O-O", []],
  [START, "hello", []],
  [START, "", []],
  [CASTLING, "O-O", ["e1g1"]],
  [CASTLING, "0-0", ["e1g1"]],
  [CASTLING, "o-o-o", ["e1c1"]],
  [CASTLING, "0-0-0", ["e1c1"]],
  [CASTLING, "OO", ["e1g1"]],
  [CASTLING, "Kg1", ["e1g1"]],
  [CASTLING, "e1g1", ["e1g1"]],
  [PROMOTION, "b8=Q+", ["b7b8q"]],
  [PROMOTION, "b8n", ["b7b8n"]],
  [PROMOTION, "bxa8(R)", ["b7a8r"]],
  [PROMOTION, "b8", ["b7b8b", "b7b8n", "b7b8q", "b7b8r"]],
  ["4k3/8/8/1b6/2p5/8/1P6/4KB2 w - - 0 1", "bxc4", ["f1c4"]],
  ["4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6 e.p.", ["e5d6"]],
  ["4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "d6", []],
  ["4k3/8/8/8/8/8/4K3/R6R w - - 0 1", "Rd1", ["a1d1", "h1d1"]],
]) {
  test(`“${text}” in ${fen}`, () => assert.deepEqual(read(fen, text), moves));
}

test("moves as they are said aloud", () => {
  const said = (/** @type {string} */ fen, /** @type {string} */ uci) => spoken(readFen(fen), moveOf(uci), say);
  assert.equal(said("3k4/8/8/4p3/8/5N2/8/4K3 w - - 0 1", "f3e5"), "knight f3 takes e5");
  assert.equal(said("8/3k4/8/4p3/8/5N2/8/4K3 w - - 0 1", "f3e5"), "knight f3 takes e5, check");
  assert.equal(said(CASTLING, "e1c1"), "castles queen side");
  assert.equal(said(PROMOTION, "b7b8n"), "pawn b7 to b8, becomes a knight");
});

test("squares as a screen reader hears them", () => {
  const position = readFen("4k3/8/8/8/4P3/8/8/4KR1q w - - 0 1");
  assert.equal(squareLabel(position, squareOf("e4"), say), "e4, white pawn");
  assert.equal(squareLabel(position, squareOf("e5"), say), "e5, empty");
  assert.equal(squareLabel(readFen("4k3/8/8/8/8/8/4R3/4K3 b - - 0 1"), squareOf("e8"), say), "e8, black king, check");
});

test("a move with its number", () => {
  assert.equal(numbered(readFen(START), moveOf("g1f3")), "1. Nf3");
  assert.equal(numbered(readFen("rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1"), moveOf("b8c6")), "1... Nc6");
});

test("words can be translated, some or all", () => {
  const german = sayer({ pawn: "Bauer", white: "weißer", occupied: "{square}, {side} {piece}" });
  assert.equal(squareLabel(readFen(START), squareOf("e2"), german), "e2, weißer Bauer");
  assert.equal(german("back"), ENGLISH.back);
});
