// @ts-check
/** The choice of a piece for a pawn: four words in the caption, by mouse or keys. */

import { nameOf } from "./notation.js";

const CHOICES = ["q", "r", "b", "n"];

export class Promotion {
  /**
   * @param {HTMLElement} controls the words whose place the choice takes
   * @param {import("./words.js").Say} say
   */
  constructor(controls, say) {
    this.controls = controls;
    this.element = document.createElement("div");
    this.element.className = "words promotion";
    this.element.setAttribute("role", "group");
    this.element.setAttribute("aria-label", say("pawnBecomes"));
    this.element.hidden = true;
    this.element.innerHTML = "<span></span>";
    /** @type {HTMLElement} */ (this.element.firstChild).textContent = say("pawnBecomes");
    this.buttons = [...CHOICES, ""].map((letter) => this.#button(letter, say));
    this.element.addEventListener("keydown", (event) => this.#key(event));
    controls.after(this.element);
    /** @type {((letter: string) => void) | null} */
    this.chosen = null;
  }

  /** @param {string} letter @param {import("./words.js").Say} say @returns {HTMLButtonElement} */
  #button(letter, say) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = letter ? say(nameOf(letter)) : say("keepPawn");
    button.dataset.choice = letter;
    button.addEventListener("click", () => this.choose(letter));
    this.element.append(button);
    return button;
  }

  /**
   * Ask for the piece; the answer "" means that the pawn stays.
   * @param {(letter: string) => void} chosen
   */
  ask(chosen) {
    this.chosen = chosen;
    this.element.hidden = false;
    this.controls.hidden = true;
    this.buttons[0].focus();
  }

  /** @param {string} letter */
  choose(letter) {
    const chosen = this.chosen;
    this.close();
    chosen?.(letter);
  }

  /** Ask no longer; nobody is told. */
  close() {
    this.chosen = null;
    this.element.hidden = true;
    this.controls.hidden = false;
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const place = this.buttons.indexOf(/** @type {HTMLButtonElement} */ (event.target));
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (step) this.buttons[(place + step + this.buttons.length) % this.buttons.length].focus();
    else if (event.key === "Escape") this.choose("");
    else if (CHOICES.includes(event.key.toLowerCase()) && !event.ctrlKey && !event.metaKey) {
      this.choose(event.key.toLowerCase());
    } else return;
    event.preventDefault();
    event.stopPropagation();
  }
}
