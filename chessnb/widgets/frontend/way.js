// @ts-check
/** The way back: where the line that is shown has left others, and the first move of each sideline. */

import { isMain, pathTo } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */

/**
 * The stations of the way to a position, the lesson's main line first.
 *
 * @param {Node} node
 * @returns {Node[]} positions to go back to; empty on a main line; the last is the node itself
 */
export function wayTo(node) {
  if (isMain(node)) return [];
  /** @type {Node[]} */
  const stations = [];
  for (const step of pathTo(node).slice(1)) {
    const parent = /** @type {Node} */ (step.parent);
    const leaves = step.own ? !parent.own : parent.children[0] !== step;
    if (leaves) stations.push(parent, step);
  }
  return [...new Set([...stations, node])];
}
