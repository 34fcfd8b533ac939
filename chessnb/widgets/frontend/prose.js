// @ts-check
/**
 * The text of a page: paragraphs that are shown on its board.
 *
 * Pointing at one (with the mouse, or by the focus) draws its marks there for
 * as long; choosing one stays there, with its line to go on along.
 */

import { element } from "./elements.js";
import { bound, saidIn } from "./letters.js";

/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {{root: number, fen: string, line: string[], from: number, at: number, marks: Mark[]}} Play */
/** @typedef {{kind: string, head: string, text: string, known: string, play: Play | null, items: Said[], card: string}} Said */
/**
 * @typedef {object} Acts
 * @property {(play: Play) => void} point
 * @property {() => void} leave
 * @property {(play: Play) => void} choose
 * @property {() => string} letters
 */

/** @param {Said[]} paragraphs @param {Acts} acts @returns {HTMLElement[]} */
export const prose = (paragraphs, acts) => paragraphs.flatMap((said) => paragraph(said, acts, 0));

/** @param {Said} said @param {Acts} acts @param {number} deep @returns {HTMLElement[]} */
function paragraph(said, acts, deep) {
  const set = (/** @type {string} */ text) => bound(saidIn(text, acts.letters()));
  const parts = [];
  if (said.head) parts.push(element("b", "head", set(said.head)), " ");
  if (said.text) parts.push(element("span", "", set(said.text)));
  if (said.known) parts.push(" ", element("span", "known", said.known));
  const made = [];
  if (parts.length) {
    const shown = element("p", `said of-${said.kind} deep${Math.min(3, deep)}`, ...parts);
    if (said.play) lead(shown, said.play, acts);
    made.push(shown);
  }
  if (said.card) {
    const card = element("div", "card");
    card.innerHTML = said.card; // made and escaped by Python, as in the still page
    made.push(card);
  }
  return [...made, ...said.items.flatMap((item) => paragraph(item, acts, deep + 1))];
}

/** Have a paragraph lead to the board. @param {HTMLElement} shown @param {Play} play @param {Acts} acts */
function lead(shown, play, acts) {
  shown.classList.add("leads");
  shown.tabIndex = 0;
  shown.setAttribute("role", "button");
  shown.addEventListener("pointerenter", (event) => {
    if (event.pointerType === "mouse") acts.point(play);
  });
  shown.addEventListener("pointerleave", () => acts.leave());
  shown.addEventListener("focus", () => {
    if (shown.matches(":focus-visible")) acts.point(play);
  });
  shown.addEventListener("blur", () => acts.leave());
  const choose = () => {
    for (const other of shown.parentElement?.querySelectorAll(".chosen") ?? []) other.classList.remove("chosen");
    shown.classList.add("chosen");
    acts.choose(play);
  };
  shown.addEventListener("click", choose);
  shown.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    event.preventDefault();
    event.stopPropagation();
    choose();
  });
}
