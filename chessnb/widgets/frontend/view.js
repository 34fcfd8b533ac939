// @ts-check
/** One live board on a page: it puts drawing, grid, hand, caption and the tools in hand together. */

import { Caption } from "./caption.js";
import { Copying, lineText } from "./copying.js";
import { Drawing } from "./drawing.js";
import { Field } from "./field.js";
import { FullScreen } from "./fullscreen.js";
import { Grid } from "./grid.js";
import { useHand } from "./hand.js";
import { ENGLISH_LETTERS, inLetters } from "./letters.js";
import { numbered, spoken, squareLabel } from "./notation.js";
import { Placing } from "./placing.js";
import { Playing } from "./playing.js";
import { Promotion } from "./promotion.js";
import { isCastling, legalMoves, moveOf, squareName, standing, writeFen } from "./rules.js";
import { strokeNews, strokeWords } from "./strokes.js";
import { marksOf, positionOf } from "./sync.js";
import { sentence } from "./words.js";

/** @typedef {import("./rules.js").Move} Move */
/** @typedef {import("./sync.js").Line} Line */
/** @typedef {import("./sync.js").Step} Step */
/** @typedef {import("./hand.js").Tool} Tool */
/** @typedef {import("./playing.js").Desk} Desk */

/** So long a step may be on its way before the reader is told; in milliseconds. */
const PATIENCE_MS = 800;

