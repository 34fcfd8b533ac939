"""What counts as a position: a moment, a board, or a FEN.

Every function of the package that looks at a position takes any of the three
and begins with :func:`board_of`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Protocol, runtime_checkable

import chess

from chessnb.errors import PositionError

_SIDES = {chess.WHITE: "White", chess.BLACK: "Black"}
_IMPOSSIBLE = "this position cannot come about in a game: "


@runtime_checkable
class HasBoard(Protocol):
    """Anything that stands for a position and can show it as a board."""

    @property
    def board(self) -> chess.Board:
        """The position; a board of the caller's own."""
        ...  # pragma: no cover


@runtime_checkable
class HasMoments(Protocol):
    """A lesson, which holds many positions and is none."""

    def moments(self) -> Iterable[HasBoard]:
        """Return its positions."""
        ...  # pragma: no cover


Position = chess.Board | HasBoard | str
"""A ``chess.Board``, a moment (anything with a ``board``), or a FEN."""


def board_of(position: Position, *, legal: bool = True) -> chess.Board:
    """Turn a position into a board that the caller may change.

    Parameters
    ----------
    position : chess.Board, moment or str
        A board, a moment of a lesson, or a FEN (four fields are enough; the
        word ``"start"`` is the position at the start of a game).
    legal : bool
        Refuse positions that cannot come about in a game (FIDE Laws, glossary:
        illegal position), as far as the position shows it, such as one
        without a king.

    Returns
    -------
    chess.Board
        A copy, with the move history that was known.

    Raises
    ------
    PositionError
        If it is not a position, or (with `legal`) not a legal one.

    Examples
    --------
    >>> board_of("start").fen()
    'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1'
    """
    if isinstance(position, chess.Board):
        board = position.copy()
    elif isinstance(position, str):
        board = _read_fen(position)
    elif isinstance(position, HasBoard):
        board = position.board.copy()
    else:
        raise _no_position(position)
    if legal and (faults := what_is_wrong(board)):
        given = position if isinstance(position, str) else board.fen(en_passant="fen")
        raise PositionError(_IMPOSSIBLE + "; ".join(faults), given=given)
    return board


def _no_position(given: object) -> PositionError:
    reason, instead = "a position is a board, a moment of a lesson, or a FEN", ""
    if isinstance(given, HasMoments):
        reason += "; a lesson has many"
        instead = "lesson.after('14. Nd5'), or lesson.start"
    return PositionError(reason, given=repr(given), instead=instead)


def _read_fen(text: str) -> chess.Board:
    if text.strip().lower() in ("start", "startpos"):
        return chess.Board()
    try:
        return chess.Board(" ".join(text.split()))
    except ValueError as error:
        reason, instead = _what_else(text)
        reason = reason or f"this is not a FEN ({_fen_fault(text, error)})"
        raise PositionError(reason, given=text, instead=instead) from None


# -- what was given instead of a FEN -----------------------------------------

_MOVE = r"(?:[A-Z♔-♟]?[a-h]?[1-8]?[x:-]?[a-h][1-8](?:=?[A-Z])?|[O0]-[O0](?:-[O0])?)[+#!?]*"
_NUMBER = r"(?:(?P<number>\d+)\s*(?:\.+|…)?\s*)"
_MOVES = re.compile(rf"\s*{_NUMBER}?{_MOVE}(?P<more>(?:\s+(?:\d+\s*(?:\.+|…)\s*)?{_MOVE})*)\s*")
_LONGEST = 400
_PLACE = re.compile(r"\s*(?:the\s+end|end|(?:white|black)['’]s\s+\d+\w*)\s*", re.IGNORECASE)


def _what_else(text: str) -> tuple[str, str]:
    """Say what a text names, a move, moves or a file, and what to write; empty for any other."""
    said = " ".join(text.split())
    if said.lower().endswith(".pgn"):
        return "this is a game file, not a position", f"Lesson.read({text.strip()!r}).start"
    if len(said) > _LONGEST:
        return "", ""
    after = f"lesson.after({said!r})"
    if _PLACE.fullmatch(text):
        return "this is a place in a lesson, not a position", after
    if (moves := _MOVES.fullmatch(text)) is None:
        return "", ""
    if not moves["more"]:
        return "this is a move, not a position", after
    from_start = moves["number"] in (None, "1")
    return "these are moves, not a position", (
        f"Lesson.from_text({said!r}).end" if from_start else after
    )


# -- what is wrong with a FEN (PGN standard of 1994, section 16.1) -----------


