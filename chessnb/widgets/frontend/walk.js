// @ts-check
/**
 * Where the reader stands, and the steps from there.
 *
 * To the board's view it looks like a conversation about one line: the way to
 * the position shown, and on along the moves that were visited last.  From a
 * position of the lesson that is the lesson, whatever was tried there; from a
 * try it is the try.
 */

import { without } from "./strokes.js";
import { isMain, movesTo, pathTo } from "./tree.js";

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
    this.choose(this.current);
    /** @type {Set<() => void>} */
    this.listeners = new Set();
    /** Says what a start is called in a caption. @type {(root: Node) => string} */
    this.nameStart = (root) => root.name;
    /** Asked where the lesson goes on, and hides how. */
    this.reveal = () => {};
    /** Told that the reader would go on where the lesson waits to be asked. */
    this.waits = () => {};
    /** Told of a move by hand; true if it was taken as something else than a step. @type {(uci: string) => boolean} */
    this.instead = () => false;
    /** Asked to read a text; returns the number of the answer. @type {(text: string) => number} */
    this.read = () => 0;
    /** What is drawn, by the moves before it; it goes with the page. @type {Record<string, Mark[]>} */
    this.marks = {};
    /** Shown for a moment in place of where the reader stands. @type {{node: Node, marks: Mark[]} | null} */
    this.peeked = null;
    this.trouble = "";
    /** @type {[]} nothing here waits for Python */
    this.waiting = [];
    this.deaf = false;
  }

  // -- as the board's view sees it ---------------------------------------------

  get line() {
    const current = this.peeked?.node ?? this.current;
    const moves = movesTo(current);
    const ply = moves.length;
    const marks = this.peeked ? { ...this.marks, [moves.join(" ")]: this.peeked.marks } : this.marks;
    for (let next = this.after(current); next; next = this.after(next)) moves.push(next.uci);
    return { start: pathTo(current)[0].fen, last: "", moves, ply, marks };
  }

  get state() {
    const current = this.peeked?.node ?? this.current;
    return { after: "", last: "", name: this.nameStart(pathTo(current)[0]), trouble: this.trouble };
  }

  get canGoOn() {
    return this.#opens || this.after(this.current) !== undefined;
  }

  /** @returns {boolean} whether going on has the lesson show its next move */
  get #opens() {
    return this.tree.data.reveal === "so far" && this.current.hidden;
  }

  /** @param {number} ply */
  go(ply) {
    const path = pathTo(this.current);
    if (ply < path.length) return this.to(path[Math.max(0, ply)]);
    const next = this.after(this.current);
    if (next) this.to(next);
    else if (this.#opens) this.reveal();
    else if (this.current.hidden) this.waits();
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

  /** @param {Node} node @returns {boolean} whether going on may lead to it: no try leads away from the lesson */
  leads(node) {
    return !node.own || node.parent?.own === true;
  }

  /** @param {Node} node @returns {Node | undefined} where its line goes on */
  after(node) {
    const { chosen, children } = node;
    return chosen && children.includes(chosen) && this.leads(chosen) ? chosen : children.find((child) => this.leads(child));
  }

  /** @param {Node} node */
  to(node) {
    this.peeked = null;
    this.current = node;
    if (!node.own) this.lesson = node;
    if (isMain(node)) this.main = node;
    this.choose(node);
    this.changed();
  }

  /** Have going on lead along the way to a node. @param {Node} node */
  choose(node) {
    for (let at = node; at.parent; at = at.parent) if (this.leads(at)) at.parent.chosen = at;
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
    this.choose(this.current);
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
