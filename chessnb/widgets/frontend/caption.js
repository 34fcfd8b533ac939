// @ts-check
/** The caption of the figure: what it shows, the words that turn its pages, and the answers. */

/** @typedef {import("./words.js").Say} Say */
/** @typedef {import("./words.js").Word} Word */
/**
 * @typedef {object} Controls
 * @property {() => void} back
 * @property {() => void} on
 * @property {() => void} toStart
 * @property {() => void} turnBoard
 * @property {(text: string) => void} typed
 */

const ACTIONS = /** @type {const} */ (["back", "on", "toStart", "turnBoard"]);

export class Caption {
  /** @param {HTMLElement} parent @param {Say} say @param {Controls} controls */
  constructor(parent, say, controls) {
    this.say = say;
    parent.insertAdjacentHTML("beforeend",
      `<p class="where"><b></b> <span></span></p><div class="words controls"></div>` +
      `<p class="note" role="status"></p><p class="note wrong trouble" role="alert"></p>` +
      `<p class="unheard" hidden></p><p class="heard-only" role="status"></p>`);
    const find = (/** @type {string} */ selector) =>
      /** @type {HTMLElement} */ (parent.querySelector(selector));
    find("b").textContent = say("figure");
    this.where = find(".where span");
    this.controls = find(".controls");
    this.noteElement = find(".note");
    this.trouble = find(".trouble");
    this.unheard = find(".unheard");
    this.live = find(".heard-only");
    /** @type {Record<string, HTMLButtonElement>} */
    this.buttons = {};
    for (const action of ACTIONS) this.buttons[action] = this.#button(action, controls[action]);
    this.input = this.#typing(controls);
  }

  /** @param {Word} word @param {() => void} act @returns {HTMLButtonElement} */
  #button(word, act) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = this.say(word);
    button.dataset.action = word;
    button.addEventListener("click", () => {
      if (button.getAttribute("aria-disabled") !== "true") act();
    });
    this.controls.append(button);
    return button;
  }

  /** @param {Controls} controls @returns {HTMLInputElement} */
  #typing(controls) {
    const form = document.createElement("form");
    form.innerHTML =
      `<label><span></span><input type="text" size="8" maxlength="40" autocomplete="off"` +
      ` autocapitalize="off" autocorrect="off" spellcheck="false" enterkeyhint="go"></label>`;
    /** @type {HTMLElement} */ (form.querySelector("span")).textContent = this.say("move");
    const input = /** @type {HTMLInputElement} */ (form.querySelector("input"));
    /** @param {Event} event */
    const submit = (event) => {
      event.preventDefault();
      event.stopPropagation();
      if (input.value.trim()) controls.typed(input.value.trim());
    };
    // Within JupyterLab, Enter in the field does not submit the form by itself.
    input.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && !event.isComposing) submit(event);
    });
    form.addEventListener("submit", submit);
    input.addEventListener("input", () => input.removeAttribute("aria-invalid"));
    this.controls.append(form);
    return input;
  }

  /** @param {{where: string, canGoBack: boolean, canGoOn: boolean, trouble: string}} state */
  draw({ where, canGoBack, canGoOn, trouble }) {
    this.where.textContent = where;
    this.buttons.back.setAttribute("aria-disabled", String(!canGoBack));
    this.buttons.toStart.setAttribute("aria-disabled", String(!canGoBack));
    this.buttons.on.setAttribute("aria-disabled", String(!canGoOn));
    if (this.trouble.textContent !== trouble) this.trouble.textContent = trouble;
  }

  /** @param {string} text a sentence for the reader, "" for none @param {boolean} [wrong] */
  note(text, wrong = false) {
    this.noteElement.textContent = text;
    this.noteElement.classList.toggle("wrong", wrong);
  }

  /** @param {string} text for a screen reader */
  announce(text) {
    this.live.textContent = text;
  }

  /** @param {number} count steps that Python has not acknowledged for a while */
  waiting(count) {
    const words = count === 1 ? this.say("oneMove") : this.say("manyMoves", { number: String(count) });
    this.unheard.textContent = count ? this.say("unheard", { count: words }) : "";
    this.unheard.hidden = count === 0;
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
