// @ts-check
/** Playing: pieces are taken and put, by pointer or keys, and only legal moves are made. */

import { nameOf, readTyped } from "./notation.js";
import { sideOf, squareName, uciOf } from "./rules.js";

/** @typedef {import("./hand.js").Tool} Tool */
/** @typedef {import("./rules.js").Move} Move */
/**
 * What a tool works at: one board with its caption.
 * @typedef {object} Desk
 * @property {import("./field.js").Field} field
 * @property {import("./grid.js").Grid} grid
 * @property {import("./caption.js").Caption} caption
 * @property {import("./words.js").Say} say
 * @property {string} letters the six letters that moves are written with
 * @property {import("./rules.js").Position} position the one shown
 * @property {Move[]} moves those that are legal in it
 * @property {import("./marks.js").Mark[]} marks what is drawn on it
 * @property {() => void} draw show all again
 */
/**
 * @typedef {object} Player
 * @property {(uci: string) => void} play
 * @property {(text: string, meanwhile: string, quoted: string) => void} ask ask Python about a move that
 *   cannot be played as it stands: what to say until it answers, and the text as it was typed
 * @property {import("./promotion.js").Promotion} promotion
 */

/** @implements {Tool} */
export class Playing {
  /** @param {Desk} desk @param {Player} player */
  constructor(desk, player) {
    this.desk = desk;
    this.player = player;
    this.square = -1;
    /** Whether the next move is on the board already, under the hand that made it. */
    this.inPlace = false;
  }

  begin() {}

  end() {
    this.forget();
  }

  update() {}

  picture() {
    return { lifted: this.square, targets: this.targets() };
  }

  lifted() {
    return this.square;
  }

  /** @returns {number[]} where the piece in hand may go */
  targets() {
    return this.desk.moves.filter((move) => move.from === this.square).map((move) => move.to);
  }

  /** @param {number} square @returns {boolean} whether its piece has a legal move */
  movable(square) {
    return this.desk.moves.some((move) => move.from === square);
  }

  /** The line has changed: nothing is in hand any more. */
  forget() {
    this.square = -1;
    this.player.promotion.close();
  }

  /** @param {number} square */
  press(square) {
    if (this.square === square) this.putBack();
    else if (this.square >= 0 && !this.movable(square)) this.put(this.square, square);
    else if (this.movable(square)) this.lift(square);
    else if (this.desk.position.squares[square]) this.desk.caption.note(this.#whyNotLift(square), true);
  }

  /** @param {number} square */
  #whyNotLift(square) {
    const { say, position, moves } = this.desk;
    const piece = position.squares[square];
    if (moves.length === 0) return say("gameOver");
    if (sideOf(piece) !== position.turn) return say(position.turn === "w" ? "whitesTurn" : "blacksTurn");
    return say("noMoves", { piece: say(nameOf(piece)), from: squareName(square) });
  }

  /** @param {number} square */
  lift(square) {
    const { caption, say, position } = this.desk;
    this.player.promotion.close();
    this.square = square;
    caption.note("");
    this.desk.draw();
    caption.announce(say("lifted", { piece: say(nameOf(position.squares[square])), square: squareName(square) }));
  }

  /** @param {number} from @param {import("./field.js").Place} place */
  carry(from, { x, y }) {
    const [middleX, middleY] = this.desk.field.pen.middle(from);
    this.desk.field.place(from, x - middleX, y - middleY);
  }

  /** @param {number} square @param {boolean} wasLifted */
  rest(square, wasLifted) {
    if (wasLifted) this.putBack();
  }

  putBack() {
    if (this.square < 0) return false;
    this.forget();
    this.desk.draw();
    this.desk.caption.announce(this.desk.say("putBack"));
    return true;
  }

  /** @param {number} from @param {number} to */
  drop(from, to) {
    if (to < 0 || to === from) {
      this.putBack();
      return;
    }
    this.inPlace = true;
    this.put(from, to);
    this.inPlace = false;
    if (this.square === from && this.player.promotion.element.hidden) this.putBack();
    else if (this.square === from) this.desk.draw();
  }

  /** @param {number} from @param {number} to */
  put(from, to) {
    const fitting = this.desk.moves.filter((move) => move.from === from && move.to === to);
    if (fitting.length > 0) return this.#playOneOf(fitting);
    const { say, position } = this.desk;
    const squares = { from: squareName(from), to: squareName(to) };
    const cannot = say("noMoveThere", { piece: say(nameOf(position.squares[from])), ...squares });
    this.player.ask(squares.from + squares.to, cannot, "");
  }

  /** @param {Move[]} moves one move, or the promotions of one pawn @param {boolean} [typed] */
  #playOneOf(moves, typed = false) {
    const { play, promotion } = this.player;
    if (moves.length === 1) return play(uciOf(moves[0]));
    const origin = moves[0].from;
    this.square = origin;
    this.desk.draw();
    promotion.ask((letter) => {
      const chosen = moves.find((move) => move.promotion === letter);
      if (chosen) play(uciOf(chosen));
      else this.putBack();
      const cell = this.desk.grid.cell(chosen ? chosen.to : origin);
      (typed ? this.desk.caption.input : cell).focus({ preventScroll: true });
    });
  }

  /** @param {string} text what was typed into the caption's field */
  typed(text) {
    const { position, letters, caption, say } = this.desk;
    const fitting = readTyped(position, text, letters);
    const ways = new Set(fitting.map((move) => `${move.from}-${move.to}`));
    if (ways.size === 1) {
      caption.answered(false);
      caption.note("");
      this.#playOneOf(fitting, true);
    } else this.player.ask(text, say(ways.size ? "notClear" : "notLegal", { text }), text);
  }
}
