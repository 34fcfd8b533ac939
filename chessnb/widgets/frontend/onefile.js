// @ts-check
/**
 * A lesson that is one file: its steps, sealed until they are due, and its pages without Python.
 *
 * A page's model here is what was recorded while the lesson was run: what the
 * page shows, what it answers to a first move, and what it tells when asked.
 */

import { Questions } from "./asking.js";
import css from "./board.css";
import { element, word } from "./elements.js";
import explorerCss from "./explorer.css";
import { teller } from "./explorerwords.js";
import ownCss from "./onefile.css";
import { clientName, guardedIn, roomIn } from "./room.js";
import spreadCss from "./spread.css";
import { SpreadView } from "./spreadview.js";
import { spreadTeller } from "./spreadwords.js";
import { unseal } from "./unsealing.js";
import { sayer } from "./words.js";

/** @typedef {{steps: number, parts: Record<string, string>}} Lesson */
/** @typedef {{root: number, line: string}} Place */
/** @typedef {{first: Record<string, any>, home: Place}} Page */
/** @typedef {Record<string, any>} Content */

export const ONE_FILE_ENGLISH = {
  waits: "The next step opens when this question has been answered.",
  openIt: "open it all the same",
  notHere: "This page knows what a first move at the question is worth, and no more.",
  illegal: "This move cannot be played here.",
  tooOld: "This browser is too old for this page. Open it in a newer one.",
  damaged: "This part of the lesson is damaged. Ask your teacher for the file again.",
};

const say = /** @type {(word: keyof typeof ONE_FILE_ENGLISH) => string} */ (
  /** @type {unknown} */ (sayer(/** @type {any} */ (ONE_FILE_ENGLISH))));

/** Answers as the recorded page would, with what anywidget's models have. */
export class Recorded {
  /**
   * @param {Page} page
   * @param {(part: "answers" | "told") => Promise<any>} open unseals a part of the page
   * @param {() => void} answered called once, when the question is answered or the answer shown
   */
  constructor({ first, home }, open, answered) {
    this.traits = { ...first };
    this.home = home;
    this.open = open;
    this.answered = answered;
    /** @type {Map<string, Set<(content?: any) => void>>} */
    this.listeners = new Map();
  }

  /** @param {string} name */
  get(name) {
    return this.traits[name];
  }

  /** @param {string} event @param {(content?: any) => void} act */
  on(event, act) {
    const acts = this.listeners.get(event) ?? new Set();
    this.listeners.set(event, acts.add(act));
  }

  /** @param {string} event @param {(content?: any) => void} act */
  off(event, act) {
    this.listeners.get(event)?.delete(act);
  }

  /** @param {string} event @param {any} [content] */
  emit(event, content) {
    for (const act of [...(this.listeners.get(event) ?? [])]) act(content);
  }

  /** @param {Content} asked */
  send(asked) {
    if (asked.kind === "drop") return;
    this.reply(asked).then(
      (found) => this.emit("msg:custom", { kind: asked.kind, client: asked.client, seq: asked.seq, ...found }),
      (error) => {
        console.error(error);
        this.emit("msg:custom", { kind: asked.kind, client: asked.client, seq: asked.seq, trouble: say("damaged") });
      },
    );
  }

  /** @param {Content} asked @returns {Promise<Content>} */
  async reply(asked) {
    if (asked.kind === "disclose") return this.#disclose();
    if (asked.kind === "try" || asked.kind === "judge") return this.#try(asked);
    if (asked.kind === "typed") return { text: say("illegal"), uci: "" };
    if (asked.kind === "remarks") return { changes: [] };
    if (asked.kind === "reveal") return { number: asked.number };
    return { sentences: [], tags: [], trouble: say("notHere") };
  }

  /** @param {Content} asked @returns {Promise<Content>} */
  async #try({ root, line, topic }) {
    const before = this.home.line ? `${this.home.line} ` : "";
    const uci = root === this.home.root && line.startsWith(before) ? line.slice(before.length) : "";
    const answer = uci && !uci.includes(" ") ? (await this.open("answers"))?.[uci] : undefined;
    if (answer?.right && topic !== "catching up") this.answered();
    if (answer || topic) return answer ? { answer } : {};
    return { answer: { kind: "open", sentence: say("notHere"), line: line.split(" ").slice(-1) } };
  }

  /** @returns {Promise<Content>} */
  async #disclose() {
    const told = await this.open("told");
    if (told) {
      this.traits = told;
      this.emit("change:tree");
      this.emit("change:spread");
    }
    this.answered();
    return {};
  }
}

/** @param {HTMLElement} el @param {Recorded} model */
function show(el, model) {
  const room = roomIn(el, css + explorerCss + spreadCss + ownCss, "chessnb-page");
  const words = model.get("words") ?? {};
  const boardSay = sayer(words);
  guardedIn(room, boardSay)(() => {
    const whole = element("div", "explorer spread");
    room.append(element("div", "page", whole));
    const questions = new Questions(model, clientName());
    const view = new SpreadView({ model, questions, say: boardSay, tell: teller(words), spreadTell: spreadTeller(words), whole });
    // On this page they stand under a heading of the second order.
    for (const heading of whole.querySelectorAll("h4")) heading.setAttribute("aria-level", "3");
    model.on("change:tree", () => view.revealed());
    model.on("change:spread", () => view.told());
  })();
}

/** Opens the steps, each behind the question of the one before. */
class Steps {
  /** @param {Lesson} lesson @param {HTMLElement} place */
  constructor(lesson, place) {
    this.lesson = lesson;
    this.place = place;
    this.opened = 0;
  }

  /** @param {string} name @returns {Promise<any>} */
  async part(name) {
    const text = this.lesson.parts[name];
    return text === undefined ? null : unseal(name, text);
  }

  /** Open the next step, and those behind it up to the next question. */
  async next() {
    if (this.opened >= this.lesson.steps) return;
    this.opened += 1;
    const number = this.opened;
    const section = element("section", "step");
    section.dataset.step = String(number);
    this.place.append(section);
    try {
      const { html, first, home } = await this.part(`step ${number}`);
      const prose = element("div", "words");
      prose.innerHTML = html; // our own, escaped where it was made; no script in it could run here
      section.append(prose);
      const asks = first !== null && first.spread.told === null;
      if (first !== null) this.#page(section, { first, home }, number);
      if (!asks) return void (await this.next());
      if (number < this.lesson.steps) this.#wait(section, number);
    } catch (error) {
      console.error(error);
      section.append(element("p", "damaged", say("damaged")));
    }
  }

  /** @param {HTMLElement} section @param {Page} page @param {number} number */
  #page(section, page, number) {
    const place = element("div", "board");
    section.append(place);
    const open = (/** @type {string} */ what) => this.part(`${what} ${number}`);
    show(place, new Recorded(page, open, () => this.#answered(number)));
  }

  /** @param {HTMLElement} section @param {number} number */
  #wait(section, number) {
    const open = word(say("openIt"), () => this.#answered(number), "openIt");
    this.waiting = element("p", "waits", `${say("waits")} `, open);
    section.append(this.waiting);
  }

  /** @param {number} number of the step whose question is answered */
  #answered(number) {
    if (number !== this.opened) return;
    this.waiting?.remove();
    void this.next();
  }
}

export default () => {
  const data = /** @type {HTMLElement} */ (document.getElementById("lesson"));
  const place = /** @type {HTMLElement} */ (document.getElementById("steps"));
  if (!("DecompressionStream" in globalThis)) return place.append(element("p", "damaged", say("tooOld")));
  void new Steps(JSON.parse(data.textContent ?? ""), place).next();
};
