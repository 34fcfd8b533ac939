// @ts-check
/**
 * The pen: from colour names and squares to SVG attributes and units.
 *
 * The twin of `chessnb/diagrams/pen.py`; both draw from the same `ink.json`,
 * and a test compares what they draw byte for byte.
 */

import ink from "../../diagrams/ink.json" with { type: "json" };

/** The measures, colours and shapes; `chessnb/diagrams/ink.py` explains them. */
export const INK = /** @type {any} */ (ink);

/** @typedef {keyof typeof ink.marks} Role what a mark may mean */

/** @typedef {"auto" | "light" | "dark" | "print"} Theme */

/**
 * Write a measure with one decimal at most, halves upwards.
 * @param {number} value
 * @returns {string}
 */
export const number = (value) => String(Math.floor(value * 10 + 0.5) / 10);

/** What turns a colour's name into paint and a square into a place. */
export class Pen {
  /** @param {Theme} theme @param {boolean} turned Black's side at the bottom */
  constructor(theme, turned) {
    this.theme = theme;
    this.turned = turned;
  }

  /** @param {string} thing @returns {string} the id of a thing that is drawn once */
  name(thing) {
    return `chessnb-${this.theme}-${thing}`;
  }

  /** @param {number} square @returns {[number, number]} its top left corner, in units */
  corner(square) {
    const seen = this.turned ? 63 - square : square;
    const { left, top, square: side } = INK.board;
    return [left + side * (seen & 7), top + side * (7 - (seen >> 3))];
  }

  /** @param {number} square @returns {[number, number]} its middle, in units */
  middle(square) {
    const [x, y] = this.corner(square);
    return [x + INK.board.square / 2, y + INK.board.square / 2];
  }

  /**
   * The attributes that ink a shape, with a space before each.
   * @param {{fill?: string | null, stroke?: string | null, width?: number, dash?: string}} how
   * @returns {string}
   */
  paint({ fill, stroke, width = 0, dash }) {
    const colours = INK.themes[this.theme === "auto" ? "light" : this.theme];
    const classes = [fill && `chessnb-fill-${fill}`, stroke && `chessnb-stroke-${stroke}`];
    let text = this.theme === "auto" ? ` class="${classes.filter(Boolean).join(" ")}"` : "";
    text += ` fill="${fill ? colours[fill] : "none"}"`;
    if (stroke) text += ` stroke="${colours[stroke]}" stroke-width="${number(width)}"`;
    if (dash) text += ` stroke-dasharray="${dash}"`;
    return text;
  }

  /** @returns {string} the style element that darkens an "auto" diagram; else nothing */
  style() {
    if (this.theme !== "auto") return "";
    return `<style>@media screen and (prefers-color-scheme:dark){${inkRules(String)}}</style>`;
  }
}

/**
 * What the style sheets know of the ink: every colour by its name, and the board's margin.
 * @returns {string}
 */
export function inkNames() {
  const light = { ...INK.themes.light, ...INK.page.light };
  const dark = { ...INK.themes.dark, ...INK.page.dark };
  const colours = Object.keys(light).map((name) => `--${name}:light-dark(${light[name]},${dark[name]});`);
  const margin = `${(100 * INK.board.left) / INK.board.width}%`;
  return `:host{${colours.join("")}--black:${INK.themes.print.ink};--margin:${margin}}`;
}

/**
 * The style rules that give every colour class of an "auto" diagram its colour.
 * @param {(dark: string, light: string) => string} colour from the two themes' colours to a CSS value
 * @returns {string}
 */
export const inkRules = (colour) =>
  Object.entries(INK.themes.dark)
    .map(([name, dark]) => [name, colour(dark, INK.themes.light[name])])
    .map(([name, value]) => `.chessnb-fill-${name}{fill:${value}}.chessnb-stroke-${name}{stroke:${value}}`)
    .join("");
