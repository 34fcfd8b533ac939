// @ts-check
/**
 * One page of a lesson: what is asked and told at the left, one board at the right.
 *
 * It is an explorer whose parts stand elsewhere: the text of the page takes the
 * column, and movetext, tries, facts and the teacher's words wait behind one word.
 */

import { setWord } from "./button.js";
import { TO_MARK, isCommand } from "./classroom.js";
import { element, word } from "./elements.js";
import { ExplorerView } from "./explorerview.js";
import { GradedForm } from "./gradedform.js";
import { inLetters, saidIn } from "./letters.js";
import { legalMove } from "./notation.js";
import { prose } from "./prose.js";
import { moveOf, readFen } from "./rules.js";
import { movesTo, nameOfNode, pathTo, positionAt, tryOf } from "./tree.js";
import { Walk } from "./walk.js";

/** @typedef {import("./tree.js").Node} Node */
/** @typedef {import("./prose.js").Play} Play */
/** @typedef {{recalled: string, question: string, asked: {hints: number} | null, told: import("./prose.js").Said[] | null, notes: string[]}} Spread */

/** So long an answer may take before the reader is told; in milliseconds. */
const PATIENCE_MS = 1500;

export class SpreadView extends ExplorerView {
  /**
   * @param {ConstructorParameters<typeof ExplorerView>[0] & {spreadTell: import("./spreadwords.js").SpreadTell,
   *   questionTell?: import("./questionwords.js").QuestionTell}} parts
   */
  constructor({ spreadTell, questionTell, ...parts }) {
    super(parts);
    this.say = spreadTell;
    /** The page's own position. */
    this.home = this.tree.nodes[this.model.get("at")] ?? this.tree.nodes[0];
    /** The nodes of the line that is followed. @type {Set<Node>} */
    this.followed = new Set();
    /** Positions of findings that are none of the lesson's. @type {Map<string, Node>} */
    this.apart = new Map();
    this.walk.leads = (node) => this.followed.has(node) || Walk.prototype.leads.call(this.walk, node);
    this.prose = element("div", "prose");
    this.prose.setAttribute("role", "group");
    this.prose.setAttribute("aria-label", this.say("theText"));
    this.tried = element("p", "tried");
    this.drawer = this.#drawer();
    const { asked } = this.spread;
    this.graded = asked && questionTell && new GradedForm({
      questions: this.questions, tell: questionTell, hints: asked.hints, set: (text) => saidIn(text, this.letters),
      show: (reason) => this.#reason(reason),
    });
    const field = this.graded ? [this.graded.element] : [];
    this.whole.append(element("div", "text", this.prose, ...field, this.classroom.candidates.element, this.tried, this.drawer));
    this.#caption();
    this.#hall();
    this.beside.sleep(true, this.walk.current);
    this.told();
    this.#act();
  }

  /** @returns {Spread} */
  get spread() {
    return this.model.get("spread");
  }

  // -- how it is put together ---------------------------------------------------------

