"""The opening of a game by name: by its position, else by how the pieces stand."""

from __future__ import annotations

import chess

from chessnb.lessons.openings import LONGEST, name_of
from chessnb.teaching.thread.remark import Course, Remark, Remarks

_SETUPS = (
    ("Dutch Defence", "d4", "f5"),
    ("Queen's Gambit Declined", "d4 c4", "d5 e6 f7"),
    ("Tarrasch Defence", "d4 c4", "d5 e6 c5 f7"),
    ("Slav Defence", "d4 c4", "d5 c6"),
    ("Semi-Slav Defence", "d4 c4 Nc3", "d5 c6 e6 Nf6"),
    ("Grünfeld Defence", "d4 c4 Nc3", "Nf6 g6 d5"),
    ("King's Indian Defence", "d4 c4", "Nf6 g6 Bg7 d6"),
    ("Nimzo-Indian Defence", "d4 c4 Nc3", "Nf6 e6 Bb4 f7"),
    ("Queen's Indian Defence", "d4 c4 Nf3", "Nf6 e6 b6 f7"),
    ("Modern Benoni", "d5 c4", "Nf6 c5 e6"),
    ("Catalan Opening", "d4 c4 g3", "Nf6 d5 e6 f7"),
    ("London System", "d4 Bf4 Nf3 e3", ""),
    ("Colle System", "d4 Nf3 e3 Bd3", "d5"),
    ("French Defence", "e4 d4", "e6 d5"),
    ("Caro-Kann Defence", "e4", "c6 d5"),
    ("Sicilian Defence", "e4", "c5"),
    ("Sicilian Defence: Dragon Variation", "e4 Nd4 Nc3", "d6 Nf6 g6"),
    ("Pirc Defence", "e4 d4", "d6 g6 Nf6"),
    ("Modern Defence", "e4 d4", "d6 g6 Bg7"),
    ("Philidor Defence", "e4 Nf3", "e5 d6"),
    ("Italian Game", "e4 Nf3 Bc4", "e5 Nc6"),
    ("Italian Game", "e4 Nf3 Bc4", "e5 Nc6 Bc5"),
    ("Ruy Lopez", "e4 Nf3 Bb5", "e5 Nc6"),
    ("Scotch Game", "e4 Nf3 d4", "e5 Nc6"),
    ("Petrov's Defence", "e4 Nf3", "e5 Nf6"),
    ("Four Knights Game", "e4 Nf3 Nc3", "e5 Nc6 Nf6"),
    ("Vienna Game", "e4 Nc3", "e5"),
    ("King's Gambit", "e4 f4", "e5"),
    ("English Opening", "c4", "e5"),
    ("Scandinavian Defence", "e4", "d5"),
)
"""How White and Black stand in the usual openings, as the trade names them (from memory)."""

_OWN = 14
"""So many moves, of either side, an opening has to come about by how the pieces stand."""

_STARTERS = ("Opening", "Closed Game", "Open Game", "Indian Defence", "King's Knight Opening")
"""Names that say no more than a move or two."""


def opening_remarks(course: Course) -> Remarks:
    """Yield the name of the opening, where it is reached, and its variation."""
    if course.boards[0].board_fen() != chess.STARTING_BOARD_FEN:
        return
    said = ""
    named = [(ply, name_of(course.after(ply))) for ply in course.plies[:LONGEST]]
    exact = [(ply, name) for ply, name in named if name and not _is_thin(name)]
    if exact:
        family = exact[-1][1].partition(":")[0]
        first = next(ply for ply, name in exact if name.startswith(family))
        said = family
        yield _named(first, family)
        last, name = exact[-1]
        if name != family and last > first:
            variation = name.partition(": ")[2]
            yield Remark(
                ply=last,
                weight=3,
                words=f"The opening is called “{family}, {variation}”.",
                key=("opening", name),
            )
        if last >= 6:
            return
    best = max(
        ((len(white.split()) + len(black.split()), -ply, name)
         for ply in course.plies[:_OWN]
         for name, white, black in _SETUPS
         if _stands(course.after(ply), white, chess.WHITE)
         and _stands(course.after(ply), black, chess.BLACK)),
        default=None,
    )  # fmt: skip
    if best is not None and not (said and best[2].partition(":")[0] in said):
        if said and best[0] < 4:
            return
        yield _named(-best[1], best[2].replace(":", ","))


def _is_thin(name: str) -> bool:
    return name in ("Closed Game", "Open Game", "Indian Defence") or name in (
        "King's Pawn Opening", "Queen's Pawn Opening", "King's Knight Opening",
        "Zukertort Opening",
    )  # fmt: skip


def _named(ply: int, name: str) -> Remark:
    return Remark(
        ply=ply, weight=6, words=f"The opening is called “{name}”.", key=("opening", name)
    )


def _stands(board: chess.Board, setup: str, side: chess.Color) -> bool:
    """Tell whether the pieces of a side stand so: ``"d4 c4 Nc3"``."""
    for one in setup.split():
        letter = one[0] if one[0].isupper() else "P"
        square = chess.parse_square(one[-2:])
        if board.piece_at(square) != chess.Piece(chess.Piece.from_symbol(letter).piece_type, side):
            return False
    return True
