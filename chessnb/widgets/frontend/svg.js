// @ts-check
/**
 * The SVG of a board: paper, squares, letters, pieces, marks, in that order.
 *
 * The twin of `chessnb/diagrams/svg.py`.  The live board draws with the same
 * parts, so a still diagram that comes alive does not move by a hair.
 */

import { eventOn, overPieces, underPieces } from "./marks.js";
import { INK, Pen, number } from "./pen.js";
import { inCheck, kingOf } from "./rules.js";

/** @typedef {import("./rules.js").Position} Position */

/** The board's letters for the pieces, in the order of `ink.json`. */
export const PIECES = Object.keys(INK.pieces).map((key) => (key[0] === "w" ? key[1] : key[1].toLowerCase()));

/**
 * A board as one SVG element.
 * @param {Position} position
 * @param {object} how
 * @param {import("./pen.js").Theme} how.theme
 * @param {boolean} how.turned
 * @param {number} how.size width and height in CSS pixels
 * @param {string} how.title
 * @param {string} how.words
 * @param {{from: number, to: number} | null} [how.lastMove]
 * @param {import("./marks.js").Mark[]} [how.marks]
 * @returns {string}
 */
export function boardMarkup(position, { theme, turned, size, title, words, lastMove = null, marks = [] }) {
  const pen = new Pen(theme, turned);
  const { width, height } = INK.board;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${size}" height="${size}"` +
    ` viewBox="0 0 ${width} ${height}">` +
    `<title>${escaped(title)}</title><desc>${escaped(words)}</desc>${pen.style()}` +
    `<defs>${hatch(pen)}${outlines(pen, position.squares)}</defs>` +
    `${ground(pen)}${sideToMove(pen, position.turn)}` +
    '<g stroke-linecap="round" stroke-linejoin="round">' +
    `${events(pen, position, lastMove)}${underPieces(pen, marks)}` +
    `${pieces(pen, position.squares)}${overPieces(pen, marks)}</g></svg>`
  );
}

/** @type {Record<string, string>} */
const ENTITIES = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#x27;" };