  /** The word that says what comes next, and behind it the others, directly under what the board shows. */
  #caption() {
    const { caption } = this.board;
    const { buttons } = caption;
    const where = /** @type {HTMLElement} */ (caption.where.parentElement);
    where.querySelector("b")?.remove(); // there is only one figure
    where.after(caption.noteElement);
    this.main = word("", () => this.act(), "main");
    this.main.classList.add("main");
    this.atHome = word(this.say("toPosition"), () => this.goHome(), "toPosition");
    this.answering = word(this.say("showAnswer"), () => this.#disclose(), "showAnswer");
    this.opener = word(this.say("tools"), () => this.#open(this.drawer.hidden), "tools");
    this.opener.classList.add("opener");
    this.opener.setAttribute("aria-expanded", "false");
    const controls = /** @type {HTMLElement} */ (caption.form?.parentElement);
    const form = /** @type {HTMLElement} */ (caption.form);
    this.hallWord = word(this.say("fullScreen"), () => this.classroom.toggleFullScreen(), "hall");
    this.sideWord = word("", () => this.#changeSide(), "side");
    this.hallWord.hidden = !document.fullscreenEnabled;
    controls.replaceChildren(this.main, buttons.back, this.atHome, this.answering, form, this.sideWord, this.hallWord, this.opener);
    const label = caption.typingLabel;
    if (label) label.textContent = this.say("yourMove");
  }

  /** @returns {HTMLElement} what stands behind the word "tools": the board's words, the lesson's, the teacher's */
  #drawer() {
    const { caption } = this.board;
    const { buttons } = caption;
    const row = /** @type {HTMLElement} */ (buttons.copyPosition.parentElement);
    row.prepend(buttons.toStart, buttons.turnBoard);
    const board = element("section", "", element("h4", "", this.say("boardTools")), row);
    const moves = element("h4", "", this.say("moveTools"));
    this.column.prepend(moves);
    const drawer = element("div", "drawer", board, this.column);
    drawer.hidden = true;
    return drawer;
  }

  /** @param {boolean} open */
  #open(open) {
    this.drawer.hidden = !open;
    this.opener?.setAttribute("aria-expanded", String(open));
    this.beside.sleep(!open, this.walk.current);
  }

  // -- in the hall ---------------------------------------------------------------------

