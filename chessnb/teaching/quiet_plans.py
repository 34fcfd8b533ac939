"""What a quiet position gives to plan for: open files, the centre, material, endings."""

from __future__ import annotations

import chess

from chessnb import facts
from chessnb.board.naming import NUMBERS
from chessnb.board.points import balance
from chessnb.board.sides import SIDES
from chessnb.facts import StructureFacts
from chessnb.facts._ending import ending_on
from chessnb.facts._pressure import forces
from chessnb.teaching.quiet_feature import Feature, Found

_MIDDLE = range(2, 6)
"""The files c to f."""


def plans(board: chess.Board, found: StructureFacts) -> Found:
    """Yield the features of a position that bear on plans, and those of an ending."""
    yield from _open_files(board)
    yield from _centre(board)
    yield from _pressed(board, found)
    yield from _runners_up(board, found)
    yield from _material(board)
    yield from _sevenths(board)
    yield from _ending(board)


def _open_files(board: chess.Board) -> Found:
    for letter, file in zip(chess.FILE_NAMES, chess.BB_FILES, strict=True):
        if not board.pawns & file and board.rooks:
            yield (
                ("open", letter),
                Feature(
                    weight=2,
                    words=f"the {letter}-file is open now",
                    question="Which file is open now, and who will hold it?",
                    kind="open file",
                    about="files",
                ),
            )


def _centre(board: chess.Board) -> Found:
    rams = [
        file
        for file in (3, 4)
        for rank in range(2, 5)
        if board.piece_at(chess.square(file, rank)) == chess.Piece(chess.PAWN, chess.WHITE)
        and board.piece_at(chess.square(file, rank + 1)) == chess.Piece(chess.PAWN, chess.BLACK)
    ]
    on_them = board.pawns & (chess.BB_FILE_D | chess.BB_FILE_E)
    if len(rams) == 2 and chess.popcount(on_them) == 4:
        yield (
            ("closed",),
            Feature(
                weight=3,
                words="the centre is closed: neither the d-pawns nor the e-pawns can move on",
                question="The centre is closed: on which wing may each side go ahead, and with "
                "which pawn?",
                kind="closed centre",
            ),
        )
    for side in (chess.WHITE, chess.BLACK):
        for pawn in board.pieces(chess.PAWN, side):
            file, rank = chess.square_file(pawn), chess.square_rank(pawn)
            if file not in _MIDDLE or (rank if side else 7 - rank) != 4:
                continue
            if not board.attackers(side, pawn) & board.pieces(chess.PAWN, side):
                continue
            taken = " and ".join(map(chess.square_name, board.attacks(pawn)))
            other = SIDES[not side]
            yield (
                ("wedge", side, file),
                Feature(
                    weight=2,
                    words=f"{SIDES[side]}'s pawn on {chess.square_name(pawn)}, guarded by a pawn, "
                    f"takes {taken} from {other}'s pieces",
                    question=f"Which squares does the pawn on {chess.square_name(pawn)} take from "
                    f"{other}'s pieces, and how could {other} attack it?",
                    kind="space",
                ),
            )


def _pressed(board: chess.Board, found: StructureFacts) -> Found:
    """Yield the weak pawns that the other side attacks with more than one piece."""
    for side, pawns in ((chess.WHITE, found.white), (chess.BLACK, found.black)):
        for kind in ("isolated", "backward"):
            for square in getattr(pawns, kind):
                attackers, defenders = forces(board, not side, chess.parse_square(square))
                many = sum(force.counts for force in attackers)
                few = sum(force.counts for force in defenders)
                if many < 2:
                    continue
                yield (
                    ("pressed", side, square),
                    Feature(
                        weight=2,
                        words=f"{SIDES[not side]} attacks the {kind} pawn on {square} "
                        f"{_times(many)}, and {SIDES[side]} {_defends(few)}",
                        question=f"How often is the pawn on {square} attacked, and how often "
                        "defended?",
                        kind="pressure",
                        about=square,
                    ),
                )


def _defends(number: int) -> str:
    return f"defends it {_times(number)}" if number else "does not defend it"


def _times(number: int) -> str:
    words = {1: "once", 2: "twice"}
    return words.get(number) or f"{NUMBERS[number]} times"


def _runners_up(board: chess.Board, found: StructureFacts) -> Found:
    """Yield the passed pawns that are far up the board, or have a rook behind them."""
    for pawn in found.passed:
        square = chess.parse_square(pawn.square)
        rank = chess.square_rank(square) if pawn.side else 7 - chess.square_rank(square)
        side = SIDES[pawn.side]
        if rank == 5:
            yield (
                ("sixth", pawn.side, pawn.square[0]),
                Feature(
                    weight=3,
                    words=f"{side}'s passed pawn has come to {pawn.square}, two moves from a queen",
                    question=f"Who must watch the pawn on {pawn.square} now, and what else can "
                    "that piece still do?",
                    kind="far passed pawn",
                    about="passed pawns",
                ),
            )
        behind = [
            rook
            for rook in board.attackers(pawn.side, square) & board.pieces(chess.ROOK, pawn.side)
            if chess.square_file(rook) == chess.square_file(square) and (rook < square) == pawn.side
        ]
        if behind and rank > 2:
            yield (
                ("behind", pawn.side, pawn.square[0]),
                Feature(
                    weight=2,
                    words=f"{side}'s rook on {chess.square_name(behind[0])} stands behind the "
                    "passed "
                    f"pawn on {pawn.square}",
                    question=f"Where does {side}'s rook belong, with a passed pawn on the "
                    f"{pawn.square[0]}-file?",
                    kind="rook behind the pawn",
                    about="passed pawns",
                ),
            )


