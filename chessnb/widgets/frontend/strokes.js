// @ts-check
/**
 * Pen strokes as values: which lie on each other, how they are typed, how they are said.
 *
 * The twin of `chessnb/widgets/strokes.py`.
 */

import { markWord } from "./words.js";

/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {import("./marks.js").Role} Role */
/** @typedef {import("./words.js").Say} Say */
/** @typedef {{line: Role, square: Role}} Roles what a line between squares means, and what a mark on one */

/** @param {Mark} one @param {Mark} other @returns {boolean} whether they lie on each other: lines do whatever they mean */
export const overlap = (one, other) =>
  one.square === other.square && (one.to ?? "") === (other.to ?? "") && (Boolean(one.to) || one.role === other.role);

/** @param {Mark[]} marks @param {Mark} mark @returns {Mark[]} */
export const without = (marks, mark) => marks.filter((other) => !overlap(other, mark));

/** @param {Mark[]} marks @param {Mark} mark @returns {boolean} whether just this mark is drawn */
export const isDrawn = (marks, mark) => marks.some((other) => overlap(other, mark) && other.role === mark.role);

/** @param {string} from @param {string} to @param {Roles} roles @returns {Mark} */
export const strokeOf = (from, to, roles) =>
  from === to ? { role: roles.square, square: from, to: null } : { role: roles.line, square: from, to };

const STROKE = /^([a-h][1-8])(?:\s*[-–‐>:]*\s*([a-h][1-8]))?$/;

/**
 * Read strokes as they are typed: "c3-f6" is a line, "f6" a mark on a square; more with commas between.
 * @param {string} text
 * @param {Roles} roles
 * @returns {Mark[]} none if any part cannot be read
 */
export function readStrokes(text, roles) {
  const parts = text.toLowerCase().split(/[,;]/).map((part) => part.trim()).filter(Boolean);
  const found = parts.map((part) => part.match(STROKE));
  return found.every((match) => match) ? found.map((match) => strokeOf(match?.[1] ?? "", match?.[2] ?? match?.[1] ?? "", roles)) : [];
}

/** @param {Mark} mark @param {Say} say @returns {string} such as "line of force from c3 to f6" */
export const strokeWords = ({ role, square, to }, say) => say(markWord(role), { square, to: to ?? "" });

/**
 * What has changed between two drawings, as a screen reader says it.
 * @param {Mark[]} before @param {Mark[]} after @param {Say} say
 * @returns {string} "" if nothing has
 */
export function strokeNews(before, after, say) {
  if (before.length > 1 && after.length === 0) return say("strokesWiped");
  const news = (/** @type {Mark[]} */ marks, /** @type {import("./words.js").Word} */ word) =>
    marks.map((mark) => say(word, { stroke: strokeWords(mark, say) }));
  const gone = before.filter((mark) => !after.some((other) => overlap(other, mark)));
  const drawn = after.filter((mark) => !isDrawn(before, mark));
  return [...news(drawn, "strokeDrawn"), ...news(gone, "strokeGone")].join(", ");
}