/** @implements {Desk} */
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
    /** A typed text, or a try by hand, whose answer is to come. @type {{seq: number, text: string} | null} */
    this.asked = null;
    figure.innerHTML = `<div class="field"></div><figcaption></figcaption>`;
    const [fieldElement, captionElement] = /** @type {HTMLElement[]} */ ([...figure.children]);
    this.field = new Field(fieldElement);
    this.grid = new Grid(fieldElement, () => this.tool);
    this.line = sync.line;
    this.marks = marksOf(this.line);
    this.position = positionOf(this.line);
    this.moves = legalMoves(this.position);
    this.caption = new Caption(captionElement, say, {
      controls: {
        back: () => sync.go(sync.line.ply - 1),
        on: () => sync.go(sync.line.ply + 1),
        toStart: () => sync.go(0),
        turnBoard: () => this.turn(),
      },
      tools: {
        pen: () => this.use(this.tool === this.drawing ? this.playing : this.drawing),
        setUp: () => this.use(this.tool === this.placing ? this.playing : this.placing),
        copyPosition: () => this.#copy(writeFen(this.position), "copyPosition", "positionCopied"),
        copyLine: () => this.#copy(lineText(this.line), "copyLine", "lineCopied"),
        fullScreen: () => void this.#fullScreen(),
      },
      typed: (text) => this.tool.typed(text),
    });
    this.copying = new Copying(this.caption.noteElement, this.caption);
    this.screen = new FullScreen(figure, () => this.draw());
    this.playing = this.#player();
    this.drawing = new Drawing(this, {
      draw: (mark) => sync.stroke("draw", mark),
      erase: (mark) => sync.stroke("erase", mark),
      wipe: () => sync.wipe(),
    });
    this.placing = new Placing(this, {
      place: (kind, fen) => sync.place(kind, fen),
      cancel: () => this.#setUpEnds(this.caption.buttons.setUp),
      begun: () => this.#setUpEnds(this.grid.cell(this.grid.focused)),
    });
    this.caption.rows.append(this.drawing.element, this.placing.element);
    /** What is in hand. @type {Tool} */
    this.tool = this.playing;
    useHand({ field: this.field, grid: this.grid, tool: () => this.tool });
    this.use(this.playing);
  }

  #player() {
    return new Playing(this, {
      play: (uci) => this.sync.move(uci),
      ask: (text, meanwhile, quoted) => this.#ask(text, meanwhile, quoted),
      promotion: new Promotion(this.caption.rows, this.say),
    });
  }

  /** @param {HTMLElement} next what has the focus then */
  #setUpEnds(next) {
    this.use(this.playing);
    next.focus({ preventScroll: true });
  }

  /** @returns {string} */
  get letters() {
    return this.model.get("piece_letters") ?? ENGLISH_LETTERS;
  }

  /** @param {Tool} tool to take in hand */
  use(tool) {
    this.tool.end();
    this.tool = tool;
    this.field.svg.parentElement?.classList.toggle("inked", tool === this.drawing);
    this.caption.typing(tool === this.placing ? null : tool === this.drawing ? "stroke" : "move");
    this.caption.answered(false);
    this.caption.note("");
    this.copying.close();
    tool.begin();
    this.draw();
  }

  /** @param {string} text @param {import("./words.js").Word} word @param {import("./words.js").Word} said */
  #copy(text, word, said) {
    void this.copying.copy(text, said, this.caption.buttons[word]);
  }

  async #fullScreen() {
    try {
      await this.screen.toggle();
    } catch {
      this.caption.note(this.say("noFullScreen"), true);
    }
  }

  // -- following the line ---------------------------------------------------

  /** @param {Line} line */
  #read(line) {
    this.line = line;
    this.marks = marksOf(line);
    this.position = positionOf(line);
    this.moves = legalMoves(this.position);
  }

  /** Show what the conversation with Python has come to. */
  update() {
    const before = this.line;
    const drawn = this.marks;
    const after = this.sync.line;
    if (!sameLine(before, after)) {
      this.playing.forget();
      this.caption.note("");
      this.caption.forgetRefused();
      this.copying.close();
      this.#read(after);
    }
    this.line = after;
    this.marks = marksOf(after);
    this.draw();
    if (sameLine(before, after)) this.#tellStrokes(drawn);
    else this.#follow(before, after);
    this.#watchWaiting();
  }

  /** @param {import("./marks.js").Mark[]} before */
  #tellStrokes(before) {
    const news = strokeNews(before, this.marks, this.say);
    if (news) this.caption.announce(news);
  }

  /** @param {Line} before @param {Line} after */
  #follow(before, after) {
    const placed = this.playing.inPlace;
    this.playing.inPlace = false;
    if (before.start !== after.start || before.ply === after.ply || this.tool === this.placing) return;
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
    if (this.sync.deaf) return this.caption.waiting(this.say("deaf"));
    if (this.sync.waiting.length === 0) return this.caption.waiting("");
    this.timer = setTimeout(() => this.caption.waiting(this.say("unheard", { count: this.#counted(this.sync.waiting) })), PATIENCE_MS);
  }

  /** @param {Step[]} steps @returns {string} how many they are, "" for none */
  #counted(steps) {
    const moves = steps.every((step) => step.kind === "move" || step.kind === "typed");
    if (steps.length === 1) return this.say(moves ? "oneMove" : "oneStep");
    const number = String(steps.length);
    return steps.length ? this.say(moves ? "manyMoves" : "manySteps", { number }) : "";
  }

  draw() {
    const { line, tool, say } = this;
    const turned = Boolean(this.model.get("turned"));
    const last = line.ply ? line.moves[line.ply - 1] : this.sync.state.last;
    const picture = {
      position: this.position, lastMove: last ? moveOf(last) : null, turned,
      lifted: -1, targets: [], marks: this.marks, begun: -1, ...tool.picture(),
    };
    const strokes = picture.marks.map((mark) => strokeWords(mark, say)).join(", ");
    this.field.draw(picture);
    this.grid.draw({
      name: say(turned ? "boardSeenByBlack" : "boardSeenByWhite"),
      label: (square) => this.#label(picture, square),
      movable: (square) => tool.movable(square),
      words: strokes && say("strokesHere", { strokes }),
      turned,
      lifted: tool.lifted(),
      targets: picture.targets,
    });
    this.caption.draw({
      where: tool === this.placing ? say("settingUp") : this.#where(),
      canGoBack: line.ply > 0,
      canGoOn: line.ply < line.moves.length,
      trouble: this.sync.state.trouble,
    });
    this.#drawWords();
    tool.update();
  }

  /** Show the words that mean something now. */
  #drawWords() {
    const { caption, tool, screen } = this;
    const playing = tool !== this.placing;
    for (const word of /** @type {const} */ (["back", "on", "toStart", "pen", "copyPosition", "copyLine"])) {
      caption.set(word, { shown: playing });
    }
    caption.set("pen", { pressed: tool === this.drawing });
    caption.set("setUp", { pressed: !playing, shown: "place" in this.sync });
    caption.set("copyLine", { enabled: this.line.ply > 0 });
    caption.set("fullScreen", { shown: screen.possible, text: this.say(screen.on ? "leaveFullScreen" : "fullScreen") });
  }

  /** @param {import("./field.js").Picture} picture @param {number} square */
  #label({ position, marks, targets }, square) {
    const label = squareLabel(position, square, this.say);
    const there = marks.filter((mark) => [mark.square, mark.to].includes(squareName(square)));
    const strokes = there.map((mark) => strokeWords(mark, this.say)).join(", ");
    const marked = strokes ? this.say("marked", { square: label, strokes }) : label;
    return targets.includes(square) ? this.say("reachable", { square: marked }) : marked;
  }

  /** @returns {string} the caption: after which move, and whose move it is */
  #where() {
    const { line, position, say } = this;
    let after = inLetters(this.sync.state.after, this.letters);
    if (line.ply > 0) {
      const before = positionOf({ ...line, ply: line.ply - 1 });
      after = numbered(before, moveOf(line.moves[line.ply - 1]), this.letters);
    }
    const white = position.turn === "w";
    const stands = {
      "": say(white ? "whiteToMove" : "blackToMove"),
      check: say(white ? "whiteInCheck" : "blackInCheck"),
      checkmate: say(white ? "blackWins" : "whiteWins"),
      stalemate: say("drawn"),
    }[standing(position)];
    if (after) return `${say("after", { move: after })} ${stands}`;
    const { name } = this.sync.state;
    return name ? `${sentence(name)} ${stands}` : stands;
  }

  turn() {
    this.model.set("turned", !this.model.get("turned"));
    try {
      this.model.save_changes();
    } catch (error) {
      console.warn("Python does not listen any more", error); // the board is turned all the same
    }
  }

  // -- asking Python --------------------------------------------------------

  /** @param {string} text @param {string} meanwhile @param {string} quoted the text as typed, "" if tried by hand */
  #ask(text, meanwhile, quoted) {
    this.caption.note(meanwhile, true);
    if (quoted) this.caption.answered(true);
    this.asked = { seq: this.sync.typed(text), text: quoted };
  }

  /** @param {import("./sync.js").Answer} answer */
  answer(answer) {
    if (this.placing.answer(answer)) return;
    const { seq, text } = answer;
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
