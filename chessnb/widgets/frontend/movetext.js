// @ts-check
/**
 * The movetext of the revealed lesson, as a book sets it.
 *
 * The main line runs on; after a move that has sidelines the text breaks off,
 * each sideline follows as an indented paragraph, and the line is taken up again.
 */

import { ENGLISH_LETTERS, inLetters } from "./letters.js";
import { escaped } from "./svg.js";
import { positionAt } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */

/** Deeper sidelines are not indented any further. */
const DEEPEST = 4;

/**
 * @typedef {object} Paragraph
 * @property {number} deep 0 for a main line
 * @property {string[]} parts marked up
 */

/**
 * The lesson's movetext as HTML.
 * @param {Node[]} roots
 * @param {string} [letters] with which moves name the pieces
 * @param {Node | null} [until] a position that is asked about: what follows it is left out, and what is said of it
 * @returns {string}
 */
export function movetext(roots, letters = ENGLISH_LETTERS, until = null) {
  /** @type {string[]} */
  const html = [];
  for (const root of roots) {
    if (root.name) html.push(`<h4>${mark(root, root.name)}</h4>`);
    if (root.comment && root !== until) html.push(`<p class="deep0 said">${escaped(root.comment)}</p>`);
    html.push(...lineFrom(root, 0, { letters, until }).map(({ deep, parts }) =>
      `<p class="deep${Math.min(deep, DEEPEST)}">${parts.join(" ")}</p>`));
  }
  return html.join("");
}

/** @typedef {{letters: string, until: Node | null}} Printing */

/** @param {Node} node @param {Printing} printing @returns {Node[]} the lesson's moves after it that are printed */
const following = (node, { until }) => (node === until ? [] : node.children.filter((child) => !child.own));

/** @param {Node} start the position that the line leaves from @param {number} deep @param {Printing} printing @returns {Paragraph[]} */
function lineFrom(start, deep, printing) {
  const [first] = following(start, printing);
  return first ? lineOf(first, deep, [], printing) : [];
}

/**
 * @param {Node} first
 * @param {number} deep
 * @param {string[]} opening what stands before its first move
 * @param {Printing} printing
 * @returns {Paragraph[]}
 */
function lineOf(first, deep, opening, printing) {
  /** @type {Paragraph[]} */
  const paragraphs = [{ deep, parts: opening }];
  let fresh = true;
  for (let node = /** @type {Node | undefined} */ (first); node; [node] = following(node, printing)) {
    const { parts } = paragraphs[paragraphs.length - 1];
    parts.push(mark(node, printed(node, fresh, printing.letters)));
    const { comment } = node === printing.until ? { comment: "" } : node;
    if (comment) parts.push(`<span class="said">${escaped(comment)}</span>`);
    fresh = comment !== "";
    const sidelines = besides(node);
    if (sidelines.length > 0) {
      for (const side of sidelines) {
        paragraphs.push(...lineOf(side, deep + 1, side.name ? [`<i>${escaped(side.name)}:</i>`] : [], printing));
      }
      if (following(node, printing).length > 0) paragraphs.push({ deep, parts: [] });
      fresh = true;
    }
  }
  return paragraphs;
}

/** @param {Node} node @returns {Node[]} the lesson's sidelines that begin instead of its move */
const besides = (node) => {
  const lesson = node.parent?.children.filter((child) => !child.own) ?? [];
  return lesson[0] === node ? lesson.slice(1) : [];
};

/**
 * A move with what is printed around it.
 * @param {Node} node
 * @param {boolean} fresh whether the number is due even before a move of Black's
 * @param {string} [letters]
 * @returns {string}
 */
export function printed(node, fresh, letters = ENGLISH_LETTERS) {
  const { full, turn } = positionAt(/** @type {Node} */ (node.parent));
  const number = turn === "w" ? `${full}. ` : fresh ? `${full}... ` : "";
  const signs = /^[!?]*$/.test(node.glyphs) ? node.glyphs : ` ${node.glyphs}`;
  return number + inLetters(node.san, letters) + signs;
}

/** @param {Node} node @param {string} text @returns {string} a move that can be gone to */
const mark = (node, text) =>
  `<button type="button" class="move" tabindex="-1" data-number="${node.number}">${escaped(text).replace(" ", "&nbsp;")}</button>`;
