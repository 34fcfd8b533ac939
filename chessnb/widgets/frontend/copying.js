// @ts-check
/** Copying the position as FEN and the line as PGN, also where the browser forbids the clipboard. */

import { sanOf } from "./notation.js";
import { START, moveOf, play, readFen } from "./rules.js";

/**
 * The moves to the position shown: numbered movetext, as the PGN standard exports it (8.2, in English).
 * A line that does not begin with a game has the tags SetUp and FEN before it, so that it can be read back.
 * @param {import("./sync.js").Line} line
 * @returns {string}
 */
export function lineText({ start, moves, ply }) {
  let position = readFen(start);
  const words = moves.slice(0, ply).map((uci, place) => {
    const move = moveOf(uci);
    const number = position.turn === "w" ? `${position.full}. ` : place === 0 ? `${position.full}... ` : "";
    const word = number + sanOf(position, move);
    position = play(position, move);
    return word;
  });
  return start === START ? words.join(" ") : `[SetUp "1"]\n[FEN "${start}"]\n\n${[...words, "*"].join(" ")}\n`;
}

/** Puts texts on the clipboard, or, where that is refused, into a field to copy from. */
export class Copying {
  /** @param {HTMLElement} before what the field stands before @param {import("./caption.js").Caption} caption */
  constructor(before, caption) {
    this.caption = caption;
    this.element = document.createElement("label");
    this.element.className = "copying";
    this.element.hidden = true;
    this.field = document.createElement("textarea");
    Object.assign(this.field, { readOnly: true, rows: 3, spellcheck: false });
    this.element.append(`${caption.say("copyByHand")} `, this.field);
    before.before(this.element);
    /** Where the focus came from. @type {HTMLElement | null} */
    this.origin = null;
    this.field.addEventListener("keydown", (event) => {
      event.stopPropagation();
      if (event.key !== "Escape") return;
      this.close();
      this.origin?.focus({ preventScroll: true });
    });
  }

  /**
   * @param {string} text
   * @param {import("./words.js").Word} said what to say when it is done
   * @param {HTMLElement} origin the word that was pressed
   */
  async copy(text, said, origin) {
    this.close();
    this.origin = origin;
    try {
      await navigator.clipboard.writeText(text);
      this.caption.note(this.caption.say(said));
    } catch {
      this.caption.note("");
      this.element.hidden = false;
      this.field.value = text;
      this.field.focus();
      this.field.select();
    }
  }

  /** Put the field away. */
  close() {
    this.element.hidden = true;
    this.field.value = "";
  }
}
