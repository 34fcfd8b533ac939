"""Every three-piece position against the Gaviota tables of the package ``chess``. Run by hand.

    python tests/bench/three_pieces.py [REACH]

King and queen, rook or pawn against the bare king, either side to move; the
stronger king stands in one triangle of the board (in one half, with a pawn),
since the rest is its mirror image.  A mate within REACH moves (5 unless told
otherwise) must be proved in exactly so many moves and refuted in one less;
where the tables give none, none may be found.  Prints how many positions were
compared at each distance, and every one that differs.
"""

import sys
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import chess
import chess.gaviota
from references.archive import chess_archive

from chessnb.search import compiled, core

TRIANGLE = [square for square in chess.SQUARES if square % 8 < 4 and square // 8 <= square % 8]
HALF = [square for square in chess.SQUARES if square % 8 < 4]


def positions(piece: chess.PieceType) -> Iterator[chess.Board]:
    for strong in HALF if piece == chess.PAWN else TRIANGLE:
        for weak in chess.SQUARES:
            for third in chess.SQUARES:
                if len({strong, weak, third}) < 3:
                    continue
                for turn in chess.COLORS:
                    board = chess.Board(None)
                    board.set_piece_at(strong, chess.Piece(chess.KING, chess.WHITE))
                    board.set_piece_at(weak, chess.Piece(chess.KING, chess.BLACK))
                    board.set_piece_at(third, chess.Piece(piece, chess.WHITE))
                    board.turn = turn
                    if board.is_valid() and not board.is_game_over():
                        yield board


def within(board: chess.Board, moves: int) -> bool:
    question = core.Question(board.fen(), attacker=chess.WHITE, mate=moves)
    while (status := question.run(1_000_000)) == core.OPEN:
        pass
    return status == core.PROVED


def main() -> None:
    reach = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    print("compiled" if compiled else "not compiled")
    with chess.gaviota.open_tablebase(str(chess_archive() / "data" / "gaviota")) as tables:
        for piece in (chess.QUEEN, chess.ROOK, chess.PAWN):
            began, met, differ = time.process_time(), Counter(), 0
            for board in positions(piece):
                distance = tables.probe_dtm(board)
                won = (distance > 0) == (board.turn == chess.WHITE) and distance != 0
                plies = abs(distance)
                moves = (plies + 1) // 2 if board.turn == chess.WHITE else plies // 2
                if won and moves <= reach:
                    right = within(board, moves) and (moves == 1 or not within(board, moves - 1))
                else:
                    moves = 0
                    right = not within(board, reach)
                met[moves] += 1
                if not right:
                    differ += 1
                    print(f"differs: {board.fen()} (the table: {distance} plies)")
            told = ", ".join(f"{count} in {moves}" for moves, count in sorted(met.items()) if moves)
            print(
                f"{chess.piece_name(piece)}: {sum(met.values())} positions, mates {told}, "
                f"{met[0]} with none in {reach}; {differ} differ "
                f"({time.process_time() - began:.0f} s)"
            )


if __name__ == "__main__":
    main()
