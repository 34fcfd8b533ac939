// @ts-check
/** The words of the reply explorer, beside those of the board; a translation may hold both. */

import { sayer } from "./words.js";

export const REPLY_ENGLISH = {
  replies: "The replies",
  left: "{count} of {all} left",
  allOut: "Every reply is ruled out.",
  play: "play it through",
  ruleOut: "rule out",
  takeBack: "bring back",
  bringAll: "bring all back",
  showVerdict: "show the answer",
  showVerdicts: "show all answers",
  hideVerdicts: "hide the answers",
  playedHere: "played",
  longestHere: "the longest resistance",
  each: "each of them",
  caution: "What is said to win or lose is proved. Where nothing wrong was found, nobody has proved that the reply is good.",
};

/** @typedef {keyof typeof REPLY_ENGLISH} ReplyWord */
/** @typedef {(word: ReplyWord, filled?: Record<string, string>) => string} ReplyTell */

/**
 * Make the function that turns the keys into words.
 * @param {Partial<Record<ReplyWord, string>>} translation
 * @returns {ReplyTell}
 */
export const replyTeller = (translation = {}) =>
  /** @type {any} */ (sayer(/** @type {any} */ ({ ...REPLY_ENGLISH, ...translation })));
