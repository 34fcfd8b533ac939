// @ts-check
/** One live board on a page: it puts drawing, grid, hand and caption together. */

import { Caption } from "./caption.js";
import { Field } from "./field.js";
import { Grid } from "./grid.js";
import { useHand } from "./hand.js";
import { legalMove, nameOf, numbered, readTyped, spoken, squareLabel } from "./notation.js";
import { Promotion } from "./promotion.js";
import { isCastling, legalMoves, moveOf, play, readFen, sideOf, squareName, standing, uciOf } from "./rules.js";
import { positionOf } from "./sync.js";

/** @typedef {import("./rules.js").Move} Move */
/** @typedef {import("./sync.js").Line} Line */

/** So long a step may be on its way before the reader is told; in milliseconds. */
const PATIENCE_MS = 800;

export class BoardView {
  /**
   * @param {object} parts
   * @param {any} parts.model anywidget's model
   * @param {import("./sync.js").Sync} parts.sync
   * @param {import("./words.js").Say} parts.say
   * @param {HTMLElement} parts.figure where to draw, empty
   */
  constructor({ model, sync, say, figure }) {
    this.model = model;
    this.sync = sync;
    this.say = say;
    this.lifted = -1;
    /** A typed text, or a try by hand, whose answer is to come. @type {{seq: number, text: string} | null} */
    this.asked = null;
    /** Whether the next move is on the board already, under the hand that made it. */
    this.inPlace = false;
    figure.innerHTML = `<div class="field"></div><figcaption></figcaption>`;
    const [fieldElement, captionElement] = /** @type {HTMLElement[]} */ ([...figure.children]);
    this.field = new Field(fieldElement);
    this.grid = new Grid(fieldElement, { press: (square) => this.press(square), putBack: () => this.putBack() });
    this.caption = new Caption(captionElement, say, {
      back: () => sync.go(sync.line.ply - 1),
      on: () => sync.go(sync.line.ply + 1),
      toStart: () => sync.go(0),
      turnBoard: () => this.turn(),
      typed: (text) => this.typed(text),
    });
    this.promotion = new Promotion(this.caption.controls, say);
    useHand({
      field: this.field,
      grid: this.grid,
      lifted: () => this.lifted,
      movable: (square) => this.movable(square),
      press: (square) => this.press(square),
      lift: (square) => this.lift(square),
      drop: (from, to) => this.drop(from, to),
      putBack: () => this.putBack(),
    });
    this.#read(sync.line);
    this.draw();
  }

  // -- following the line ---------------------------------------------------

