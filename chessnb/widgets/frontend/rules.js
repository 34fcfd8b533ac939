// @ts-check
/**
 * The rules of chess, as far as a live board needs them (FIDE Laws, articles 1 to 3).
 *
 * The board shows a move before Python has heard of it, so the browser has to
 * know which moves are legal.  Python, with its own rules, stays the judge.
 * Positions are values: nothing here changes one that it was handed.
 * Squares are numbers, a1 = 0, b1 = 1 … h8 = 63; castling is the ordinary one.
 */

/**
 * @typedef {object} Position
 * @property {string[]} squares 64 letters of pieces as in FEN, "" where none stands
 * @property {"w" | "b"} turn the side to move
 * @property {string} castling the rights as in FEN, "" for none
 * @property {number} ep the square that a pawn has just stepped over, or -1
 * @property {number} half half-moves since the last capture or pawn move
 * @property {number} full the number of the move, as in FEN
 */
/** @typedef {{from: number, to: number, promotion: string}} Move promotion: "", "q", "r", "b" or "n" */

export const START = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

const ROOK_STEPS = [[1, 0], [-1, 0], [0, 1], [0, -1]];
const BISHOP_STEPS = [[1, 1], [1, -1], [-1, 1], [-1, -1]];
const KNIGHT_STEPS = [[1, 2], [2, 1], [2, -1], [1, -2], [-1, -2], [-2, -1], [-2, 1], [-1, 2]];
const ROYAL_STEPS = [...ROOK_STEPS, ...BISHOP_STEPS];

/** @param {number} square @param {number[]} step @returns {number} the next square, -1 off the board */
function beyond(square, step) {
  const file = (square & 7) + step[0];
  const rank = (square >> 3) + step[1];
  return file < 0 || file > 7 || rank < 0 || rank > 7 ? -1 : rank * 8 + file;
}

/** @param {number[][]} steps @returns {number[][]} for each square those one step away */
const leaps = (steps) =>
  Array.from({ length: 64 }, (_, square) => steps.map((step) => beyond(square, step)).filter((to) => to >= 0));

/** @param {number[][]} steps @returns {number[][][]} for each square its rays, nearest square first */
const rays = (steps) =>
  Array.from({ length: 64 }, (_, square) =>
    steps.map((step) => {
      const ray = [];
      for (let to = beyond(square, step); to >= 0; to = beyond(to, step)) ray.push(to);
      return ray;
    }));

const KNIGHT = leaps(KNIGHT_STEPS);
const KING = leaps(ROYAL_STEPS);
const PAWN = { w: leaps([[-1, 1], [1, 1]]), b: leaps([[-1, -1], [1, -1]]) };
const LINES = rays(ROOK_STEPS);
const DIAGONALS = rays(BISHOP_STEPS);

/** @param {string} piece @returns {"w" | "b" | ""} whose piece it is */
export const sideOf = (piece) => (piece === "" ? "" : piece < "a" ? "w" : "b");

/** @param {"w" | "b"} side @returns {"w" | "b"} */
export const otherSide = (side) => (side === "w" ? "b" : "w");

/** @param {number} square @returns {string} such as "e4" */
export const squareName = (square) => "abcdefgh"[square & 7] + ((square >> 3) + 1);

/** @param {string} name @returns {number} */
export const squareOf = (name) => "abcdefgh".indexOf(name[0]) + 8 * (Number(name[1]) - 1);

/** @param {Move} move @returns {string} such as "e7e8q" */
export const uciOf = (move) => squareName(move.from) + squareName(move.to) + move.promotion;

/** @param {string} text a move in UCI notation @returns {Move} */
export const moveOf = (text) =>
  ({ from: squareOf(text.slice(0, 2)), to: squareOf(text.slice(2, 4)), promotion: text.slice(4) });

/**
 * Read a FEN; missing fields get what a fresh position has.
 * @param {string} fen
 * @returns {Position}
 */
export function readFen(fen) {
  const [pieces, turn = "w", castling = "-", ep = "-", half = "0", full = "1"] = fen.trim().split(/\s+/);
  /** @type {string[]} */
  const squares = Array(64).fill("");
  pieces.split("/").forEach((row, fromTop) => {
    let square = (7 - fromTop) * 8;
    for (const letter of row) {
      if (letter >= "1" && letter <= "8") square += Number(letter);
      else squares[square++] = letter;
    }
  });
  return {
    squares,
    turn: turn === "b" ? "b" : "w",
    castling: castling === "-" ? "" : castling,
    ep: ep === "-" ? -1 : squareOf(ep),
    half: Number(half),
    full: Number(full),
  };
}

