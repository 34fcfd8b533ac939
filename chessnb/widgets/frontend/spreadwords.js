// @ts-check
/** The page's own words, beside those of the board and the explorer; a translation may hold them all. */

import { sayer } from "./words.js";

export const SPREAD_ENGLISH = {
  yourMove: "your move",
  showAnswer: "show the answer",
  tellMove: "next",
  tryAgain: "try again",
  nextMove: "next: {move}",
  playOn: "play on",
  toPosition: "back to the position",
  tools: "tools",
  tried: "Tried:",
  fullScreen: "full screen",
  leaveFullScreen: "leave full screen",
  boardLeft: "board left",
  boardRight: "board right",
  hallKeys: "Page Down goes on and shows the answer, Page Up goes back, as the arrows to the sides do; the arrows up and down move the text; C candidates, J checks them, B marks where we stop, S moves the board to the other side, Escape leaves.",
  boardTools: "the board",
  moveTools: "the moves",
  theText: "What is told of the position",
  waiting: "Python has not answered yet. Run the cell again if it does not.",
};

/** @typedef {keyof typeof SPREAD_ENGLISH} SpreadWord */
/** @typedef {(word: SpreadWord, filled?: Record<string, string>) => string} SpreadTell */

/**
 * Make the function that turns the page's keys into words.
 * @param {Partial<Record<SpreadWord, string>>} translation
 * @returns {SpreadTell}
 */
export const spreadTeller = (translation = {}) =>
  /** @type {any} */ (sayer(/** @type {any} */ ({ ...SPREAD_ENGLISH, ...translation })));
