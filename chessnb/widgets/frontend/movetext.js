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
 * @param {string} [letters] with which moves name the men
 * @returns {string}
 */
export function movetext(roots, letters = ENGLISH_LETTERS) {
  /** @type {string[]} */
  const html = [];
  for (const root of roots) {
    if (root.name) html.push(`<h4>${mark(root, root.name)}</h4>`);
    if (root.comment) html.push(`<p class="deep0 said">${escaped(root.comment)}</p>`);
    html.push(...lineFrom(root, 0, letters).map(({ deep, parts }) =>
      `<p class="deep${Math.min(deep, DEEPEST)}">${parts.join(" ")}</p>`));
  }
  return html.join("");
}

/** @param {Node} start the position that the line leaves from @param {number} deep @param {string} letters @returns {Paragraph[]} */
function lineFrom(start, deep, letters) {
  const children = start.children.filter((child) => !child.own);
  return children.length === 0 ? [] : lineOf(children[0], deep, [], letters);
}

/**
 * @param {Node} first
 * @param {number} deep
 * @param {string[]} opening what stands before its first move
 * @param {string} letters
 * @returns {Paragraph[]}
 */
function lineOf(first, deep, opening, letters) {
  /** @type {Paragraph[]} */
  const paragraphs = [{ deep, parts: opening }];
  let fresh = true;
  for (let node = /** @type {Node | undefined} */ (first); node; node = node.children.find((child) => !child.own)) {
    const { parts } = paragraphs[paragraphs.length - 1];
    parts.push(mark(node, printed(node, fresh, letters)));
    if (node.comment) parts.push(`<span class="said">${escaped(node.comment)}</span>`);
    fresh = node.comment !== "";
    const sidelines = besides(node);
    if (sidelines.length > 0) {
      for (const side of sidelines) {
        paragraphs.push(...lineOf(side, deep + 1, side.name ? [`<i>${escaped(side.name)}:</i>`] : [], letters));
      }
      if (node.children.some((child) => !child.own)) paragraphs.push({ deep, parts: [] });
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
