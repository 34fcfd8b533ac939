// @ts-check
/**
 * Every word that the board shows or says, so that it can be translated.
 *
 * A translation is a table with some of these keys; what is missing stays
 * English.  Words in braces are filled in.  What a mark is called and how it
 * is said stands with its shape, in `ink.json`.
 */

import { INK } from "./pen.js";

/** @typedef {import("./pen.js").Role} Role */

const WORDS = {
  king: "king",
  queen: "queen",
  rook: "rook",
  bishop: "bishop",
  knight: "knight",
  pawn: "pawn",
  white: "white",
  black: "black",
  emptySquare: "{square}, empty",
  occupied: "{square}, {side} {piece}",
  reachable: "{square}: may go here",
  lifted: "{piece} {square} lifted",
  putBack: "put back",
  takes: "{piece} {from} takes {to}",
  goes: "{piece} {from} to {to}",
  castlesKingSide: "castles king side",
  castlesQueenSide: "castles queen side",
  becomes: "becomes a {piece}",
  check: "check",
  checkmate: "checkmate",
  stalemate: "stalemate",
  figure: "Fig.",
  after: "After {move}.",
  whiteToMove: "White to move.",
  blackToMove: "Black to move.",
  whiteInCheck: "White to move, in check.",
  blackInCheck: "Black to move, in check.",
  whiteWins: "Checkmate: White wins.",
  blackWins: "Checkmate: Black wins.",
  drawn: "Stalemate: a draw.",
  boardSeenByWhite: "Chess board, White below",
  boardSeenByBlack: "Chess board, Black below",
  back: "back",
  on: "next",
  toStart: "back to the start",
  turnBoard: "turn the board",
  move: "move",
  pawnBecomes: "The pawn becomes a",
  keepPawn: "put it back",
  notLegal: "“{text}” is not a legal move here.",
  notClear: "“{text}” fits more than one move.",
  noMoveThere: "The {piece} on {from} cannot go to {to}.",
  noMoves: "The {piece} on {from} has no legal move.",
  whitesTurn: "It is White's move.",
  blacksTurn: "It is Black's move.",
  gameOver: "The game is over.",
  answer: "“{text}”: {reason}.",
  unheard: "{count} not heard by Python yet.",
  deaf: "Python does not hear this board any more. You can go on here; run the cell again to bring everything back.",
  bringBack: "bring back what was played and drawn here ({count})",
  tookBack: "back to {where}",
  oneMove: "1 move",
  manyMoves: "{number} moves",
  oneStep: "1 step",
  manySteps: "{number} steps",
  failed: "The board cannot be shown here: {error}",

  // -- drawing --
  pen: "draw on the board",
  wipe: "wipe",
  stroke: "line or square",
  lines: "line",
  singles: "square",
  penDown: "line from {square}: where to?",
  penUp: "nothing drawn",
  strokeDrawn: "{stroke} drawn",
  strokeGone: "{stroke} taken away",
  strokesWiped: "the drawing is wiped away",
  strokesHere: "Drawn: {strokes}.",
  marked: "{square}; {strokes}",
  notStroke: "“{text}” cannot be drawn: type c3-f6 for a line, f6 for one square.",

  // -- setting up --
  setUp: "set up",
  settingUp: "Setting up a position.",
  trayPiece: "{side} {piece}",
  takeOff: "take off",
  emptyBoard: "empty the board",
  startPosition: "start of a game",
  toMove: "to move",
  whiteSide: "White",
  blackSide: "Black",
  whiteCastles: "White may castle",
  blackCastles: "Black may castle",
  kingSide: "king side",
  queenSide: "queen side",
  enPassant: "may be taken in passing on",
  none: "no square",
  playFromHere: "play from here",
  cancel: "cancel",
  inHand: "{piece}: where to?",

  // -- copying, full screen --
  copyPosition: "copy the position",
  copyLine: "copy the line",
  positionCopied: "The position is copied (FEN).",
  lineCopied: "The line is copied (PGN).",
  copyByHand: "The browser does not let this board copy. Copy it from here:",
  fullScreen: "full screen",
  leaveFullScreen: "leave full screen",
  noFullScreen: "The browser does not give this board the screen.",
};

/** @typedef {`mark${Capitalize<Role>}`} MarkWord how a mark is said */
/** @typedef {keyof typeof WORDS | Role | MarkWord} Word */

/** @param {Role} role @returns {MarkWord} */
export const markWord = (role) => /** @type {MarkWord} */ (`mark${role[0].toUpperCase()}${role.slice(1)}`);

const MARKS = Object.entries(INK.marks).flatMap(([role, { label, said }]) => [
  [role, label], [markWord(/** @type {Role} */ (role)), said]]);

/** @type {Record<Word, string>} */
export const ENGLISH = { ...WORDS, ...Object.fromEntries(MARKS) };

/** @typedef {(word: Word, filled?: Record<string, string>) => string} Say */

/**
 * Make the function that turns a key into words.
 * @param {Partial<Record<Word, string>>} translation
 * @returns {Say}
 */
export function sayer(translation = {}) {
  return (word, filled = {}) =>
    (translation[word] ?? ENGLISH[word]).replace(/\{(\w+)\}/g, (gap, name) => filled[name] ?? gap);
}

/** @param {string} text a reason, as errors have it @returns {string} */
export const sentence = (text) => `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? "" : "."}`;
