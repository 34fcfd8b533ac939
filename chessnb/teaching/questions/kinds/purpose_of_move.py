"""What was this move for: one of the telling things that it does.

A teacher's words are matched with what the rules say of the move.  Something
true that is not the point is right in part; so is a verb that wants its piece
("it attacks": what?).  What the board contradicts is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from chessnb.board.naming import the_piece
from chessnb.board.position import Position, read_position
from chessnb.errors import LessonError
from chessnb.facts import Changes, changes
from chessnb.findings import gathered
from chessnb.findings.gathering import aside
from chessnb.lessons import Moment
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_line
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.answer_reader import read_pieces
from chessnb.teaching.questions.levels import given_hints, read_level
from chessnb.teaching.questions.purposes import Purpose, purposes
from chessnb.teaching.questions.question_kind import Asked, Kind, at_once
from chessnb.teaching.questions.question_values import (
    AnswerError,
    Graded,
    Hint,
    Question,
    QuestionError,
    Right,
    graded,
)

NAME = "what was the move for"


@gathered
@checked
def purpose(
    position: Position,
    move: MoveLike | None = None,
    *,
    hints: bool = True,
    level: str | None = None,
    question: str = "",
) -> Question:
    """Ask what a move was for.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move; or, without `move`, a position of a
        lesson: then the move is the one that led there.
    move : str or chess.Move, optional
        The move.
    hints, level, question
        As for the other questions.

    Raises
    ------
    LessonError
        If there is no move to ask about.
    QuestionError
        If the move does nothing that a teacher would tell.

    Examples
    --------
    >>> asked = purpose("4k3/8/8/3q4/8/8/4P3/1N2K3 w - - 0 1", "Nc3")
    >>> asked.prompt, asked.right[0].text
    ('What was 1. Nc3 for?', 'attacks the queen on d5')
    """
    before, played = _move(position, move)
    asked = Asked.of(before)
    with aside():
        found = changes(before, played)
    all_of_it = purposes(found)
    telling = [one for one in all_of_it if one.telling]
    if not telling:
        raise QuestionError(
            f"{write_line(before, [played])} does nothing that could be told: it is a quiet move",
            board=before,
        )
    marks = found.picture.marks
    return Question(
        kind=NAME,
        start=asked.start,
        led=asked.led,
        place=asked.place,
        prompt=question or f"What was {write_line(before, [played])} for?",
        right=tuple(_right(one, played) for one in telling),
        also=tuple(_right(one, played) for one in all_of_it if not one.telling),
        about=played.uci(),
        side=before.turn,
        hints=given_hints(
            hints,
            read_level(level, position),
            hinting.area([chess.parse_square(mark.square) for mark in marks] or [played.to_square]),
            hinting.idea(
                "What does the piece attack or defend now that it did not before? "
                "Which lines are open now?"
            ),
            Hint(sort="first move", text=f"It {telling[0].verb} something."),
        ),
    )


def _move(position: Position, move: MoveLike | None) -> tuple[chess.Board, chess.Move]:
    if move is not None:
        board = read_position(position)
        return board, read_move(board, move)
    if not isinstance(position, Moment) or not position.move or position.back is None:
        raise LessonError("name a move: no move led to this position")
    return position.back.board, position.move


def _right(one: Purpose, played: chess.Move) -> Right:
    return Right(
        key=f"{one.verb}|{one.target}",
        text=one.sentence,
        sentence=f"It {one.sentence}.",
        line=(played,),
    )


# -- answers -----------------------------------------------------------------

_VERBS = (
    ("threatens mate", r"threat\w* (?:to )?(?:check)?mate|mates? next|prepar\w* mate|forc\w* mate"),
    ("stops castling", r"(?:stops?|prevents?|ends?|spoils?) \w* ?castling"),
    ("castles", r"castl\w*|(?:bring|put)\w* (?:the|his|her|its) king (?:in|to|into) safety"),
    ("makes a passed pawn", r"passed pawn"),
    ("answers check", r"(?:answer|parr|meet|block|get out of|escape)\w* (?:the |from )?check"),
    ("unpins", r"unpin\w*|free\w*|break\w* the pin"),
    ("pins", r"pin(?:s|ned|ning)?"),
    ("develops", r"develop\w*|brings? out|bring\w* (?:the|a) (?:knight|bishop) (?:out|into play)"),
    ("promotes", r"promot\w*|(?:new|make\w* a) queen|queening"),
    ("checks", r"(?:give\w* )?(?:a )?check(?:s|ing)?"),
    ("mates", r"(?:check)?mate[sd]?|(?:check)?mating"),
    (
        "saves",
        r"sav\w*|parr\w*|rescu\w*|mov\w* \w* ?away|out of attack|retreat\w*|escap\w*|evad\w*",
    ),
    ("takes", r"tak(?:e|es|ing)|captur\w*|w[io]n(?:s|ning)?"),
    ("threatens", r"threat\w*"),
    ("attacks", r"attack\w*|hit\w*|aim\w* at|press\w*|eye\w*|fork\w*"),
    ("defends", r"defen\w*|protect\w*|guard\w*|support\w*|cover\w*"),
    ("opens", r"open\w*|uncover\w*|clear\w*"),
    ("closes", r"clos\w*|block\w*|shut\w*"),
)
_KNOWN = [(verb, re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE)) for verb, pattern in _VERBS]
_ALONE = {"develops", "checks", "mates", "castles", "promotes", "threatens mate", "answers check"}
"""What needs no piece to be a whole answer."""

_NEAR = {"threatens": ("attacks",), "attacks": ("threatens", "checks"), "saves": ("defends",),
         "defends": ("saves",), "takes": ("threatens",)}  # fmt: skip
"""Which verbs are said for each other, of the same piece."""


def _grade(question: Question, text: str, language: str) -> Graded:
    before = question.board
    move = chess.Move.from_uci(question.about)
    with aside():
        found = changes(before, move)
    known = purposes(found)
    said = list(_said(found, text))
    if not said:
        raise AnswerError(
            "say what the move does, as in “it attacks the queen”, “it defends f2”, "
            "“it opens the c-file”",
            given=text,
        )
    hits = [one for verb, targets in said for one in _fitting(known, verb, targets)]
    if telling := [one for one in hits if one.telling]:
        sentence = f"Right: it {telling[0].sentence}."
        return graded(question, "right", sentence, line=[move], marks=found.picture.marks)
    if hits:
        sentence = f"It {hits[0].sentence}, that is so; but it does something more telling."
        return graded(question, "part", sentence, line=[move])
    return _none_fits(question, found, known, said)


def _said(found: Changes, text: str) -> Iterator[tuple[str, set[str]]]:
    """Yield what is said, clause by clause: a verb, and the squares, files and wings named."""
    for clause in re.split(r"[,;.]|\band (?=(?:it |to )?[a-z]+s\b)", text):
        rest = clause
        for verb, pattern in _KNOWN:
            if match := pattern.search(rest):
                yield verb, _targets(found, rest[match.end() :])
                break


def _targets(found: Changes, text: str) -> set[str]:
    """Return the squares, files and wings that are named."""
    wings = set(re.findall(r"\b(kingside|queenside)\b", text.lower()))
    files = set(re.findall(r"\b([a-h])[- ]?file\b", text.lower()))
    diagonals = set(re.findall(r"\b([a-h][1-8])-([a-h][1-8])\b", text.lower()))
    named = wings | files | {f"{one}-{other}" for one, other in diagonals}
    text = re.sub(r"\b[a-h][1-8]-[a-h][1-8]\b", " ", text)
    after = found.after
    words = re.findall(
        r"\b[KQRBN]?[a-h][1-8]\b|\b(?:king|queen|rook|bishop|knight|pawn)s?\b(?:\s+(?:on|at)\s+[a-h][1-8])?",
        text,
        re.IGNORECASE,
    )
    for word in words:
        named |= _squares(after, found, word)
    return named


def _squares(after: chess.Board, found: Changes, word: str) -> set[str]:
    """Return the squares that a word for a piece may mean: a piece alone, any of its kind."""
    if re.search(r"[a-h][1-8]", word):
        said = read_pieces(after, word, among=chess.SquareSet(after.occupied))
        taken = found.captured
        there = [one for one in said if not one.reason or (taken and taken.square in word)]
        return {chess.square_name(one.square) for one in there}
    kind = chess.PIECE_NAMES.index(word.lower().rstrip("s"))
    squares = {
        chess.square_name(square)
        for square in chess.SquareSet(after.occupied)
        if after.piece_type_at(square) == kind
    }
    if found.captured is not None and found.captured.kind == kind:
        squares.add(found.captured.square)
    return squares


def _fitting(known: tuple[Purpose, ...], verb: str, targets: set[str]) -> list[Purpose]:
    verbs = (verb, *_NEAR.get(verb, ()))
    return [
        one
        for one in known
        if one.verb in verbs
        and (
            one.target in targets
            or (one.verb in _ALONE and verb == one.verb and (not targets or not one.target))
        )
    ]


def _none_fits(
    question: Question,
    found: Changes,
    known: tuple[Purpose, ...],
    said: list[tuple[str, set[str]]],
) -> Graded:
    verb, targets = said[0]
    same = [one for one in known if one.verb == verb]
    if same and not targets:
        return graded(question, "part", f"Right in part: it {verb} something. What?")
    touched = [one for one in known if one.target and one.target in targets and one.telling]
    if touched and len(targets) == 1:
        what = the_piece(found.after, chess.parse_square(touched[0].target)) if len(
            touched[0].target) == 2 else f"the {touched[0].target}"  # fmt: skip
        return graded(
            question, "part", f"Right in part: it has to do with {what}, but it does not do that."
        )
    if same:
        return graded(question, "wrong", f"It {verb} something, but not that.")
    return graded(question, "wrong", "The move does not do that.")


KIND = Kind(name=NAME, asks="what a move was for", grade=at_once(_grade))
