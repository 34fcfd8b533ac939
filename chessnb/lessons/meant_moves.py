"""Moves in whatever words or letters a person uses, and the legal moves near to what is none."""

from __future__ import annotations

import re
from functools import cache

import chess

from chessnb.errors import NotationError
from chessnb.notation.move_reader import is_move, read_on
from chessnb.notation.spoken.speech import spoken

_GERMAN = (
    (r"\b(?:kurze rochade|rochiert kurz|rochade kurz)\b", "castles short"),
    (r"\b(?:lange rochade|rochiert lang|rochade lang)\b", "castles long"),
    (r"\b(?:schlägt|schlaegt|nimmt|schlagen)\b", "takes"),
    (r"\b(?:nach|auf|zieht nach|geht nach)\b", "to"),
    (r"\bvon\b", "from"),
    (r"\bmit\b", "with"),
    (r"\b(?:wird zur|wird|verwandelt sich in)\b", "becomes"),
    (r"\b(?:gibt )?schach\b", "check"),
    (r"\b(?:schach)?matt\b", "mate"),
    (r"\b(?:zieht|geht|spielt|der|die|das|den|einen|eine|weiß|weiss|schwarz)\b", " "),
)
_PIECE = re.compile(
    r"(?:the )?(?:pawn|knight|bishop|rook|queen|king|castles?|castling|springer|läufer|turm|dame|"
    r"könig|bauer|rochade|rochiert|kurze|lange)", re.IGNORECASE,
)  # fmt: skip
_WRITTEN = re.compile(
    r"(?:[A-Z]?[a-h]?[1-8]?[x:-]?[a-j][1-9](?:=?[A-Z])?|[O0]-[O0](?:-[O0])?)[+#!?]*"
)
_BETWEEN = re.compile(r"\s*[,/]\s*|\s+(?:and then|then|und dann|dann)\s+")


def read_any(board: chess.Board, text: str) -> tuple[list[chess.Move], str]:
    """Read a move, or one of each side, in English or German words or letters.

    Returns
    -------
    (list of chess.Move, str)
        The moves, or none and the reason.

    Examples
    --------
    >>> [move.uci() for move in read_any(chess.Board(), "e4 e5")[0]]
    ['e2e4', 'e7e5']
    >>> [move.uci() for move in read_any(chess.Board(), "Springer nach f3")[0]]
    ['g1f3']
    """
    written = all(is_move(word) or is_move(word, language="german") for word in text.split())
    pair = pair_in(text)
    if pair and written and (both := _read_both(board, *pair)):
        return both, ""
    move, reason = _read_one(board, text)
    if move is None and pair and (both := _read_both(board, *pair)):
        return both, ""
    return ([] if move is None else [move]), reason


def pair_in(text: str) -> tuple[str, str] | None:
    """Take a text apart that seems to hold a move of each side; None if it does not.

    Examples
    --------
    >>> pair_in("bishop a4 knight f6"), pair_in("knight takes knight on c6"), pair_in("e4, e5")
    (('bishop a4', 'knight f6'), None, ('e4', 'e5'))
    """
    parts = _BETWEEN.split(text)
    if len(parts) == 2 and all(parts):
        return parts[0], parts[1]
    words = text.split()
    for place in range(1, len(words)):
        before = words[place - 1]
        here = " ".join(words[place : place + 2])
        begins = _PIECE.fullmatch(words[place]) or _WRITTEN.fullmatch(words[place])
        begins = begins or re.fullmatch(r"[a-h] (?:takes|x|schlägt|nimmt)", here)
        ended = _WRITTEN.fullmatch(before) or re.search(
            r"(?:^|[a-h])[1-9][+#!?]*$|castl|side$", before
        )
        if begins and ended and not re.fullmatch(r"to|from|on|at|nach|von|auf", before):
            return " ".join(words[:place]), " ".join(words[place:])
    return None


def _read_both(board: chess.Board, one: str, other: str) -> list[chess.Move]:
    """Read a move of each side; nothing if one of them cannot be read."""
    first, _ = _read_one(board, one)
    if first is None:
        return []
    after = board.copy(stack=False)
    after.push(first)
    second, _ = _read_one(after, other)
    return [] if second is None else [first, second]


def _read_one(board: chess.Board, text: str) -> tuple[chess.Move | None, str]:
    """Read one move: its move, or the reason why it is none."""
    reasons = []
    for read, language in ((text, "english"), (_in_english(text), "english"), (text, "german")):
        if language == "german" and not is_move(text, language="german"):
            continue
        try:
            return read_on(board, read, language), ""
        except NotationError as error:
            reasons.append(error.reason)
    is_german = _in_english(text) != " ".join(text.lower().split())
    return None, reasons[min(int(is_german), len(reasons) - 1)]


def _in_english(text: str) -> str:
    said = text.lower()
    for german, english in _GERMAN:
        said = re.sub(german, english, said)
    return " ".join(said.split())


def near_moves(board: chess.Board, text: str) -> list[tuple[chess.Move, float]]:
    """Return the legal moves by how much a text looks or sounds like them, from 0 to 1.

    Examples
    --------
    >>> board = chess.Board()
    >>> [board.san(move) for move, _ in near_moves(board, "knigth f3")[:2]]
    ['Nf3', 'f3']
    """
    plain = _in_english(re.sub(r"[+#!?]", "", text))
    plain = re.sub(r"\b([1-8])([a-h])\b", r"\2\1", plain)  # a square said the wrong way round
    goals = {match[0] for match in re.finditer(r"[a-h][1-8]", plain)}
    found = [(move, _likeness(board, move, plain, goals)) for move in board.legal_moves]
    return sorted(found, key=lambda one: (-one[1], board.san(one[0])))


def _likeness(board: chess.Board, move: chess.Move, plain: str, goals: set[str]) -> float:
    """Return how near a move is: by its letters, the square that is named, and the piece."""
    said = spoken(board, move)
    san = board.san(move).rstrip("+#").lower()
    forms = (san, said, said.replace(" to ", " "), said.replace(" takes ", " "))
    alike = max(_alike(_pairs(plain), _pairs(form)) for form in forms)
    goal = chess.square_name(move.to_square)
    piece = chess.piece_name(board.piece_type_at(move.from_square) or chess.PAWN)
    is_same = piece in plain or bool(re.match(rf"{san[0]}[a-h1-8x]", plain) and san[0] in "kqrn")
    near = 0.25 if goal in goals else 0.12 * any(set(goal) & set(one) for one in goals)
    return 0.6 * alike + near + 0.15 * is_same


@cache
def _pairs(text: str) -> frozenset[str]:
    """Return the pairs of letters of a text, its words' first and last letters with the blanks."""
    padded = f" {text} "
    return frozenset(padded[at : at + 2] for at in range(len(padded) - 1))


def _alike(one: frozenset[str], other: frozenset[str]) -> float:
    """Return how many pairs two texts share: Dice's measure."""
    return 2 * len(one & other) / (len(one) + len(other))
