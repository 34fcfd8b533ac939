// @ts-check
/**
 * Every move and every stroke reaches Python, in order, and shows at once.
 *
 * Python is the truth: it publishes one `state`.  The browser sends each step
 * as a message of its own (messages queue up while the kernel is busy; values
 * of a trait would be merged into the last one) and does not wait: what is
 * shown is the published state with the steps replayed on it that Python has
 * not yet acknowledged.  When Python refuses a step, its acknowledgement comes
 * without the step's effect, and the board falls back by itself.
 *
 * States may come out of order: after a restart the page asks for all states
 * at once, and an answer may be set after a later state was.  So each carries
 * how many were told before it, and the newest one counts.
 *
 * After a restart of the kernel nobody listens any more, and sending fails.
 * The board then goes on by itself: every step stays on its way for good, so
 * that it is shown, and `deaf` says that Python will not hear of it.
 */

import { START, moveOf, play, readFen } from "./rules.js";
import { without } from "./strokes.js";

/** @typedef {import("./marks.js").Mark} Mark */

/**
 * @typedef {object} Line
 * @property {string} start FEN of the first position
 * @property {string} last UCI of the move that led to it, or ""
 * @property {string[]} moves UCI of the moves played from there
 * @property {number} ply how many of them are played in the position shown
 * @property {Record<string, Mark[]>} marks what is drawn, by the moves before it (UCI, spaces between)
 */
/**
 * @typedef {object} Acknowledged
 * @property {string} after the name of the move that led to the start, "2... Nc6", or ""
 * @property {number} told counts the states that Python published
 * @property {string} [name] what the position is called where no move led there
 * @property {number} epoch counts how often Python set up another position
 * @property {Record<string, number>} acks the last step heard from each client
 * @property {string} trouble what went wrong in the teacher's own functions, or ""
 */
/** @typedef {Line & Acknowledged} Published */
/**
 * @typedef {object} Step
 * @property {"move" | "typed" | "go" | "draw" | "erase" | "wipe" | "judge" | "setup"} kind
 * @property {string} client
 * @property {number} seq counts from 1 for each client
 * @property {number} epoch
 * @property {string} [line] for moves and strokes: the moves before it, UCI
 * @property {string} [uci] for "move"
 * @property {string} [text] for "typed"
 * @property {Mark} [mark] for "draw" and "erase"
 * @property {string} [fen] for "judge" (what is wrong with it?) and "setup" (begin with it)
 * @property {number} ply for "go" the moves to show, else those before it
 */
/** @typedef {{kind: "answer", client: string, seq: number, text: string}} Answer */

/** The steps of the pen. */
const DRAWING = ["draw", "erase", "wipe"];

/** @param {Line} line @param {string} place @param {Step} step @returns {Record<string, Mark[]>} */
function redrawn({ marks }, place, { kind, mark }) {
  const there = mark ? without(marks[place] ?? [], mark) : [];
  return { ...marks, [place]: kind === "draw" && mark ? [...there, mark] : there };
}

/** @param {Line} line @returns {string} the moves to the position shown, as steps name it */
export const placeOf = (line) => line.moves.slice(0, line.ply).join(" ");

/** @param {Line} line @returns {Mark[]} what is drawn on the position shown */
export const marksOf = (line) => line.marks[placeOf(line)] ?? [];

/**
 * Do what Python does with a step, as far as the browser knows.
 * @param {Line} line
 * @param {Step} step
 * @returns {Line}
 */
export function replay(line, step) {
  if (step.kind === "go") return { ...line, ply: Math.max(0, Math.min(step.ply, line.moves.length)) };
  if (step.line !== undefined && DRAWING.includes(step.kind)) return { ...line, marks: redrawn(line, step.line, step) };
  const before = line.moves.slice(0, line.ply);
  if (step.kind === "typed" || step.uci === undefined || before.join(" ") !== step.line) return line;
  const keeps = line.moves[line.ply] === step.uci;
  return { ...line, moves: keeps ? line.moves : [...before, step.uci], ply: line.ply + 1 };
}

/**
 * What to show: the published line with the steps replayed that are still on their way.
 * @param {Published} state
 * @param {Step[]} steps
 * @returns {Line}
 */
