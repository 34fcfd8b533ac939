// @ts-check
/** The live board as a figure of a text: it follows a walk, and the lesson's position stays. */

import { BoardView } from "./view.js";

/** Words of a board by itself that have no place beside a text. */
const LEFT_OUT = ["setUp", "fullScreen"];

export class Figure extends BoardView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./walk.js").Walk} parts.walk
   * @param {import("./words.js").Say} parts.say
   * @param {HTMLElement} parts.figure where to draw, empty
   */
  constructor({ model, walk, say, figure }) {
    super({ model, sync: /** @type {any} */ (walk), say, figure });
    for (const name of LEFT_OUT) this.caption.buttons[name]?.remove();
  }

  /** The word "on" also opens what the lesson hides. */
  draw() {
    super.draw();
    this.caption.set("on", { enabled: /** @type {any} */ (this.sync).canGoOn });
  }
}
