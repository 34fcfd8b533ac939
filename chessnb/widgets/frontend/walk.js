// @ts-check
/**
 * Where the reader stands, and the steps from there.
 *
 * To the board's view it looks like a conversation about one line: the way to
 * the position shown, and on along the moves that were visited last.
 */

import { without } from "./strokes.js";
import { isMain, movesTo, onwards, pathTo } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */
/** @typedef {import("./tree.js").Tree} Tree */
/** @typedef {import("./marks.js").Mark} Mark */

export class Walk {
  /** @param {Tree} tree @param {number} at the number of the position where it opens */
  constructor(tree, at) {
    this.tree = tree;
    this.current = tree.nodes[at] ?? tree.nodes[0];
    /** Where the lesson was left for a try, and the main line for a sideline. */
    this.lesson = this.current;
    this.main = nearestMain(this.current);
    for (const node of pathTo(this.current)) if (node.parent) node.parent.chosen = node;
    /** @type {Set<() => void>} */
    this.listeners = new Set();
    /** Asked where the lesson goes on, and hides how. */
    this.reveal = () => {};
    /** Told of a move by hand; true if it was taken as something else than a step. @type {(uci: string) => boolean} */
    this.instead = () => false;
    /** Asked to read a text; returns the number of the answer. @type {(text: string) => number} */
    this.read = () => 0;
    /** What is drawn, by the moves before it; it goes with the page. @type {Record<string, Mark[]>} */
    this.marks = {};
    this.trouble = "";
    /** @type {[]} nothing here waits for Python */
    this.waiting = [];
    this.deaf = false;
  }

  // -- as the board's view sees it ---------------------------------------------

  get line() {
    const moves = movesTo(this.current);
    const ply = moves.length;
    for (let next = onwards(this.current); next; next = onwards(next)) moves.push(next.uci);
    return { start: pathTo(this.current)[0].fen, last: "", moves, ply, marks: this.marks };
  }

  get state() {
    return { after: "", last: "", trouble: this.trouble };
  }

  get canGoOn() {
    const opens = this.tree.data.reveal === "so far" && this.current.hidden;
    return opens || onwards(this.current) !== undefined;
  }

  /** @param {number} ply */
  go(ply) {
    const path = pathTo(this.current);
    if (ply < path.length) return this.to(path[Math.max(0, ply)]);
    const next = onwards(this.current);
    const goesIntoLesson = this.current.hidden && this.tree.data.reveal === "so far";
    if (goesIntoLesson && (!next || next.own)) this.reveal();
    else if (next) this.to(next);
  }

  /** @param {string} uci a legal move */
  move(uci) {
    if (!this.instead(uci)) this.to(this.tree.follow(this.current, uci));
  }

  /** @param {string} text @returns {number} */
  typed(text) {
    return this.read(text);
  }

  /** @param {"draw" | "erase"} kind @param {Mark} mark */
  stroke(kind, mark) {
    const rest = without(this.marks[this.#place] ?? [], mark);
    this.draw(kind === "draw" ? [...rest, mark] : rest);
  }

  wipe() {
    this.draw([]);
  }

  /** @param {Mark[]} marks all that is drawn on the position shown */
  draw(marks) {
    this.marks = { ...this.marks, [this.#place]: marks };
    this.changed();
  }

  get #place() {
    return movesTo(this.current).join(" ");
  }

  // -- steps ---------------------------------------------------------------------

  /** @param {Node} node */
  to(node) {
    this.current = node;
    if (!node.own) this.lesson = node;
    if (isMain(node)) this.main = node;
    for (let at = node; at.parent; at = at.parent) at.parent.chosen = at;
    this.changed();
  }

  back() {
    if (this.current.parent) this.to(this.current.parent);
  }

  on() {
    this.go(pathTo(this.current).length);
  }

  /** Show another move instead of the one that led here. @param {1 | -1} step */
  beside(step) {
    const siblings = this.current.parent?.children ?? [];
    const next = siblings[siblings.indexOf(this.current) + step];
    if (next) this.to(next);
  }

  get canReturn() {
    return !isMain(this.current);
  }

  /** Go back to where the lesson was left, or from a sideline to where the main line was. */
  toLesson() {
    if (this.current.own) this.to(this.lesson);
    else if (!isMain(this.current)) this.to(this.main);
  }

  /** Follow the tree after it has changed. */
  refreshed() {
    const { merged } = this.tree;
    this.current = merged.get(this.current) ?? this.current;
    const leaves = /** @type {Node} */ (pathTo(this.current).filter((node) => !node.own).pop());
    if (pathTo(leaves).includes(this.lesson)) this.lesson = leaves;
    if (isMain(this.current)) this.main = this.current;
    this.changed();
  }

  changed() {
    for (const listener of [...this.listeners]) listener();
  }
}

/** @param {Node} node @returns {Node} the last position on the way to it that is on a main line */
export function nearestMain(node) {
  return isMain(node) || !node.parent ? node : nearestMain(node.parent);
}
