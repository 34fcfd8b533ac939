// @ts-check
/** The words of a question, beside those of the board; a translation may hold both. */

import { sayer } from "./words.js";

export const QUESTION_ENGLISH = {
  answer: "answer",
  yourAnswer: "your answer",
  hint: "give me a hint",
  lastHint: "no more hints",
  solution: "show the answer",
  looking: "Looking …",
  earned: "{earned} of {points}",
  backToQuestion: "back to the question",
};

/** @typedef {keyof typeof QUESTION_ENGLISH} QuestionWord */
/** @typedef {(word: QuestionWord, filled?: Record<string, string>) => string} QuestionTell */

/**
 * Make the function that turns the keys into words.
 * @param {Partial<Record<QuestionWord, string>>} translation
 * @returns {QuestionTell}
 */
export const questionTeller = (translation = {}) =>
  /** @type {any} */ (sayer(/** @type {any} */ ({ ...QUESTION_ENGLISH, ...translation })));
