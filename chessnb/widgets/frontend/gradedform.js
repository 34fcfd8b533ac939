// @ts-check
/** The field of a page that asks a question: an answer is typed, graded by Python, and told with its reason. */

import { setWord } from "./button.js";
import { element, onEnter, word } from "./elements.js";

/** @typedef {{fen: string, passed: boolean, line: string[], marks: import("./marks.js").Mark[]}} Shown */

export class GradedForm {
  /**
   * @param {object} parts
   * @param {import("./asking.js").Questions} parts.questions
   * @param {import("./questionwords.js").QuestionTell} parts.tell
   * @param {number} parts.hints how many there are
   * @param {(text: string) => string} parts.set Python's English in the reader's letters
   * @param {(shown: Shown) => void} parts.show what shows the reason, on the board
   */
  constructor({ questions, tell, hints, set, show }) {
    this.questions = questions;
    this.tell = tell;
    this.set = set;
    this.show = show;
    this.input = element("input", "");
    this.input.setAttribute("aria-label", tell("yourAnswer"));
    this.input.autocomplete = "off";
    this.input.spellcheck = false;
    onEnter(this.input, () => this.answer());
    this.sending = word(tell("answer"), () => this.answer(), "answer");
    this.hinting = word(tell("hint"), () => this.hint(), "hint");
    setWord(this.hinting, { shown: hints > 0 });
    this.verdict = element("p", "verdict");
    this.verdict.setAttribute("role", "status");
    this.hints = element("ol", "hints");
    const form = element("form", "", this.input, " ", this.sending, " ", this.hinting);
    form.addEventListener("submit", (event) => event.preventDefault());
    this.element = element("div", "graded", form, this.verdict, this.hints);
  }

  answer() {
    const text = this.input.value.trim();
    this.#say(this.tell("looking"), "");
    this.questions.ask("answer", { text }, (told) => this.#graded(told));
  }

  /** @param {Record<string, any>} told what the answer is worth */
  #graded({ result, sentence, trouble, fen, passed, line, written, marks }) {
    const said = sentence ?? trouble ?? "";
    const shown = line?.length > 1 && !said.includes(written) ? ` ${written}` : "";
    this.#say(this.set(`${said}${shown}`), result ?? "unread");
    if (line?.length || marks?.length) this.show({ fen, passed, line: line ?? [], marks: marks ?? [] });
    this.input.focus();
  }

  hint() {
    this.questions.ask("hint", {}, ({ text, left }) => {
      if (text) this.hints.append(element("li", "", this.set(text)));
      if (left <= 0) setWord(this.hinting, { enabled: false, text: this.tell("lastHint") });
    });
  }

  /** @param {string} text @param {string} result */
  #say(text, result) {
    this.verdict.textContent = text;
    this.verdict.dataset.result = result;
    this.verdict.classList.toggle("wrong", result === "wrong");
  }
}
