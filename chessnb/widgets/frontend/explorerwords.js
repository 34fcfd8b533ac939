// @ts-check
/** The explorer's own words, beside those of the board; a translation may hold both. */

import { sayer } from "./words.js";

export const EXPLORER_ENGLISH = {
  theWay: "the way here",
  theLesson: "the lesson",
  yourTry: "your try",
  isLesson: "That is the lesson's move.",
  start: "start",
  mainLine: "Main line.",
  toLesson: "back to the lesson",
  showNext: "show the next move",
  waitsToBeAsked: "The next move is hidden until you press “show the next move”.",
  movesOf: "The moves of {title}",
  besideIt: "Beside the move",
  threatened: "what is threatened?",
  facts: "facts",
  tactics: "tactics",
  noTactics: "No tactic is named here.",
  draw: "draw it",
  wipe: "wipe it",
  wins: "wins {gain}",
  tries: "Your tries",
  noTries: "Play any move on the board to try it: the lesson stays as it is.",
  tryAfter: "after {move}",
  tryAtStart: "from the start",
  nameTry: "name it",
  tryName: "name",
  undo: "undo the last move",
  delete: "delete",
  ask: "ask again",
  followLine: "follow the line",
  exportTries: "export all as PGN",
  clearTries: "clear all",
  reallyClear: "really clear all?",
  clearing: "Tries, candidates and the mark of this lesson are deleted from this browser.",
  notLasting: "This browser keeps nothing: tries are lost with this page.",
  elsewhere: "{count} kept for moves that are not shown here.",
  looking: "Looking: {count} positions.",
  neverMind: "never mind",
  noPython: "Python has not answered yet. The try is kept; ask again when the cell has run.",
  forClass: "for the class",
  candidates: "candidates",
  candidatesOn: "Candidates: moves on the board are noted, not played.",
  noCandidates: "No move was called out yet.",
  votes: "{count} for it",
  oneMore: "one more",
  oneLess: "one less",
  takeOff: "take off",
  judge: "check these moves",
  judgeKey: "or press J",
  think: "think",
  minutes: "minutes",
  stopClock: "stop the clock",
  timeLeft: "{time} left",
  timeUp: "Time.",
  fullScreen: "full screen",
  leaveFullScreen: "leave full screen",
  fullScreenKeys: "Page Down goes to the next move, Page Up goes back, N shows the notes, J checks the candidates, Escape leaves.",
  notes: "notes",
  setMark: "mark where we stop",
  goToMark: "to the mark ({move})",
  markSet: "Marked: {move}.",
  copyCell: "copy as a cell",
  cellOf: "a cell of",
  cellLesson: "the lesson",
  cellMoment: "this position",
  cellLine: "this line",
  cellClaim: "a claim",
  cellReplies: "the replies",
  cellQuestion: "a question",
  copied: "Copied.",
  copyByHand: "Copy it from here.",
};

/** @typedef {keyof typeof EXPLORER_ENGLISH} ExplorerWord */
/** @typedef {(word: ExplorerWord, filled?: Record<string, string>) => string} Tell */

/**
 * Make the function that turns the explorer's keys into words.
 * @param {Partial<Record<ExplorerWord, string>>} translation
 * @returns {Tell}
 */
export function teller(translation = {}) {
  const table = /** @type {any} */ ({ ...EXPLORER_ENGLISH, ...translation });
  return /** @type {any} */ (sayer(table));
}
