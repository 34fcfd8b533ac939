// @ts-check
/** The words of the live chart, beside those of the board; a translation may hold both. */

import { sayer } from "./words.js";

export const CHART_ENGLISH = {
  chooseMoment: "{title}: choose a position",
  here: "After {address}: {values}",
  atStart: "At the start: {values}",
  oneValue: "{value} ({name})",
  valueOf: "{name} {value}",
  numbers: "the numbers",
  after: "after",
  chartStart: "start",
  offTheLine: "The board has left the game; choose a point to go back to it.",
};

/** @typedef {keyof typeof CHART_ENGLISH} ChartWord */
/** @typedef {(word: ChartWord, filled?: Record<string, string>) => string} ChartTell */

/**
 * Make the function that turns the keys into words.
 * @param {Partial<Record<ChartWord, string>>} translation
 * @returns {ChartTell}
 */
export const chartTeller = (translation = {}) =>
  /** @type {any} */ (sayer(/** @type {any} */ ({ ...CHART_ENGLISH, ...translation })));
