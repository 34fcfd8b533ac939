"""From the words of a spoken move to what they say of it.

The order of the words decides: *who* stands before *takes* or after *with*,
*where to* behind it; a file or rank just before a piece, or behind *from*, is
where it comes from.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

import chess

from chessnb.notation.spoken.phrase import ANYWHERE, Phrase, Place
from chessnb.notation.spoken.vocabulary import Word


class Unclear(Exception):  # noqa: N818 (never seen outside: its sentence becomes a MalformedMove)
    """The words are known, but do not make a move together."""


PIECE_FIRST = 'name the piece before the square: say it like "knight takes the pawn on d5"'
ONE_MOVE = 'say one move at a time, such as "knight takes d5"'


def phrase_of(words: Sequence[Word], board: chess.Board) -> Phrase:
    """Understand the words of one spoken move.

    Parameters
    ----------
    words : sequence of Word
        One reading of what was said, at least one word and none unknown.
    board : chess.Board
        The position before the move: it tells the last rank and what stands
        on a square that is named.

    Returns
    -------
    Phrase
        What was said, not yet whether it can be played.

    Raises
    ------
    Unclear
        If they do not make one move together.

    Examples
    --------
    >>> from chessnb.notation.spoken.vocabulary import words_of
    >>> phrase = phrase_of(words_of("knight takes the pawn on d5")[0], chess.Board())
    >>> phrase.piece, phrase.victim, phrase.goal.square == chess.D5
    (2, 1, True)
    """
    if words[-1].kind in ("to", "on", "from", "with"):
        raise Unclear(f'a square or a piece is missing after "{words[-1].text}"')
    words = _castle_as_rook(words, board)
    kinds = {word.kind for word in words}
    side, words = _whose(words, board)
    words = [word for word in words if word.kind not in ("check", "mate", "passing")]
    phrase = _castling(words) if kinds & {"castle", "wing"} else _move(words, board)
    phrase = replace(
        phrase,
        side=side,
        passing="passing" in kinds,
        takes=phrase.takes or "passing" in kinds,
        check=bool(kinds & {"check", "mate"}),
        mate="mate" in kinds,
    )
    if phrase.passing and phrase.piece is None:
        phrase = replace(phrase, piece=chess.PAWN)
    _demand_enough(phrase)
    return phrase


def _demand_enough(phrase: Phrase) -> None:
    if phrase.castles or phrase.takes or phrase.promotes or phrase.check:
        return
    if phrase.start == ANYWHERE and phrase.goal == ANYWHERE:
        name = chess.piece_name(phrase.piece or chess.KNIGHT)
        raise Unclear(f'the square is missing: say it like "{name} to f3"')


def _castle_as_rook(words: Sequence[Word], board: chess.Board) -> list[Word]:
    """Take a castle for a rook where it takes something or goes where no king castles to."""
    goals = [word.value for word in words if word.kind == "square"]
    rank = 0 if board.turn else 7
    kings = {chess.square(file, rank) for file in (2, 6)}
    takes = any(word.kind in ("takes", "retakes") for word in words)
    if not takes and (not goals or kings.intersection(goals)):
        return list(words)
    rook = Word(kind="piece", value=chess.ROOK, text="castle")
    return [rook if word.kind == "castle" and word.text == "castle" else word for word in words]


def _whose(words: Sequence[Word], board: chess.Board) -> tuple[chess.Color | None, list[Word]]:
    """Return whose move it is said to be, and the words without the sides."""
    mover: chess.Color | None = None
    captured = False
    for word in words:
        captured = captured or word.kind in ("takes", "retakes")
        if word.kind != "side":
            continue
        if not captured:
            mover = bool(word.value)
        elif bool(word.value) == board.turn:
            raise Unclear("a side takes only the other side's pieces and pawns")
    return mover, [word for word in words if word.kind != "side"]


def _castling(words: Sequence[Word]) -> Phrase:
    wings = {bool(word.value) for word in words if word.kind == "wing"}
    goal = ANYWHERE
    begun = False
    for word in words:
        begun = begun or word.kind in ("castle", "wing")
        if begun and word.kind == "piece" and word.value in (chess.KING, chess.QUEEN):
            wings.add(word.value == chess.KING)  # "castles queen"
        elif word.kind == "piece" and word.value == chess.KING:
            continue  # "the king castles"
        elif word.kind in ("square", "file") and goal == ANYWHERE:
            goal = _place(word)
        elif word.kind not in ("castle", "wing", "to", "on", "with"):
            raise Unclear('say "castles short" or "castles long"')
    if len(wings) > 1:
        raise Unclear('say either "castles short" or "castles long"')
    return Phrase(castles=True, wing=next(iter(wings), None), goal=goal)


def _move(words: Sequence[Word], board: chess.Board) -> Phrase:
    words, tool = _split(words, "with")
    words, becomes = _split(words, "promote")
    promotes = becomes is not None
    promotion = None
    if becomes:
        promotion = _one(becomes, "piece")
        words = [*words, *(word for word in becomes if word.kind not in ("piece", "promote"))]
    if any(word.kind in ("takes", "retakes") for word in words):
        phrase = _capture(words, board)
    else:
        phrase = _quiet(words, board)
    if tool:
        phrase = _with(phrase, tool)
    if promotion is not None and phrase.promotion is not None:
        raise Unclear(ONE_MOVE)
    promotion = promotion or phrase.promotion
    promotes = promotes or promotion is not None
    if phrase.piece is None and (promotes or _is_file_only(phrase.start)):
        phrase = replace(phrase, piece=chess.PAWN)
    return replace(phrase, promotion=promotion, promotes=promotes)


def _split(words: Sequence[Word], kind: str) -> tuple[list[Word], list[Word] | None]:
    """Return what stands before the first word of a kind, and what stands behind it."""
    for index, word in enumerate(words):
        if word.kind == kind:
            return list(words[:index]), list(words[index + 1 :])
    return list(words), None


def _one(words: Iterable[Word], *kinds: str) -> int | None:
    values = [word.value for word in words if word.kind in kinds]
    if len(values) > 1:
        raise Unclear(ONE_MOVE)
    return values[0] if values else None


def _place(word: Word) -> Place:
    if word.kind == "file":
        return Place(file=word.value)
    if word.kind == "rank":
        return Place(rank=word.value)
    return Place(file=chess.square_file(word.value), rank=chess.square_rank(word.value))


def _places(words: Iterable[Word]) -> list[Place]:
    return [_place(word) for word in words if word.kind in ("square", "file", "rank")]


def _is_file_only(place: Place) -> bool:
    return place.file is not None and place.rank is None


def _with(phrase: Phrase, tool: Sequence[Word]) -> Phrase:
    """Add who moves, said behind ``with``."""
    places = _places(tool)
    piece = _one(tool, "piece")
    said_twice = piece is not None and phrase.piece not in (None, piece)
    if said_twice or len(places) > 1 or (places and phrase.start != ANYWHERE):
        raise Unclear(ONE_MOVE)
    return replace(phrase, piece=piece or phrase.piece, start=places[0] if places else phrase.start)


def _capture(words: Sequence[Word], board: chess.Board) -> Phrase:
    index = next(i for i, word in enumerate(words) if word.kind in ("takes", "retakes"))
    before, behind = words[:index], words[index + 1 :]
    if any(word.kind in ("takes", "retakes") for word in behind):
        raise Unclear(ONE_MOVE)
    behind, origin = _split(behind, "from")
    starts, goals = _places([*before, *(origin or ())]), _places(behind)
    if len(starts) > 1 or len(goals) > 1:
        raise Unclear(ONE_MOVE)
    goal = goals[0] if goals else ANYWHERE
    piece = _one(before, "piece")
    victim, promotion = _victim_and_promotion(behind, goal, board)
    if promotion is not None and piece not in (None, chess.PAWN):
        raise Unclear(PIECE_FIRST)
    if words[index].kind == "retakes" and goal == ANYWHERE and board.move_stack:
        last = board.peek().to_square
        goal = Place(file=chess.square_file(last), rank=chess.square_rank(last))
    return Phrase(
        piece=piece,
        start=starts[0] if starts else ANYWHERE,
        goal=goal,
        takes=True,
        victim=victim,
        promotion=promotion,
    )


def _victim_and_promotion(
    behind: Sequence[Word], goal: Place, board: chess.Board
) -> tuple[int | None, int | None]:
    """Tell the piece that is taken (before the square) from what the pawn becomes (behind it)."""
    at = [i for i, word in enumerate(behind) if word.kind in ("square", "file", "rank")]
    cut = at[0] if at else 1
    victim, promotion = _one(behind[:cut], "piece"), _one(behind[cut:], "piece")
    if promotion is not None and goal != ANYWHERE and not _is_last_rank(goal, board):
        raise Unclear(PIECE_FIRST)
    return victim, promotion


def _is_last_rank(place: Place, board: chess.Board) -> bool:
    return place.rank == (7 if board.turn else 0)


def _quiet(words: Sequence[Word], board: chess.Board) -> Phrase:
    words, promotion = _trailing_promotion(list(words), board)
    piece = _one(words, "piece")
    start = goal = None
    loose: list[Word] = []
    before = ""
    for index, word in enumerate(words):
        if word.kind in ("square", "file", "rank"):
            following = words[index + 1].kind if index + 1 < len(words) else ""
            if before == "from" or (following == "piece" and before != "to"):
                start = _unsaid(start, _place(word))
            elif before == "to":
                goal = _unsaid(goal, _place(word))
            else:
                loose.append(replace(word, text=before))
        before = word.kind
    if len(words) == 2 and words[0].kind == "square" and piece is not None:
        _demand_piece(board, words[0].value, piece)
    start, goal = _settle(loose, start, goal, piece, board)
    if piece is None and goal is not None and start is None:
        piece = chess.PAWN  # "d5" by itself is a pawn's move
    start, goal = start or ANYWHERE, goal or ANYWHERE
    takes = piece in (None, chess.PAWN) and _is_file_only(start) and start.file != goal.file
    return Phrase(
        piece=piece,
        start=start,
        goal=goal,
        takes=takes and goal.file is not None,  # "e d" and "e d5", as in exd5
        promotion=promotion,
    )


def _trailing_promotion(
    words: list[Word], board: chess.Board
) -> tuple[list[Word], chess.PieceType | None]:
    """Take off what the pawn becomes: ``e8 queen``, ``ed queen``, ``pawn to queen``."""
    if len(words) < 2 or words[-1].kind != "piece":
        return words, None
    if any(word.kind == "piece" and word.value != chess.PAWN for word in words[:-1]):
        return words, None
    on_last_rank = words[-2].kind == "square" and _is_last_rank(_place(words[-2]), board)
    two_files = [word.kind for word in words[:-1]] == ["file", "file"]
    if on_last_rank or two_files or words[-2].kind == "to":
        return words[:-1], words[-1].value
    return words, None


def _unsaid(known: Place | None, place: Place) -> Place:
    if known is not None:
        raise Unclear(ONE_MOVE)
    return place


def _demand_piece(board: chess.Board, square: chess.Square, piece: chess.PieceType) -> None:
    if board.piece_at(square) != chess.Piece(piece, board.turn):
        name = f"{chess.piece_name(piece)} to {chess.square_name(square)}"
        raise Unclear(f'name the piece first: say "{name}"')


def _settle(
    loose: Sequence[Word],
    start: Place | None,
    goal: Place | None,
    piece: chess.PieceType | None,
    board: chess.Board,
) -> tuple[Place | None, Place | None]:
    """Tell where from and where to, for places without a word that says so."""
    places = [_place(word) for word in loose]
    if len(places) + (start is not None) + (goal is not None) > 2:
        raise Unclear(ONE_MOVE)
    if len(places) == 2:
        return places[0], places[1]
    if not places:
        return start, goal
    if start is not None:
        return start, places[0]
    if goal is not None:
        return places[0], goal
    if places[0].square is None:
        if loose[0].text != "on":
            raise Unclear('the square is missing: say it like "knight to f3"')
        return places[0], None
    square = places[0].square
    own = piece is not None and board.piece_at(square) == chess.Piece(piece, board.turn)
    return (places[0], None) if own and loose[0].text == "on" else (None, places[0])
