// @ts-check
/** The field: the diagram's drawing, come alive.  It shows; it decides nothing. */

import { overPieces, underPieces } from "./marks.js";
import { INK, Pen } from "./pen.js";
import { PIECES, events, ground, hatch, keyOf, pieces, outlines, sideToMove } from "./svg.js";

/** @typedef {import("./rules.js").Position} Position */
/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {{from: number, to: number}} Way */
/** @typedef {{square: number, x: number, y: number}} Place a square (-1 outside the board) and a place, in units */
/**
 * @typedef {object} Picture
 * @property {Position} position
 * @property {Way | null} lastMove
 * @property {boolean} turned
 * @property {number} lifted the square whose piece is in hand, or -1
 * @property {number[]} targets where it may go
 * @property {Mark[]} marks what is drawn
 * @property {number} begun the square where a stroke begins, or -1
 */

const GLIDE_MS = 120;
const LAYERS = ["ground", "turn", "events", "under", "pieces", "over", "draft", "carets", "afloat"];

/** One drawing of a board. */
export class Field {
  /** @param {HTMLElement} parent */
  constructor(parent) {
    const { width, height } = INK.board;
    parent.insertAdjacentHTML("afterbegin",
      `<svg viewBox="0 0 ${width} ${height}" aria-hidden="true" focusable="false"><defs></defs>` +
      `<g stroke-linecap="round" stroke-linejoin="round">` +
      `${LAYERS.map((layer) => `<g data-layer="${layer}"></g>`).join("")}</g></svg>`);
    this.svg = /** @type {SVGSVGElement} */ (parent.querySelector("svg"));
    this.pen = new Pen("auto", false);
    /** @type {Map<string, string>} what each layer holds, so that only changes are drawn */
    this.drawn = new Map();
    /** @type {SVGElement} */ (this.svg.querySelector("defs")).innerHTML = hatch(this.pen) + outlines(this.pen, PIECES);
  }

  /** @param {Picture} picture */
  draw({ position, lastMove, turned, lifted, targets, marks, begun }) {
    this.pen = new Pen("auto", turned);
    this.#fill("ground", ground(this.pen));
    this.#fill("turn", sideToMove(this.pen, position.turn));
    this.#fill("events", events(this.pen, position, lastMove) + (lifted < 0 ? "" : this.#stand(lifted)));
    this.#fill("under", underPieces(this.pen, marks));
    this.#fill("pieces", pieces(this.pen, position.squares));
    this.#fill("over", overPieces(this.pen, marks));
    this.#fill("draft", begun < 0 ? "" : this.#nib(begun));
    this.#fill("carets", targets.map((square) => this.#caret(square)).join(""));
    this.place(lifted, 0, lifted < 0 ? 0 : -3);
  }

  /** @param {string} layer @param {string} markup */
  #fill(layer, markup) {
    if (this.drawn.get(layer) === markup) return;
    this.drawn.set(layer, markup);
    /** @type {SVGElement} */ (this.svg.querySelector(`[data-layer="${layer}"]`)).innerHTML = markup;
  }

  /** @param {string} piece one that is on no square yet, "" for none @param {Place | null} place under the pointer */
  float(piece, place) {
    const half = INK.board.square / 2;
    const at = place && `x="${place.x - half}" y="${place.y - half}"`;
    this.#fill("afloat", at ? `<use href="#${this.pen.name(keyOf(piece))}" ${at}/>` : "");
  }

  /** @param {Mark | null} mark a stroke that the pen is making @returns {void} */
  draft(mark) {
    this.#fill("draft", mark ? underPieces(this.pen, [mark]) + overPieces(this.pen, [mark]) : "");
  }

  /** @param {number} square @returns {string} where the pen was put down */
  #nib(square) {
    const [x, y] = this.pen.middle(square);
    return `<circle class="nib" cx="${x}" cy="${y}" r="5"/>`;
  }

  /** @param {number} square @returns {string} where a piece stood that is in hand */
  #stand(square) {
    const [x, y] = this.pen.middle(square);
    return `<ellipse class="stand" cx="${x}" cy="${y + 18}" rx="15" ry="2.8"/>`;
  }

  /** @param {number} square @returns {string} a proof-reader's caret: "may be put in here" */
  #caret(square) {
    const [x, y] = this.pen.middle(square);
    const path = `M${x - 6} ${y + 19}L${x} ${y + 12}L${x + 6} ${y + 19}`;
    return `<path class="caret rim" d="${path}"/><path class="caret" d="${path}"/>`;
  }

  /** @param {number} square @returns {SVGUseElement | undefined} the drawing of the piece there */
  #pieceOn(square) {
    const [x, y] = this.pen.corner(square);
    const all = /** @type {NodeListOf<SVGUseElement>} */ (this.svg.querySelectorAll('[data-layer="pieces"] use'));
    return [...all].find((use) => use.getAttribute("x") === String(x) && use.getAttribute("y") === String(y));
  }

  /**
   * Hold one piece away from its square, and all others on theirs.
   * @param {number} square of the piece, or -1
   * @param {number} right in units
   * @param {number} down in units
   */
  place(square, right, down) {
    for (const use of this.svg.querySelectorAll("use[transform]")) use.removeAttribute("transform");
    if (square < 0) return;
    const piece = this.#pieceOn(square);
    if (piece === undefined) return;
    piece.setAttribute("transform", `translate(${right} ${down})`);
    if (piece.nextSibling) piece.parentNode?.append(piece); // over all others
  }

  /** @param {Way[]} ways pieces that came from a square to another */
  glide(ways) {
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) return;
    for (const { from, to } of ways) {
      const [x1, y1] = this.pen.corner(from);
      const [x2, y2] = this.pen.corner(to);
      this.#pieceOn(to)?.animate(
        [{ transform: `translate(${x1 - x2}px, ${y1 - y2}px)` }, { transform: "none" }],
        { duration: GLIDE_MS, easing: "ease-out" });
    }
  }

  /**
   * @param {number} clientX
   * @param {number} clientY
   * @returns {Place}
   */
  at(clientX, clientY) {
    const box = this.svg.getBoundingClientRect();
    const { left, top, width, square: side } = INK.board;
    const scale = width / box.width;
    const [x, y] = [(clientX - box.left) * scale, (clientY - box.top) * scale];
    const [column, row] = [Math.floor((x - left) / side), Math.floor((y - top) / side)];
    const seen = column < 0 || column > 7 || row < 0 || row > 7 ? -1 : (7 - row) * 8 + column;
    return { square: seen < 0 || !this.pen.turned ? seen : 63 - seen, x, y };
  }
}
