// @ts-check
/** The words of the motif tags, beside those of the board; a translation may hold both. */

import { sayer } from "./words.js";

export const TAG_ENGLISH = {
  tactics: "Tactics of {move}",
  noTactics: "No tactic of {move} is proved to win anything.",
  wins: "It wins {gain}.",
  mates: "It leads to {gain}.",
  forces: "It forces {gain}.",
  geometric: "Nothing is proved to be won by it.",
};

/** @typedef {keyof typeof TAG_ENGLISH} TagWord */
/** @typedef {(word: TagWord, filled?: Record<string, string>) => string} TagTell */

/**
 * Make the function that turns the keys into words.
 * @param {Partial<Record<TagWord, string>>} translation
 * @returns {TagTell}
 */
export const tagTeller = (translation = {}) =>
  /** @type {any} */ (sayer(/** @type {any} */ ({ ...TAG_ENGLISH, ...translation })));
