// @ts-check
/** The pen: strokes from square to square and marks on one, by pointer, keys or typing. */

import { setWord, wordButton, wordGroup } from "./button.js";
import { LINES, SINGLES } from "./marks.js";
import { squareName } from "./rules.js";
import { isDrawn, readStrokes, strokeOf } from "./strokes.js";

/** @typedef {import("./hand.js").Tool} Tool */
/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {import("./marks.js").Role} Role */
/**
 * @typedef {object} Ink
 * @property {(mark: Mark) => void} draw
 * @property {(mark: Mark) => void} erase
 * @property {() => void} wipe
 */

/** @implements {Tool} */
export class Drawing {
  /** @param {import("./playing.js").Desk} desk @param {Ink} ink */
  constructor(desk, ink) {
    this.desk = desk;
    this.ink = ink;
    /** @type {import("./strokes.js").Roles} */
    this.roles = { line: LINES[0], square: SINGLES[0] };
    /** Where a stroke begins that is not drawn yet. */
    this.begun = -1;
    this.element = this.#row();
    this.end();
  }

  #row() {
    const { say } = this.desk;
    const row = document.createElement("div");
    row.className = "words pen";
    /** @type {[Role, HTMLButtonElement][]} */
    this.choices = [...LINES, ...SINGLES].map((role) => [role, wordButton(say(role), () => this.choose(role))]);
    const buttons = (/** @type {Role[]} */ roles) =>
      (this.choices ?? []).filter(([role]) => roles.includes(role)).map(([, button]) => button);
    this.wiping = wordButton(say("wipe"), () => this.ink.wipe());
    row.append(wordGroup(say("lines"), buttons(LINES)), wordGroup(say("singles"), buttons(SINGLES)), this.wiping);
    return row;
  }

  /** @param {Role} role what the next strokes mean */
  choose(role) {
    if (LINES.includes(role)) this.roles.line = role;
    else this.roles.square = role;
    this.update();
  }

  begin() {
    this.element.hidden = false;
  }

  end() {
    this.begun = -1;
    this.element.hidden = true;
  }

  picture() {
    return { begun: this.begun };
  }

  /** Ring the words of the roles in use. */
  update() {
    for (const [role, button] of this.choices ?? []) {
      setWord(button, { pressed: Object.values(this.roles).includes(role) });
    }
    if (this.wiping) setWord(this.wiping, { enabled: this.desk.marks.length > 0 });
  }

  lifted() {
    return this.begun;
  }

  movable() {
    return true;
  }

  /** @param {number} square as by Enter: the stroke begins, or ends */
  press(square) {
    if (this.begun >= 0) this.drop(this.begun, square);
    else {
      this.lift(square);
      this.desk.caption.announce(this.desk.say("penDown", { square: squareName(square) }));
    }
  }

  /** @param {number} square */
  lift(square) {
    this.begun = square;
    this.desk.caption.note("");
    this.desk.draw();
  }

  /** @param {number} from @param {import("./field.js").Place} place */
  carry(from, { square }) {
    this.desk.field.draft(square < 0 ? null : strokeOf(squareName(from), squareName(square), this.roles));
  }

  /** @param {number} from @param {number} to */
  drop(from, to) {
    this.begun = -1;
    if (to >= 0) this.toggle(strokeOf(squareName(from), squareName(to), this.roles));
    this.desk.draw();
  }

  /** @param {number} square */
  rest(square) {
    this.drop(square, square);
  }

  putBack() {
    if (this.begun < 0) return false;
    this.begun = -1;
    this.desk.draw();
    this.desk.caption.announce(this.desk.say("penUp"));
    return true;
  }

  /** @param {Mark} mark to draw, or to take away if it is there */
  toggle(mark) {
    if (isDrawn(this.desk.marks, mark)) this.ink.erase(mark);
    else this.ink.draw(mark);
  }

  /** @param {string} text what was typed into the caption's field */
  typed(text) {
    const strokes = readStrokes(text, this.roles);
    strokes.forEach((mark) => this.toggle(mark));
    this.desk.caption.note(strokes.length > 0 ? "" : this.desk.say("notStroke", { text }), true);
    this.desk.caption.answered(strokes.length === 0);
  }
}
