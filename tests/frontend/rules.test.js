// The browser's own rules of chess, against published counts and the Laws.

import assert from "node:assert/strict";
import test from "node:test";

import { START, legalMoves, moveOf, play, readFen, standing, uciOf, writeFen } from "../../chessnb/widgets/frontend/rules.js";

/** @param {import("../../chessnb/widgets/frontend/rules.js").Position} position @param {number} plies */
function perft(position, plies) {
  const moves = legalMoves(position);
  if (plies === 1) return moves.length;
  return moves.reduce((sum, move) => sum + perft(play(position, move), plies - 1), 0);
}

// Sources: the start's counts are from memory; the others stand in
// examples/perft/tricky.perft of the source archive of python-chess 1.11.2,
// which names the chess programming community's list of perft results.
const COUNTS = [
  [START, [20, 400, 8902, 197281]],
  ["r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1", [48, 2039, 97862]],
  ["8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1", [14, 191, 2812, 43238]],
  ["r2q1rk1/pP1p2pp/Q4n2/bbp1p3/Np6/1B3NBn/pPPP1PPP/R3K2R b KQ - 0 1", [6, 264, 9467]],
  ["rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8", [44, 1486, 62379]],
  ["r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10", [46, 2079, 89890]],
];

for (const [fen, counts] of COUNTS) {
  test(`perft of ${fen}`, () => {
    counts.forEach((count, index) => assert.equal(perft(readFen(fen), index + 1), count, `depth ${index + 1}`));
  });
}

test("a position is a value: playing a move leaves the one before as it was", () => {
  const position = readFen(START);
  play(position, moveOf("e2e4"));
  assert.equal(writeFen(position), START);
});

test("no castling out of, through or into check, and none over a piece (FIDE Laws, 3.8)", () => {
  const castles = (/** @type {string} */ fen) =>
    legalMoves(readFen(fen)).map(uciOf).filter((uci) => uci === "e1g1" || uci === "e1c1").sort();
  assert.deepEqual(castles("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1"), ["e1c1", "e1g1"]);
  assert.deepEqual(castles("4k3/8/8/8/4r3/8/8/R3K2R w KQ - 0 1"), []);
  assert.deepEqual(castles("4k3/8/8/8/5r2/8/8/R3K2R w KQ - 0 1"), ["e1c1"]);
  assert.deepEqual(castles("4k3/8/8/8/6r1/8/8/R3K2R w KQ - 0 1"), ["e1c1"]);
  assert.deepEqual(castles("4k3/8/8/8/1r6/8/8/R3K2R w KQ - 0 1"), ["e1c1", "e1g1"], "the rook may pass b1");
  assert.deepEqual(castles("4k3/8/8/8/8/8/8/RN2K2R w KQ - 0 1"), ["e1g1"]);
  assert.deepEqual(castles("4k3/8/8/8/8/8/8/R3K2R w - - 0 1"), []);
});

test("how a game ends (FIDE Laws, 5.1.1 and 5.2.1)", () => {
  assert.equal(standing(readFen("rnb1kbnr/pppp1ppp/8/4p3/6Pq/5P2/PPPPP2P/RNBQKBNR w KQkq - 1 3")), "checkmate");
  assert.equal(standing(readFen("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1")), "stalemate");
  assert.equal(standing(readFen("4k3/8/8/8/8/8/4R3/4K3 b - - 0 1")), "check");
  assert.equal(standing(readFen(START)), "");
});
