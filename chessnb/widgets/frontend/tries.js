// @ts-check
/** The reader's tries, kept apart from the lesson: named, undone, deleted, judged, exported. */

import { placeOf } from "./beside.js";
import { element, onEnter, word } from "./elements.js";
import { exported, plant, triesOf } from "./keeping.js";
import { saidIn } from "./letters.js";
import { printed } from "./movetext.js";
import { nameOfNode, pathTo, tryOf, unanswered } from "./tree.js";

/** @typedef {import("./tree.js").Node} Node */

/** So long an answer may take before the reader is told; in milliseconds. */
const PATIENCE_MS = 1500;

/** @param {Node} node @returns {string} its place, which outlives the node */
const keyOf = (node) => Object.values(placeOf(node)).join(" ");

export class Tries {
  /**
   * @param {HTMLElement} parent
   * @param {object} parts
   * @param {import("./walk.js").Walk} parts.walk
   * @param {import("./explorerwords.js").Tell} parts.tell
   * @param {import("./asking.js").Questions} parts.questions
   * @param {import("./storage.js").Kept} parts.kept
   * @param {(text: string, wrong: boolean, answers?: boolean) => void} parts.note under the board
   * @param {() => string} parts.letters with which moves name the pieces
   */
  constructor(parent, { walk, tell, questions, kept, note, letters }) {
    this.letters = letters;
    this.walk = walk;
    this.tell = tell;
    this.questions = questions;
    this.kept = kept;
    this.note = note;
    /** @type {import("./keeping.js").Try[]} kept for positions that are not shown */
    this.elsewhere = [];
    /** @type {Node | null} the try that is being named */
    this.naming = null;
    /** Places of tries that Python was asked about by itself: each once. @type {Set<string>} */
    this.caughtUp = new Set();
    /** The place of the one that is being asked about; empty if none is. */
    this.catching = "";
    this.list = element("ol", "");
    this.status = element("p", "status");
    this.words = element("div", "words",
      word(tell("exportTries"), () => this.#export(), "exportTries"),
      word(tell("clearTries"), () => this.#clear(), "clearTries"));
    this.element = element("section", "tries", element("h4", "", tell("tries")), this.list, this.status, this.words);
    this.element.setAttribute("aria-label", tell("tries"));
    parent.append(this.element);
    this.load();
  }

  // -- keeping ------------------------------------------------------------------

  load() {
    this.elsewhere = plant(this.walk.tree, this.kept.load("tries", []));
    this.draw();
    this.#catchUp();
  }

  /** Read again what another explorer has kept. */
  reload() {
    const { tree, current } = this.walk;
    const stands = pathTo(current).filter((node) => node.own).map((node) => node.uci);
    const lesson = pathTo(current).filter((node) => !node.own).pop();
    for (const node of tree.tries) tree.remove(node);
    this.load();
    let node = /** @type {Node} */ (lesson);
    for (const uci of stands) node = node.children.find((child) => child.uci === uci) ?? node;
    this.walk.to(node);
  }

  save() {
    this.kept.save("tries", [...triesOf(this.walk.tree), ...this.elsewhere]);
    this.draw();
  }

  /** The lesson has shown more: tries may have found their place, or become the lesson's. */
  replant() {
    this.elsewhere = plant(this.walk.tree, this.elsewhere);
    this.save();
  }

  // -- answers --------------------------------------------------------------------

  /** @param {Node} node the position shown: if it is a try without an answer, Python is asked */
  stand(node) {
    clearTimeout(this.timer);
    this.questions.drop("try");
    this.status.textContent = "";
    this.#catchUp(); // with a try that was left before it was answered
    if (!node.own || node.shown) return;
    if (node.answer) this.#say(node);
    else this.ask(node);
  }

  /** @param {Node} node */
  ask(node) {
    this.timer = setTimeout(() => this.#status(this.tell("noPython"), node), PATIENCE_MS);
    this.questions.ask("try", placeOf(node), (answer) => {
      clearTimeout(this.timer);
      this.status.textContent = "";
      this.#catchUpAgain(); // Python listens
      if (answer.trouble) return this.note(saidIn(answer.trouble, this.letters()), true);
      // The lesson's own move arrives with the tree: the try has become the lesson's.
      if (this.walk.tree.merged.has(node)) return this.note(answer.answer.sentence, false);
      this.walk.tree.answer(node, answer.answer);
      this.save();
      if (this.walk.current === node) {
        this.walk.changed(); // it can be gone on from here, along the answer's line
        this.#say(node);
      }
    }, (positions) => {
      clearTimeout(this.timer);
      this.#status(this.tell("looking", { count: positions.toLocaleString("en") }), node);
    });
  }

  /**
   * Ask about tries that have no answer: they were made, or left, while Python did not listen.
   *
   * One question at a time, and none about the move shown, which has its own.
   */
  #catchUp() {
    if (this.catching) return;
    const node = unanswered(this.walk.tree).find((own) => own !== this.walk.current && !this.caughtUp.has(keyOf(own)));
    if (!node) return;
    const key = keyOf(node);
    this.caughtUp.add(key);
    this.catching = key;
    this.questions.ask("try", { ...placeOf(node), topic: "catching up" }, (answer) => {
      this.catching = "";
      // The tries may have been read again meanwhile: the node is looked for by its moves.
      const own = unanswered(this.walk.tree).find((other) => keyOf(other) === key);
      if (own && answer.answer && answer.answer.kind !== "lesson") {
        this.walk.tree.answer(own, answer.answer);
        this.save();
        if (this.walk.current === own) this.stand(own);
      }
      this.#catchUp();
    });
  }

  /** Go on catching up; a question that was asked while nobody listened may be lost. */
  #catchUpAgain() {
    this.caughtUp.delete(this.catching);
    this.catching = "";
    this.#catchUp();
  }

  /** @param {string} text @param {Node} node */
  #status(text, node) {
    const stop = word(this.tell("neverMind"), () => {
      clearTimeout(this.timer);
      this.questions.drop("try");
      this.status.textContent = "";
    }, "neverMind");
    const again = word(this.tell("ask"), () => this.ask(node), "ask");
    this.status.replaceChildren(`${text} `, stop, " ", again);
  }

  /** @param {Node} node */
  #say(node) {
    if (node.answer) this.note(saidIn(node.answer.sentence, this.letters()), node.answer.kind === "refuted", true);
  }