def _fen_fault(text: str, error: ValueError) -> str:
    fields = text.split()
    if not fields:
        return "it is empty"
    if "/" not in fields[0]:
        return 'it begins with eight ranks, with / between them; "start" is the start of a game'
    for fault in (_ranks_fault(fields[0]), *_fields_faults(fields[1:])):
        if fault:
            return fault
    return str(error).split(":")[0]


def _ranks_fault(field: str) -> str:
    rows = field.split("/")
    if len(rows) != 8:
        return f"the first field needs 8 ranks with / between them, and has {len(rows)}"
    for rank, row in zip(range(8, 0, -1), rows, strict=True):
        if strange := [letter for letter in row if letter not in "pnbrqkPNBRQK12345678~"]:
            return (
                f"rank {rank} has {strange[0]!r}, which is neither a piece nor a count from 1 to 8"
            )
        width = sum(int(letter) if letter.isdigit() else 1 for letter in row if letter != "~")
        if width != 8:
            return f"rank {rank}, {row!r}, fills {width} squares instead of 8"
        if re.search(r"\d\d", row):
            return f"rank {rank}, {row!r}, has two counts side by side: add them up"
    return ""


_FIELDS = (
    ("second", "says whose move it is, w or b", r"[wb]"),
    ("third", "says who may still castle, such as KQkq or Kq, or is -", r"-|K?Q?k?q?"),
    ("fourth", "names the square that a pawn has just passed, such as e3, or is -", r"-|[a-h][36]"),
    ("fifth", "counts the plies since a capture or a pawn move", r"\d{1,4}"),
    ("sixth", "is the number of the move", r"\d{1,4}"),
)


def _fields_faults(fields: list[str]) -> Iterator[str]:
    for number, ((place, meaning, form), field) in enumerate(zip(_FIELDS, fields, strict=False)):
        if not re.fullmatch(form, field):
            enough = "; the first four fields are enough" if number > 2 else ""
            yield f"the {place} field {meaning}, and this one is {field[:20]!r}{enough}"
    if len(fields) > len(_FIELDS):
        yield f"it has {len(fields) + 1} fields, and a FEN has six at most"


# -- what is wrong with a position -------------------------------------------


def what_is_wrong(board: chess.Board) -> list[str]:
    """Say in words why a position cannot come about in a game; empty if nothing is seen.

    The conditions are those of the FIDE Laws, articles 1 to 3, as far as a
    single position shows them.

    Returns
    -------
    list of str
        Clauses without a full stop, what is told first being the graver fault.

    Examples
    --------
    >>> what_is_wrong(chess.Board("4k3/8/8/8/8/8/4R3/4K3 w - - 0 1"))
    ["Black is in check from the rook on e2, yet it is White's move"]
    """
    if not board.occupied:
        return ["the board is empty"]
    kings = list(_king_faults(board))
    faults = [*kings, *_pawn_faults(board), *_number_faults(board)]
    if not kings:
        faults += _check_faults(board)
    return [*faults, *_castling_faults(board), *_en_passant_faults(board)]


def _squares(squares: Iterable[chess.Square]) -> str:
    return _listed([chess.square_name(square) for square in squares])


def _men(board: chess.Board, squares: Iterable[chess.Square]) -> str:
    kinds = [(board.piece_type_at(square) or chess.PAWN, square) for square in squares]
    return _listed(
        [f"the {chess.piece_name(kind)} on {chess.square_name(square)}" for kind, square in kinds]
    )


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _king_faults(board: chess.Board) -> Iterator[str]:
    kings = [board.pieces(chess.KING, side) for side in (chess.WHITE, chess.BLACK)]
    for side, own in zip(("White", "Black"), kings, strict=True):
        if not own:
            yield f"{side} has no king"
        elif len(own) > 1:
            yield f"{side} has {len(own)} kings, on {_squares(own)}"
    white, black = kings
    if len(white) == len(black) == 1 and chess.square_distance(*white, *black) == 1:
        yield f"the kings on {_squares(white | black)} stand next to each other"


def _pawn_faults(board: chess.Board) -> Iterator[str]:
    if wrong := chess.SquareSet(board.pawns & chess.BB_BACKRANKS):
        pawns = "a pawn stands" if len(wrong) == 1 else "pawns stand"
        yield f"{pawns} on {_squares(wrong)}, and no pawn can be on the first or the eighth rank"


