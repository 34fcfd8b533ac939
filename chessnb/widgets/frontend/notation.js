// @ts-check
/**
 * Moves to and from text: SAN out, and a lenient reading of what people type.
 *
 * What cannot be read here as exactly one legal move goes to Python, whose
 * answer gives the reason (the twin there is `chessnb.notation`).
 */

import { ENGLISH_LETTERS, inLetters, kindOf, typedLetters, withoutFigurines } from "./letters.js";
import {
  inCheck,
  isCapture,
  isCastling,
  legalMoves,
  play,
  squareName,
  standing,
  uciOf,
} from "./rules.js";

/** @typedef {import("./rules.js").Position} Position */
/** @typedef {import("./rules.js").Move} Move */

/**
 * Write a legal move in SAN (PGN standard, 8.2.3).
 * @param {Position} position the position before the move
 * @param {Move} move
 * @returns {string}
 */
export function sanOf(position, move) {
  const after = standing(play(position, move));
  const sign = after === "checkmate" ? "#" : after === "check" ? "+" : "";
  if (isCastling(position, move)) return (move.to > move.from ? "O-O" : "O-O-O") + sign;
  const letter = position.squares[move.from].toUpperCase();
  const takes = isCapture(position, move) ? "x" : "";
  const to = squareName(move.to);
  if (letter === "P") {
    const becomes = move.promotion && `=${move.promotion.toUpperCase()}`;
    return (takes && squareName(move.from)[0] + takes) + to + becomes + sign;
  }
  return letter + whichOne(position, move) + takes + to + sign;
}

/**
 * The file, the rank or both that tell a piece from others that could go to the same square.
 * @param {Position} position
 * @param {Move} move
 * @returns {string}
 */
function whichOne(position, move) {
  const piece = position.squares[move.from];
  const others = legalMoves(position)
    .filter((other) => other.to === move.to && other.from !== move.from && position.squares[other.from] === piece)
    .map((other) => other.from);
  if (piece.toLowerCase() === "k" || others.length === 0) return "";
  const [file, rank] = squareName(move.from);
  const sameFile = others.some((from) => squareName(from)[0] === file);
  const sameRank = others.some((from) => squareName(from)[1] === rank);
  if (sameFile && sameRank) return file + rank;
  return sameFile ? rank : file;
}

/**
 * Read a move as people type it: SAN, UCI, long algebraic, castling with O or 0.
 *
 * @param {Position} position
 * @param {string} text
 * @param {string} [letters] the six that the moves have; figurines and UCI are the same in every language
 * @returns {Move[]} the legal moves that fit; one if the text is clear
 */
export function readTyped(position, text, letters = ENGLISH_LETTERS) {
  const own = typedLetters(letters);
  const bare = bareText(text, own);
  const moves = legalMoves(position);
  for (const [plain, alphabet] of readings(bare, own)) {
    const fitting = moves.filter((move) => fits(position, move, plain, alphabet));
    if (fitting.length > 0) return fitting;
  }
  return [];
}

/**
 * What a text may mean, the likelier first: a small letter may stand for a piece, but b4d7 names two squares.
 * @param {string} bare @param {string} letters @returns {[string, string][]} texts, each with its letters
 */
function readings(bare, letters) {
  if (/^[a-h][1-8][a-h][1-8][qrbn]$/.test(bare)) return [[bare, ENGLISH_LETTERS]];
  const small = letters.slice(1).toLowerCase().includes(bare[0]) && !/^[a-h][1-8]/.test(bare);
  return small ? [[bare, letters], [bare[0].toUpperCase() + bare.slice(1), letters]] : [[bare, letters]];
}