export const predict = (state, steps) =>
  steps.filter((step) => step.epoch === state.epoch).reduce(replay, /** @type {Line} */ (state));

/** The first position of the last line that was asked for: what is known of a position is kept with it. */
let begun = { start: "", position: readFen(START) };

/** @param {Line} line @returns {import("./rules.js").Position} the position shown; the same one for the same line */
export function positionOf({ start, moves, ply }) {
  if (begun.start !== start) begun = { start, position: readFen(start) };
  return moves.slice(0, ply).map(moveOf).reduce(play, begun.position);
}

/**
 * The conversation of one model with Python; all views of the model share it.
 */
export class Sync {
  /**
   * @param {any} model anywidget's model: get, on, send
   * @param {string} client a name of our own, new for each page
   */
  constructor(model, client) {
    this.model = model;
    this.client = client;
    this.seq = 0;
    /** @type {Published} the newest that was heard */
    this.state = model.get("state");
    /** @type {Step[]} */
    this.steps = [];
    /** Whether Python has ceased to listen. */
    this.deaf = false;
    /** @type {Set<() => void>} */
    this.listeners = new Set();
    /** @type {Set<(answer: Answer) => void>} */
    this.answered = new Set();
    model.on("change:state", () => this.heard());
    model.on("msg:custom", (/** @type {Answer} */ content) => this.answer(content));
  }

  /** @returns {Line} */
  get line() {
    return predict(this.state, this.steps);
  }

  /** @returns {Step[]} the steps that Python has not acknowledged */
  get waiting() {
    return this.steps;
  }

  /** Drop what Python has acknowledged, and show the state; nothing is done for one that is out of date. */
  heard() {
    /** @type {Published} */
    const said = this.model.get("state");
    if (said.told < this.state.told) return;
    this.state = said;
    const acknowledged = this.state.acks[this.client] ?? 0;
    this.steps = this.steps.filter((step) => step.seq > acknowledged);
    this.changed();
  }

  /** @param {Answer} content */
  answer(content) {
    if (content?.kind !== "answer" || content.client !== this.client) return;
    for (const listener of this.answered) listener(content);
  }

  /** @param {string} uci a move that is legal in the position shown */
  move(uci) {
    this.#send({ kind: "move", uci, ...this.#where() });
  }

  /** @param {string} text a move that could not be read here @returns {number} the number of its answer */
  typed(text) {
    return this.#send({ kind: "typed", text, ...this.#where() });
  }

  /** @param {number} ply how many moves of the line to show */
  go(ply) {
    this.#send({ kind: "go", ply });
  }

  /** @param {"draw" | "erase"} kind @param {Mark} mark on the position shown */
  stroke(kind, mark) {
    this.#send({ kind, mark, ...this.#where() });
  }

  /** Take all strokes away from the position shown. */
  wipe() {
    this.#send({ kind: "wipe", ...this.#where() });
  }

  /** @param {"judge" | "setup"} kind @param {string} fen @returns {number} the number of its answer */
  place(kind, fen) {
    return this.#send({ kind, fen, ply: 0 });
  }

  #where() {
    const line = this.line;
    return { ply: line.ply, line: placeOf(line) };
  }

  /** @param {Pick<Step, "kind" | "ply"> & Partial<Step>} said @returns {number} */
  #send(said) {
    this.seq += 1;
    const step = { ...said, client: this.client, seq: this.seq, epoch: this.state.epoch };
    this.steps.push(step);
    try {
      this.model.send(step);
    } catch (error) {
      console.warn("Python does not listen any more", error);
      this.deaf = true;
    }
    this.changed();
    return step.seq;
  }

  /** Play and draw again what another board held that began as this one does. @param {Line} held */
  bringBack({ moves, ply, marks }) {
    for (const uci of moves) this.move(uci);
    for (const [line, strokes] of Object.entries(marks)) {
      for (const mark of strokes) this.#send({ kind: "draw", mark, line, ply: 0 });
    }
    if (ply < moves.length) this.go(ply);
  }

  changed() {
    for (const listener of [...this.listeners]) listener();
  }
}
