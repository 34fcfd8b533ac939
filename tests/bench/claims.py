"""What reply tables and single claims cost on ordinary middlegame positions, in CPU seconds.

Run it with ``PYTHONPATH=tests python tests/bench/claims.py``.  Goals, compiled:
a reply table in 2 s, a single claim in 1 s.
"""

import statistics
import time
from collections.abc import Callable, Iterator
from contextlib import suppress

import chess
import chess.pgn
from references.archive import game_files

from chessnb import claims, reply_table
from chessnb.errors import ChessnbError
from chessnb.search import compiled

POSITIONS = 20
"""So many positions."""

PLIES = (24, 32, 40)
"""Where a middlegame is looked for in a game."""

PIECES = 20
"""A middlegame has at least so many pieces on the board."""


def games() -> Iterator[chess.pgn.Game]:
    """Yield the standard games of the archive of ``chess``."""
    for path in game_files():
        with path.open(encoding="utf-8-sig", errors="replace") as handle:
            while (game := chess.pgn.read_game(handle)) is not None:
                if type(game.board()) is chess.Board and not game.board().chess960:
                    yield game


def middlegames() -> Iterator[chess.Board]:
    """Yield positions with their history, where the game is not over."""
    for game in games():
        board = game.board()
        for ply, move in enumerate(game.mainline_moves(), start=1):
            board.push(move)
            pieces = len(board.piece_map())
            if ply in PLIES and pieces >= PIECES and board.is_valid() and any(board.legal_moves):
                yield board.copy()


def spent(ask: Callable[[chess.Board], object], board: chess.Board) -> float:
    """Return the CPU seconds of a question, whatever its answer."""
    start = time.process_time()
    with suppress(ChessnbError):
        ask(board)
    return time.process_time() - start


def report(name: str, seconds: list[float], goal: float) -> None:
    """Print one line of the table."""
    over = sum(one > goal for one in seconds)
    print(
        f"{name:34} median {statistics.median(seconds):6.2f}  max {max(seconds):6.2f}"
        f"  over {goal:g} s: {over} of {len(seconds)}"
    )


def main() -> None:
    """Print what each kind of question costs."""
    boards = [board for board, _ in zip(middlegames(), range(POSITIONS), strict=False)]
    print(f"{len(boards)} positions, {'compiled' if compiled else 'not compiled'}")
    report("reply table", [spent(reply_table, board) for board in boards], 2.0)
    questions: dict[str, Callable[[chess.Board], object]] = {
        "mates within 3": lambda at: claims.mates(at, within=3),
        "mates within 4": lambda at: claims.mates(at, within=4),
        "wins 3 within 3": lambda at: claims.wins_material(at, at_least=3, within=3),
        "wins 1 within 4": lambda at: claims.wins_material(at, at_least=1, within=4),
        "mates in 3 or wins 3 within 3": lambda at: claims.mates_or_wins(
            at, mate=3, at_least=3, within=3
        ),
        "loses (the first legal move)": lambda at: claims.loses(
            at, next(iter(at.legal_moves)).uci()
        ),
        "perpetual": claims.perpetual,
        "zugzwang": claims.zugzwang,
    }
    for name, ask in questions.items():
        report(name, [spent(ask, board) for board in boards], 1.0)


if __name__ == "__main__":
    main()
