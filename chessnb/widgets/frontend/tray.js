// @ts-check
/** The tray beside a board that is being set up: the twelve pieces, and words for all that pieces do not show. */

import { setWord, wordButton, wordGroup } from "./button.js";
import { STEADY } from "./hand.js";
import { nameOf } from "./notation.js";
import { INK } from "./pen.js";
import { squareName } from "./rules.js";
import { RIGHTS, isHome, passable } from "./setup.js";
import { PIECES, keyOf } from "./svg.js";
import { sentence } from "./words.js";

/** @typedef {import("./placing.js").Placing} Placing */
/** @typedef {import("./words.js").Word} Word */

/** @type {Record<string, Word>} */
const WING = { K: "kingSide", Q: "queenSide", k: "kingSide", q: "queenSide" };

export class Tray {
  /** @param {import("./playing.js").Desk} desk @param {Placing} placing */
  constructor(desk, placing) {
    this.desk = desk;
    this.placing = placing;
    this.element = document.createElement("div");
    this.element.className = "tray";
    this.element.setAttribute("role", "group");
    this.element.setAttribute("aria-label", desk.say("settingUp"));
    const { say } = desk;
    const word = (/** @type {Word} */ name, /** @type {() => void} */ act) => wordButton(say(name), act);
    this.pieces = PIECES.map((letter) => this.#piece(letter));
    this.off = word("takeOff", () => placing.choose(""));
    this.sides = { w: word("whiteSide", () => placing.turnTo("w")), b: word("blackSide", () => placing.turnTo("b")) };
    this.rights = RIGHTS.map((right) => word(WING[right], () => placing.castling(right)));
    this.passed = document.createElement("div");
    this.passed.className = "words";
    this.play = word("playFromHere", () => placing.play());
    this.fen = this.#fen();
    this.faults = document.createElement("p");
    this.faults.className = "faults";
    this.faults.setAttribute("role", "status");
    this.element.append(
      row("pieces", this.pieces),
      row("words", [this.off, word("emptyBoard", () => placing.empty()), word("startPosition", () => placing.start())]),
      row("words", [wordGroup(say("toMove"), Object.values(this.sides))]),
      row("words", [
        wordGroup(say("whiteCastles"), this.rights.slice(0, 2)), wordGroup(say("blackCastles"), this.rights.slice(2))]),
      this.passed,
      row("words", [/** @type {HTMLElement} */ (this.fen.parentElement)]),
      this.faults,
      row("words", [this.play, word("cancel", () => placing.judge.cancel())]),
    );
  }

  /** @param {string} letter @returns {HTMLButtonElement} a piece to be chosen, or dragged onto the board */
  #piece(letter) {
    const { say, field } = this.desk;
    const button = wordButton("", () => this.placing.choose(letter));
    const piece = { side: say(letter < "a" ? "white" : "black"), piece: say(nameOf(letter)) };
    button.setAttribute("aria-label", say("trayPiece", piece));
    button.dataset.piece = letter;
    button.innerHTML =
      `<svg viewBox="0 0 ${INK.board.square} ${INK.board.square}" aria-hidden="true" focusable="false" stroke-linecap="round" stroke-linejoin="round">` +
      `<use href="#${field.pen.name(keyOf(letter))}"/></svg>`;
    this.#draggable(button, letter);
    return button;
  }

  /** @param {HTMLButtonElement} button @param {string} letter */
  #draggable(button, letter) {
    const { field } = this.desk;
    let [startX, startY, dragging] = [0, 0, false];
    button.addEventListener("pointerdown", (event) => {
      [startX, startY, dragging] = [event.clientX, event.clientY, false];
      if (event.button === 0 && event.isPrimary) button.setPointerCapture(event.pointerId);
    });
    button.addEventListener("pointermove", (event) => {
      if (!button.hasPointerCapture(event.pointerId)) return;
      dragging ||= Math.hypot(event.clientX - startX, event.clientY - startY) >= STEADY;
      if (dragging) field.float(letter, field.at(event.clientX, event.clientY));
    });
    button.addEventListener("pointerup", (event) => {
      field.float("", null);
      const { square } = field.at(event.clientX, event.clientY);
      if (dragging && square >= 0) this.placing.put(square, letter);
    });
    button.addEventListener("pointercancel", () => field.float("", null));
    // The click that ends a drag chooses nothing.
    button.addEventListener("click", (event) => {
      if (dragging) event.stopImmediatePropagation();
      dragging = false;
    }, { capture: true });
  }

  /** @returns {HTMLInputElement} */
  #fen() {
    const label = document.createElement("label");
    label.className = "fen";
    const input = document.createElement("input");
    Object.assign(input, { type: "text", maxLength: 200, autocomplete: "off", spellcheck: false });
    const read = () => this.placing.readFen(input.value.trim());
    input.addEventListener("change", read);
    input.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || event.isComposing) return;
      event.preventDefault();
      event.stopPropagation();
      read();
    });
    label.append("FEN ", input);
    return input;
  }

  /** Show what is set up, what is chosen, and what is wrong. */
  draw() {
    const { position, chosen, faults, fen } = this.placing;
    for (const button of this.pieces) setWord(button, { pressed: button.dataset.piece === chosen });
    setWord(this.off, { pressed: chosen === "" });
    setWord(this.sides.w, { pressed: position.turn === "w" });
    setWord(this.sides.b, { pressed: position.turn === "b" });
    RIGHTS.forEach((right, place) => {
      const home = isHome(position, right);
      setWord(this.rights[place], { enabled: home, pressed: home && position.castling.includes(right) });
    });
    this.#drawPassed();
    if (this.fen.value !== fen) this.fen.value = fen;
    this.fen.toggleAttribute("aria-invalid", false);
    if (faults && this.placing.typedFen !== null) this.fen.setAttribute("aria-invalid", "true");
    const said = faults ? sentence(faults) : "";
    if (this.faults.textContent !== said) this.faults.textContent = said;
    setWord(this.play, { enabled: faults === "" });
  }

  /** Offer the squares that a pawn may just have passed; no line where there are none. */
  #drawPassed() {
    const { position } = this.placing;
    const { say } = this.desk;
    const squares = passable(position);
    const names = squares.join();
    if (this.passed.dataset.squares !== names) {
      this.passed.dataset.squares = names;
      const buttons = [-1, ...squares].map((square) => {
        const button = wordButton(square < 0 ? say("none") : squareName(square), () => this.placing.passed(square));
        button.dataset.passed = String(square);
        return button;
      });
      this.passed.replaceChildren(...(squares.length ? [wordGroup(say("enPassant"), buttons)] : []));
    }
    const chosen = squares.includes(position.ep) ? position.ep : -1;
    for (const button of this.passed.querySelectorAll("button")) {
      setWord(button, { pressed: button.dataset.passed === String(chosen) });
    }
  }
}

/** @param {string} name @param {HTMLElement[]} parts @returns {HTMLElement} */
function row(name, parts) {
  const element = document.createElement("div");
  element.className = name;
  element.append(...parts);
  return element;
}