  /** @param {Line} line */
  #read(line) {
    this.line = line;
    this.position = positionOf(line);
    this.moves = legalMoves(this.position);
  }

  /** Show what the conversation with Python has come to. */
  update() {
    const before = /** @type {Line} */ (this.line);
    const after = this.sync.line;
    if (!sameLine(before, after)) {
      this.lifted = -1;
      this.promotion.close();
      this.caption.note("");
      this.#read(after);
    }
    this.draw();
    this.#follow(before, after);
    this.#watchWaiting();
  }

  /** @param {Line} before @param {Line} after */
  #follow(before, after) {
    const placed = this.inPlace;
    this.inPlace = false;
    if (before.start !== after.start || before.ply === after.ply) return;
    if (isOneStep(before, after)) {
      const position = positionOf(before);
      const move = moveOf(after.moves[before.ply]);
      this.field.glide(placed ? [] : withRook(position, move));
      this.caption.announce(spoken(position, move, this.say));
    } else if (isOneStep(after, before)) {
      const back = withRook(this.position, moveOf(before.moves[after.ply]));
      this.field.glide(back.map(({ from, to }) => ({ from: to, to: from })));
      this.caption.announce(this.say("tookBack", { where: this.#where() }));
    } else this.caption.announce(this.#where());
  }

  /** Tell the reader if Python takes long to hear; a quick answer is not worth a word. */
  #watchWaiting() {
    clearTimeout(this.timer);
    if (this.sync.waiting === 0) return this.caption.waiting(0);
    this.timer = setTimeout(() => this.caption.waiting(this.sync.waiting), PATIENCE_MS);
  }

  draw() {
    const { line, position, lifted } = this;
    const turned = Boolean(this.model.get("turned"));
    const targets = this.moves.filter((move) => move.from === lifted).map((move) => move.to);
    const last = line.ply ? line.moves[line.ply - 1] : this.sync.state.last;
    this.field.draw({ position, turned, lifted, targets, lastMove: last ? moveOf(last) : null });
    this.grid.draw({
      name: this.say(turned ? "boardSeenByBlack" : "boardSeenByWhite"),
      label: (square) => this.#label(square, targets),
      movable: (square) => this.movable(square),
      turned,
      lifted,
      targets,
    });
    this.caption.draw({
      where: this.#where(),
      canGoBack: line.ply > 0,
      canGoOn: line.ply < line.moves.length,
      trouble: this.sync.state.trouble,
    });
  }

  /** @param {number} square @param {number[]} targets */
  #label(square, targets) {
    const label = squareLabel(this.position, square, this.say);
    return targets.includes(square) ? this.say("reachable", { square: label }) : label;
  }

  /** @returns {string} the caption: after which move, and whose move it is */
  #where() {
    const { line, position, say } = this;
    let after = this.sync.state.after;
    if (line.ply > 0) {
      const before = positionOf({ ...line, ply: line.ply - 1 });
      after = numbered(before, moveOf(line.moves[line.ply - 1]));
    }
    const white = position.turn === "w";
    const stands = {
      "": say(white ? "whiteToMove" : "blackToMove"),
      check: say(white ? "whiteInCheck" : "blackInCheck"),
      checkmate: say(white ? "blackWins" : "whiteWins"),
      stalemate: say("drawn"),
    }[standing(position)];
    return after ? `${say("after", { move: after })} ${stands}` : stands;
  }

  // -- what the hand does ---------------------------------------------------

  /** @param {number} square @returns {boolean} whether its man has a legal move */
  movable(square) {
    return this.moves.some((move) => move.from === square);
  }

  /** @param {number} square as by Enter or a click: take, put, or say why not */
  press(square) {
    if (this.lifted === square) this.putBack();
    else if (this.lifted >= 0 && !this.movable(square)) this.put(this.lifted, square);
    else if (this.movable(square)) this.lift(square);
    else if (this.position.squares[square]) this.caption.note(this.#whyNotLift(square), true);
  }

  /** @param {number} square */
  #whyNotLift(square) {
    const man = this.position.squares[square];
    if (this.moves.length === 0) return this.say("gameOver");
    if (sideOf(man) !== this.position.turn) return this.say(this.position.turn === "w" ? "whitesTurn" : "blacksTurn");
    return this.say("noMoves", { man: this.say(nameOf(man)), from: squareName(square) });
  }

  /** @param {number} square */
  lift(square) {
    this.promotion.close();
    this.lifted = square;
    this.caption.note("");
    this.draw();
    const man = this.say(nameOf(this.position.squares[square]));
    this.caption.announce(this.say("lifted", { man, square: squareName(square) }));
  }

  /** @returns {boolean} whether a man was in hand */
  putBack() {
    if (this.lifted < 0) return false;
    this.lifted = -1;
    this.promotion.close();
    this.draw();
    this.caption.announce(this.say("putBack"));
    return true;
  }

  /** @param {number} from @param {number} to where a dragged man was let go */
  drop(from, to) {
    this.inPlace = true;
    this.put(from, to);
    this.inPlace = false;
    if (this.lifted === from && this.promotion.element.hidden) this.putBack();
    else if (this.lifted === from) this.draw();
  }

  /** @param {number} from @param {number} to */
  put(from, to) {
    const fitting = this.moves.filter((move) => move.from === from && move.to === to);
    if (fitting.length === 0) this.#ask(squareName(from) + squareName(to), this.#cannot(from, to), "");
    else this.#playOneOf(fitting);
  }

  /** @param {number} from @param {number} to */
  #cannot(from, to) {
    const man = this.say(nameOf(this.position.squares[from]));
    return this.say("noMoveThere", { man, from: squareName(from), to: squareName(to) });
  }

  /** @param {Move[]} moves one move, or the promotions of one pawn @param {boolean} [typed] */
  #playOneOf(moves, typed = false) {
    if (moves.length === 1) return this.sync.move(uciOf(moves[0]));
    this.lifted = moves[0].from;
    this.draw();
    const origin = moves[0].from;
    this.promotion.ask((letter) => {
      const chosen = moves.find((move) => move.promotion === letter);
      if (chosen) this.sync.move(uciOf(chosen));
      else this.putBack();
      const cell = this.grid.cell(chosen ? chosen.to : origin);
      (typed ? this.caption.input : cell).focus({ preventScroll: true });
    });
  }

  turn() {
    this.model.set("turned", !this.model.get("turned"));
    this.model.save_changes();
  }

  // -- what is typed --------------------------------------------------------

  /** @param {string} text */
  typed(text) {
    const fitting = readTyped(this.position, text);
    const ways = new Set(fitting.map((move) => `${move.from}-${move.to}`));
    if (ways.size === 1) {
      this.caption.answered(false);
      this.#playOneOf(fitting, true);
    } else this.#ask(text, this.say(ways.size ? "notClear" : "notLegal", { text }), text);
  }

  /**
   * Ask Python about a move that cannot be played as it stands.
   * @param {string} text the move
   * @param {string} meanwhile what to say until Python answers, and if it never does
   * @param {string} quoted the text as the reader typed it, "" if it was tried by hand
   */
  #ask(text, meanwhile, quoted) {
    this.caption.note(meanwhile, true);
    if (quoted) this.caption.answered(true);
    this.asked = { seq: this.sync.typed(text), text: quoted };
  }

  /** @param {import("./sync.js").Answer} answer */
  answer({ seq, text }) {
    const asked = this.asked?.seq === seq ? this.asked : null;
    if (asked) this.asked = null;
    if (text) this.caption.note(asked?.text ? this.say("answer", { text: asked.text, reason: text }) : sentence(text), true);
    else if (asked?.text) this.caption.answered(false);
  }

  /** Forget the clock. */
  close() {
    clearTimeout(this.timer);
  }
}

/** @param {string} text a reason, as errors have it @returns {string} */
const sentence = (text) => `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? "" : "."}`;

/** @param {Line} one @param {Line} other */
const sameLine = (one, other) =>
  one.start === other.start && one.ply === other.ply && one.moves.join() === other.moves.join();

/** @param {Line} before @param {Line} after @returns {boolean} whether one move was played */
const isOneStep = (before, after) =>
  after.ply === before.ply + 1 &&
  after.moves.slice(0, before.ply).join() === before.moves.slice(0, before.ply).join();

/** @param {import("./rules.js").Position} position before the move @param {Move} move */
function withRook(position, move) {
  if (!isCastling(position, move)) return [move];
  const [from, to] = move.to > move.from ? [move.to + 1, move.to - 1] : [move.to - 2, move.to + 1];
  return [move, { from, to }];
}
