"""Hearing a spoken move: the one legal move that fits what was said.

It never guesses.  Several moves that fit are an error that says them all; none
is an error with the reason; a word that is not known is told.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

import chess

from chessnb.board.naming import listed, the_piece
from chessnb.board.sides import SIDES
from chessnb.errors import AmbiguousMove, IllegalMove, MalformedMove
from chessnb.notation.letters import in_language
from chessnb.notation.refusals.legality import why_no_castling, why_not
from chessnb.notation.spoken.grammar import Unclear, phrase_of
from chessnb.notation.spoken.phrase import ANYWHERE, Phrase, Place
from chessnb.notation.spoken.speech import spoken
from chessnb.notation.spoken.vocabulary import Word, words_of

_SHOWN = 8  # so many moves are said to choose from; common practice, no source
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")


def hear(board: chess.Board, text: str, *, language: str = "english") -> chess.Move | None:
    """Understand one spoken move.

    Parameters
    ----------
    board : chess.Board
        The position before the move.
    text : str
        What was said, in English; also as speech recognition writes it down.
    language : str
        Whose piece letters the reasons use.

    Returns
    -------
    chess.Move or None
        The one legal move that fits; None if no word of it belongs to chess.

    Raises
    ------
    MalformedMove
        If the words do not make a move, or one of them is not known.
    IllegalMove
        If no legal move fits; the reason says what stands in the way.
    AmbiguousMove
        If several legal moves fit; the reason says them.

    Examples
    --------
    >>> hear(chess.Board(), "okay, night to see three")
    Move.from_uci('b1c3')
    """
    readings = words_of(text)
    if not any(word.kind != "unknown" for words in readings for word in words):
        return None
    phrases = _phrases(readings, board, text)
    if any(phrase.side not in (None, board.turn) for phrase in phrases):
        raise IllegalMove(f"it is {SIDES[board.turn]}'s move", text=text, fen=board.fen())
    fitting = [
        move
        for move in board.legal_moves
        if any(_is_said(phrase, board, move) for phrase in phrases)
    ]
    # A check that is said chooses among moves; behind a whole move it is passed over.
    if any(phrase.check for phrase in phrases):
        fitting = [move for move in fitting if board.gives_check(move)] or fitting
    if any(phrase.mate for phrase in phrases):
        fitting = [move for move in fitting if _mates(board, move)] or fitting
    if not fitting:
        # Of two readings, the last is the one with the article.
        reason = in_language(_why(board, phrases[-1]), language)
        raise IllegalMove(reason, text=text, fen=board.fen())
    if len(fitting) > 1:
        raise _ambiguous(board, text, fitting)
    return fitting[0]


def _phrases(readings: Sequence[Sequence[Word]], board: chess.Board, text: str) -> list[Phrase]:
    phrases, reasons = [], []
    for words in readings:
        if unknown := next((word.text for word in words if word.kind == "unknown"), ""):
            reasons.append(_unknown(unknown))
            continue
        try:
            phrases.append(phrase_of(words, board))
        except Unclear as unclear:
            reasons.append(str(unclear))
    if not phrases:
        raise MalformedMove(reasons[0], text=text, fen=board.fen())
    return phrases


def _unknown(word: str) -> str:
    if re.fullmatch(r"[a-z]\d+", word):
        return f"there is no square {word}: files run from a to h, ranks from 1 to 8"
    return f'the word "{word}" is not understood in a move: say it like "knight takes d5"'


def _is_said(phrase: Phrase, board: chess.Board, move: chess.Move) -> bool:
    if not phrase.fits(board, move):
        return False
    if not phrase.check or phrase.castles or phrase.goal.square is not None:
        return True
    # Where no square is named, it is the check that tells the move.
    return _mates(board, move) if phrase.mate else board.gives_check(move)


def _mates(board: chess.Board, move: chess.Move) -> bool:
    after = board.copy(stack=False)
    after.push(move)
    return after.is_checkmate()


def _ambiguous(board: chess.Board, text: str, fitting: Sequence[chess.Move]) -> AmbiguousMove:
    ordered = sorted(fitting, key=board.san)
    shown = listed((f'"{spoken(board, move)}"' for move in ordered[:_SHOWN]), joint="or")
    if len(ordered) > _SHOWN:
        reason = f"this fits {len(ordered)} moves: say which, such as {shown}"
    else:
        reason = f"this fits {_NUMBERS[len(ordered)]} moves: say {shown}"
    candidates = [board.san(move) for move in ordered]
    return AmbiguousMove(reason, text=text, fen=board.fen(), candidates=candidates)


def _why(board: chess.Board, phrase: Phrase) -> str:
    """Say why no legal move fits."""
    if not any(board.legal_moves):
        return _why_not(board, phrase, chess.A1)
    if phrase.castles:
        return _why_no_castling(board, phrase)
    goal = phrase.goal.square
    if goal is not None:
        return _why_nothing_there(board, phrase, goal) or _why_not(board, phrase, goal)
    pieces = [
        square
        for square in chess.scan_forward(board.occupied_co[board.turn])
        if phrase.piece in (None, board.piece_type_at(square)) and phrase.start.holds(square)
    ]
    if not pieces and phrase.piece is None and phrase.start.square is None:
        return f"no piece or pawn of {SIDES[board.turn]}'s stands{_on(phrase.start)}"
    if not pieces:
        return _why_not(board, phrase, chess.A1)
    for move in board.pseudo_legal_moves:
        if phrase.fits(board, move) and not board.is_legal(move):
            return why_not(
                board,
                piece=phrase.piece,
                to_square=move.to_square,
                starts_at=move.from_square.__eq__,
                promotion=move.promotion,
            )
    return _nothing_of_the_kind(board, phrase, pieces)


def _why_not(board: chess.Board, phrase: Phrase, goal: chess.Square) -> str:
    return why_not(
        board,
        piece=phrase.piece,
        to_square=goal,
        starts_at=phrase.start.holds,
        takes=phrase.takes,
        promotion=phrase.promotion,
        names_file=phrase.start.file is not None or phrase.start.rank is not None,
    )


def _why_no_castling(board: chess.Board, phrase: Phrase) -> str:
    if phrase.goal.file not in (None, 2, 6):
        return "castling takes the king to the c-file or to the g-file"
    sides = [True, False] if phrase.wing is None else [phrase.wing]
    if phrase.goal.file is not None:
        sides = [phrase.goal.file == 6]
    why = {side: listed(why_no_castling(board, board.turn, king_side=side)) for side in sides}
    if len(why) == 1:
        return next(iter(why.values()))
    return f"on the king's side, {why[True]}; on the queen's side, {why[False]}"


def _why_nothing_there(board: chess.Board, phrase: Phrase, goal: chess.Square) -> str:
    """Say that the piece that is taken, or the way it is taken, is not as it was said."""
    there = board.piece_type_at(goal)
    name = chess.square_name(goal)
    if phrase.passing:
        return f"no pawn can be taken in passing on {name}"
    if phrase.victim is None or there == phrase.victim:
        return ""
    passing = there is None and phrase.piece in (None, chess.PAWN) and phrase.victim == chess.PAWN
    if passing and goal == board.ep_square:
        return ""
    wanted = f"no {chess.piece_name(phrase.victim)} stands on {name}"
    return (
        f"{wanted}: it is empty" if there is None else f"{wanted}: it is {the_piece(board, goal)}"
    )


def _nothing_of_the_kind(board: chess.Board, phrase: Phrase, pieces: Sequence[chess.Square]) -> str:
    """Say that no piece that may be meant can do what was said, anywhere."""
    what = _what(phrase)
    if len(pieces) == 1:
        return f"{the_piece(board, pieces[0])} cannot {what}"
    side = SIDES[board.turn]
    if phrase.piece is None and phrase.start == ANYWHERE:
        return f"{side} cannot {what}"
    kind = "piece or pawn" if phrase.piece is None else chess.piece_name(phrase.piece)
    return f"no {kind} of {side}'s{_on(phrase.start)} can {what}"


def _what(phrase: Phrase) -> str:
    """Say what the move was said to do."""
    if phrase.passing:
        return "take a pawn in passing"
    if phrase.takes:
        victim = "anything" if phrase.victim is None else f"a {chess.piece_name(phrase.victim)}"
        return f"take {victim}{_on(phrase.goal)}"
    if phrase.promotes:
        return "go to the last rank"
    if phrase.check:
        return "give mate" if phrase.mate else "give check"
    return f"go{_on(phrase.goal).replace(' on', ' to')}" if phrase.goal != ANYWHERE else "move"


def _on(place: Place) -> str:
    if place.square is not None:
        return f" on {chess.square_name(place.square)}"
    if place.file is not None:
        return f" on the {chess.FILE_NAMES[place.file]}-file"
    return "" if place.rank is None else f" on rank {place.rank + 1}"