/** @param {string} text @returns {string} for HTML and XML, without characters that XML 1.0 forbids */
export const escaped = (text) =>
  text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, "")
    .replace(/[&<>"']/g, (sign) => ENTITIES[sign]);

/** @param {Pen} pen @returns {number[]} the squares from the top left to the bottom right */
export function asSeen(pen) {
  const seen = Array.from({ length: 64 }, (_, place) => place ^ 56);
  return pen.turned ? seen.reverse() : seen;
}

/** @param {Pen} pen @returns {string} one square hatched, and a row of four of them */
export function hatch(pen) {
  const { lines, trim, width, opacity } = INK.hatch;
  const side = INK.board.square;
  let path = "";
  for (let line = 0; line < lines; line++) {
    const reach = (2 * side * (line + 0.5)) / lines;
    const near = number(Math.max(0, reach - side) + trim);
    const far = number(Math.min(side, reach) - trim);
    path += `M${near} ${far}L${far} ${near}`;
  }
  const row = [0, 1, 2, 3].map((place) => `<use href="#${pen.name("hatch")}" x="${number(2 * side * place)}"/>`);
  return (
    `<path id="${pen.name("hatch")}" d="${path}"` +
    `${pen.paint({ stroke: "ink", width })} stroke-opacity="${opacity}"/>` +
    `<g id="${pen.name("row")}">${row.join("")}</g>`
  );
}

/** @param {string} letter as in FEN @returns {string} the piece's key in `ink.json` */
export const keyOf = (letter) => (letter < "a" ? "w" : "b") + letter.toUpperCase();

/** @param {Pen} pen @param {string[]} wanted letters as in FEN @returns {string} those pieces, each drawn once */
export function outlines(pen, wanted) {
  const keys = PIECES.filter((letter) => wanted.includes(letter)).map(keyOf);
  const contours = Object.entries(INK.contours).map(([kind, path]) =>
    keys.some((key) => key[1] === kind) ? `<path id="${pen.name(kind)}" d="${path}"/>` : "");
  const drawn = keys.map((key) => `<g id="${pen.name(key)}">${INK.pieces[key].map(
    (/** @type {Shape} */ shape) => inked(pen, key[1], shape)).join("")}</g>`);
  return contours.join("") + drawn.join("");
}

/** @typedef {{role: string, d?: string}} Shape a path, or the contour of its kind */

/** @param {Pen} pen @param {string} kind @param {Shape} shape @returns {string} */
function inked(pen, kind, { role, d }) {
  const what = d === undefined ? `use href="#${pen.name(kind)}"` : `path d="${d}"`;
  return `<${what}${pen.paint(INK.roles[role])}/>`;
}

/** @param {Pen} pen @returns {string} what does not change with the position */
export const ground = (pen) =>
  `<rect width="${INK.board.width}" height="${INK.board.height}"${pen.paint({ fill: "paper" })}/>` +
  squares(pen) + letters(pen);

/** @param {Pen} pen @returns {string} */
function squares(pen) {
  const { square, frame, left, top } = INK.board;
  const side = number(square);
  const dark = asSeen(pen).filter((at) => ((at & 7) + (at >> 3)) % 2 === 0);
  const path = dark.map((at) => `M${pen.corner(at).map(number).join(" ")}h${side}v${side}h-${side}Z`).join("");
  const rows = [0, 1, 2, 3, 4, 5, 6, 7].map((row) =>
    `<use href="#${pen.name("row")}" x="${number(left + square * ((row + 1) % 2))}" y="${number(top + square * row)}"/>`);
  const whole = number(8 * square + frame);
  return (
    `<path d="${path}"${pen.paint({ fill: "tint" })}/>${rows.join("")}` +
    `<rect x="${number(left - frame / 2)}" y="${number(top - frame / 2)}"` +
    ` width="${whole}" height="${whole}"${pen.paint({ stroke: "ink", width: frame })}/>`
  );
}

/** @param {Pen} pen @returns {string} the coordinates: ranks upright, files in italics */
function letters(pen) {
  const { family, size, rank, file, drop } = INK.letters;
  const { square, left, top } = INK.board;
  const seen = asSeen(pen);
  const eight = [0, 1, 2, 3, 4, 5, 6, 7];
  const ranks = eight.map(
    (row) => `<text x="${number(rank)}" y="${number(top + square * (row + 0.5) + drop)}">${(seen[8 * row] >> 3) + 1}</text>`);
  const files = eight.map(
    (column) =>
      `<text x="${number(left + square * (column + 0.5))}" y="${number(file)}">${"abcdefgh"[seen[column] & 7]}</text>`);
  return (
    `<g font-family="${family}" font-size="${number(size)}" text-anchor="middle"${pen.paint({ fill: "ink" })}>` +
    `${ranks.join("")}<g font-style="italic">${files.join("")}</g></g>`
  );
}

/** @param {Pen} pen @param {"w" | "b"} turn @returns {string} a small square, hollow for White, filled for Black */
export function sideToMove(pen, turn) {
  const { side, width, left } = INK.turn;
  const below = (turn === "w") !== pen.turned;
  const drop = below ? 8 * INK.board.square - side - width / 2 : width / 2;
  const paint = pen.paint({ fill: turn === "w" ? "piece" : "ink", stroke: "ink", width });
  return (
    `<rect x="${number(left)}" y="${number(INK.board.top + drop)}"` +
    ` width="${number(side)}" height="${number(side)}"${paint}/>`
  );
}

/** @param {Pen} pen @param {Position} position @param {{from: number, to: number} | null} lastMove @returns {string} */
export function events(pen, position, lastMove) {
  const lines = lastMove ? eventOn(pen, "last", lastMove.from) + eventOn(pen, "last", lastMove.to) : "";
  return lines + (inCheck(position) ? eventOn(pen, "check", kingOf(position, position.turn)) : "");
}

/** @param {Pen} pen @param {string[]} board the pieces by square @returns {string} */
export const pieces = (pen, board) =>
  asSeen(pen)
    .filter((square) => board[square] !== "")
    .map((square) => piece(pen, square, board[square]))
    .join("");

/** @param {Pen} pen @param {number} square @param {string} letter @returns {string} */
function piece(pen, square, letter) {
  const [x, y] = pen.corner(square);
  return `<use href="#${pen.name(keyOf(letter))}" x="${number(x)}" y="${number(y)}"/>`;
}