  // -- the list ---------------------------------------------------------------------

  draw() {
    /** @type {Node[]} the nodes of the list's moves, by their place */
    this.shown = [];
    const { tries } = this.walk.tree;
    this.list.replaceChildren(...tries.map((node) => this.#item(node)));
    if (tries.length === 0) this.list.replaceChildren(element("li", "none", this.tell("noTries")));
    this.words.hidden = tries.length + this.elsewhere.length === 0;
    const texts = [];
    if (this.elsewhere.length) texts.push(this.tell("elsewhere", { count: String(this.elsewhere.length) }));
    if (!this.kept.lasts) texts.push(this.tell("notLasting"));
    if (texts.length) this.list.append(element("li", "none", texts.join(" ")));
    this.markCurrent();
  }

  /** Underline the move that is shown. */
  markCurrent() {
    for (const button of this.list.querySelectorAll(".move")) {
      const here = this.shown?.[Number(/** @type {HTMLElement} */ (button).dataset.own)] === this.walk.current;
      button.classList.toggle("current", here);
      if (here) button.setAttribute("aria-current", "true");
      else button.removeAttribute("aria-current");
    }
  }

  /** @param {Node} node the first move of a try */
  #item(node) {
    const parent = /** @type {Node} */ (node.parent);
    const { tell } = this;
    const from = parent.parent ? tell("tryAfter", { move: nameOfNode(parent, this.letters()) }) : tell("tryAtStart");
    const label = element("span", "from", node.name ? `${node.name}, ${from}: ` : `${from}: `);
    const item = element("li", "", label, ...this.#line(node, true));
    item.append(element("div", "words",
      word(tell("nameTry"), () => this.#name(node), "nameTry"),
      word(tell("undo"), () => this.#undo(node), "undo"),
      word(tell("delete"), () => this.#delete(node), "delete")));
    if (this.naming === node) item.append(this.#naming(node));
    return item;
  }

  /** @param {Node} node @param {boolean} fresh @returns {(Element | string)[]} */
  #line(node, fresh) {
    /** @type {(Element | string)[]} */
    const parts = [this.#move(node, fresh), " "];
    if (node.answer) {
      // "Qg5 loses 9" behind the move itself goes on from it: its name is not said twice.
      const { sentence } = node.answer;
      const said = sentence.startsWith(`${node.san} `) ? sentence.slice(node.san.length + 1) : sentence;
      parts.push(element("span", `answer ${node.answer.kind}`, saidIn(said, this.letters())), " ");
    }
    const children = node.children.filter((child) => child.own);
    const shown = children.filter((child) => child.shown);
    const tried = children.filter((child) => !child.shown);
    // An answer's line stands in one pair of brackets, however long it is.
    const asides = node.shown ? shown.slice(1) : shown;
    for (const child of asides) parts.push(element("span", "shown", ...this.#bracketed(child)), " ");
    if (node.shown && shown[0]) parts.push(...this.#line(shown[0], asides.length > 0));
    for (const child of tried.slice(1)) parts.push(...this.#bracketed(child), " ");
    if (tried[0]) parts.push(...this.#line(tried[0], node.answer !== null || children.length > 1));
    return parts;
  }

  /** @param {Node} node @returns {(Element | string)[]} */
  #bracketed(node) {
    const line = this.#line(node, true);
    while (line[line.length - 1] === " ") line.pop();
    return ["(", ...line, ")"];
  }

  /** @param {Node} node @param {boolean} fresh @returns {HTMLButtonElement} */
  #move(node, fresh) {
    const shown = /** @type {Node[]} */ (this.shown);
    const button = word(printed(node, fresh, this.letters()), () => this.walk.to(node));
    button.className = "move";
    button.dataset.own = String(shown.push(node) - 1);
    return button;
  }

  /** @param {Node} node */
  #name(node) {
    this.naming = this.naming === node ? null : node;
    this.draw();
    this.list.querySelector("input")?.focus();
  }

  /** @param {Node} node */
  #naming(node) {
    const input = element("input", "");
    input.value = node.name;
    input.maxLength = 60;
    onEnter(input, (text) => {
      node.name = text;
      this.naming = null;
      this.save();
      this.#focus("nameTry", node);
    });
    return element("label", "", `${this.tell("tryName")} `, input);
  }

  /** @param {string} action @param {Node} node */
  #focus(action, node) {
    const item = this.list.children[this.walk.tree.tries.indexOf(node)];
    /** @type {HTMLElement | null | undefined} */ (item?.querySelector(`[data-action=${action}]`))?.focus();
  }

  /** @param {Node} node the first move of the try whose last move goes */
  #undo(node) {
    const own = (/** @type {Node} */ at) => at.children.filter((child) => child.own && !child.shown);
    let last = tryOf(this.walk.current) === node && this.walk.current.own ? this.walk.current : node;
    while (last.shown && last.parent) last = last.parent;
    for (let next = own(last).pop(); next; next = own(last).pop()) last = next;
    this.#take(last);
    if (last !== node) this.#focus("undo", node);
  }

  /** @param {Node} node */
  #delete(node) {
    this.#take(node);
  }

  /** @param {Node} node to take away, with what follows */
  #take(node) {
    const stands = pathTo(this.walk.current).includes(node);
    this.walk.tree.remove(node);
    this.save();
    if (stands) this.walk.to(/** @type {Node} */ (node.parent));
  }

  // -- all of them ----------------------------------------------------------------------

  #export() {
    const file = new Blob([exported(this.walk.tree)], { type: "application/x-chess-pgn" });
    const link = element("a", "");
    link.href = URL.createObjectURL(file);
    link.download = "tries.pgn";
    link.click();
    URL.revokeObjectURL(link.href);
  }

  #clear() {
    const button = /** @type {HTMLButtonElement} */ (this.words.querySelector("[data-action=clearTries]"));
    if (button.dataset.sure === undefined) {
      button.dataset.sure = "";
      button.textContent = this.tell("reallyClear");
      this.status.textContent = this.tell("clearing");
      return;
    }
    delete button.dataset.sure;
    button.textContent = this.tell("clearTries");
    this.status.textContent = "";
    this.elsewhere = [];
    const { walk } = this;
    if (walk.current.own) walk.toLesson();
    for (const node of walk.tree.tries) walk.tree.remove(node);
    this.kept.clear();
    this.save();
    this.kept.clear();
  }

  close() {
    clearTimeout(this.timer);
  }
}
