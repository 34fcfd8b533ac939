// @ts-check
/** One reply table on a page: rows to choose on the left, the board on the right. */

import { setWord } from "./button.js";
import { element, word } from "./elements.js";
import { Figure } from "./figure.js";
import { Kept } from "./storage.js";
import { ENGLISH_LETTERS, bound, saidIn } from "./letters.js";
import { Lines } from "./lines.js";

/** @typedef {{san: string, words: string, bad: boolean, line: string[], written: string}} Reply */
/** @typedef {{text: string, words: string, played: boolean, longest: boolean, replies: Reply[]}} Row */
/** @typedef {{key: string, fen: string, last: string, after: string, summary: string, rows: Row[]}} Table */

export class ReplyView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./words.js").Say} parts.say
   * @param {import("./replywords.js").ReplyTell} parts.tell
   * @param {HTMLElement} parts.whole where to draw, empty
   */
  constructor({ model, say, tell, whole }) {
    this.tell = tell;
    const letters = model.get("piece_letters") ?? ENGLISH_LETTERS;
    /** @type {(text: string) => string} Python's English in the reader's letters, a move never parted from its number */
    this.set = (text) => bound(saidIn(text, letters));
    /** @type {Table} */
    this.table = model.get("table");
    this.kept = new Kept(this.table.key || "none", this.table.key ? undefined : null);
    /** @type {Set<string>} the replies that are ruled out, by their moves */
    this.out = new Set(this.kept.load(`replies ${this.table.fen}`, []));
    this.open = Boolean(model.get("verdicts"));
    /** @type {Set<number>} rows whose verdict was asked for */
    this.asked = new Set();
    /** @type {Reply | null} the one on the board */
    this.chosen = null;
    const { fen, after, last, rows } = this.table;
    this.walk = new Lines(fen, rows.flatMap((row) => row.replies).map(({ line }) => line), { after, last });
    const figure = element("figure", "");
    this.summary = element("p", "");
    this.left = element("p", "status");
    this.left.setAttribute("role", "status");
    this.list = element("ol", "");
    this.all = word("", () => this.#showAll(), "showVerdicts");
    this.again = word(tell("bringAll"), () => this.#bringAll(), "bringAll");
    const column = element("div", "column replies", element("h4", "", tell("replies")), this.summary, this.left, this.list,
      element("div", "words", this.all, this.again), element("p", "soft", tell("caution")));
    whole.append(figure, column);
    this.board = new Figure({ model, walk: this.walk, say, figure });
    this.walk.listeners.add(() => this.board.update());
    this.draw();
  }

  /** @param {Reply} reply to show on the board, its first move made */
  choose(reply) {
    this.chosen = reply;
    let node = this.walk.root;
    for (const uci of reply.line) {
      const next = node.children.find((child) => child.uci === uci);
      if (!next) break;
      node.chosen = next;
      node = next;
    }
    const first = this.walk.root.children.find((child) => child.uci === reply.line[0]);
    if (first) this.walk.to(first);
    this.draw();
  }

  // -- ruling out --------------------------------------------------------------

  /** @param {Row} row */
  #rule(row) {
    const gone = this.#isOut(row);
    for (const { line } of row.replies) {
      if (gone) this.out.delete(line[0]);
      else this.out.add(line[0]);
    }
    this.#save();
  }

  /** @param {Row} row */
  #isOut(row) {
    return row.replies.every(({ line }) => this.out.has(line[0]));
  }

  #bringAll() {
    this.out.clear();
    this.#save();
  }

  #save() {
    this.kept.save(`replies ${this.table.fen}`, [...this.out].sort());
    this.draw();
  }

  #showAll() {
    this.open = !this.open;
    this.asked.clear();
    this.draw();
  }

  // -- drawing -----------------------------------------------------------------

  draw() {
    const { rows } = this.table;
    const all = rows.reduce((sum, row) => sum + row.replies.length, 0);
    const left = all - rows.flatMap((row) => row.replies).filter(({ line }) => this.out.has(line[0])).length;
    this.summary.textContent = this.open ? this.set(this.table.summary) : "";
    const text = all > 0 && left === 0 ? this.tell("allOut") : this.tell("left", { count: String(left), all: String(all) });
    if (this.left.textContent !== text) this.left.textContent = text;
    setWord(this.all, { text: this.tell(this.open ? "hideVerdicts" : "showVerdicts") });
    setWord(this.again, { enabled: left < all });
    const focused = this.#focused();
    this.list.replaceChildren(...rows.map((row, index) => this.#row(row, index)));
    if (focused) /** @type {HTMLElement | null} */ (this.list.querySelector(focused))?.focus();
  }

  /** @returns {string} how to find the word that had the focus, in the list that is drawn again */
  #focused() {
    const root = /** @type {ShadowRoot} */ (this.list.getRootNode());
    const active = root.activeElement;
    if (!(active instanceof HTMLElement) || !this.list.contains(active)) return "";
    return `[data-row="${active.closest("li")?.dataset.row}"] [data-action="${active.dataset.action}"]`;
  }

  /** @param {Row} row @param {number} index */
  #row(row, index) {
    const gone = this.#isOut(row);
    const shown = this.open || this.asked.has(index);
    const name = word(this.set(row.text), () => this.choose(row.replies[0]), "choose");
    name.className = "move";
    name.classList.toggle("current", row.replies.includes(/** @type {Reply} */ (this.chosen)));
    if (row.replies.includes(/** @type {Reply} */ (this.chosen))) name.setAttribute("aria-current", "true");
    const notes = [row.played && this.tell("playedHere"), row.longest && shown && this.tell("longestHere")].filter(Boolean);
    const item = element("li", gone ? "out" : "", name, notes.length ? element("i", "soft", ` (${notes.join(", ")})`) : "");
    item.dataset.row = String(index);
    if (shown) item.append(": ", this.#verdict(row), " ");
    else item.append(" ", word(this.tell("showVerdict"), () => {
      this.asked.add(index);
      this.draw();
    }, "showVerdict"), " ");
    item.append(word(this.tell(gone ? "takeBack" : "ruleOut"), () => this.#rule(row), "ruleOut"));
    if (shown && row.replies.length > 1) item.append(this.#each(row));
    return item;
  }

  /** @param {Row} row */
  #verdict(row) {
    const [first] = row.replies;
    const written = row.replies.length === 1 && first.line.length > 1 ? ` (${first.written})` : "";
    return element("span", first.bad ? "answer refuted" : "answer", this.set(`${row.words}${written}.`));
  }

  /** @param {Row} row a group: each of its replies with its line */
  #each(row) {
    const items = row.replies.map((reply) => {
      const line = word(this.set(reply.written || reply.san), () => this.choose(reply), `each-${reply.line[0]}`);
      line.className = "move";
      line.classList.toggle("current", reply === this.chosen);
      return element("li", "", line);
    });
    const details = element("details", "", element("summary", "", this.tell("each")), element("ul", "", ...items));
    details.open = row.replies.includes(/** @type {Reply} */ (this.chosen));
    return details;
  }

  close() {
    this.board.close();
  }
}
