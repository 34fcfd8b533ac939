// @ts-check
/** One explorer on a page: the text on the left, the figure on the right, and what ties them. */

import { Beside, placeOf } from "./beside.js";
import { Classroom } from "./classroom.js";
import { element, word } from "./elements.js";
import { Figure } from "./figure.js";
import { ENGLISH_LETTERS } from "./letters.js";
import { movetext } from "./movetext.js";
import { legalMove } from "./notation.js";
import { Kept } from "./storage.js";
import { Tree, isMain, nameOfNode, pathTo, positionAt } from "./tree.js";
import { Tries } from "./tries.js";
import { Walk } from "./walk.js";
import { wayTo } from "./way.js";

/** @typedef {import("./tree.js").Node} Node */

export class ExplorerView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./asking.js").Questions} parts.questions
   * @param {import("./words.js").Say} parts.say
   * @param {import("./explorerwords.js").Tell} parts.tell
   * @param {HTMLElement} parts.whole where to draw, empty
   */
  constructor({ model, questions, say, tell, whole }) {
    this.model = model;
    this.questions = questions;
    this.tell = tell;
    this.whole = whole;
    this.tree = new Tree(model.get("tree"));
    this.walk = new Walk(this.tree, model.get("at"));
    const kept = new Kept(this.tree.data.key);
    const figure = element("figure", "");
    this.way = element("nav", "way");
    this.way.setAttribute("aria-label", tell("theWay"));
    this.text = element("div", "movetext");
    this.text.setAttribute("role", "group");
    this.text.setAttribute("aria-label", tell("movesOf", { title: this.tree.data.title }));
    const column = (this.column = element("div", "column", this.way, this.text));
    this.figure = figure;
    whole.append(figure, column);
    this.#wire();
    this.board = new Figure({ model, walk: this.walk, say, figure });
    const { caption } = this.board;
    this.toLesson = word(tell("toLesson"), () => this.walk.toLesson(), "toLesson");
    this.next = word(tell("showNext"), () => this.walk.reveal(), "showNext");
    caption.buttons.turnBoard.before(this.toLesson, this.next);
    const letters = () => this.letters;
    this.beside = new Beside(column, { letters, tell, questions, draw: (marks) => this.walk.draw(marks) });
    /** @type {(text: string, wrong: boolean, answers?: boolean) => void} */
    const note = (text, wrong, answers) => caption.note(text, wrong, answers);
    this.tries = new Tries(column, { walk: this.walk, tell, questions, kept, note, letters });
    const underBoard = element("div", "");
    caption.where.parentElement?.after(underBoard);
    this.classroom = new Classroom(column, { whole, underBoard, walk: this.walk, tell, questions, kept, letters,
      students: model.get("students") === true });
    this.unfollow = kept.follow("tries", () => this.tries.reload());
    /** @type {Node | null} where the text beside the board is */
    this.shown = null;
    this.#print();
    this.moved();
    /** The text changes its size when the page does, and gets one when the page shows it. */
    this.sized = new ResizeObserver(() => {
      if (this.underlined) this.#scrollTo(this.underlined);
    });
    this.sized.observe(this.text);
  }

  /** @returns {string} the six letters that moves are written with */
  get letters() {
    return this.model.get("piece_letters") ?? ENGLISH_LETTERS;
  }

  /** Moves are written with other letters from now on. */
  relettered() {
    this.#print();
    this.tries.draw();
    this.shown = null;
    this.moved();
    this.board.draw();
  }

  /** Have steps, keys and words find each other. */
  #wire() {
    this.walk.listeners.add(() => this.moved());
    this.walk.nameStart = (root) => root.name || this.tell("start");
    this.walk.reveal = () => this.#reveal();
    this.walk.waits = () => this.board.caption.note(this.tell("waitsToBeAsked"));
    this.walk.instead = (uci) => {
      const noted = this.classroom.candidates.note(uci);
      if (noted) this.board.caption.forgetRefused();
      return noted;
    };
    this.walk.read = (text) => this.#read(text);
    this.text.addEventListener("click", (event) => {
      const move = /** @type {HTMLElement} */ (event.target).closest(".move");
      if (move instanceof HTMLElement) this.walk.to(this.tree.nodes[Number(move.dataset.number)]);
    });
    this.text.addEventListener("keydown", (event) => this.#textKey(event));
    this.whole.addEventListener("keydown", (event) => {
      if (this.classroom.key(event)) {
        event.preventDefault();
        event.stopPropagation();
      }
    });
  }

  /** @param {KeyboardEvent} event */
  #textKey(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    /** @type {Record<string, () => void>} */
    const steps = {
      ArrowRight: () => this.walk.on(),
      ArrowLeft: () => this.walk.back(),
      ArrowDown: () => this.walk.beside(1),
      ArrowUp: () => this.walk.beside(-1),
    };
    if (!(event.key in steps)) return;
    event.preventDefault();
    event.stopPropagation();
    steps[event.key]();
    /** @type {HTMLElement | null} */ (this.text.querySelector(".current"))?.focus({ preventScroll: true });
  }

  // -- what Python sends -----------------------------------------------------------

  /** The lesson shows more than before. */
  revealed() {
    const before = this.tree.nodes.length;
    const stood = this.walk.current;
    this.tree.update(this.model.get("tree"));
    this.#print();
    this.walk.refreshed();
    this.beside.show(this.walk.current);
    if (this.tree.nodes.length > before) this.tries.replant();
    if (this.tree.merged.has(stood)) this.board.caption.note(this.tell("isLesson"));
  }

  #reveal() {
    const from = this.walk.current;
    if (from.own) return;
    this.questions.ask("reveal", { number: from.number }, () => {
      const next = from.children.find((child) => !child.own);
      if (this.walk.current === from && next) this.walk.to(next);
    });
  }

  /** @param {string} text @returns {number} */
  #read(text) {
    const from = this.walk.current;
    const seq = this.questions.ask("typed", { ...placeOf(from), text }, (answer) => {
      if (this.walk.current !== from) return;
      this.board.answer({ kind: "answer", client: "", seq, text: answer.text ?? answer.trouble });
      if (answer.uci && legalMove(positionAt(from), answer.uci)) this.walk.move(answer.uci);
    });
    return seq;
  }

  // -- drawing ------------------------------------------------------------------------

  /** @returns {Node | null} the lesson's position that the class is asked about, if it is */
  get #askedAbout() {
    if (!this.classroom?.candidates.on) return null;
    return pathTo(this.walk.current).filter((node) => !node.own).pop() ?? null;
  }

  #print() {
    this.until = this.#askedAbout;
    this.text.innerHTML = movetext(this.tree.roots, this.letters, this.until);
    /** @type {Map<number, HTMLElement>} */
    this.moves = new Map();
    for (const move of /** @type {NodeListOf<HTMLElement>} */ (this.text.querySelectorAll(".move"))) {
      this.moves.set(Number(move.dataset.number), move);
    }
    /** @type {HTMLElement | null} */
    this.underlined = null;
  }

  /** Show where the reader stands. */
  moved() {
    const node = this.walk.current;
    this.board.update();
    if (this.#askedAbout !== this.until) this.#print();
    this.#underline(node);
    const hides = node.hidden && !node.own;
    this.next.hidden = !hides;
    this.toLesson.setAttribute("aria-disabled", String(!this.walk.canReturn));
    if (node === this.shown) return;
    this.shown = node;
    this.drawWay(node);
    // Kept before anybody is asked: whatever becomes of the question, the try stays.
    if (node.own) this.tries.save();
    else this.tries.markCurrent();
    this.beside.show(node);
    this.tries.stand(node);
    this.classroom.candidates.draw();
  }

  /** @param {Node} node */
  #underline(node) {
    const move = this.moves?.get(node.own ? this.walk.lesson.number : node.number) ?? null;
    const { underlined } = this;
    if (underlined && underlined !== move) {
      underlined.classList.remove("current");
      underlined.removeAttribute("aria-current");
      underlined.tabIndex = -1;
    }
    this.underlined = move;
    const first = /** @type {HTMLElement | null} */ (this.text.querySelector(".move"));
    if (first && !move) first.tabIndex = 0;
    if (!move) return;
    if (first && first !== move) first.tabIndex = -1;
    move.tabIndex = 0;
    move.classList.toggle("current", !node.own);
    if (node.own) move.removeAttribute("aria-current");
    else move.setAttribute("aria-current", "true");
    this.#scrollTo(move);
  }

  /**
   * Keep a move in sight, without moving the page.
   *
   * Where things stand is asked in the next frame, when they have to be laid
   * out anyway: asked at once, it would cost a second layout in every step.
   * @param {HTMLElement} move
   */
  #scrollTo(move) {
    cancelAnimationFrame(this.scrolling ?? 0);
    this.scrolling = requestAnimationFrame(() => {
      const [box, seen] = [move.getBoundingClientRect(), this.text.getBoundingClientRect()];
      if (box.top >= seen.top && box.bottom <= seen.bottom) return;
      this.text.scrollTop += box.top - seen.top - seen.height / 3;
    });
  }

  /** @param {Node} node */
  drawWay(node) {
    const stations = wayTo(node);
    if (stations.length === 0) return this.way.replaceChildren(element("span", "soft", this.tell("mainLine")));
    const parts = stations.flatMap((station) => {
      const name = station.own && !station.parent?.own ? this.tell("yourTry") : nameOfNode(station, this.letters) || this.tell("start");
      const label = station === node ? element("i", "", name) : word(name, () => this.walk.to(station));
      if (station === node) label.setAttribute("aria-current", "true");
      else if (isMain(station)) label.dataset.main = "";
      return [" › ", label];
    });
    this.way.replaceChildren(...parts.slice(1));
  }

  close() {
    this.unfollow();
    this.sized.disconnect();
    cancelAnimationFrame(this.scrolling ?? 0);
    this.board.close();
    this.beside.close();
    this.tries.close();
    this.classroom.close();
    this.questions.close();
  }
}
