"""Reading what a student typed: moves, pieces and squares, counts, yes and no.

Nothing is guessed.  What cannot be read is an :class:`AnswerError` that says
how an answer is written, and does not count; what can be read and is not so
(a bishop named where a knight stands, an illegal move) is wrong, with the reason.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import chess

from chessnb.board.naming import NUMBERS, listed, the_piece
from chessnb.board.pieces import read_piece
from chessnb.errors import AmbiguousMove, IllegalMove, NotationError
from chessnb.notation import read_move, write_move
from chessnb.teaching.questions.question_values import AnswerError

_NONE = re.compile(
    r"(?:there (?:is|are) )?(?:none|nothing|nobody|no one|no(?: \w+){0,2}|not any|not one|zero"
    r"|0|-|–|—)"
    r"(?: (?:of them|at all|here|there))?",
    re.IGNORECASE,
)
_YES = ("yes", "y", "yeah", "yep", "true", "t", "right", "correct", "it is", "it can", "can", "1")
_NO = ("no", "n", "nope", "false", "f", "wrong", "not true", "not", "it is not", "it cannot")


def says_none(text: str) -> bool:
    """Tell whether an answer says that there is none.

    Examples
    --------
    >>> says_none("None."), says_none("there are no checks"), says_none("Nf3")
    (True, True, False)
    """
    return _NONE.fullmatch(text.strip(" .!")) is not None


def read_yes_no(text: str) -> bool:
    """Read yes or no, true or false.

    Raises
    ------
    AnswerError
        If it is neither.

    Examples
    --------
    >>> read_yes_no("True."), read_yes_no("n")
    (True, False)
    """
    word = text.strip(" .!").lower()
    if word in _YES:
        return True
    if word in _NO:
        return False
    raise AnswerError("answer true or false (yes or no)", given=text)


# -- moves -------------------------------------------------------------------

_BETWEEN = re.compile(r"\s*(?:[,;]|\band\b|&|\bor\b)\s*", re.IGNORECASE)
_MOVE_NUMBER = re.compile(r"^\d+\s*(?:\.+|…)\s*|^\d+$")


@dataclass(frozen=True, kw_only=True)
class SaidMove:
    """One move of an answer.

    Attributes
    ----------
    text : str
        As it was typed.
    move : chess.Move or None
        The legal move; None if there is no such move.
    reason : str
        Why it is not legal; empty if it is.
    """

    text: str
    move: chess.Move | None = None
    reason: str = ""


def read_one_move(board: chess.Board, text: str, language: str) -> SaidMove:
    """Read an answer that is one move; an illegal one comes back with its reason.

    Raises
    ------
    AnswerError
        If it is no move, or may be several.
    """
    try:
        return SaidMove(text=text, move=read_move(board, text, language=language))
    except IllegalMove as error:
        return SaidMove(text=text, reason=error.reason)
    except AmbiguousMove as error:
        raise AnswerError(error.reason, given=text) from None
    except NotationError as error:
        raise AnswerError(f"this is not read as a move: {error.reason}", given=text) from None


def read_moves(board: chess.Board, text: str, language: str) -> list[SaidMove]:
    """Read an answer that lists moves of one position, each once, in the order given.

    Between them stand commas, semicolons, "and", or blanks where each is written in signs.

    Raises
    ------
    AnswerError
        If one of them cannot be read.

    Examples
    --------
    >>> [one.move.uci() for one in read_moves(chess.Board(), "Nf3, e4 and knight a3", "english")]
    ['g1f3', 'e2e4', 'b1a3']
    """
    found: list[SaidMove] = []
    for part in filter(None, _BETWEEN.split(text)):
        found += _part(board, part.strip(), language)
    unique: dict[str, SaidMove] = {}
    for one in found:
        unique.setdefault(one.move.uci() if one.move else one.text.lower(), one)
    if not unique:
        raise AnswerError("no move is named: write them as in Nf3, Qh5+", given=text)
    return list(unique.values())


def _part(board: chess.Board, part: str, language: str) -> Iterator[SaidMove]:
    """Read what stands between two commas: one move, or several with blanks between."""
    try:
        whole = read_one_move(board, part, language)
    except AnswerError:
        words = [_MOVE_NUMBER.sub("", word) for word in part.split()]
        if len(words) < 2:
            raise
        yield from (read_one_move(board, word, language) for word in words if word)
        return
    if whole.move is None and len(part.split()) > 1:
        try:
            several = [read_one_move(board, word, language) for word in part.split()]
        except AnswerError:
            several = []
        if several and all(one.move for one in several):
            yield from several
            return
    yield whole


# -- pieces and squares --------------------------------------------------------

_NAMES = "king|queen|rook|bishop|knight|pawn"
_FIGURINES = "♔♕♖♗♘♙♚♛♜♝♞♟"
_PIECES = re.compile(
    rf"(?:\b(?P<word>{_NAMES})(?P<several>s?)\s*(?:(?:on|at|from)\s+)?|(?P<letter>[KQRBNP{_FIGURINES}])\s*)?"
    r"(?P<square>[a-h][1-8])\b"
    rf"|\b(?P<alone>{_NAMES})s?\b"
    r"|(?P<rest>[^\s,;]+)",
    re.IGNORECASE,
)
_FILLING = {
    "the", "a", "an", "and", "is", "are", "white's", "black's", "white", "black", "its", "his",
    "on", "at", "it", "both", "also", "too", "of", "piece", "pieces", "pinned", "hanging", "hangs",
    "hang", "overloaded", "there", "undefended", "only", "one", "that", "&", "or", "to",
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class SaidPiece:
    """One piece of an answer.

    Attributes
    ----------
    text : str
        As it is told back: ``"the knight on c6"``.
    square : chess.Square
        Where it is said to stand.
    reason : str
        What is wrong with it: another piece stands there, or none; empty otherwise.
    """

    text: str
    square: chess.Square
    reason: str = ""


def read_pieces(board: chess.Board, text: str, *, among: chess.SquareSet) -> list[SaidPiece]:
    """Read an answer that names pieces: by squares, by letters and squares, in words.

    Parameters
    ----------
    board : chess.Board
        The position.
    text : str
        The answer.
    among : chess.SquareSet
        Where the pieces stand that may be meant by ``"the rook"`` alone.

    Raises
    ------
    AnswerError
        If something else is said, or several pieces may be meant.

    Examples
    --------
    >>> board = chess.Board("4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1")
    >>> [one.text for one in read_pieces(board, "Nc6", among=chess.SquareSet(board.occupied))]
    ['the knight on c6']
    """
    found: dict[chess.Square, SaidPiece] = {}
    kind: chess.PieceType | None = None
    for token in _PIECES.finditer(text):
        if token["rest"]:
            if token["rest"].strip(".,;:!?()").lower() not in {*_FILLING, ""}:
                raise AnswerError(
                    "name pieces by their squares, as in “the knight on c6”, “Nc6” or “c6”",
                    given=text,
                )
            continue
        if token["alone"]:
            one = _alone(board, token["alone"], text, among)
            found.setdefault(one.square, one)
            continue
        named = token["word"] or token["letter"]
        kind = _kind_of(named) if named else kind  # "the rooks on a8 and f8"
        one = _on(board, chess.parse_square(token["square"].lower()), kind)
        found.setdefault(one.square, one)
        if not token["several"] and named:
            kind = None
    if not found:
        raise AnswerError("no piece is named: write its square, as in c6 or Nc6", given=text)
    return list(found.values())


def _kind_of(named: str) -> chess.PieceType:
    return read_piece(named.lower() if len(named) > 1 else named)


def _on(board: chess.Board, square: chess.Square, kind: chess.PieceType | None) -> SaidPiece:
    name, stands = chess.square_name(square), board.piece_type_at(square)
    if stands is None:
        return SaidPiece(text=name, square=square, reason=f"{name} is empty")
    text = the_piece(board, square)
    if kind is not None and kind != stands:
        return SaidPiece(text=text, square=square, reason=f"on {name} stands {_a(stands)}")
    return SaidPiece(text=text, square=square)


def _a(kind: chess.PieceType) -> str:
    return f"a {chess.piece_name(kind)}"


def _alone(board: chess.Board, word: str, text: str, among: chess.SquareSet) -> SaidPiece:
    """Return the one piece of a kind that may be meant."""
    kind = read_piece(word.lower())
    there = [square for square in among if board.piece_type_at(square) == kind]
    if len(there) == 1:
        return SaidPiece(text=the_piece(board, there[0]), square=there[0])
    if there:
        which = listed((the_piece(board, square) for square in there), joint="or")
        raise AnswerError(f"which {word.lower()}: {which}?", given=text)
    raise AnswerError(f"no {word.lower()} can be meant here; name its square", given=text)


# -- numbers -------------------------------------------------------------------

_COUNT = re.compile(rf"\d+|\b(?:{'|'.join(NUMBERS)}|none|nobody|once|twice|a|an)\b", re.IGNORECASE)
_WORDS = {word: number for number, word in enumerate(NUMBERS)}
_WORDS |= {"none": 0, "nobody": 0, "once": 1, "twice": 2, "a": 1, "an": 1}


def numbers_in(text: str) -> list[int]:
    """Return the numbers of a text, in figures or words, in their order.

    Examples
    --------
    >>> numbers_in("2-1"), numbers_in("two attackers, one defender"), numbers_in("many")
    ([2, 1], [2, 1], [])
    """
    found = []
    for match in _COUNT.finditer(text):
        word = match[0].lower()
        found.append(int(word) if word.isdigit() and len(word) < 6 else _WORDS.get(word, 10**6))
    return found


def told_moves(board: chess.Board, moves: list[chess.Move]) -> str:
    """Write moves of one position one after the other."""
    return listed(write_move(board, move) for move in moves)
