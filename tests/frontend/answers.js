// Answers questions about positions, for tests that compare with Python.
// In: JSON on stdin, a list of questions. Out: JSON, a list of answers.

import { numbered, readTyped, sanOf } from "../../chessnb/widgets/frontend/notation.js";
import { legalMoves, moveOf, play, readFen, uciOf, writeFen } from "../../chessnb/widgets/frontend/rules.js";
import { boardMarkup } from "../../chessnb/widgets/frontend/svg.js";

/** @type {Record<string, (question: any) => any>} */
const ANSWERS = {
  moves: ({ fen }) => {
    const position = readFen(fen);
    return Object.fromEntries(
      legalMoves(position).map((move) => [uciOf(move), [sanOf(position, move), writeFen(play(position, move))]]));
  },
  numbered: ({ fen, letters }) => {
    const position = readFen(fen);
    return Object.fromEntries(legalMoves(position).map((move) => [uciOf(move), numbered(position, move, letters)]));
  },
  read: ({ fen, texts, letters }) =>
    texts.map((/** @type {string} */ text) => readTyped(readFen(fen), text, letters).map(uciOf)),
  svg: ({ fen, lastMove, ...how }) => boardMarkup(readFen(fen), { ...how, lastMove: lastMove ? moveOf(lastMove) : null }),
};

let text = "";
for await (const chunk of process.stdin) text += chunk;
const answers = JSON.parse(text).map((/** @type {any} */ question) => ANSWERS[question.ask](question));
process.stdout.write(JSON.stringify(answers));
