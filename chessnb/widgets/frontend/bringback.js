// @ts-check
/**
 * What was played on a board that Python ceased to hear, brought back when its cell is run again.
 *
 * The new board is another one that begins with the same position.  So what
 * the deaf one holds is kept under that position, as long as the browser's
 * tab is open, and offered by a word: a teacher's functions that follow the
 * moves hear of them only if the reader wants it.
 */

import { word } from "./elements.js";

/** @typedef {import("./sync.js").Line} Line */

const PREFIX = "chessnb/board/";

/** @returns {Storage | null} */
function tabStorage() {
  try {
    return globalThis.sessionStorage ?? null;
  } catch {
    return null; // a page that may keep nothing
  }
}

/** @param {Line} line @returns {number} how many moves and strokes it holds */
const sizeOf = ({ moves, marks }) => moves.length + Object.values(marks).reduce((sum, strokes) => sum + strokes.length, 0);

/** @param {unknown} said @returns {Line | null} */
function read(said) {
  const line = /** @type {any} */ (said);
  const whole = Array.isArray(line?.moves) && Number.isInteger(line.ply) && typeof line.marks === "object" && line.marks;
  return whole ? line : null;
}

export class BringBack {
  /**
   * @param {object} parts
   * @param {import("./sync.js").Sync} parts.sync
   * @param {import("./words.js").Say} parts.say
   * @param {import("./caption.js").Caption} parts.caption
   * @param {Storage | null} [parts.storage]
   */
  constructor({ sync, say, caption, storage = tabStorage() }) {
    this.sync = sync;
    this.say = say;
    this.storage = storage;
    this.button = word("", () => this.#bring(), "bringBack");
    this.element = document.createElement("p");
    this.element.append(this.button);
    caption.rows.append(this.element);
    this.update();
  }

  get #key() {
    return PREFIX + this.sync.state.start;
  }

  /** @returns {Line | null} what is kept for this board */
  get kept() {
    try {
      return read(JSON.parse(this.storage?.getItem(this.#key) ?? "null"));
    } catch {
      return null; // damaged, or not ours
    }
  }

  /** Keep what a deaf board holds; offer a new one what is kept. */
  update() {
    const { line, deaf } = this.sync;
    const fresh = sizeOf(line) === 0;
    if (deaf && !fresh) this.#keep(line);
    const kept = fresh && !deaf ? this.kept : null;
    this.element.hidden = kept === null;
    if (kept) this.button.textContent = this.say("bringBack", { count: String(sizeOf(kept)) });
  }

  /** @param {Line} line */
  #keep({ moves, ply, marks }) {
    try {
      this.storage?.setItem(this.#key, JSON.stringify({ moves, ply, marks }));
    } catch {
      this.storage = null; // full: it lasts as long as the board
    }
  }

  #bring() {
    const { kept } = this;
    if (!kept) return;
    this.storage?.removeItem(this.#key);
    this.sync.bringBack(kept);
    this.update();
  }
}
