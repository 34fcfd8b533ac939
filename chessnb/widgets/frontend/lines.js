// @ts-check
/** Lines beside a board where there is no lesson to follow: all of them may be gone on along. */

import { Tree } from "./tree.js";
import { Walk } from "./walk.js";

/** @typedef {import("./tree.js").Node} Node */

export class Lines extends Walk {
  /**
   * @param {string} fen where they begin
   * @param {string[][]} lines UCI of their moves
   * @param {{after?: string, last?: string, name?: string}} [start] the move that led there, with its number
   *   in English letters and as UCI, or what the position is called
   */
  constructor(fen, lines, start = {}) {
    const tree = new Tree({
      key: "", title: "", reveal: "all", roots: { 0: { name: "", fen } }, nodes: [[-1, "", "", "", "", "", 0]],
    });
    for (const line of lines) {
      let node = tree.nodes[0];
      for (const uci of line) node = tree.follow(node, uci, true);
    }
    super(tree, 0);
    this.start = { after: "", last: "", name: "", ...start };
  }

  /** @returns {Node} where all lines begin */
  get root() {
    return this.tree.nodes[0];
  }

  get state() {
    return { ...this.start, trouble: this.trouble };
  }

  /** Every line leads on, one's own moves too. @returns {boolean} */
  leads() {
    return true;
  }
}
