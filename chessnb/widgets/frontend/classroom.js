// @ts-check
/** What a teacher needs in front of a class: candidates, a clock, full screen, a mark, cells to copy. */

import { placeOf } from "./beside.js";
import { Candidates } from "./candidates.js";
import { Countdown } from "./countdown.js";
import { copy, element, word } from "./elements.js";
import { saidIn } from "./letters.js";
import { movesTo, nameOfNode, pathTo } from "./tree.js";

/** @typedef {import("./explorerwords.js").ExplorerWord} ExplorerWord */

/** @type {[string, ExplorerWord][]} what may be copied as a cell, and the word for it */
const CELLS = [
  ["lesson", "cellLesson"], ["moment", "cellMoment"], ["line", "cellLine"],
  ["claim", "cellClaim"], ["replies", "cellReplies"], ["question", "cellQuestion"],
];

/** Said to all pages of a lesson: the one where the class stopped is to be shown. */
export const TO_MARK = "chessnb-to-mark";

/** @param {KeyboardEvent} event @returns {boolean} whether a key is meant for the class, and not for a field or the browser */
export const isCommand = (event) => !event.ctrlKey && !event.metaKey && !event.altKey &&
  !event.composedPath().some((at) => at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement);

export class Classroom {
  /**
   * @param {HTMLElement} parent
   * @param {object} parts
   * @param {HTMLElement} parts.whole what full screen shows
   * @param {HTMLElement} parts.underBoard where the candidates stand
   * @param {import("./walk.js").Walk} parts.walk
   * @param {import("./explorerwords.js").Tell} parts.tell
   * @param {import("./asking.js").Questions} parts.questions
   * @param {import("./storage.js").Kept} parts.kept
   * @param {() => string} parts.letters with which moves name the pieces
   * @param {boolean} parts.students whether the teacher's tools are left out
   */
  constructor(parent, { whole, underBoard, walk, tell, questions, kept, letters, students }) {
    this.students = students;
    this.letters = letters;
    this.whole = whole;
    this.walk = walk;
    this.tell = tell;
    this.questions = questions;
    this.kept = kept;
    this.words = element("div", "words");
    this.opener = this.#toggle("forClass", (on) => {
      this.body.hidden = !on;
    });
    this.fullScreen = word(tell("fullScreen"), () => this.toggleFullScreen(), "fullScreen");
    this.body = element("div", "", this.words);
    this.body.hidden = true;
    this.element = element("section", "classroom", element("div", "words", this.opener, this.fullScreen), this.body);
    this.element.setAttribute("aria-label", tell("forClass"));
    parent.append(this.element);
    if (students) this.opener.remove();
    this.asking = this.#toggle("candidates", (on) => {
      this.candidates.turn(on);
      whole.classList.toggle("asking", on);
      this.walk.changed(); // what follows is not to be in sight
    });
    this.words.append(this.asking);
    this.countdown = new Countdown(this.words, tell);
    this.notes = this.#toggle("notes", (on) => whole.classList.toggle("without-notes", !on));
    this.notes.setAttribute("aria-pressed", "true");
    this.words.append(this.notes,
      word(tell("setMark"), () => this.setMark(), "setMark"),
      (this.goToMark = word("", () => this.#goToMark(), "goToMark")));
    this.candidates = new Candidates(underBoard, { walk, tell, questions, kept, letters });
    this.code = students ? null : this.#cells();
    this.status = element("p", "status");
    this.status.setAttribute("role", "status");
    this.body.append(this.status);
    this.#showMark();
    this.unfollow = kept.follow("mark", () => this.#showMark());
    /** @type {string} the position of the page that the words stand on, where there are several */
    this.page = "";
    /** Whether what comes next may be shown on the way to the mark. */
    this.maySay = () => true;
    this.left = () => this.#screenChanged();
    document.addEventListener("fullscreenchange", this.left);
  }

  /** @param {"forClass" | "candidates" | "notes"} name @param {(on: boolean) => void} act */
  #toggle(name, act) {
    const button = word(this.tell(name), () => {
      const on = button.getAttribute("aria-pressed") !== "true";
      button.setAttribute("aria-pressed", String(on));
      act(on);
    }, name);
    button.setAttribute("aria-pressed", "false");
    return button;
  }

  // -- full screen ------------------------------------------------------------------

  toggleFullScreen() {
    if (this.isFull) void document.exitFullscreen();
    else void this.whole.requestFullscreen();
  }

  get isFull() {
    const root = /** @type {ShadowRoot} */ (this.whole.getRootNode());
    return (root.fullscreenElement ?? document.fullscreenElement) === this.whole;
  }

  #screenChanged() {
    const full = this.isFull;
    this.whole.classList.toggle("full", full);
    this.fullScreen.textContent = this.tell(full ? "leaveFullScreen" : "fullScreen");
    this.status.textContent = full ? this.tell("fullScreenKeys") : "";
    const shown = this.notes.getAttribute("aria-pressed") === "true";
    if (shown === full) this.notes.click(); // before a class, notes only on request
    this.walk.changed(); // the current move is to stay in sight
    this.fullScreen.focus({ preventScroll: true });
  }

  /**
   * The keys that a class is led with; a presenter's remote sends Page Down and Page Up.
   * @param {KeyboardEvent} event
   * @returns {boolean} whether the key meant something
   */
  key(event) {
    if (!isCommand(event)) return false;
    if (event.key === "PageDown") this.walk.on();
    else if (event.key === "PageUp") this.walk.back();
    else if (event.key.toLowerCase() === "n" && this.isFull) this.notes.click();
    else if (event.key.toLowerCase() === "j" && this.candidates.on) this.candidates.judge();
    else return false;
    return true;
  }

  // -- the mark -----------------------------------------------------------------------

  setMark() {
    const { current } = this.walk;
    const stand = current.own ? this.walk.lesson : current;
    this.kept.save("mark", { page: this.page, root: pathTo(stand)[0].name, line: movesTo(stand), move: nameOfNode(stand) || this.tell("start") });
    this.status.textContent = this.tell("markSet", { move: saidIn(this.kept.load("mark", { move: "" }).move, this.letters()) });
    this.#showMark();
  }

  #showMark() {
    const mark = this.kept.load("mark", /** @type {any} */ (null));
    this.goToMark.hidden = !mark;
    if (mark) this.goToMark.textContent = this.tell("goToMark", { move: saidIn(mark.move, this.letters()) });
  }

  #goToMark() {
    const mark = this.kept.load("mark", /** @type {any} */ (null));
    if (!mark?.page || mark.page === this.page) this.stopAtMark();
    else dispatchEvent(new CustomEvent(TO_MARK, { detail: { lesson: this.kept.lesson, page: mark.page } }));
  }

  /**
   * Stand where the class stopped, as far as this page may show the way there.
   * @param {number} [known] so many moves of the way were shown before
   */
  stopAtMark(known = -1) {
    const mark = this.kept.load("mark", /** @type {any} */ (null));
    let node = this.walk.tree.roots.find((root) => root.name === mark?.root);
    const line = mark?.line ?? [];
    let count = 0;
    for (; node && count < line.length; count += 1) {
      const next = node.children.find((child) => !child.own && child.uci === line[count]);
      if (!next) break;
      node = next;
    }
    if (!node) return;
    this.walk.to(node);
    if (count === line.length || count <= known || !node.hidden || !this.maySay()) return;
    this.questions.ask("reveal", { number: node.number }, () => this.stopAtMark(count));
  }

  // -- cells ----------------------------------------------------------------------------

  /** @returns {HTMLTextAreaElement} the field that shows the code */
  #cells() {
    const code = element("textarea", "code");
    Object.assign(code, { readOnly: true, rows: 2, hidden: true });
    code.setAttribute("aria-label", this.tell("copyCell"));
    const words = element("div", "words", `${this.tell("copyCell")}:`,
      ...CELLS.map(([what, name]) => word(this.tell(name), () => this.#cell(what), name)));
    this.body.append(element("div", "cells", words, code));
    return code;
  }

  /** @param {string} what */
  #cell(what) {
    const { code } = this;
    if (!code) return;
    this.questions.ask("cell", { ...placeOf(this.walk.current), what }, async (answer) => {
      if (answer.trouble) {
        this.status.textContent = answer.trouble;
        return;
      }
      code.value = answer.code;
      code.rows = Math.min(6, answer.code.split("\n").length + 1);
      code.hidden = false;
      const copied = await copy(answer.code, code);
      this.status.textContent = `${this.tell(copied ? "copied" : "copyByHand")} ${saidIn(answer.says ?? "", this.letters())}`.trim();
    });
  }

  close() {
    this.countdown.stop();
    this.unfollow();
    document.removeEventListener("fullscreenchange", this.left);
  }
}
