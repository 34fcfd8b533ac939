// @ts-check
/** Setting up: pieces are put, moved and taken off as one likes; Python says whether it can be played. */

import { kindOf, typedLetters } from "./letters.js";
import { squareLabel } from "./notation.js";
import { readFen, sideOf } from "./rules.js";
import { emptied, fenSetUp, isDrawable, moved, put, started, toggledRight, turnedOver } from "./setup.js";
import { Tray } from "./tray.js";

/** @typedef {import("./hand.js").Tool} Tool */
/** @typedef {import("./rules.js").Position} Position */
/**
 * @typedef {object} Judge
 * @property {(kind: "judge" | "setup", fen: string) => number} place ask Python; the number of its answer
 * @property {() => void} cancel
 * @property {() => void} begun the board has begun with what was set up
 */

/** @implements {Tool} */
export class Placing {
  /** @param {import("./playing.js").Desk} desk @param {Judge} judge */
  constructor(desk, judge) {
    this.desk = desk;
    this.judge = judge;
    this.position = started();
    /** A FEN as it was typed, until something is changed by hand. @type {string | null} */
    this.typedFen = null;
    /** The piece that a press puts, "" for taking off, null for moving what is there. @type {string | null} */
    this.chosen = null;
    this.square = -1;
    /** What Python found wrong with the position shown; null until it has said. @type {string | null} */
    this.faults = null;
    this.asked = this.beginning = 0;
    /** Laid out when it is wanted for the first time. @type {Tray | null} */
    this.tray = null;
    this.element = document.createElement("div");
    this.#show(false);
  }

  // -- in hand and out of it --------------------------------------------------

  begin() {
    this.chosen = null;
    if (!this.tray) {
      this.tray = new Tray(this.desk, this);
      this.element.append(this.tray.element);
    }
    this.#show(true);
    this.#change(this.desk.position);
  }

  end() {
    this.square = -1;
    this.#show(false);
  }

  /** @param {boolean} shown */
  #show(shown) {
    this.element.hidden = !shown;
    this.desk.caption.rows.classList.toggle("placing", shown);
  }

  update() {
    this.tray?.draw();
  }

  /** @returns {Partial<import("./field.js").Picture>} */
  picture() {
    return { position: this.position, lifted: this.square, lastMove: null, marks: [] };
  }

  // -- what is set up ---------------------------------------------------------

  /** @returns {string} */
  get fen() {
    return this.typedFen ?? fenSetUp(this.position);
  }

  /** @param {Position} position @param {string | null} [typedFen] */
  #change(position, typedFen = null) {
    this.position = position;
    this.typedFen = typedFen;
    this.square = -1;
    this.faults = null;
    this.beginning = 0;
    this.asked = this.judge.place("judge", this.fen);
    this.desk.draw();
  }

  empty() {
    this.#change(emptied(this.position));
  }

  start() {
    this.#change(started());
  }

  /** @param {"w" | "b"} side to move */
  turnTo(side) {
    if (this.position.turn !== side) this.#change(turnedOver(this.position));
  }

  /** @param {string} right */
  castling(right) {
    this.#change(toggledRight(this.position, right));
  }

  /** @param {number} ep the square that a pawn has just passed, or -1 */
  passed(ep) {
    this.#change({ ...this.position, ep });
  }

  /** @param {string} text a FEN */
  readFen(text) {
    if (text !== this.fen) this.#change(isDrawable(text) ? readFen(text) : this.position, text);
  }

  /** @param {string | null} piece see `chosen`; the same again is put down */
  choose(piece) {
    this.chosen = this.chosen === piece ? null : piece;
    this.square = -1;
    this.desk.draw();
  }

  /** @param {number} square @param {string} piece "" for none */
  put(square, piece) {
    this.#change(put(this.position, square, piece));
    this.desk.caption.announce(squareLabel(this.position, square, this.desk.say));
  }

  // -- the hand ---------------------------------------------------------------

  lifted() {
    return this.square;
  }

  /** @param {number} square */
  movable(square) {
    return this.chosen === null && this.position.squares[square] !== "";
  }

  /** @param {number} square */
  press(square) {
    const there = this.position.squares[square];
    if (this.chosen !== null) this.put(square, there === this.chosen ? "" : this.chosen);
    else if (this.square === square) this.putBack();
    else if (this.square >= 0) this.drop(this.square, square);
    else if (there) this.lift(square);
  }

  /** @param {number} square */
  lift(square) {
    this.square = square;
    this.desk.draw();
    this.desk.caption.announce(this.desk.say("inHand", { piece: squareLabel(this.position, square, this.desk.say) }));
  }

  /** @param {number} from @param {import("./field.js").Place} place */
  carry(from, { x, y }) {
    const [middleX, middleY] = this.desk.field.pen.middle(from);
    this.desk.field.place(from, x - middleX, y - middleY);
  }

  /** @param {number} from @param {number} to outside the board, the piece is taken off */
  drop(from, to) {
    if (to < 0) return this.put(from, "");
    this.#change(moved(this.position, from, to));
    this.desk.caption.announce(squareLabel(this.position, to, this.desk.say));
  }

  /** @param {number} square @param {boolean} wasLifted */
  rest(square, wasLifted) {
    if (wasLifted) this.putBack();
  }

  putBack() {
    if (this.square < 0 && this.chosen === null) return false;
    this.chosen = null;
    this.square = -1;
    this.desk.draw();
    return true;
  }

  /** @param {number} square @param {string} key a piece's letter: White's, again Black's; or one that takes off */
  key(square, key) {
    const there = this.position.squares[square];
    const kind = key.length === 1 ? kindOf(key, typedLetters(this.desk.letters)) : "";
    if (key === "Delete" || key === "Backspace") this.put(square, "");
    else if (kind) this.put(square, there.toLowerCase() === kind && sideOf(there) === "w" ? kind : kind.toUpperCase());
    else return false;
    return true;
  }

  typed() {}

  // -- what Python says -------------------------------------------------------

  /** Begin with what was set up, if Python has found nothing wrong with it. */
  play() {
    if (this.faults === "") this.beginning = this.judge.place("setup", this.fen);
  }

  /** @param {import("./sync.js").Answer} answer @returns {boolean} whether it was for here */
  answer({ seq, text }) {
    if (seq !== this.asked && seq !== this.beginning) return false;
    this.faults = text;
    if (seq === this.beginning && text === "") this.judge.begun();
    else this.desk.draw();
    return true;
  }
}
