// @ts-check
/** What stands beside a position: what its move changed, tactics, and on request threats and facts. */

import { element, word } from "./elements.js";
import { saidIn } from "./letters.js";
import { movesTo, pathTo } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */
/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {{motif: string, sentence: string, gain: string, marks: Mark[]}} Tag */

/** So long a reader rests on a position before Python is asked about it; in milliseconds. */
const REST_MS = 250;

/** @param {Node} node @returns {{root: number, line: string}} a position as Python is told of it */
export const placeOf = (node) => ({ root: pathTo(node)[0].number, line: movesTo(node).join(" ") });

export class Beside {
  /**
   * @param {HTMLElement} parent
   * @param {object} parts
   * @param {import("./explorerwords.js").Tell} parts.tell
   * @param {import("./asking.js").Questions} parts.questions
   * @param {(marks: Mark[]) => void} parts.draw
   * @param {() => string} parts.letters with which moves name the pieces
   */
  constructor(parent, { tell, questions, draw, letters }) {
    this.letters = letters;
    this.tell = tell;
    this.questions = questions;
    this.draw = draw;
    /** @type {Map<string, string[] | Tag[]>} what was told, by kind and position */
    this.told = new Map();
    this.changes = element("p", "changes");
    this.tags = element("div", "tags");
    this.found = element("div", "found");
    this.found.setAttribute("role", "status");
    const words = element("div", "words",
      word(tell("threatened"), () => this.#request("threat"), "threat"),
      word(tell("facts"), () => this.#request("facts"), "facts"),
      word(tell("tactics"), () => this.#request("tags"), "tags"));
    this.element = element("section", "beside", this.changes, this.tags, words, this.found);
    this.element.setAttribute("aria-label", tell("besideIt"));
    parent.append(this.element);
    /** @type {Node | null} */
    this.node = null;
    /** Nobody looks at it: then nothing is asked. */
    this.sleeping = false;
  }

  /** @param {Node} node the position shown from now on */
  show(node) {
    if (this.sleeping) return;
    const known = node === this.node && node.hidden === this.hidden;
    if (known) return;
    this.node = node;
    /** Where the next move is hidden, less is told. */
    this.hidden = node.hidden;
    clearTimeout(this.timer);
    for (const kind of ["remarks", "tags", "threat", "facts"]) this.questions.drop(kind);
    this.found.replaceChildren();
    this.tags.replaceChildren();
    this.#say(this.told.get(this.#key("remarks")));
    if (node.parent && !this.told.has(this.#key("remarks"))) {
      this.timer = setTimeout(() => this.#ask("remarks", (told) => this.#say(told)), REST_MS);
    }
    const tags = this.told.get(this.#key("tags"));
    if (tags) this.#list(/** @type {Tag[]} */ (tags));
  }

  /** @param {string} kind @returns {string} */
  #key(kind) {
    const node = /** @type {Node} */ (this.node);
    const { root, line } = placeOf(node);
    return `${kind} ${root} ${line} ${node.hidden}`;
  }

  /** @param {string} kind @param {(told: any[]) => void} act */
  #ask(kind, act) {
    const key = this.#key(kind);
    const { node } = this;
    this.questions.ask(kind, placeOf(/** @type {Node} */ (node)), (answer) => {
      const told = answer.changes ?? answer.tags ?? answer.sentences ?? [answer.trouble];
      this.told.set(key, told);
      if (node === this.node) act(told);
    }, (positions) => {
      if (node === this.node) this.found.textContent = this.tell("looking", { count: positions.toLocaleString("en") });
    });
  }

  /** @param {"threat" | "facts" | "tags"} kind */
  #request(kind) {
    const act = kind === "tags" ? (/** @type {Tag[]} */ told) => this.#list(told, true)
      : (/** @type {string[]} */ told) => this.found.replaceChildren(...told.map((text) => element("p", "", saidIn(text, this.letters()))));
    const known = this.told.get(this.#key(kind));
    if (known) act(/** @type {any} */ (known));
    else this.#ask(kind, act);
  }

  /** @param {any[] | undefined} sentences */
  #say(sentences) {
    // The first sentence is what matters; the rest stands with the facts.
    this.changes.textContent = saidIn(sentences?.[0] ?? "", this.letters());
  }

  /** @param {Tag[]} tags @param {boolean} [asked] */
  #list(tags, asked = false) {
    this.found.textContent = asked && tags.length === 0 ? this.tell("noTactics") : "";
    this.tags.replaceChildren(...tags.filter((tag) => tag?.motif).map((tag) => this.#tag(tag)));
  }

  /** @param {Tag} tag */
  #tag(tag) {
    const wins = tag.gain ? ` (${this.tell("wins", { gain: tag.gain })})` : "";
    let drawn = false;
    const toggle = word(this.tell("draw"), () => {
      drawn = !drawn;
      this.draw(drawn ? tag.marks : []);
      toggle.textContent = this.tell(drawn ? "wipe" : "draw");
    }, "draw");
    return element("p", "tag", element("b", "", `${tag.motif}: `), `${saidIn(tag.sentence, this.letters())}${wins} `, toggle);
  }

  /** Ask nothing, as long as nobody looks. @param {boolean} sleeping @param {Node} node the position shown */
  sleep(sleeping, node) {
    clearTimeout(this.timer);
    this.sleeping = sleeping;
    this.node = null;
    this.show(node);
  }

  close() {
    clearTimeout(this.timer);
  }
}
