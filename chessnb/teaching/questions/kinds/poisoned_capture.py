"""Why may it not be taken: the answer to a capture that loses.

The reply that shows it is asked for.  Every reply that brings as much is
right.  Who names only the reason ("mate", "it is defended", "pinned") is
right in part, and asked for the move; where the rules forbid the capture the
reason is the whole answer.
"""

from __future__ import annotations

import re

import chess

from chessnb.board.lines import pinner_of
from chessnb.board.naming import the_piece
from chessnb.board.position import Position
from chessnb.board.sides import SIDES
from chessnb.board.squares import Square, name, read_square
from chessnb.board.turns import moved
from chessnb.claims.asked import stroke
from chessnb.findings import gathered
from chessnb.mistakes import checked
from chessnb.notation import write_move
from chessnb.search.budget import Searching, finish
from chessnb.search.prover import proving
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import read_one_move
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.question_kind import Asked, Kind
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Question,
    QuestionError,
    Right,
    graded,
)
from chessnb.verdicts.judge import Measures, judging
from chessnb.verdicts.move_verdict import Verdict

NAME = "why may it not be taken"

PINNED = "pinned"
"""The key of the answer where the rules forbid the capture."""


@gathered
@checked
def why_not_take(
    position: Position,
    square: Square,
    *,
    by: Square | None = None,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask why something may not be taken, and for the move that shows it.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position, the side that would take to move.
    square : str or chess.Square
        Where the thing stands that seems to be there for the taking.
    by : str or chess.Square, optional
        Where the piece stands that would take it; by default the only one that could.
    hints, level, question
        As for the other questions.

    Raises
    ------
    QuestionError
        If nothing can take there, several pieces can, or taking is not proved to lose.

    Examples
    --------
    >>> asked = why_not_take("3r2k1/5ppp/8/3p4/8/8/3R1PPP/6K1 w - - 0 1", "d5")
    >>> asked.prompt, asked.right[0].text
    ('Why may White not take on d5 with 1. Rxd5? Show the answer to it.', 'Rxd5')
    """
    asked = Asked.of(position)
    board = asked.board
    place = read_square(square)
    taker = _taker(board, place, by)
    take = chess.Move(taker, place)
    if board.piece_type_at(taker) == chess.PAWN and chess.square_rank(place) in (0, 7):
        take.promotion = chess.QUEEN
    side = SIDES[board.turn]
    if not board.is_legal(take):
        return _forbidden(position, asked, take, hints=hints, level=level, question=question)
    verdict = finish(judging(board, take, measures=Measures.of(board)))
    if verdict.kind not in ("mated", "loses", "offers") or len(verdict.line) < 2:
        raise QuestionError(
            f"{verdict.san} is not proved to be a mistake: {verdict.words}", board=board,
            moves=verdict.line,
        )  # fmt: skip
    right = _right(verdict)
    after = moved(board, [take])
    reply = verdict.line[1]
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question
        or f"Why may {side} not take on {name(place)} with {_numbered(board, take)}? "
        "Show the answer to it.",
        right=(right,),
        about=take.uci(),
        side=not board.turn,
        goal=None if verdict.proof is None else verdict.proof.goal,
        hints=given_hints(
            hints,
            read_level(level, position),
            hinting.area([reply.to_square]),
            hinting.mover(after, [reply]),
            hinting.idea(_idea(verdict)),
            hinting.first_move(after, reply),
        ),
        status="proved",
    )


def _taker(board: chess.Board, place: chess.Square, by: Square | None) -> chess.Square:
    if board.color_at(place) != (not board.turn):
        raise QuestionError(
            f"on {name(place)} nothing stands that {SIDES[board.turn]} could take", board=board
        )
    able = board.attackers(board.turn, place)
    if by is not None:
        start = read_square(by)
        if start not in able:
            raise QuestionError(
                f"{the_piece(board, start)} cannot take on {name(place)}", board=board
            )
        return start
    if len(able) != 1:
        who = "nothing" if not able else f"{len(able)} pieces"
        raise QuestionError(f"{who} can take on {name(place)}: say which, by=…", board=board)
    return able.pop()


def _numbered(board: chess.Board, move: chess.Move) -> str:
    number = f"{board.fullmove_number}{'.' if board.turn else '...'}"
    return f"{number} {write_move(board, move)}"


def _forbidden(
    position: Position,
    asked: Asked,
    take: chess.Move,
    *,
    hints: bool,
    level: str | None,
    question: str,
) -> Question:
    """Make the question for a capture that the rules forbid."""
    board, side = asked.board, SIDES[asked.board.turn]
    piece = the_piece(board, take.from_square)
    king = board.king(board.turn)
    assert king is not None
    if board.is_pinned(board.turn, take.from_square):
        pinner = pinner_of(board, take.from_square)
        key, sentence = PINNED, f"{piece.capitalize()} is pinned by {the_piece(board, pinner)}."
    elif take.from_square == king:
        key, sentence = (
            "defended",
            f"{name(take.to_square)} is defended: the king may not go there.",
        )
    else:
        key, sentence = "check", f"{side} is in check, and taking does not answer it."
    target = the_piece(board, take.to_square)
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"Why may {side} not take {target} with {piece}?",
        right=(Right(key=key, text=key, sentence=sentence, marks=(stroke(take),)),),
        about=take.uci(),
        side=board.turn,
        hints=given_hints(
            hints, read_level(level, position), hinting.idea("Would the king be safe?")
        ),
    )


def _right(verdict: Verdict) -> Right:
    after = moved(verdict.board, [verdict.move])
    reply = verdict.line[1]
    san = write_move(after, reply)
    return Right(key=reply.uci(), text=san, sentence=_told(verdict, san), line=verdict.line)


def _told(verdict: Verdict, san: str) -> str:
    who = SIDES[verdict.board.turn]
    if verdict.kind == "mated":
        mate = "is mate" if verdict.moves == 1 else f"mates in {verdict.moves}"
        return f"{san} {mate}."
    if verdict.kind == "offers":
        return f"{san} takes back: {verdict.taken[0].lower()}{verdict.taken[1:]}."
    return f"{san}, and {who} {verdict.words}."


def _idea(verdict: Verdict) -> str:
    if verdict.kind == "mated":
        return "It ends in mate."
    if verdict.kind == "offers":
        return "Is it defended?"
    return "Something else is lost then."


# -- answers -----------------------------------------------------------------

_REASONS = (
    (PINNED, re.compile(r"\bpin(?:ned|s|ning)?\b", re.IGNORECASE)),
    ("mate", re.compile(r"\b(?:check)?mat(?:e|ed|es)\b", re.IGNORECASE)),
    (
        "defended",
        re.compile(r"\b(?:defend\w*|protect\w*|guard\w*|retake\w*|tak\w+ back)", re.IGNORECASE),
    ),
    ("check", re.compile(r"\bin check\b|\billegal\b", re.IGNORECASE)),
)


def _grade(question: Question, text: str, language: str) -> Searching[Graded]:
    take = chess.Move.from_uci(question.about)
    right = question.right[0]
    if right.key in (PINNED, "defended", "check"):
        yield from ()
        return _reason_given(question, text, right)
    after = moved(question.board, [take])
    try:
        said = read_one_move(after, text, language)
    except AnswerError:
        return _reason_alone(question, text)
    if said.move is None and any(pattern.search(text) for _, pattern in _REASONS):
        return _reason_alone(question, text)
    if said.move is None:
        return graded(question, "wrong", f"{said.text} cannot be played: {said.reason}.")
    if said.move.uci() == right.key:
        return graded(question, "right", f"Right: {right.sentence}", line=right.line)
    return (yield from _other_reply(question, take, after, said.move))


def _reason_given(question: Question, text: str, right: Right) -> Graded:
    said = {key for key, pattern in _REASONS if pattern.search(text)}
    if right.key in said or (said == {"check"} and right.key == PINNED and "in check" in text):
        return graded(question, "right", f"Right: {right.sentence}", marks=right.marks)
    if said:
        return graded(question, "wrong", "That is not what forbids it. Would the king be safe?")
    raise AnswerError("say why, as in “it is pinned” or “it is defended”", given=text)


def _reason_alone(question: Question, text: str) -> Graded:
    """Grade a reason that is given in place of the move."""
    said = {key for key, pattern in _REASONS if pattern.search(text)}
    if not said:
        raise AnswerError("name the move that answers it, as in Qh7#", given=text)
    sentence = question.right[0].sentence
    true = {"mate": " mate" in sentence, "defended": "takes back" in sentence}
    if any(true.get(one, False) for one in said):
        return graded(question, "part", "Right in part. By which move?")
    return graded(question, "wrong", "That is not the reason.")


def _other_reply(
    question: Question, take: chess.Move, after: chess.Board, reply: chess.Move
) -> Searching[Graded]:
    """Grade another reply by whether it brings as much."""
    san = write_move(after, reply)
    line: tuple[chess.Move, ...] = (take, reply)
    if question.goal is not None:
        outcome = yield from proving(after, question.goal, key=reply)
        if outcome.proof is not None:
            shown = (take, *outcome.proof.main_line)
            return graded(question, "right", f"Right: {san} shows it too.", line=shown)
        if outcome.status == "not settled":
            return graded(question, "not proved", f"{san} is not proved either way.", line=line)
        if outcome.escape:
            line = (take, *outcome.escape)
    verdict = yield from judging(after, reply, measures=Measures.of(after))
    if verdict.kind in ("checkmate", "mates", "wins"):
        sentence = f"Right in part: {san} {verdict.words}, but there is more."
        return graded(question, "part", sentence, line=(take, *verdict.line))
    return graded(question, "wrong", f"{san} does not show it.", line=line)


KIND = Kind(name=NAME, asks="why something may not be taken", grade=_grade)
