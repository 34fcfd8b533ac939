// @ts-check
/** A question on a page: its prompt, a field for the answer, and a board on which the reason is shown. */

import { Questions } from "./asking.js";
import { setWord } from "./button.js";
import { element, onEnter, word } from "./elements.js";
import { Figure } from "./figure.js";
import { ENGLISH_LETTERS, bound, inLetters, saidIn } from "./letters.js";
import { Lines } from "./lines.js";
import { sanOf } from "./notation.js";
import { clientName } from "./room.js";
import { moveOf } from "./rules.js";
import { pathTo, positionAt } from "./tree.js";

/** @typedef {import("./marks.js").Mark} Mark */
/** @typedef {{fen: string, last: string, after: string, prompt: string, points: number, hints: number, byHand: string}} Asked */

export class QuestionView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./words.js").Say} parts.say
   * @param {import("./questionwords.js").QuestionTell} parts.tell
   * @param {HTMLElement} parts.whole where to draw, empty
   */
  constructor({ model, say, tell, whole }) {
    this.model = model;
    this.say = say;
    this.tell = tell;
    this.letters = model.get("piece_letters") ?? ENGLISH_LETTERS;
    /** @type {(text: string) => string} Python's English in the reader's letters */
    this.set = (text) => bound(saidIn(text, this.letters));
    /** @type {Asked} */
    this.asked = model.get("asked");
    this.questions = new Questions(model, clientName());
    whole.classList.add("question");
    this.figure = element("figure", "");
    this.input = element("input", "");
    this.input.setAttribute("aria-label", tell("yourAnswer"));
    this.input.autocomplete = "off";
    this.input.spellcheck = false;
    onEnter(this.input, () => this.answer());
    this.main = word(tell("answer"), () => this.answer(), "answer");
    this.main.classList.add("main");
    const form = element("form", "", this.input, this.main);
    form.addEventListener("submit", (event) => event.preventDefault());
    this.hinting = word(tell("hint"), () => this.hint(), "hint");
    setWord(this.hinting, { shown: this.asked.hints > 0 });
    this.showing = word(tell("solution"), () => this.solution(), "solution");
    this.returning = word(tell("backToQuestion"), () => this.back(), "back-to-question");
    setWord(this.returning, { shown: false });
    this.verdict = element("p", "verdict");
    this.verdict.setAttribute("role", "status");
    this.hints = element("ol", "hints");
    const words = element("div", "words", this.hinting, this.showing, this.returning);
    const prompt = element("p", "prompt", this.set(this.asked.prompt));
    whole.append(this.figure, element("div", "column", prompt, form, words, this.verdict, this.hints));
    this.walk = this.#asking();
    this.board = this.#figure();
    this.#listen();
  }

  /** @returns {Lines} the position that is asked about, without a line */
  #asking() {
    const { fen, after, last } = this.asked;
    return new Lines(fen, [], { after, last });
  }

  /** Set up the board as it is asked about. */
  open() {
    this.#show(this.#asking());
    this.#listen();
  }

  /** Take moves by hand for answers. */
  #listen() {
    this.walk.instead = (uci) => this.byHand(uci);
    this.walk.listeners.add(() => this.followed());
    setWord(this.returning, { shown: false });
  }

  /** Show lines on the board, in the place of what was shown. @param {Lines} walk @param {Mark[]} [marks] */
  #show(walk, marks = []) {
    this.board.close();
    this.figure.replaceChildren();
    this.walk = walk;
    if (marks.length) walk.marks = { "": marks };
    this.board = this.#figure();
  }

  /** @returns {Figure} a board that follows the walk */
  #figure() {
    const board = new Figure({ model: this.model, walk: this.walk, say: this.say, figure: this.figure });
    this.figure.querySelector("form")?.remove(); // one field is enough: that of the answer
    this.walk.listeners.add(() => board.update());
    return board;
  }

  /** A move by hand is an answer, or one more of a list. @param {string} uci @returns {boolean} whether it was taken as one */
  byHand(uci) {
    const { byHand } = this.asked;
    if (byHand !== "move" && byHand !== "list") return false;
    const san = inLetters(sanOf(positionAt(this.walk.current), moveOf(uci)), this.letters);
    if (byHand === "move") {
      this.input.value = san;
      this.answer();
    } else {
      const before = this.input.value.trim();
      this.input.value = before ? `${before}, ${san}` : san;
    }
    this.board.update();
    return true;
  }

  /** A line that is played on the board stands in the field. */
  followed() {
    if (this.asked.byHand !== "line") return;
    const moves = pathTo(this.walk.current).slice(1).map((node) => inLetters(node.san, this.letters));
    this.input.value = moves.join(" ");
  }

  answer() {
    const text = this.input.value.trim();
    this.#say(this.tell("looking"), "");
    this.questions.ask("answer", { text }, (told) => this.graded(told));
  }

  /** @param {Record<string, any>} told what the answer is worth */
  graded(told) {
    const { result, sentence, earned, points, fen, line, written, marks } = told;
    // Of a question that is worth one point the sentence says enough.
    const counted = points > 1 && (result === "right" || result === "part");
    const worth = counted ? ` (${this.tell("earned", { earned: String(earned), points: String(points) })})` : "";
    const shown = line?.length > 1 && !sentence.includes(written) ? ` ${written}` : "";
    this.#say(this.set(`${sentence}${shown}${worth}`), result);
    if (line?.length) this.play(fen, line);
    else if (marks?.length) this.mark(marks);
    this.input.focus();
  }

  /** Have the board show a line from its beginning, to go on along. @param {string} fen @param {string[]} line */
  play(fen, line) {
    const walk = new Lines(fen, [line]);
    this.#show(walk);
    walk.to(/** @type {import("./tree.js").Node} */ (walk.root.children[0] ?? walk.root));
    setWord(this.returning, { shown: true });
  }

  /** @param {Mark[]} marks drawn on the position that is asked about */
  mark(marks) {
    this.#show(this.#asking(), marks);
    setWord(this.returning, { shown: true });
  }

  back() {
    this.open();
    this.input.focus();
  }

  hint() {
    this.questions.ask("hint", {}, ({ text, left }) => {
      if (text) this.hints.append(element("li", "", this.set(text)));
      if (left <= 0) setWord(this.hinting, { enabled: false, text: this.tell("lastHint") });
    });
  }

  solution() {
    this.questions.ask("solution", {}, ({ text, marks }) => {
      this.#say(this.set(text), "shown");
      if (marks.length) this.mark(marks);
    });
  }

  /** @param {string} text @param {string} result */
  #say(text, result) {
    this.verdict.textContent = text;
    this.verdict.dataset.result = result;
    this.verdict.classList.toggle("wrong", result === "wrong");
  }

  close() {
    this.questions.close();
    this.board.close();
  }
}