/** @param {string} text @param {string} letters @returns {string} the move without number, signs, figurines and marks of comment */
function bareText(text, letters) {
  return withoutFigurines(text.trim(), letters)
    .replace(/^\d+\s*(\.+|…)\s*/, "")
    .replace(/\s*[!?]{1,2}$/, "")
    .replace(/\s*(\+\+|[+#†‡]|ch\.?|mate)$/, "")
    .trim();
}

const CASTLING = /^[Oo0]\s*[-–‐]?\s*[Oo0](\s*[-–‐]?\s*[Oo0])?$/;

/** @type {Map<string, RegExp>} the form of a move, by the letters */
const FORMS = new Map();

/** @param {string} letters @returns {RegExp} */
function formOf(letters) {
  const known = FORMS.get(letters);
  if (known) return known;
  const form = new RegExp(
    `^([${letters}])?([a-h])?([1-8])?\\s*([-–‐x×:])?\\s*([a-h][1-8])(:)?` + // Ng1-f3
      `(?:\\s*e\\.?\\s?p\\.?)?(?:\\s*[=/(]?\\s*([${letters}${letters.slice(1, 5).toLowerCase()}])\\)?)?$`); // e.p., =Q
  FORMS.set(letters, form);
  return form;
}

/** @param {Position} position @param {Move} move @param {string} plain @param {string} letters @returns {boolean} */
function fits(position, move, plain, letters) {
  const sides = plain.match(CASTLING);
  if (sides) return isCastling(position, move) && (sides[1] !== undefined) === (move.to < move.from);
  const said = plain.match(formOf(letters));
  if (!said) return false;
  const [, letter, file, rank, link, to, taken, promotion] = said;
  const from = squareName(move.from);
  const piece = position.squares[move.from].toLowerCase();
  const named = letter ? kindOf(letter, letters) : file && rank ? piece : "p";
  const takes = taken !== undefined || (link !== undefined && "x×:".includes(link));
  // A pawn's capture must name its file: "d5" never means "exd5".
  const aside = named === "p" && !file && from[0] !== to[0];
  return (
    to === squareName(move.to) &&
    named === piece &&
    (file ?? from[0]) === from[0] &&
    (rank ?? from[1]) === from[1] &&
    (!promotion || kindOf(promotion, letters) === move.promotion) &&
    (!takes || isCapture(position, move)) &&
    !aside
  );
}

/** The names of the pieces, by their letter. */
const NAMES = /** @type {Record<string, import("./words.js").Word>} */ (
  { k: "king", q: "queen", r: "rook", b: "bishop", n: "knight", p: "pawn" }
);

/** @param {string} letter of a piece, as in FEN @returns {import("./words.js").Word} the word for it */
export const nameOf = (letter) => NAMES[letter.toLowerCase()];

/**
 * A move as it is said aloud, such as "knight f3 takes e5, check".
 * @param {Position} position the position before the move
 * @param {Move} move
 * @param {import("./words.js").Say} say
 * @returns {string}
 */
export function spoken(position, move, say) {
  const after = standing(play(position, move));
  const parts = [spokenStep(position, move, say)];
  if (move.promotion) parts.push(say("becomes", { piece: say(nameOf(move.promotion)) }));
  if (after) parts.push(say(after));
  return parts.join(", ");
}

/** @param {Position} position @param {Move} move @param {import("./words.js").Say} say @returns {string} */
function spokenStep(position, move, say) {
  if (isCastling(position, move)) return say(move.to > move.from ? "castlesKingSide" : "castlesQueenSide");
  const piece = say(nameOf(position.squares[move.from]));
  const squares = { piece, from: squareName(move.from), to: squareName(move.to) };
  return say(isCapture(position, move) ? "takes" : "goes", squares);
}

/**
 * A move with its number, as it stands in a caption: "2... Nc6".
 * @param {Position} position the position before the move
 * @param {Move} move
 * @param {string} [letters]
 * @returns {string}
 */
export const numbered = (position, move, letters = ENGLISH_LETTERS) =>
  `${position.full}${position.turn === "w" ? "." : "..."} ${inLetters(sanOf(position, move), letters)}`;

/**
 * What a square holds, as a screen reader says it: "e4, white pawn".
 * @param {Position} position
 * @param {number} square
 * @param {import("./words.js").Say} say
 * @returns {string}
 */
export function squareLabel(position, square, say) {
  const piece = position.squares[square];
  const name = squareName(square);
  if (piece === "") return say("emptySquare", { square: name });
  const side = say(piece < "a" ? "white" : "black");
  const label = say("occupied", { square: name, side, piece: say(nameOf(piece)) });
  const checked = piece.toLowerCase() === "k" && (piece < "a") === (position.turn === "w") && inCheck(position);
  return checked ? `${label}, ${say("check")}` : label;
}

/** @param {Position} position @param {string} uci @returns {Move | undefined} the legal move of that name */
export const legalMove = (position, uci) => legalMoves(position).find((move) => uciOf(move) === uci);
