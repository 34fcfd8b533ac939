"""What the structure of a position gives to tell: weak and passed pawns, outposts, files, kings."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.naming import listed
from chessnb.board.sides import SIDES
from chessnb.facts import PassedPawn, StructureFacts
from chessnb.facts._pawns import ahead, on_file
from chessnb.facts._structure_words import (
    bishop_sentence,
    file_sentence,
    outpost_sentence,
    passed_sentence,
    shelter_sentence,
)
from chessnb.teaching.quiet_feature import Feature, Found

NEAR = 2
"""A knight that can be on an outpost within so many moves is worth a word."""

FULL = 4
"""So many pieces, the king with them, a side needs for an attack on a king."""

_MIDDLE = "cdef"


def structural(board: chess.Board, found: StructureFacts) -> Found:
    """Yield the features of a position that are facts of its structure."""
    for look in (_weak, _passed, _posts, _bishops, _files, _kings):
        yield from look(board, found)


def _weak(board: chess.Board, found: StructureFacts) -> Found:
    for side, pawns in ((chess.WHITE, found.white), (chess.BLACK, found.black)):
        for kind in ("isolated", "backward"):
            for file, squares in _by_file(getattr(pawns, kind)):
                if kind == "backward" and _is_shut(board, squares[0], side):
                    continue
                yield (
                    (kind, side, file),
                    Feature(
                        weight=2 if file in _MIDDLE else 1,
                        words=f"{SIDES[side]} has {_with_article(kind, squares)}",
                        question=f"Which of {SIDES[side]}'s pawns can no pawn defend, and who can "
                        "attack it?",
                        kind=f"{kind} pawn",
                        about="weak pawns",
                    ),
                )
        for file, squares in _by_file(pawns.doubled):
            yield (
                ("doubled", side, file),
                Feature(
                    weight=2,
                    words=f"{SIDES[side]} has doubled pawns on {listed(squares)}",
                    question=f"What do the doubled pawns cost {SIDES[side]}, and what do they "
                    "give?",
                    kind="doubled pawns",
                    about="weak pawns",
                ),
            )


def _by_file(squares: tuple[str, ...]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield the files of pawns with the squares on them."""
    for file in sorted({square[0] for square in squares}):
        yield file, tuple(square for square in squares if square[0] == file)


def _with_article(kind: str, squares: tuple[str, ...]) -> str:
    article = "an" if kind == "isolated" else "a"
    if len(squares) > 1:
        return f"{kind} pawns on {listed(squares)}"
    return f"{article} {kind} pawn on {squares[0]}"


def _is_shut(board: chess.Board, square: str, side: chess.Color) -> bool:
    """Tell whether an enemy pawn stands on the file, so that no rook gets at a pawn there."""
    file = chess.SquareSet(chess.BB_FILES[chess.FILE_NAMES.index(square[0])])
    return bool(board.pieces(chess.PAWN, not side) & file)


def _passed(board: chess.Board, found: StructureFacts) -> Found:
    for pawn in found.passed:
        if _has_one_ahead(board, pawn):
            continue
        words = passed_sentence(pawn)[:-1]
        yield (
            ("passed", pawn.side, pawn.square[0]),
            Feature(
                weight=3,
                words=words,
                question=f"What stops {SIDES[pawn.side]}'s passed pawn, and what would help it on?",
                kind="passed pawn",
                about="passed pawns",
            ),
        )
        if pawn.blocked_by is not None and pawn.blocked_by.name != "pawn":
            yield (
                ("blocked", pawn.side, pawn.square),
                Feature(
                    weight=2,
                    words=words,
                    question=f"Which piece blocks the passed pawn on {pawn.square} best, and why?",
                    kind="blocked pawn",
                    about="passed pawns",
                ),
            )


def _has_one_ahead(board: chess.Board, pawn: PassedPawn) -> bool:
    """Tell whether another pawn of its side stands before it: then that one is told of."""
    here = chess.parse_square(pawn.square)
    return bool(board.pieces(chess.PAWN, pawn.side) & on_file(here) & ahead(here, pawn.side))


