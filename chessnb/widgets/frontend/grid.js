// @ts-check
/**
 * The 64 squares as a grid of cells: what the keyboard and a screen reader find.
 *
 * One cell at a time can be reached with Tab; the arrow keys move the focus as
 * the board is seen, Enter or Space takes and puts, Escape puts back.
 */

import { INK } from "./pen.js";
import { squareName } from "./rules.js";

/**
 * @typedef {object} Cells
 * @property {string} name of the whole board
 * @property {(square: number) => string} label
 * @property {(square: number) => boolean} movable
 * @property {boolean} turned
 * @property {number} lifted
 * @property {number[]} targets
 * @property {string} [words] what else there is to know of the board
 */
/** @typedef {Pick<import("./hand.js").Tool, "press" | "putBack" | "key">} Keys what the keys do */

/** @type {Record<string, [number, number]>} */
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

export class Grid {
  /** @param {HTMLElement} parent @param {() => Keys} tool the one in use */
  constructor(parent, tool) {
    this.tool = tool;
    this.turned = false;
    /** The square with the one tab stop: e2, from where a game begins. */
    this.focused = 12;
    this.element = document.createElement("div");
    this.element.className = "squares";
    this.element.setAttribute("role", "grid");
    this.#cover();
    this.more = document.createElement("p");
    this.more.className = "heard-only";
    this.more.id = "more";
    parent.append(this.element, this.more);
    this.element.addEventListener("keydown", (event) => this.#key(event));
    this.element.addEventListener("focusin", (event) => {
      const square = this.squareOf(event.target);
      if (square >= 0) this.#rove(square);
    });
    /** @type {HTMLElement[]} the cells by place, from the top left */
    this.cells = this.#build();
  }

  /** Lie exactly over the drawing's squares. */
  #cover() {
    const { left, top, square, width, height } = INK.board;
    const percent = (/** @type {number} */ part, /** @type {number} */ whole) => `${(100 * part) / whole}%`;
    Object.assign(this.element.style, {
      left: percent(left, width),
      top: percent(top, height),
      width: percent(8 * square, width),
      height: percent(8 * square, height),
    });
  }

  #build() {
    return [0, 1, 2, 3, 4, 5, 6, 7].flatMap(() => {
      const row = document.createElement("div");
      row.setAttribute("role", "row");
      this.element.append(row);
      return [0, 1, 2, 3, 4, 5, 6, 7].map(() => {
        const cell = document.createElement("div");
        cell.setAttribute("role", "gridcell");
        row.append(cell);
        return cell;
      });
    });
  }

  /** @param {number} square @returns {HTMLElement} */
  cell(square) {
    return this.cells[(this.turned ? 63 - square : square) ^ 56];
  }

  /** @param {EventTarget | null} target @returns {number} the square of a cell, or -1 */
  squareOf(target) {
    const place = this.cells.indexOf(/** @type {HTMLElement} */ (target));
    if (place < 0) return -1;
    return this.turned ? 63 - (place ^ 56) : place ^ 56;
  }

  /** @param {Cells} cells */
  draw({ name, label, movable, turned, lifted, targets, words = "" }) {
    const had = this.cell(this.focused).matches(":focus");
    this.turned = turned;
    this.element.setAttribute("aria-label", name);
    this.more.textContent = words;
    if (words) this.element.setAttribute("aria-describedby", this.more.id);
    else this.element.removeAttribute("aria-describedby");
    for (let square = 0; square < 64; square++) {
      const cell = this.cell(square);
      cell.dataset.square = squareName(square);
      cell.setAttribute("aria-label", label(square));
      cell.classList.toggle("movable", movable(square));
      cell.classList.toggle("target", targets.includes(square));
      if (square === lifted) cell.setAttribute("aria-selected", "true");
      else cell.removeAttribute("aria-selected");
    }
    this.#rove(this.focused);
    if (had) this.cell(this.focused).focus({ preventScroll: true });
  }

  /** @param {number} square that Tab shall reach from now on */
  #rove(square) {
    this.focused = square;
    this.cells.forEach((cell) => (cell.tabIndex = -1));
    this.cell(square).tabIndex = 0;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const square = this.squareOf(event.target);
    if (square < 0 || event.altKey || event.metaKey) return;
    if (this.#act(event, square)) {
      event.preventDefault();
      event.stopPropagation();
    }
  }

  /** @param {KeyboardEvent} event @param {number} square @returns {boolean} whether the key meant something */
  #act(event, square) {
    if (event.key === "Enter" || event.key === " ") this.tool().press(square);
    else if (event.key === "Escape") return this.tool().putBack();
    else if (event.key in ARROWS) this.#step(square, ARROWS[event.key]);
    else if (event.key === "Home") this.#edge(square, 0, event.ctrlKey);
    else if (event.key === "End") this.#edge(square, 7, event.ctrlKey);
    else return !event.ctrlKey && Boolean(this.tool().key?.(square, event.key));
    return true;
  }

  /** @param {number} square @param {[number, number]} way as seen */
  #step(square, [right, up]) {
    const sign = this.turned ? -1 : 1;
    const file = Math.max(0, Math.min(7, (square & 7) + sign * right));
    const rank = Math.max(0, Math.min(7, (square >> 3) + sign * up));
    this.cell(rank * 8 + file).focus();
  }

  /** @param {number} square @param {number} column as seen @param {boolean} corner of the board, not of the row */
  #edge(square, column, corner) {
    const row = Math.floor(this.cells.indexOf(this.cell(square)) / 8);
    this.cells[8 * (corner ? column : row) + column].focus();
  }
}