/**
 * Write the FEN, naming the en-passant square only if a pawn may really take there.
 * @param {Position} position
 * @returns {string}
 */
export function writeFen(position) {
  const ep = legalMoves(position).some((move) => isEnPassant(position, move)) ? squareName(position.ep) : "-";
  return fenOf(position, ep);
}

/** @param {Position} position @param {string} ep the name of the en-passant square, or "-" @returns {string} */
export function fenOf(position, ep) {
  const rows = [];
  for (let rank = 7; rank >= 0; rank--) {
    const pieces = position.squares.slice(rank * 8, rank * 8 + 8).map((piece) => piece || " ").join("");
    rows.push(pieces.replace(/ +/g, (gap) => String(gap.length)));
  }
  return [rows.join("/"), position.turn, position.castling || "-", ep, position.half, position.full].join(" ");
}

/**
 * @param {string[]} squares
 * @param {number} square
 * @param {"w" | "b"} by
 * @returns {boolean} whether a piece of that side attacks the square
 */
export function isAttacked(squares, square, by) {
  const own = by === "w" ? (/** @type {string} */ piece) => piece.toUpperCase() : (/** @type {string} */ piece) => piece;
  /** @param {number[]} from @param {string} piece */
  const leaper = (from, piece) => from.some((at) => squares[at] === own(piece));
  /** @param {number[][]} lines @param {string} piece */
  const slider = (lines, piece) =>
    lines.some((line) => {
      const first = squares[line.find((at) => squares[at] !== "") ?? -1];
      return first !== undefined && (first === own(piece) || first === own("q"));
    });
  return (
    leaper(PAWN[otherSide(by)][square], "p") ||
    leaper(KNIGHT[square], "n") ||
    leaper(KING[square], "k") ||
    slider(LINES[square], "r") ||
    slider(DIAGONALS[square], "b")
  );
}

/** @param {Position} position @param {"w" | "b"} side @returns {number} where its king stands, or -1 */
export const kingOf = (position, side) => position.squares.indexOf(side === "w" ? "K" : "k");

/** @param {Position} position @returns {boolean} whether the side to move is in check */
export function inCheck(position) {
  const king = kingOf(position, position.turn);
  return king >= 0 && isAttacked(position.squares, king, otherSide(position.turn));
}

/** @param {Position} position @param {Move} move @returns {boolean} */
export const isEnPassant = (position, move) =>
  move.to === position.ep && position.squares[move.from].toLowerCase() === "p" && (move.to - move.from) % 8 !== 0;

/** @param {Position} position @param {Move} move @returns {boolean} */
export const isCapture = (position, move) => position.squares[move.to] !== "" || isEnPassant(position, move);

/** @param {Position} position @param {Move} move @returns {boolean} */
export const isCastling = (position, move) =>
  position.squares[move.from].toLowerCase() === "k" && Math.abs(move.to - move.from) === 2;

/** @param {Position} position @param {number} from @returns {Move[]} */
function pawnMoves(position, from) {
  const { squares, turn, ep } = position;
  const ahead = turn === "w" ? 8 : -8;
  const targets = PAWN[turn][from].filter(
    (to) => sideOf(squares[to]) === otherSide(turn) || (to === ep && to >> 3 === (turn === "w" ? 5 : 2)));
  if (squares[from + ahead] === "") {
    targets.push(from + ahead);
    if (from >> 3 === (turn === "w" ? 1 : 6) && squares[from + 2 * ahead] === "") targets.push(from + 2 * ahead);
  }
  return targets.flatMap((to) => {
    const choices = to >> 3 === 0 || to >> 3 === 7 ? ["q", "r", "b", "n"] : [""];
    return choices.map((promotion) => ({ from, to, promotion }));
  });
}

/** @param {Position} position @param {number} from @returns {number[]} where the piece there could go */
function pieceTargets(position, from) {
  const { squares, turn } = position;
  const kind = squares[from].toLowerCase();
  const free = (/** @type {number} */ to) => sideOf(squares[to]) !== turn;
  if (kind === "n") return KNIGHT[from].filter(free);
  if (kind === "k") return KING[from].filter(free);
  const lines = [...(kind === "b" ? [] : LINES[from]), ...(kind === "r" ? [] : DIAGONALS[from])];
  return lines.flatMap((line) => {
    const first = line.findIndex((to) => squares[to] !== "");
    return (first < 0 ? line : line.slice(0, first + 1)).filter(free);
  });
}

