// @ts-check
/** Tries to and from what is kept of them, and as a game file. */

import { START } from "./rules.js";
import { legalMove } from "./notation.js";
import { movesTo, numberOf, pathTo, positionAt } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */
/** @typedef {import("./tree.js").Tree} Tree */
/** @typedef {{uci: string, answer: import("./tree.js").Answer | null, next: Moves[]}} Moves */
/**
 * @typedef {object} Try
 * @property {string} root the name of the position that it starts from, "" for the game
 * @property {string} fen of the root
 * @property {string} from UCI of the moves that lead to where it leaves the lesson
 * @property {string} name
 * @property {Moves} moves
 */

/** @param {Node} node @returns {Moves} */
const written = (node) =>
  ({ uci: node.uci, answer: node.answer, next: node.children.filter((child) => child.own && !child.shown).map(written) });

/** @param {Tree} tree @returns {Try[]} */
export const triesOf = (tree) =>
  tree.tries.map((node) => {
    const parent = /** @type {Node} */ (node.parent);
    const root = pathTo(node)[0];
    return { root: root.name, fen: root.fen, from: movesTo(parent).join(" "), name: node.name, moves: written(node) };
  });

/**
 * Hang kept tries on a tree.
 * @param {Tree} tree
 * @param {Try[]} tries
 * @returns {Try[]} those that have no place on it, because the lesson hides it or was changed
 */
export function plant(tree, tries) {
  return tries.filter((kept) => {
    const place = placeOf(tree, kept);
    if (!place || !legalMove(positionAt(place), kept.moves.uci)) return true;
    graft(tree, place, kept.moves, kept.name);
    return false;
  });
}

/** @param {Tree} tree @param {Try} kept @returns {Node | undefined} */
function placeOf(tree, kept) {
  let node = tree.roots.find((root) => root.name === kept.root && root.fen === kept.fen);
  for (const uci of kept.from.split(" ").filter(Boolean)) {
    node = node?.children.find((child) => !child.own && child.uci === uci);
  }
  return node;
}

/** @param {Tree} tree @param {Node} parent @param {Moves} moves @param {string} [name] */
function graft(tree, parent, moves, name) {
  if (!legalMove(positionAt(parent), moves.uci)) return;
  const node = tree.follow(parent, moves.uci);
  if (node.own && name) node.name = name;
  // "The lesson's move" is asked about again: here it may be shown, elsewhere not yet.
  if (node.own && moves.answer && moves.answer.kind !== "lesson") tree.answer(node, moves.answer);
  for (const next of moves.next ?? []) graft(tree, node, next);
}

// -- as a game file (PGN standard, import format) -------------------------------

/**
 * All tries, a game for each: the lesson's moves that lead to it, then the try.
 * @param {Tree} tree
 * @returns {string}
 */
export const exported = (tree) => tree.tries.map((node, index) => game(tree, node, index + 1)).join("\n");

/** @param {Tree} tree @param {Node} node @param {number} count @returns {string} */
function game(tree, node, count) {
  const fen = pathTo(node)[0].fen;
  const title = node.name || `Try ${count}`;
  const tags = { Event: `${tree.data.title}: ${title}`, Site: "?", Date: "????.??.??", Round: String(count), White: "?", Black: "?", Result: "*" };
  const setup = fen === START ? {} : { SetUp: "1", FEN: fen };
  const header = Object.entries({ ...tags, ...setup }).map(([tag, value]) => `[${tag} "${value.replace(/["\\]/g, "\\$&")}"]`);
  const lesson = pathTo(/** @type {Node} */ (node.parent)).slice(1);
  const words = [...lesson.flatMap((step) => move(step, step === lesson[0])), ...line(node, lesson.length === 0), "*"];
  return `${header.join("\n")}\n\n${wrapped(words)}\n`;
}

/** @param {Node} node @param {boolean} fresh whether its number is due @returns {string[]} */
const line = (node, fresh) => [...move(node, fresh), ...said(node), ...after(node, said(node).length > 0)];

/** @param {Node} node @param {boolean} fresh @returns {string[]} what follows it, the variations in brackets */
function after(node, fresh) {
  const [first, ...others] = node.children.filter((child) => child.own);
  if (!first) return [];
  const variations = others.flatMap((other) => ["(", ...line(other, true), ")"]);
  const broken = said(first).length + others.length > 0;
  return [...move(first, fresh), ...said(first), ...variations, ...after(first, broken)];
}

/** @param {Node} node @returns {string[]} the answer as a comment, word by word */
const said = (node) => (node.answer ? `{${node.answer.sentence.replace(/[{}]/g, "")}}`.split(/\s+/) : []);

/** @param {Node} node @param {boolean} fresh @returns {string[]} */
function move(node, fresh) {
  const number = numberOf(node);
  return fresh || !number.endsWith("...") ? [number, node.san] : [node.san];
}

/** @param {string[]} words @returns {string} lines of less than 80 characters (PGN standard, 4.3) */
function wrapped(words) {
  const lines = [""];
  for (const word of words) {
    const last = lines[lines.length - 1];
    if (last && last.length + 1 + word.length > 79) lines.push(word);
    else lines[lines.length - 1] = last ? `${last} ${word}` : word;
  }
  return lines.join("\n");
}
