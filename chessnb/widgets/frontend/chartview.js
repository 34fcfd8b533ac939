// @ts-check
/**
 * A chart on a page, and the board that its points lead to.
 *
 * The chart is one slider over the positions: a step of it shows the next
 * one, and a screen reader hears move and values.  The numbers below are
 * the same points as words to press.
 */

import { element, word } from "./elements.js";
import { Figure } from "./figure.js";
import { inLetters } from "./letters.js";
import { Lines } from "./lines.js";
import { nearest } from "./nearest.js";

/** @typedef {import("./tree.js").Node} Node */
/** @typedef {{address: string, move: string, values: number[], place: number[]}} Point */
/**
 * @typedef {object} Table
 * @property {string} fen of the first point
 * @property {string} title
 * @property {string} summary
 * @property {string[]} names of the lines
 * @property {[number, number]} size of the drawing
 * @property {string} svg
 * @property {Point[]} points
 */

/** So many points are a page of the keyboard. */
const PAGE = 10;

export class ChartView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./words.js").Say} parts.say
   * @param {import("./chartwords.js").ChartTell} parts.tell
   * @param {HTMLElement} parts.whole where to draw, empty
   */
  constructor({ model, say, tell, whole }) {
    this.tell = tell;
    this.letters = model.get("piece_letters");
    /** @type {Table} */
    this.table = model.get("table");
    this.walk = new Lines(this.table.fen, [this.table.points.slice(1).map(({ move }) => move)], this.#start());
    /** @type {Node[]} the position of each point */
    this.nodes = [this.walk.root];
    for (const { move } of this.table.points.slice(1)) {
      this.nodes.push(this.walk.tree.follow(this.nodes[this.nodes.length - 1], move, true));
    }
    const figure = element("figure", "");
    this.chart = this.#slider();
    this.here = element("p", "status");
    this.left = element("p", "soft");
    const title = this.table.title[0].toUpperCase() + this.table.title.slice(1);
    whole.append(figure, element("div", "column", element("h4", "", title),
      element("p", "", `${this.table.summary[0].toUpperCase()}${this.table.summary.slice(1)}.`),
      this.chart, this.here, this.left, this.#numbers()));
    this.board = new Figure({ model, walk: this.walk, say, figure });
    this.walk.listeners.add(() => this.moved());
    this.moved();
  }

  /** @returns {{after?: string, name?: string}} what the first position is called */
  #start() {
    const { address } = this.table.points[0];
    if (/^\d/.test(address)) return { after: address };
    return { name: address === "start" ? this.tell("chartStart") : address };
  }

  /** @param {number} index of the point to show */
  go(index) {
    const { points } = this.table;
    const end = this.nodes[points.length - 1];
    // Going on leads along the game again, whatever was tried beside it.
    this.walk.choose(end);
    const node = this.nodes[Math.max(0, Math.min(index, points.length - 1))];
    this.walk.current = node;
    this.walk.changed();
  }

  /** @returns {number} the point that is shown, or that the board has left */
  get at() {
    for (let node = /** @type {Node | null} */ (this.walk.current); node; node = node.parent) {
      const index = this.nodes.indexOf(node);
      if (index >= 0) return index;
    }
    return 0;
  }

  // -- the slider ----------------------------------------------------------------

  #slider() {
    const { title, svg, points } = this.table;
    const chart = element("div", "chart");
    chart.innerHTML = svg;
    const drawing = /** @type {SVGElement} */ (chart.querySelector("svg"));
    // The room around it knows the two inks; the drawing's own sheet follows the system alone.
    drawing.querySelector("style")?.remove();
    drawing.querySelector("title")?.remove();
    drawing.setAttribute("aria-hidden", "true");
    const [, ...heights] = points[0].place;
    drawing.insertAdjacentHTML("beforeend", `<path class="here"/>${heights.map(() => `<circle class="at" r="4.5"/>`).join("")}`);
    for (const [name, value] of Object.entries({
      role: "slider", tabindex: "0", "aria-label": this.tell("chooseMoment", { title }), "aria-orientation": "horizontal",
      "aria-valuemin": "0", "aria-valuemax": String(points.length - 1),
    })) chart.setAttribute(name, value);
    chart.addEventListener("keydown", (event) => this.#key(event));
    chart.addEventListener("pointerdown", (event) => {
      if (event.button !== 0 || !event.isPrimary) return;
      chart.setPointerCapture(event.pointerId);
      this.#point(event);
    });
    chart.addEventListener("pointermove", (event) => {
      if (chart.hasPointerCapture(event.pointerId)) this.#point(event);
    });
    return chart;
  }

  /** @param {PointerEvent} event */
  #point(event) {
    const box = this.chart.getBoundingClientRect();
    const index = nearest(this.table.points, ((event.clientX - box.left) * this.table.size[0]) / box.width);
    if (this.walk.current !== this.nodes[index]) this.go(index);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { at } = this;
    /** @type {Record<string, number>} */
    const to = {
      ArrowRight: at + 1, ArrowUp: at + 1, ArrowLeft: at - 1, ArrowDown: at - 1, Enter: at, " ": at,
      PageUp: at + PAGE, PageDown: at - PAGE, Home: 0, End: this.table.points.length - 1,
    };
    if (!(event.key in to)) return;
    event.preventDefault();
    event.stopPropagation();
    this.go(to[event.key]);
  }

  /** @param {number} value @returns {string} with its sign, where some are below 0 */
  signed(value) {
    if (value < 0) return `−${-value}`;
    return value > 0 && this.table.points.some(({ values }) => values.some((other) => other < 0)) ? `+${value}` : String(value);
  }

  // -- the words -------------------------------------------------------------------

  /** @param {Point} point @returns {string} its position, in the reader's letters */
  #name({ address }) {
    return address === "start" ? this.tell("chartStart") : inLetters(address, this.letters);
  }

  /** @param {Point} point */
  #words(point) {
    const { names } = this.table;
    const word = names.length > 1 ? "valueOf" : "oneValue";
    const values = point.values.map((value, line) => this.tell(word, { name: names[line], value: this.signed(value) })).join(", ");
    if (point.address === "start") return this.tell("atStart", { values });
    return this.tell("here", { address: this.#name(point), values });
  }

  #numbers() {
    const { names, points } = this.table;
    const head = element("tr", "", ...[this.tell("after"), ...names].map((name) => {
      const cell = element("th", "", name);
      cell.scope = "col";
      return cell;
    }));
    this.rows = points.map((point, index) => {
      const name = word(this.#name(point), () => this.go(index), "point");
      name.className = "move";
      return element("tr", "", element("td", "", name), ...point.values.map((value) => element("td", "", this.signed(value))));
    });
    const table = element("table", "", element("thead", "", head), element("tbody", "", ...this.rows));
    const details = element("details", "", element("summary", "", this.tell("numbers")), element("div", "numbers", table));
    details.addEventListener("toggle", () => this.#bringUp());
    return details;
  }

  /** Show where the reader stands. */
  moved() {
    this.board.update();
    const { at } = this;
    const point = this.table.points[at];
    const left = this.walk.current !== this.nodes[at];
    const text = this.#words(point);
    this.chart.setAttribute("aria-valuenow", String(at));
    this.chart.setAttribute("aria-valuetext", text);
    this.chart.classList.toggle("left", left);
    this.here.textContent = text;
    this.left.textContent = left ? this.tell("offTheLine") : "";
    const [x, ...heights] = point.place;
    const find = (/** @type {string} */ name) => /** @type {SVGElement[]} */ ([...this.chart.querySelectorAll(name)]);
    find(".here")[0].setAttribute("d", `M${x} 4V${this.table.size[1] - 20}`);
    find(".at").forEach((circle, line) => {
      circle.setAttribute("cx", String(x));
      circle.setAttribute("cy", String(heights[line]));
    });
    this.rows?.forEach((row, index) => {
      const name = /** @type {HTMLElement} */ (row.querySelector(".move"));
      name.classList.toggle("current", index === at && !left);
      if (index === at && !left) name.setAttribute("aria-current", "true");
      else name.removeAttribute("aria-current");
    });
    this.#bringUp();
  }

  /** Keep the row of the position in sight among the numbers, without moving the page. */
  #bringUp() {
    const list = /** @type {HTMLElement | null | undefined} */ (this.rows?.[0].closest(".numbers"));
    const row = this.rows?.[this.at];
    if (!list || !row || !list.clientHeight) return;
    const [box, seen] = [row.getBoundingClientRect(), list.getBoundingClientRect()];
    if (box.top < seen.top || box.bottom + 6 > seen.bottom) list.scrollTop += box.top - seen.top - seen.height / 3;
  }

  close() {
    this.board.close();
  }
}
