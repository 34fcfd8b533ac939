// @ts-check
/** A position set up by hand, as a value: pieces put and taken off, rights that follow the pieces. */

import { START, fenOf, otherSide, readFen, squareName } from "./rules.js";

/** @typedef {import("./rules.js").Position} Position */

/** Where king and rook must stand for each right to castle. */
const HOMES = /** @type {const} */ ({ K: [4, 7, "K", "R"], Q: [4, 0, "K", "R"], k: [60, 63, "k", "r"], q: [60, 56, "k", "r"] });
export const RIGHTS = /** @type {(keyof typeof HOMES)[]} */ (Object.keys(HOMES));

/** @returns {Position} the start of a game */
export const started = () => readFen(START);

/** @param {Position} position @returns {Position} without pieces; the side to move stays */
export const emptied = (position) => ({ ...position, squares: Array(64).fill(""), castling: "", ep: -1, half: 0, full: 1 });

/** @param {Position} position @param {number} square @param {string} piece "" for none @returns {Position} */
export function put(position, square, piece) {
  const squares = position.squares.slice();
  squares[square] = piece;
  return { ...position, squares, half: 0 };
}

/** @param {Position} position @param {number} from @param {number} to @returns {Position} a piece moved, rules or no rules */
export const moved = (position, from, to) => put(put(position, from, ""), to, position.squares[from]);

/** @param {Position} position @param {string} right @returns {boolean} whether king and rook stand where it needs them */
export function isHome({ squares }, right) {
  const [king, rook, kingLetter, rookLetter] = HOMES[/** @type {keyof typeof HOMES} */ (right)];
  return squares[king] === kingLetter && squares[rook] === rookLetter;
}

/** @param {Position} position @param {string} right given, or taken away if it is there @returns {Position} */
export function toggledRight(position, right) {
  const has = position.castling.includes(right);
  const castling = RIGHTS.filter((other) => (other === right ? !has : position.castling.includes(other))).join("");
  return { ...position, castling };
}

/**
 * The squares that a pawn may have passed with its last double step, so that it can be taken there.
 * @param {Position} position
 * @returns {number[]}
 */
export function passable({ squares, turn }) {
  const [rank, ahead] = turn === "w" ? [4, 8] : [3, -8];
  const [own, other] = turn === "w" ? ["P", "p"] : ["p", "P"];
  return [0, 1, 2, 3, 4, 5, 6, 7].flatMap((file) => {
    const stands = rank * 8 + file;
    const beside = [file > 0 ? stands - 1 : -1, file < 7 ? stands + 1 : -1];
    const came = squares[stands + ahead] === "" && squares[stands + 2 * ahead] === "";
    return squares[stands] === other && came && beside.some((square) => squares[square] === own) ? [stands + ahead] : [];
  });
}

/**
 * The FEN of what was set up, with those rights alone that the pieces allow.
 * @param {Position} position
 * @returns {string}
 */
export function fenSetUp(position) {
  const castling = RIGHTS.filter((right) => position.castling.includes(right) && isHome(position, right)).join("");
  return fenOf({ ...position, castling }, passable(position).includes(position.ep) ? squareName(position.ep) : "-");
}

/** @param {Position} position @returns {Position} with the other side to move */
export const turnedOver = (position) => ({ ...position, turn: otherSide(position.turn), ep: -1 });

/** @param {string} text @returns {boolean} whether its first field fills eight ranks, so that it can be shown */
export const isDrawable = (text) => {
  const rows = text.trim().split(/\s+/)[0].split("/");
  const width = (/** @type {string} */ row) =>
    [...row].reduce((sum, letter) => sum + (Number(letter) || 1), 0);
  return rows.length === 8 && rows.every((row) => /^[1-8pnbrqkPNBRQK]+$/.test(row) && width(row) === 8);
};