/** @param {Position} position @returns {Move[]} castling, except that the king's last square may be attacked */
function castlingMoves(position) {
  const { squares, turn, castling } = position;
  const home = turn === "w" ? 4 : 60;
  const safe = (/** @type {number} */ square) => !isAttacked(squares, square, otherSide(turn));
  const empty = (/** @type {number[]} */ steps) => steps.every((step) => squares[home + step] === "");
  const [short, long] = turn === "w" ? "KQ" : "kq";
  const moves = [];
  if (squares[home].toLowerCase() !== "k" || sideOf(squares[home]) !== turn) return [];
  if (castling.includes(short) && empty([1, 2]) && safe(home) && safe(home + 1)) {
    moves.push({ from: home, to: home + 2, promotion: "" });
  }
  if (castling.includes(long) && empty([-1, -2, -3]) && safe(home) && safe(home - 1)) {
    moves.push({ from: home, to: home - 2, promotion: "" });
  }
  return moves;
}

/** @param {Position} position @param {Move} move @returns {boolean} whether it leaves the mover's own king safe */
function keepsKingSafe(position, move) {
  const squares = placed(position, move);
  const king = squares.indexOf(position.turn === "w" ? "K" : "k");
  return king < 0 || !isAttacked(squares, king, otherSide(position.turn));
}

/**
 * What was found out about a position, kept with it: a step of the board asks the same many times.
 * @type {WeakMap<Position, {moves: Move[] | null, after: Map<string, Position>}>}
 */
const known = new WeakMap();

/** @param {Position} position */
function notesOn(position) {
  const notes = known.get(position) ?? { moves: null, after: new Map() };
  if (!known.has(position)) known.set(position, notes);
  return notes;
}

/**
 * Every legal move.
 * @param {Position} position
 * @returns {Move[]}
 */
export function legalMoves(position) {
  const notes = notesOn(position);
  return (notes.moves ??= pseudoLegal(position).filter((move) => keepsKingSafe(position, move)));
}

/** @param {Position} position @returns {Move[]} every move, also those that leave the own king in check */
function pseudoLegal(position) {
  const moves = castlingMoves(position);
  position.squares.forEach((piece, from) => {
    if (sideOf(piece) !== position.turn) return;
    if (piece.toLowerCase() === "p") moves.push(...pawnMoves(position, from));
    else moves.push(...pieceTargets(position, from).map((to) => ({ from, to, promotion: "" })));
  });
  return moves;
}

/** @param {Position} position @param {Move} move @returns {string[]} the pieces after the move */
function placed(position, move) {
  const squares = position.squares.slice();
  const piece = squares[move.from];
  if (isEnPassant(position, move)) squares[move.to + (position.turn === "w" ? -8 : 8)] = "";
  if (isCastling(position, move)) {
    const [rook, beside] = move.to > move.from ? [move.to + 1, move.to - 1] : [move.to - 2, move.to + 1];
    squares[beside] = squares[rook];
    squares[rook] = "";
  }
  const became = move.promotion || piece;
  squares[move.to] = position.turn === "w" ? became.toUpperCase() : became;
  squares[move.from] = "";
  return squares;
}

/** A castling right ends when a piece leaves or reaches one of these squares. */
const RIGHTS_OF = new Map([[0, "Q"], [7, "K"], [4, "KQ"], [56, "q"], [63, "k"], [60, "kq"]]);

/**
 * Play a legal move.
 * @param {Position} position
 * @param {Move} move
 * @returns {Position} the same one for the same move
 */
export function play(position, move) {
  const { after } = notesOn(position);
  const name = uciOf(move);
  const next = after.get(name) ?? played(position, move);
  after.set(name, next);
  return next;
}

/** @param {Position} position @param {Move} move @returns {Position} */
function played(position, move) {
  const pawn = position.squares[move.from].toLowerCase() === "p";
  const lost = (RIGHTS_OF.get(move.from) ?? "") + (RIGHTS_OF.get(move.to) ?? "");
  return {
    squares: placed(position, move),
    turn: otherSide(position.turn),
    castling: [...position.castling].filter((right) => !lost.includes(right)).join(""),
    ep: pawn && Math.abs(move.to - move.from) === 16 ? (move.from + move.to) / 2 : -1,
    half: pawn || isCapture(position, move) ? 0 : position.half + 1,
    full: position.full + (position.turn === "b" ? 1 : 0),
  };
}

/**
 * How the game stands, by what the position alone shows.
 * @param {Position} position
 * @returns {"" | "check" | "checkmate" | "stalemate"}
 */
export function standing(position) {
  const check = inCheck(position);
  if (legalMoves(position).length === 0) return check ? "checkmate" : "stalemate";
  return check ? "check" : "";
}
