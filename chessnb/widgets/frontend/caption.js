// @ts-check
/** The caption of the figure: what it shows, the words that turn its pages, and the answers. */

import { setWord, wordButton } from "./button.js";

/** @typedef {import("./words.js").Say} Say */
/** @typedef {import("./words.js").Word} Word */
/** @typedef {Partial<Record<Word, () => void>>} Words what each word does, in the order of the words */

export class Caption {
  /**
   * @param {HTMLElement} parent
   * @param {Say} say
   * @param {object} given
   * @param {Words} given.controls the words that turn the pages
   * @param {Words} [given.tools] the words on a line of their own below
   * @param {(text: string) => void} given.typed what is done with a text from the field
   */
  constructor(parent, say, { controls, tools = {}, typed }) {
    this.say = say;
    parent.insertAdjacentHTML("beforeend",
      `<p class="where"><b></b> <span></span></p>` +
      `<div class="rows"><div class="words controls"></div><div class="words tools"></div></div>` +
      `<p class="note" role="status"></p><p class="note wrong trouble" role="alert"></p>` +
      `<p class="unheard" role="status" hidden></p><p class="heard-only" role="status"></p>`);
    const find = (/** @type {string} */ selector) =>
      /** @type {HTMLElement} */ (parent.querySelector(selector));
    find("b").textContent = say("figure");
    this.where = find(".where span");
    this.rows = find(".rows");
    this.noteElement = find(".note");
    this.trouble = find(".trouble");
    this.unheard = find(".unheard");
    this.live = find(".heard-only");
    /** @type {Record<string, HTMLButtonElement>} */
    this.buttons = {};
    this.#words(find(".controls"), controls);
    this.#words(find(".tools"), tools);
    this.input = this.#typing(find(".controls"), typed);
  }

  /** @param {HTMLElement} row @param {Words} words */
  #words(row, words) {
    for (const [word, act] of /** @type {[Word, () => void][]} */ (Object.entries(words))) {
      this.buttons[word] = wordButton(this.say(word), act);
      this.buttons[word].dataset.action = word;
      row.append(this.buttons[word]);
    }
  }

  /** @param {Word} word @param {import("./button.js").Standing} standing */
  set(word, standing) {
    if (this.buttons[word]) setWord(this.buttons[word], standing);
  }

  /** @param {HTMLElement} row @param {(text: string) => void} typed @returns {HTMLInputElement} */
  #typing(row, typed) {
    const form = (this.form = document.createElement("form"));
    form.innerHTML =
      `<label><span></span><input type="text" size="8" maxlength="80" autocomplete="off"` +
      ` autocapitalize="off" autocorrect="off" spellcheck="false" enterkeyhint="go"></label>`;
    this.typingLabel = /** @type {HTMLElement} */ (form.querySelector("span"));
    this.typingLabel.textContent = this.say("move");
    const input = /** @type {HTMLInputElement} */ (form.querySelector("input"));
    /** @param {Event} event */
    const submit = (event) => {
      event.preventDefault();
      event.stopPropagation();
      if (input.value.trim()) typed(input.value.trim());
    };
    // Within JupyterLab, Enter in the field does not submit the form by itself.
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && !event.isComposing) submit(event);
    });
    form.addEventListener("submit", submit);
    input.addEventListener("input", () => input.removeAttribute("aria-invalid"));
    row.append(form);
    return input;
  }

  /** @param {"move" | "stroke" | null} what what is typed into the field, null for no field */
  typing(what) {
    if (this.typingLabel && what) this.typingLabel.textContent = this.say(what);
    if (this.form) this.form.hidden = what === null;
  }

  /** @param {{where: string, canGoBack: boolean, canGoOn: boolean, trouble: string}} state */
  draw({ where, canGoBack, canGoOn, trouble }) {
    this.where.textContent = where;
    this.set("back", { enabled: canGoBack });
    this.set("toStart", { enabled: canGoBack });
    this.set("on", { enabled: canGoOn });
    if (this.trouble.textContent !== trouble) this.trouble.textContent = trouble;
  }

  /**
   * @param {string} text a sentence for the reader, "" for none
   * @param {boolean} [wrong]
   * @param {boolean} [answers] whether it is the answer to the move shown: a list of answers then leaves it out
   */
  note(text, wrong = false, answers = false) {
    this.noteElement.textContent = text;
    this.noteElement.classList.toggle("wrong", wrong);
    this.noteElement.classList.toggle("answers", answers);
  }

  /** @param {string} text for a screen reader */
  announce(text) {
    this.live.textContent = text;
  }

  /** @param {string} text what Python has not acknowledged for a while, "" if nothing */
  waiting(text) {
    if (this.unheard.textContent !== text) this.unheard.textContent = text;
    this.unheard.hidden = text === "";
  }

  /** A text that was refused goes with the position it was refused in; what is being typed stays. */
  forgetRefused() {
    if (this.input.getAttribute("aria-invalid") === "true") this.answered(false);
  }

  /** @param {boolean} wrong whether what stands in the field was not played */
  answered(wrong) {
    if (wrong) this.input.setAttribute("aria-invalid", "true");
    else {
      this.input.removeAttribute("aria-invalid");
      this.input.value = "";
    }
  }
}
