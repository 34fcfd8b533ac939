// @ts-check
/** The letters that stand for the pieces: six, from pawn to king, of a language or as figurines. */

export const ENGLISH_LETTERS = "PNBRQK";
const FIGURINES = "♙♘♗♖♕♔♟♞♝♜♛♚";

/** @param {string} san a move in English SAN @param {string} letters @returns {string} */
export const inLetters = (san, letters) =>
  san.replace(/[NBRQK]/g, (letter) => letters[ENGLISH_LETTERS.indexOf(letter)]);

// The same as in `chessnb.notation.letters`: a move in a sentence, or a letter that stands for itself.
const SAID = /\b[KQRBN](?=[a-h]?[1-8]?[-x]?[a-h][1-8])|(?<==)[QRBN]|(?<![\w'’])[KQRBN](?!['’\w])/g;

/** @param {string} text English words with moves @param {string} letters @returns {string} the moves in other letters */
export const saidIn = (text, letters) =>
  letters === ENGLISH_LETTERS ? text : text.replace(SAID, (letter) => inLetters(letter, letters));

/** @param {string} line moves with their numbers @returns {string} each move kept together with its number */
export const bound = (line) => line.replace(/(\d\.+) /g, "$1\u00a0");

/** @param {string} letters @returns {string} those that are typed: English where figurines are shown */
export const typedLetters = (letters) => (FIGURINES.includes(letters[0]) ? ENGLISH_LETTERS : letters);

/** @param {string} text @param {string} letters @returns {string} with letters instead of figurines */
export const withoutFigurines = (text, letters) =>
  text.replace(/[♔-♟]/gu, (figurine) => letters[FIGURINES.indexOf(figurine) % 6]);

/** @param {string} letter of a language, large or small @param {string} letters @returns {string} "p" to "k", or "" */
export const kindOf = (letter, letters) =>
  (ENGLISH_LETTERS[letters.indexOf(letter.toUpperCase())] ?? "").toLowerCase();