  /** Let the page be led from the whole screen, by words, keys and a presenter's remote. */
  #hall() {
    const { classroom } = this;
    const key = classroom.key.bind(classroom);
    classroom.key = (event) => this.#hallKey(event) || key(event);
    /** Which word stands where depends on the screen. */
    this.screened = () => this.#drawHall();
    document.addEventListener("fullscreenchange", this.screened);
    classroom.page = [pathTo(this.home)[0].fen, ...movesTo(this.home)].join(" ");
    /** Another page has been asked for the mark that was set on this one. */
    this.marked = (/** @type {any} */ { detail }) => {
      if (detail.lesson !== classroom.kept.lesson || detail.page !== classroom.page) return;
      classroom.stopAtMark();
      this.whole.scrollIntoView({ block: "start" });
      const word = this.main?.hidden ? this.opener : this.main;
      word?.focus({ preventScroll: true });
    };
    classroom.maySay = () => !this.asks;
    addEventListener(TO_MARK, this.marked);
    this.#drawHall();
  }

  #drawHall() {
    const full = this.classroom.isFull;
    const left = this.classroom.kept.load("boardLeft", false);
    this.whole.classList.toggle("board-left", left);
    this.whole.tabIndex = full ? 0 : -1; // a click beside everything does not take the keys away
    if (!full) this.whole.removeAttribute("tabindex");
    if (!this.hallWord || !this.sideWord || !this.opener) return;
    setWord(this.hallWord, { text: this.say(full ? "leaveFullScreen" : "fullScreen") });
    setWord(this.sideWord, { text: this.say(left ? "boardRight" : "boardLeft"), shown: full });
    setWord(this.opener, { shown: !full });
    if (full) {
      this.#open(false);
      if (!this.classroom.students) this.opener.before(this.classroom.asking);
      this.board.caption.announce(this.say("hallKeys"));
      this.hallWord.title = this.say("hallKeys");
      this.whole.focus({ preventScroll: true });
    } else this.classroom.words.prepend(this.classroom.asking);
  }

  #changeSide() {
    const { kept } = this.classroom;
    kept.save("boardLeft", !kept.load("boardLeft", false));
    this.#drawHall();
  }

  /** @param {KeyboardEvent} event @returns {boolean} whether the key meant something */
  #hallKey(event) {
    if (!isCommand(event)) return false;
    const { classroom, walk } = this;
    /** @type {Record<string, () => void>} */
    const everywhere = { PageDown: () => this.act(), PageUp: () => walk.back() };
    const onBoard = event.composedPath().some((at) => at instanceof Element && at.getAttribute("role") === "grid");
    const scroll = (/** @type {number} */ by) => this.prose.parentElement?.scrollBy({ top: by * window.innerHeight / 4 });
    /** @type {Record<string, () => void>} */
    const arrows = onBoard ? {} : {
      ArrowRight: everywhere.PageDown, ArrowLeft: everywhere.PageUp,
      ArrowDown: () => scroll(1), ArrowUp: () => scroll(-1),
    };
    /** @type {Record<string, () => void>} */
    const inHall = {
      ...arrows,
      c: () => classroom.asking.click(),
      b: () => {
        classroom.setMark();
        this.board.caption.note(classroom.status.textContent ?? "");
      },
      s: () => this.#changeSide(),
    };
    const hall = classroom.students ? { ...arrows, s: inHall.s } : inHall;
    const keys = classroom.isFull ? { ...everywhere, ...hall } : everywhere;
    const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    act?.();
    return act !== undefined;
  }

  // -- what is told --------------------------------------------------------------------

  /** Print what the page says so far. */
  told() {
    const { recalled, question, told, notes } = this.spread;
    const letters = () => this.letters;
    const acts = {
      point: (/** @type {Play} */ play) => this.#peek(play),
      leave: () => this.#unpeek(),
      choose: (/** @type {Play} */ play) => this.#choose(play),
      letters,
    };
    const plain = (/** @type {string} */ kind, /** @type {string} */ text) =>
      ({ kind, head: "", text, known: "", play: null, items: [], card: "" });
    const before = [
      ...(recalled ? [{ ...plain("recalled", ""), head: recalled }] : []),
      ...(question ? [plain("question", question)] : []),
    ];
    const after = told ? [...told, ...notes.map((text) => plain("note", text))] : [];
    this.prose.replaceChildren(...prose(before, acts), ...prose(after, acts));
    this.whole.classList.toggle("asked", !told);
    this.#act();
  }

  relettered() {
    super.relettered();
    if (this.prose) this.told();
  }

  #disclose() {
    clearTimeout(this.late);
    this.late = setTimeout(() => this.board.caption.note(this.say("waiting")), PATIENCE_MS);
    const stood = this.walk.current;
    this.questions.ask("disclose", {}, () => {
      clearTimeout(this.late);
      this.board.caption.note("");
      if (stood.own && this.walk.current === stood) this.goHome();
      this.#act();
    });
  }

  // -- on the one board ------------------------------------------------------------------

  /**
   * The nodes of a paragraph's line, which hang on the lesson as lines of Python's do.
   * @param {Play} play
   * @returns {Node[]} from the root on
   */
  #nodes({ root, fen, line }) {
    let node = root < 0 ? this.#apart(fen) : this.tree.nodes[root];
    const nodes = [node];
    for (const uci of line) {
      if (!legalMove(positionAt(node), uci)) break;
      node = this.tree.follow(node, uci, true);
      nodes.push(node);
    }
    return nodes;
  }

  /** @param {string} fen @returns {Node} */
  #apart(fen) {
    const known = this.apart.get(fen);
    if (known) return known;
    readFen(fen);
    const node = /** @type {Node} */ ({ ...this.tree.nodes[0], number: -1, parent: null, children: [], chosen: null, fen, position: null,
      name: "", comment: "", hidden: false, own: true, shown: true, answer: null });
    this.apart.set(fen, node);
    return node;
  }

  /** @param {Play} play */
  #peek(play) {
    if (this.drawingNow) return;
    const nodes = this.#nodes(play);
    this.walk.peeked = { node: nodes[Math.min(play.at, nodes.length - 1)], marks: play.marks };
    this.board.update();
  }

  #unpeek() {
    if (!this.walk.peeked) return;
    this.walk.peeked = null;
    this.board.update();
  }

  /** @returns {boolean} whether the reader has the pen in hand */
  get drawingNow() {
    return this.board.tool === this.board.drawing;
  }

  /** @param {Play} play whose position is shown from now on, and whose line is gone on along */
  #choose(play) {
    const nodes = this.#nodes(play);
    const stand = nodes[Math.min(play.at, nodes.length - 1)];
    this.followed = new Set(nodes);
    for (const node of nodes.slice(1)) if (node.parent) node.parent.chosen = node;
    this.walk.to(stand);
    for (const node of nodes.slice(1)) if (node.parent) node.parent.chosen = node;
    this.walk.draw(play.marks);
  }

  /**
   * Show why an answer is right or wrong: by marks on the page's position, or by a line.
   * @param {import("./gradedform.js").Shown} reason
   */
  #reason({ fen, passed, line, marks }) {
    this.goHome();
    if (!line.length) {
      this.walk.draw(marks);
      return;
    }
    const way = passed ? [] : movesTo(this.home); // behind a pass the line begins elsewhere
    const root = passed ? -1 : pathTo(this.home)[0].number;
    this.#choose({ root, fen, line: [...way, ...line], from: way.length, at: way.length + 1, marks });
  }

  /** Back to the page's position, from wherever the reader is. */
  goHome() {
    for (const one of this.prose.querySelectorAll(".chosen")) one.classList.remove("chosen");
    this.followed = new Set();
    this.home.chosen = null;
    this.walk.to(this.home);
  }

  // -- what comes next ---------------------------------------------------------------------

  /** @returns {boolean} whether the page asks, and has not told */
  get asks() {
    return this.spread.told === null;
  }

  /** @returns {Node | null} the try at the question that is shown */
  get tryShown() {
    const { current } = this.walk;
    return current.own && pathTo(current).includes(this.home) ? tryOf(current) : null;
  }

  /** @returns {boolean} whether a try has answered the question */
  get isFound() {
    return this.home.children.some((child) => child.own && child.answer?.right);
  }

  /** Do what the ruled word says. */
  act() {
    const { current } = this.walk;
    if (this.asks) {
      if (this.tryShown?.answer?.right || (current === this.home)) return this.#disclose();
      return this.goHome();
    }
    if (this.walk.canGoOn) return this.walk.on();
    this.goHome();
  }

  /** Say in the ruled word what comes next, and show the words that mean something now. */
  #act() {
    if (!this.main || !this.atHome || !this.answering) return;
    const { current } = this.walk;
    const isHome = current === this.home;
    const leads = this.asks || !isHome || this.walk.canGoOn;
    setWord(this.main, { text: this.#mainWord(isHome), shown: leads });
    const goesOn = !this.asks && this.walk.canGoOn;
    setWord(this.atHome, { shown: !isHome && (goesOn || (this.asks && Boolean(this.tryShown?.answer?.right))) });
    setWord(this.answering, { shown: this.asks && !isHome && !this.tryShown?.answer?.right });
    this.board.caption.set("back", { shown: true });
    this.#listTried();
  }

  /** @param {boolean} isHome @returns {string} */
  #mainWord(isHome) {
    if (this.asks) {
      if (this.tryShown?.answer?.right || (isHome && this.isFound)) return this.say("tellMove");
      if (isHome) return this.say("showAnswer");
      return this.say(this.tryShown ? "tryAgain" : "toPosition");
    }
    if (!this.walk.canGoOn) return this.say("toPosition");
    const next = this.walk.after(this.walk.current);
    return next ? this.say("nextMove", { move: nameOfNode(next, this.letters) }) : this.say("playOn");
  }

  /** The moves that were tried at the question, to be shown again. */
  #listTried() {
    const tries = this.asks ? this.home.children.filter((child) => child.own && !child.shown) : [];
    this.tried.hidden = tries.length === 0;
    const words = tries.map((node) => {
      const one = word(inLetters(node.san, this.letters), () => this.walk.to(node), "tried");
      one.classList.add("move");
      one.classList.toggle("current", this.tryShown === node);
      return one;
    });
    this.tried.replaceChildren(element("span", "soft", `${this.say("tried")} `), ...words.flatMap((one) => [one, " "]));
  }

  /** Show where the reader stands. */
  moved() {
    super.moved();
    if (this.prose) this.#act();
  }

  revealed() {
    super.revealed();
    this.#act();
  }

  close() {
    clearTimeout(this.late);
    if (this.marked) removeEventListener(TO_MARK, this.marked);
    if (this.screened) document.removeEventListener("fullscreenchange", this.screened);
    super.close();
  }
}
