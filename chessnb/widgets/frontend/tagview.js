// @ts-check
/** The tactics of a move on a page: a list to choose from, and the board that shows the evidence. */

import { element, word } from "./elements.js";
import { Figure } from "./figure.js";
import { ENGLISH_LETTERS, bound, saidIn } from "./letters.js";
import { Lines } from "./lines.js";

/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {{motif: string, sentence: string, gain: string, kind: string, at: number, line: string[], written: string, marks: Mark[]}} Tag */
/** @typedef {{fen: string, after: string, move: string, numbered: string, tags: Tag[]}} Table */

export class TagView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./words.js").Say} parts.say
   * @param {import("./tagwords.js").TagTell} parts.tell
   * @param {HTMLElement} parts.whole where to draw, empty
   */
  constructor({ model, say, tell, whole }) {
    this.tell = tell;
    const letters = model.get("piece_letters") ?? ENGLISH_LETTERS;
    /** @type {(text: string) => string} Python's English in the reader's letters, a move never parted from its number */
    this.set = (text) => bound(saidIn(text, letters));
    /** @type {Table} */
    this.table = model.get("table");
    this.chosen = 0;
    this.walk = new Lines(this.table.fen, [[this.table.move], ...this.table.tags.map((tag) => tag.line)],
      { after: this.table.after });
    const figure = element("figure", "");
    this.list = element("ol", "");
    const heading = element("h4", "", tell("tactics", { move: this.set(this.table.numbered) }));
    whole.append(figure, element("div", "column replies", heading, this.list));
    this.board = new Figure({ model, walk: this.walk, say, figure });
    this.walk.listeners.add(() => this.board.update());
    if (this.table.tags.length) this.choose(0);
    else {
      this.walk.to(this.walk.root.children[0]);
      this.list.replaceWith(element("p", "soft", tell("noTactics", { move: this.set(this.table.numbered) })));
    }
  }

  /** @param {number} index of the tag to show: its marks, and its line to go on along */
  choose(index) {
    this.chosen = index;
    const tag = this.table.tags[index];
    let node = this.walk.root;
    let shown = node;
    for (const [ply, uci] of tag.line.entries()) {
      const next = node.children.find((child) => child.uci === uci);
      if (!next) break;
      node.chosen = next;
      node = next;
      if (ply < tag.at) shown = node;
    }
    this.walk.marks = { [tag.line.slice(0, tag.at).join(" ")]: tag.marks };
    this.walk.to(shown);
    this.draw();
  }

  draw() {
    const held = /** @type {ShadowRoot} */ (this.list.getRootNode()).activeElement;
    const had = held instanceof HTMLElement && this.list.contains(held);
    this.list.replaceChildren(...this.table.tags.map((tag, index) => this.#item(tag, index)));
    if (had) /** @type {HTMLElement | null} */ (this.list.querySelector('[aria-current="true"]'))?.focus();
  }

  /** @param {Tag} tag @param {number} index */
  #item(tag, index) {
    const name = word(tag.motif, () => this.choose(index), "choose");
    name.className = "move";
    const current = index === this.chosen;
    name.classList.toggle("current", current);
    if (current) name.setAttribute("aria-current", "true");
    const item = element("li", "", name, `: ${this.set(tag.sentence)}. ${this.#outcome(tag)}`);
    if (current && tag.written) item.append(element("span", "soft", ` ${this.set(tag.written)}`));
    return item;
  }

  /** @param {Tag} tag @returns {string} what it brings, as a sentence */
  #outcome({ gain, kind }) {
    if (kind === "gain") return this.tell("wins", { gain });
    if (kind === "mate") return this.tell("mates", { gain });
    return kind === "draw" ? this.tell("forces", { gain }) : this.tell("geometric");
  }

  close() {
    this.board.close();
  }
}