def _posts(board: chess.Board, found: StructureFacts) -> Found:
    for post in found.outposts:
        if post.piece is None or len(post.route) > NEAR:
            continue
        words = outpost_sentence(post)[:-1]
        own, other = SIDES[post.side], SIDES[not post.side].lower()
        if post.is_held:
            yield (
                ("outpost", post.side, post.square, post.piece.letter),
                Feature(
                    weight=4,
                    words=words,
                    question=f"Why does {own}'s {post.piece.name} stand so well on {post.square}?",
                    kind="outpost",
                    about="outposts",
                ),
            )
        else:
            yield (
                ("post", post.side, post.square),
                Feature(
                    weight=2,
                    words=words,
                    question=f"Which square can no {other} pawn come to attack, and who would "
                    "like to stand there?",
                    kind="free outpost",
                    about="outposts",
                ),
            )


def _bishops(board: chess.Board, found: StructureFacts) -> Found:
    for bishop in found.bad_bishops:
        side = bishop.piece.color
        light = bool(chess.BB_LIGHT_SQUARES & chess.BB_SQUARES[_at(bishop.piece.square)])
        yield (
            ("bad bishop", side, light),
            Feature(
                weight=2,
                words=bishop_sentence(bishop)[:-1],
                question=f"Which piece of {SIDES[side]}'s has its own pawns in its way, and how "
                "could it get out or be exchanged?",
                kind="bad bishop",
                about="bishops",
            ),
        )


def _files(board: chess.Board, found: StructureFacts) -> Found:
    for held in found.held_files:
        side = SIDES[held.side]
        rooks = [piece for piece in held.pieces if piece.name == "rook"]
        words = file_sentence(held)[:-1]
        if rooks:
            yield (
                ("file", held.side, held.file),
                Feature(
                    weight=2 if held.is_open else 1,
                    words=words,
                    question=f"Which file does {side} hold, and where do its rooks go from there?",
                    kind="file",
                    about="files",
                ),
            )
        if len(held.pieces) > 1 and rooks:
            yield (
                ("two on a file", held.side, held.file),
                Feature(
                    weight=3 if held.is_open else 2,
                    words=words,
                    question=f"What can {side} do with two heavy pieces on one file?",
                    kind="two on a file",
                    about="files",
                ),
            )


def _kings(board: chess.Board, found: StructureFacts) -> Found:
    for gaps in found.shelters:
        attackers = chess.SquareSet(board.occupied_co[not gaps.king.color] & ~board.pawns)
        if len(attackers) < FULL:
            continue
        for letter in gaps.missing:
            yield (
                ("gap", gaps.king.color, letter),
                Feature(
                    weight=1 if letter in _MIDDLE else 2,
                    words=shelter_sentence(gaps)[:-1],
                    question=f"How safe is {SIDES[gaps.king.color]}'s king, and which pieces could "
                    "come near it?",
                    kind="gap before the king",
                    about="kings",
                ),
            )
    if _castled_apart(board):
        yield (
            ("apart",),
            Feature(
                weight=3,
                words="the kings stand on opposite wings",
                question="The kings stand on opposite wings: which pawns may go ahead on either "
                "side?",
                kind="opposite castling",
                about="kings",
            ),
        )


def _castled_apart(board: chess.Board) -> bool:
    """Tell whether the kings stand on opposite wings, on their first two ranks, with queens on."""
    wings = []
    for side in (chess.WHITE, chess.BLACK):
        king = board.king(side)
        assert king is not None
        rank = chess.square_rank(king) if side else 7 - chess.square_rank(king)
        pieces = chess.SquareSet(board.occupied_co[side] & ~board.pawns)
        if rank > 1 or not board.pieces(chess.QUEEN, side) or len(pieces) < FULL:
            return False
        wings.append(-1 if chess.square_file(king) < 3 else 1 if chess.square_file(king) > 4 else 0)
    return wings[0] * wings[1] < 0 and not board.castling_rights


def _at(square: str) -> chess.Square:
    return chess.parse_square(square)