def _number_faults(board: chess.Board) -> Iterator[str]:
    for side in (chess.WHITE, chess.BLACK):
        men = board.occupied_co[side].bit_count()
        pawns = len(board.pieces(chess.PAWN, side))
        if pawns > 8:
            yield f"{_SIDES[side]} has {pawns} pawns, and nobody has more than 8"
        if men > 16:
            yield f"{_SIDES[side]} has {men} men, and nobody has more than 16"
        if pawns <= 8 and men <= 16:
            yield from _promoted_faults(board, side, pawns)


def _promoted_faults(board: chess.Board, side: chess.Color, pawns: int) -> Iterator[str]:
    """Compare the pieces that must have been pawns (article 3.7.5) with the pawns that are gone."""
    light, dark = chess.SquareSet(chess.BB_LIGHT_SQUARES), chess.SquareSet(chess.BB_DARK_SQUARES)
    bishops = board.pieces(chess.BISHOP, side)
    counts = {
        "queens": (len(board.pieces(chess.QUEEN, side)), 1),
        "rooks": (len(board.pieces(chess.ROOK, side)), 2),
        "bishops on light squares": (len(bishops & light), 1),
        "bishops on dark squares": (len(bishops & dark), 1),
        "knights": (len(board.pieces(chess.KNIGHT, side)), 2),
    }
    extra = {name: count for name, (count, first) in counts.items() if count > first}
    promoted = sum(count - counts[name][1] for name, count in extra.items())
    if promoted > 8 - pawns:
        what = _listed([f"{count} {name}" for name, count in extra.items()])
        gone = "none of its pawns is" if pawns == 8 else f"only {8 - pawns} of its pawns may be"
        yield (
            f"{_SIDES[side]} has {what}, so at least {promoted} of them must have been "
            f"{'a pawn' if promoted == 1 else 'pawns'}, but {gone} gone"
        )


def _check_faults(board: chess.Board) -> Iterator[str]:
    status = board.status()
    mover, other = _SIDES[board.turn], _SIDES[not board.turn]
    if board.was_into_check():
        king = board.king(not board.turn)
        assert king is not None
        givers = _men(board, board.attackers(board.turn, king))
        yield f"{other} is in check from {givers}, yet it is {mover}'s move"
    checkers = board.checkers()
    if status & chess.STATUS_TOO_MANY_CHECKERS:
        yield (
            f"{mover} is in check from {_men(board, checkers)}, and no move gives check with "
            "more than two men"
        )
    elif status & chess.STATUS_IMPOSSIBLE_CHECK:
        by_what = "" if board.ep_square is None else ": the last was a pawn's double step"
        yield f"no single move can give {mover} the check from {_men(board, checkers)}{by_what}"


def _castling_faults(board: chess.Board) -> Iterator[str]:
    wrong = chess.SquareSet(board.castling_rights & ~board.clean_castling_rights())
    for side, rank in ((chess.WHITE, "1"), (chess.BLACK, "8")):
        rooks = wrong & chess.SquareSet(chess.BB_RANK_1 if side else chess.BB_RANK_8)
        said = f"{_SIDES[side]} is said to have the right to castle"
        if rooks and board.king(side) != chess.parse_square(f"e{rank}"):
            yield f"{said}, but its king is not on e{rank}"
            continue
        for rook in rooks:
            kingside = chess.square_file(rook) > chess.E1
            wing, corner = ("kingside", "h") if kingside else ("queenside", "a")
            there = board.piece_at(rook) == chess.Piece(chess.ROOK, side)
            where = f", and not on {chess.square_name(rook)}" if there else ""
            yield f"{said} {wing}, but needs a rook on {corner}{rank} for it{where}"


def _en_passant_faults(board: chess.Board) -> Iterator[str]:
    if not board.status() & chess.STATUS_INVALID_EP_SQUARE or board.ep_square is None:
        return
    passed = board.ep_square
    goal, other = chess.square_name(passed), _SIDES[not board.turn]
    rank, ahead = (5, 8) if board.turn else (2, -8)
    start = f"a pawn of {other}'s is said to have just passed {goal}, but"
    if chess.square_rank(passed) != rank:
        yield f"{start} {other}'s pawns pass rank {rank + 1} with their double step"
    elif board.piece_at(passed - ahead) != chess.Piece(chess.PAWN, not board.turn):
        yield f"{start} there is none on {chess.square_name(passed - ahead)}"
    else:
        men = chess.SquareSet([passed, passed + ahead]) & chess.SquareSet(board.occupied)
        yield f"{start} {_men(board, men)} would have been in its way"
