// @ts-check
/** Candidates: moves that the class calls out, with votes, judged only when the teacher asks. */

import { placeOf } from "./beside.js";
import { element, word } from "./elements.js";
import { bound, inLetters, saidIn } from "./letters.js";
import { sanOf } from "./notation.js";
import { moveOf } from "./rules.js";
import { movesTo, pathTo, positionAt } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */
/** @typedef {{uci: string, san: string, votes: number, answer: import("./tree.js").Answer | null}} Candidate */

/** A full stop behind a square or a word ends a sentence, the one behind the number of a move does not. */
const SENTENCE_END = /(?<=[^\d\s.][.!?])\s+|(?<=[a-h][1-8][.!?])\s+(?=[A-Z][a-z ])/;

export class Candidates {
  /**
   * @param {HTMLElement} parent
   * @param {object} parts
   * @param {import("./walk.js").Walk} parts.walk
   * @param {import("./explorerwords.js").Tell} parts.tell
   * @param {import("./asking.js").Questions} parts.questions
   * @param {import("./storage.js").Kept} parts.kept
   * @param {() => string} parts.letters with which moves name the pieces
   */
  constructor(parent, { walk, tell, questions, kept, letters }) {
    this.letters = letters;
    this.walk = walk;
    this.tell = tell;
    this.questions = questions;
    this.kept = kept;
    /** @type {Record<string, Candidate[]>} by position */
    this.all = kept.load("candidates", {});
    this.on = false;
    this.list = element("ul", "");
    this.hint = element("p", "status");
    this.hint.setAttribute("role", "status");
    this.judging = word(tell("judge"), () => this.judge(), "judge");
    this.element = element("div", "candidates", this.hint, this.list,
      element("div", "words", this.judging, element("span", "soft", tell("judgeKey"))));
    this.element.hidden = true;
    parent.append(this.element);
  }

  /** @returns {string} */
  get #place() {
    return [pathTo(this.walk.current)[0].name, ...movesTo(this.walk.current)].join(" ");
  }

  /** @returns {Candidate[]} those of the position shown */
  get here() {
    return this.all[this.#place] ?? [];
  }

  /** @param {boolean} on whether moves on the board are noted instead of played */
  turn(on) {
    this.on = on;
    this.element.hidden = !on;
    this.draw();
  }

  /** @param {string} uci a move that was called out @returns {boolean} whether it was noted */
  note(uci) {
    if (!this.on) return false;
    const known = this.here.find((one) => one.uci === uci);
    if (known) known.votes += 1;
    else {
      const san = sanOf(positionAt(this.walk.current), moveOf(uci));
      this.all[this.#place] = [...this.here, { uci, san, votes: 1, answer: null }];
    }
    this.#save();
    return true;
  }

  /** Ask Python about all candidates here. */
  judge() {
    const { current } = this.walk;
    const { root, line } = placeOf(current);
    for (const candidate of this.here) {
      const content = { root, line: `${line} ${candidate.uci}`.trim(), topic: candidate.uci };
      this.questions.ask("judge", content, (answer) => {
        candidate.answer = answer.answer ?? { kind: "open", sentence: answer.trouble };
        this.#save();
      });
    }
  }

  #save() {
    this.kept.save("candidates", this.all);
    this.draw();
  }

  draw() {
    if (!this.on) return;
    this.hint.textContent = this.tell("candidatesOn");
    this.list.replaceChildren(...this.here.map((candidate) => this.#item(candidate)));
    if (this.here.length === 0) this.list.append(element("li", "none", this.tell("noCandidates")));
    this.judging.setAttribute("aria-disabled", String(this.here.length === 0));
  }

  /** @param {Candidate} candidate */
  #item(candidate) {
    const change = (/** @type {number} */ by) => () => {
      candidate.votes = Math.max(0, candidate.votes + by);
      this.#save();
      this.#focus(candidate, by > 0 ? "oneMore" : "oneLess");
    };
    const takeOff = () => {
      this.all[this.#place] = this.here.filter((other) => other !== candidate);
      this.#save();
      this.judging.focus();
    };
    const { tell } = this;
    const item = element("li", "", element("b", "", inLetters(candidate.san, this.letters())), ` ${tell("votes", { count: String(candidate.votes) })} `,
      word(tell("oneMore"), change(1), "oneMore"), " ",
      word(tell("oneLess"), change(-1), "oneLess"), " ",
      word(tell("takeOff"), takeOff, "takeOff"));
    if (candidate.answer) item.append(this.#answer(candidate.answer));
    item.dataset.uci = candidate.uci;
    item.classList.toggle("told", candidate.answer !== null);
    return item;
  }

  /** @param {import("./tree.js").Answer} answer @returns {HTMLElement} its first sentence, and the rest, for which there may be no room */
  #answer({ kind, sentence, written }) {
    const [first, ...more] = saidIn(sentence, this.letters()).split(SENTENCE_END);
    const rest = [...more, written ? bound(saidIn(written, this.letters())) : ""].filter(Boolean).join(" ");
    const told = element("p", `answer ${kind}`, first, rest ? element("span", "rest", ` ${rest}`) : "");
    told.title = rest;
    return told;
  }

  /** @param {Candidate} candidate @param {string} action */
  #focus(candidate, action) {
    const item = this.list.querySelector(`[data-uci="${candidate.uci}"] [data-action=${action}]`);
    /** @type {HTMLElement | null} */ (item)?.focus();
  }
}
