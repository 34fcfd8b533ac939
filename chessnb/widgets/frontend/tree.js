// @ts-check
/**
 * The lesson's trees as far as they are revealed, and the reader's own layer on them.
 *
 * Lesson positions come from Python and have numbers.  The reader's own moves
 * hang on them, never among them: `own` nodes are tries, and those of them that
 * are `shown` are the lines with which Python answered.
 */

import { ENGLISH_LETTERS, inLetters } from "./letters.js";
import { legalMove, sanOf } from "./notation.js";
import { moveOf, play, readFen } from "./rules.js";

/** @typedef {import("./rules.js").Position} Position */
/** @typedef {{kind: string, sentence: string, line?: string[], written?: string, right?: boolean}} Answer */
/**
 * @typedef {object} Node
 * @property {number} number of a lesson position, -1 for one's own
 * @property {Node | null} parent
 * @property {string} uci
 * @property {string} san
 * @property {string} glyphs
 * @property {string} name of the sideline or try that it begins, or of a root's position
 * @property {string} comment
 * @property {boolean} hidden whether the lesson goes on, and does not show how
 * @property {boolean} own
 * @property {boolean} shown whether it belongs to a line with which Python answered
 * @property {Answer | null} answer
 * @property {Node[]} children the lesson's first
 * @property {Node | null} chosen the child that was visited last
 * @property {string} fen of a root
 * @property {Position | null} position once it was needed
 */
/** @typedef {[number, string, string, string, string, string, number]} Row as `RevealedTree.data` writes it */
/**
 * @typedef {object} Data
 * @property {string} key
 * @property {string} title
 * @property {"all" | "so far" | "ask"} reveal
 * @property {Record<string, {name: string, fen: string}>} roots
 * @property {Row[]} nodes
 */

/** @param {Partial<Node>} given @returns {Node} */
const nodeOf = (given) => ({
  number: -1, parent: null, uci: "", san: "", glyphs: "", name: "", comment: "", hidden: false, own: false,
  shown: false, answer: null, children: [], chosen: null, fen: "", position: null, ...given,
});

export class Tree {
  /** @param {Data} data */
  constructor(data) {
    this.data = data;
    /** @type {Node[]} the lesson's positions by number */
    this.nodes = [];
    /** @type {Map<Node, Node>} own nodes that became the lesson's, and what they became */
    this.merged = new Map();
    this.update(data);
  }

  /** @returns {Node[]} */
  get roots() {
    return this.nodes.filter((node) => node.parent === null);
  }

  /**
   * Take over what Python reveals; what is known keeps its identity.
   * @param {Data} data
   */
  update(data) {
    this.data = data;
    data.nodes.forEach(([up, uci, san, glyphs, name, comment, hidden], number) => {
      const known = this.nodes[number];
      if (known) Object.assign(known, { glyphs, name: known.parent ? name : known.name, comment, hidden: Boolean(hidden) });
      else this.#add(number, up, { uci, san, glyphs, name, comment, hidden: Boolean(hidden) });
    });
  }

  /** @param {number} number @param {number} up @param {Partial<Node>} given */
  #add(number, up, given) {
    const parent = up < 0 ? null : this.nodes[up];
    const node = nodeOf({ ...given, number, parent });
    this.nodes[number] = node;
    if (parent === null) return void Object.assign(node, this.data.roots[String(number)]);
    const twin = parent.children.find((child) => child.own && child.uci === node.uci);
    const lesson = parent.children.filter((child) => !child.own);
    const own = parent.children.filter((child) => child.own && child !== twin);
    parent.children = [...lesson, node, ...own];
    if (twin) this.#merge(twin, node);
  }

  /** A try turns out to be the lesson's: what follows it stays one's own. @param {Node} twin @param {Node} node */
  #merge(twin, node) {
    node.children = twin.children;
    for (const child of node.children) child.parent = node;
    node.position = twin.position;
    node.chosen = twin.chosen;
    if (twin.parent?.chosen === twin) twin.parent.chosen = node;
    this.merged.set(twin, node);
  }

  // -- one's own layer --------------------------------------------------------

  /** @returns {Node[]} the first moves of all tries, in the order of the lesson */
  get tries() {
    return this.nodes.flatMap((node) => node.children.filter((child) => child.own && !child.shown));
  }

  /**
   * Follow a move, or try it if nobody has played it here.
   * @param {Node} parent
   * @param {string} uci a legal move
   * @param {boolean} [shown] whether it belongs to an answer
   * @returns {Node}
   */
  follow(parent, uci, shown = false) {
    const known = parent.children.find((child) => child.uci === uci);
    if (known) {
      if (!shown) for (let up = /** @type {Node | null} */ (known); up?.shown; up = up.parent) up.shown = false;
      return known;
    }
    const san = sanOf(positionAt(parent), moveOf(uci));
    const node = nodeOf({ parent, uci, san, own: true, shown });
    parent.children.push(node);
    for (let up = /** @type {Node | null} */ (parent); !shown && up?.shown; up = up.parent) up.shown = false;
    return node;
  }

  /** Take an answer, and hang its line on the move. @param {Node} node @param {Answer} answer */
  answer(node, answer) {
    node.answer = answer;
    let end = node;
    for (const uci of (answer.line ?? []).slice(1)) {
      if (!legalMove(positionAt(end), uci)) return;
      end = this.follow(end, uci, true);
    }
  }

  /** Take away a move of one's own and all that follows it. @param {Node} node */
  remove(node) {
    if (!node.own || !node.parent) return;
    node.parent.children = node.parent.children.filter((child) => child !== node);
    if (node.parent.chosen === node) node.parent.chosen = null;
  }
}

/** @param {Node} node @returns {Node[]} from the root to the node */
export function pathTo(node) {
  const path = [];
  for (let up = /** @type {Node | null} */ (node); up; up = up.parent) path.unshift(up);
  return path;
}

/** @param {Node} node @returns {string[]} the moves that lead to it */
export const movesTo = (node) => pathTo(node).slice(1).map((step) => step.uci);

/** @param {Node} node @returns {Position} */
export function positionAt(node) {
  node.position ??= node.parent ? play(positionAt(node.parent), moveOf(node.uci)) : readFen(node.fen);
  return node.position;
}

/** @param {Node} node @returns {boolean} whether it lies on a main line */
export const isMain = (node) => !node.own && (node.parent === null || (node.parent.children[0] === node && isMain(node.parent)));

/** @param {Node} node @returns {string} the number before its move: "14." or "14..." */
export function numberOf(node) {
  const before = positionAt(/** @type {Node} */ (node.parent));
  return `${before.full}${before.turn === "w" ? "." : "..."}`;
}

/** @param {Node} node @param {string} [letters] @returns {string} its move as a caption names it; the name of a root */
export const nameOfNode = (node, letters = ENGLISH_LETTERS) =>
  node.parent ? `${numberOf(node)} ${inLetters(node.san, letters)}` : node.name;

/** @param {Tree} tree @returns {Node[]} the moves of all tries that have no answer, in the order of the lesson */
export function unanswered(tree) {
  /** @type {(node: Node) => Node[]} */
  const below = (node) => node.children.filter((child) => child.own).flatMap((child) => [child, ...below(child)]);
  return tree.tries.flatMap((first) => [first, ...below(first)]).filter((node) => !node.shown && !node.answer);
}

/** @param {Node} node @returns {Node} the first move of the try that a node of one's own belongs to */
export const tryOf = (node) => (node.parent?.own ? tryOf(node.parent) : node);