def _material(board: chess.Board) -> Found:
    found = facts.material(board)
    lead = balance(board, chess.WHITE)
    if lead:
        side = lead > 0
        yield (
            ("ahead", side, abs(lead)),
            Feature(
                weight=3,
                words=found.in_words.partition(";")[0],
                question="Who has more, and what is it worth here?",
                kind="material",
                about="material",
            ),
        )
    if not board.queens:
        yield (
            ("no queens",),
            Feature(
                weight=3,
                words="the queens are off the board",
                question="The queens are off the board: which pieces and pawns matter most now?",
                kind="no queens",
                about="material",
            ),
        )
    if len(found.bishop_pair) == 1:
        (side,) = found.bishop_pair
        yield (
            ("bishop pair", side),
            Feature(
                weight=2,
                words=f"{SIDES[side]} has the bishop pair",
                question=f"{SIDES[side]} has both bishops: should the position be opened or "
                "closed?",
                kind="bishop pair",
                about="material",
            ),
        )
    if found.opposite_bishops:
        yield (
            ("opposite bishops",),
            Feature(
                weight=3,
                words="each side has one bishop, on squares of different colours",
                question="The bishops can never meet: which squares can neither side defend with "
                "one?",
                kind="opposite bishops",
                about="material",
            ),
        )


def _sevenths(board: chess.Board) -> Found:
    """Yield the rooks on the seventh rank that attack a pawn there, the king behind it."""
    for side in (chess.WHITE, chess.BLACK):
        rank, last = (6, 7) if side else (1, 0)
        king = board.king(not side)
        assert king is not None
        if chess.square_rank(king) not in (rank, last):
            continue
        seventh = chess.SquareSet(chess.BB_RANKS[rank])
        for rook in board.pieces(chess.ROOK, side) & seventh:
            if pawns := board.attacks(rook) & board.pieces(chess.PAWN, not side) & seventh:
                here, pawn = chess.square_name(rook), chess.square_name(min(pawns))
                yield (
                    ("seventh", side),
                    Feature(
                        weight=3,
                        words=f"{SIDES[side]}'s rook on {here} has reached the seventh rank and "
                        f"attacks the pawn on {pawn}",
                        question=f"What does {SIDES[side]}'s rook do on {here}?",
                        kind="seventh rank",
                        about=pawn,
                    ),
                )


def _ending(board: chess.Board) -> Found:
    found = ending_on(board)
    if not found.name:
        return
    name, _, pawns = found.title.partition(", ")
    yield (
        ("ending", found.name),
        Feature(
            weight=4,
            words=f"{name} begins: {pawns}" if name[:2] in ("a ", "an") else f"an ending: {name}",
            question="What is each side's plan in this ending, and where does its king belong?",
            kind="ending",
            about="ending",
        ),
    )
    if found.key_squares is not None and found.key_squares.reached:
        side = SIDES[found.key_squares.side]
        yield (
            ("key square", found.key_squares.side),
            Feature(
                weight=4,
                words=f"{side}'s king stands on a key square of the pawn on "
                f"{found.key_squares.pawn}",
                question=f"Which squares does {side}'s king need, so that the pawn is promoted?",
                kind="key squares",
                about="ending",
            ),
        )
    for runner in found.runners:
        if not runner.in_reach:
            other = SIDES[not runner.side]
            yield (
                ("outside", runner.side, runner.square[0]),
                Feature(
                    weight=4,
                    words=f"{other}'s king comes too late if the pawn on {runner.square} runs",
                    question=f"Does {other}'s king catch the pawn on {runner.square}? Count.",
                    kind="square of a pawn",
                    about="ending",
                ),
            )
    if found.outcomes:
        winner = found.outcomes[0].winner
        result = "it is drawn" if winner is None else f"{SIDES[winner]} wins"
        yield (
            ("outcome", winner),
            Feature(
                weight=5,
                words=f"{found.title}: {result}, worked out exactly",
                question="Is it won or drawn, and does it matter who is to move?",
                kind="exact result",
                about="ending",
            ),
        )
    yield from _kings_out(board)


def _kings_out(board: chess.Board) -> Found:
    for side in (chess.WHITE, chess.BLACK):
        king = board.king(side)
        assert king is not None
        rank = chess.square_rank(king) if side else 7 - chess.square_rank(king)
        if chess.square_file(king) in _MIDDLE and rank in (3, 4):
            yield (
                ("king out", side),
                Feature(
                    weight=2,
                    words=f"{SIDES[side]}'s king has come to the middle of the board, to "
                    f"{chess.square_name(king)}",
                    question=f"What can {SIDES[side]}'s king do in the middle of the board?",
                    kind="king in the middle",
                ),
            )
