"""What is threatened: the move that would follow if the side to move passed.

The worst threat is asked for: the fastest mate, or the most material.  Every
move that does as much is right; a threat that does less is right in part.
Who names only what would fall, or "mate", is asked for the move.
"""

from __future__ import annotations

import re

import chess

from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.board.squares import name
from chessnb.board.turns import after_pass
from chessnb.claims.asked import stroke
from chessnb.findings import gathered
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_move
from chessnb.proof import Proof
from chessnb.search.budget import Searching, finish
from chessnb.search.prover import proving
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import SaidMove, read_one_move, read_pieces, says_none
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.listing import begun
from chessnb.teaching.questions.move_goals import reached
from chessnb.teaching.questions.question_kind import Asked, Kind
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Question,
    QuestionError,
    Right,
    graded,
)
from chessnb.teaching.tries import judged
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.threats import finding_threat

NAME = "what is threatened"

EACH = 100_000
"""Positions for the question whether another move threatens as much."""


@gathered
@checked
def threatened(
    position: Position,
    *,
    right: MoveLike | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask what the side that is not to move threatens.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    right : str or chess.Move, optional
        The threatened move that you say is right; another answer is refused.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        In check, where nobody can pass; if the search for a threat does not
        come to its end; if what you say is right is not the worst threat.

    Examples
    --------
    >>> asked = threatened("6k1/5ppp/8/8/8/8/r4PPP/1R4K1 b - - 0 1")
    >>> asked.prompt, asked.right[0].sentence
    ('What does White threaten? Name the move.', 'White threatens Rb8#, which is mate.')
    """
    asked = Asked.of(position)
    board = asked.board
    passed = after_pass(board)
    if passed is None or board.is_game_over(claim_draw=False):
        over = "is in check, so nobody can pass" if board.is_check() else "has no move"
        raise QuestionError(
            f"{SIDES[board.turn]} {over}, and there is no threat to ask for", board=board
        )
    threat = finish(finding_threat(board))
    if threat.verdict is None and not threat.settled:
        raise QuestionError("it is not proved whether anything is threatened", board=board)
    verdict, proof = threat.verdict, threat.proof
    known: tuple[Right, ...] = ()
    offered = []
    if verdict is not None and proof is not None:
        others = finish(_as_much(passed, proof))
        known = tuple(_right(passed, one) for one in (proof, *others))
        ends = "Look for a check." if passed.gives_check(verdict.move) else "Look for a capture."
        offered = [
            hinting.area([verdict.move.to_square]),
            hinting.mover(passed, [verdict.move]),
            hinting.idea(ends),
            hinting.first_move(passed, verdict.move),
        ]
    _check_stated(board, passed, known, right)
    other = SIDES[passed.turn]
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"What does {other} threaten? Name the move.",
        right=known,
        side=passed.turn,
        goal=None if proof is None else proof.goal,
        hints=given_hints(hints, read_level(level, position), *offered),
        status="searched" if proof is None else "proved",
    )


def _as_much(passed: chess.Board, proof: Proof) -> Searching[list[Proof]]:
    """Find the other moves that reach what the worst threat reaches."""
    found = []
    for move in sorted(passed.legal_moves, key=chess.Move.uci):
        if move == proof.key or not _is_sharp(passed, move):
            continue
        outcome = yield from proving(passed, proof.goal, key=move, budget=EACH, explain=False)
        if outcome.proof is not None:
            found.append(outcome.proof)
    return found


def _is_sharp(board: chess.Board, move: chess.Move) -> bool:
    return board.is_capture(move) or board.gives_check(move) or bool(move.promotion)


def _right(passed: chess.Board, proof: Proof) -> Right:
    move = proof.key
    assert move is not None
    san, side = write_move(passed, move), SIDES[passed.turn]
    return Right(
        key=move.uci(),
        text=san,
        sentence=f"{side} threatens {san}, which {reached(proof)}.",
        line=proof.main_line,
        marks=(stroke(move),),
    )


def _check_stated(
    board: chess.Board, passed: chess.Board, known: tuple[Right, ...], right: MoveLike | None
) -> None:
    if right is None:
        return
    move = read_move(passed, right)
    if move.uci() in {one.key for one in known}:
        return
    san, side = write_move(passed, move), SIDES[passed.turn]
    worst = f": {known[0].sentence.rstrip('.')}" if known else ", and nothing else was found"
    raise QuestionError(f"{side} does not threaten {san}, or not most{worst}", board=board)


# -- answers -----------------------------------------------------------------

_THREATENS = re.compile(
    r"^(?:(?:white|black|he|she|it) )?(?:(?:threatens|wants|is threatening)(?: to)?(?: play)? )?",
    re.IGNORECASE,
)
_MATE = re.compile(r"(?:(?:check)?mate|to mate)(?: in \w+)?", re.IGNORECASE)


def _grade(question: Question, text: str, language: str) -> Searching[Graded]:
    said = _THREATENS.sub("", text.strip(" .!"))
    if says_none(said):
        return _none_said(question)
    passed = after_pass(question.board)
    assert passed is not None
    if _MATE.fullmatch(said):
        return _mate_said(question)
    try:
        one = read_one_move(passed, said, language)
    except AnswerError:
        return _piece_said(question, passed, said)
    if one.move is None and (guess := _piece_named(question, passed, one)):
        return guess
    if one.move is None:
        return graded(question, "wrong", f"{one.text} cannot be played: {one.reason}.")
    return (yield from _move_said(question, passed, one.move))


def _none_said(question: Question) -> Graded:
    if not question.right:
        side = SIDES[question.side]
        return graded(question, "right", f"Right: I found nothing that {side} threatens.")
    return graded(question, "wrong", "Something is threatened. Look again.")


def _mate_said(question: Question) -> Graded:
    mates = any("mate" in one.sentence for one in question.right)
    if mates:
        return graded(question, "part", "Right in part: mate is threatened. By which move?")
    return graded(question, "wrong", "No mate is threatened.")


def _piece_named(question: Question, passed: chess.Board, one: SaidMove) -> Graded | None:
    """Grade the name of what would fall, where it was read as a move: "f7", "the pawn on f7"."""
    try:
        said = read_pieces(passed, one.text, among=chess.SquareSet(passed.occupied))
    except AnswerError:
        return None
    there = all(not piece.reason for piece in said)
    theirs = all(passed.color_at(piece.square) != passed.turn for piece in said)
    return _piece_said(question, passed, one.text) if there and theirs else None


def _piece_said(question: Question, passed: chess.Board, text: str) -> Graded:
    """Grade an answer that names what would fall."""
    said = read_pieces(passed, text, among=chess.SquareSet(passed.occupied_co[not passed.turn]))
    targets = {
        name(one.line[0].to_square)
        for one in question.right
        if one.line and passed.is_capture(one.line[0])
    }
    for one in said:
        if one.reason:
            return graded(question, "wrong", f"{begun(one.reason)}.")
    if all(name(one.square) in targets for one in said):
        return graded(
            question, "part", f"Right in part: {said[0].text} is attacked. By which move is it won?"
        )
    most = "what is threatened most" if question.right else "in any danger that was found"
    return graded(question, "wrong", f"{begun(said[0].text)} is not {most}.")


def _move_said(question: Question, passed: chess.Board, move: chess.Move) -> Searching[Graded]:
    for one in question.right:
        if one.key == move.uci():
            return graded(
                question, "right", f"Right: {one.sentence}", line=one.line, marks=one.marks,
                passed=True,
            )  # fmt: skip
    san = write_move(passed, move)
    if question.goal is not None:
        outcome = yield from proving(passed, question.goal, key=move)
        if outcome.proof is not None:
            right = _right(passed, outcome.proof)
            return graded(
                question, "right", f"Right: {right.sentence}", line=right.line, passed=True
            )
        if outcome.status == "not settled":
            return graded(question, "not proved", f"It is not proved what {san} would bring.")
    verdict = yield from judged(passed, move, depth=question.depth)
    return _less(question, verdict)


def _less(question: Question, verdict: Verdict) -> Graded:
    """Grade a move that does not bring what the worst threat brings."""
    san = verdict.san
    by_itself = question.goal is None or _is_sharp(verdict.board, verdict.move)
    if verdict.kind in ("checkmate", "mates", "wins") and by_itself:
        if question.goal is None:  # deeper than what was looked for
            return graded(
                question, "right", f"Right: {san} {verdict.words}.", line=verdict.line, passed=True
            )
        sentence = f"Right in part: {san} {verdict.words}, but more is threatened."
        return graded(question, "part", sentence, line=verdict.line, passed=True)
    if verdict.kind == "not settled":
        return graded(question, "not proved", f"It is not proved what {san} would bring.")
    told = {"loses": f"{san} {verdict.words}", "mated": f"{san} is answered by mate"}
    words = told.get(verdict.kind, f"{san} wins nothing by itself that was found")
    return graded(question, "wrong", f"{words}.", line=verdict.line, passed=True)


KIND = Kind(name=NAME, asks="what the side that waits threatens", grade=_grade)
